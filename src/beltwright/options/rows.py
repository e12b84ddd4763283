"""A block of candidates whose first axes are chosen: where they lie, and what is known of them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from beltwright.options.family import Places
from beltwright.options.limit import Term, Truth
from beltwright.physics.arrays import Array


@dataclass(frozen=True)
class Rows:
    """Candidates side by side.

    places  the place on each axis that is chosen, in walking order
    price   what the chosen parts cost [money]
    to_buy  how many must be bought [1]
    known   numbers that are complete, one value where no choice changed them
    """

    places: tuple[Places, ...]
    price: Array
    to_buy: Array
    known: Mapping[Term, Array]

    def __len__(self) -> int:
        return len(self.price)

    def taken(self, which: Places | Truth) -> "Rows":
        """The rows at some places, or where a mask is true."""
        return Rows(
            tuple(places[which] for places in self.places),
            self.price[which],
            self.to_buy[which],
            {t: v[which] if len(v) > 1 else v for t, v in self.known.items()},
        )

    def part(self, start: int, stop: int) -> "Rows":
        """A run of the rows."""
        return Rows(
            tuple(places[start:stop] for places in self.places),
            self.price[start:stop],
            self.to_buy[start:stop],
            {t: v[start:stop] if len(v) > 1 else v for t, v in self.known.items()},
        )


def the_root() -> Rows:
    """The one row in which nothing is chosen yet."""
    return Rows((), np.zeros(1), np.zeros(1), {})


def together(blocks: Sequence[Rows]) -> Rows:
    """Blocks of the same family and level as one."""
    if len(blocks) == 1:
        return blocks[0]
    first = blocks[0]
    return Rows(
        tuple(np.concatenate([b.places[n] for b in blocks]) for n in range(len(first.places))),
        np.concatenate([b.price for b in blocks]),
        np.concatenate([b.to_buy for b in blocks]),
        {term: np.concatenate([_long(b, term) for b in blocks]) for term in first.known},
    )


def parts_of(rows: Rows, most: int) -> Iterator[Rows]:
    """The rows in runs of at most so many."""
    for start in range(0, len(rows), most):
        yield rows.part(start, start + most)


def _long(rows: Rows, term: Term) -> Array:
    return np.broadcast_to(rows.known[term], len(rows))
