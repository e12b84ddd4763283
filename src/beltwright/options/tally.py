"""Counts of candidates turned away: by which limit, and with which options."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import prod

import numpy as np
from numpy.typing import NDArray

from beltwright.options.family import Family
from beltwright.options.limit import Truth
from beltwright.options.option import Choice
from beltwright.options.rows import Rows

Counts = NDArray[np.float64]
"""Whole numbers, exact up to 2**53."""


@dataclass
class Tally:
    """How many candidates each limit turned away, and how many of them had each option.

    Each candidate counts for the first limit that it breaks, in the order of the limits.
    """

    sizes: tuple[int, ...]
    turned_away: dict[str, tuple[Counts, ...]] = field(default_factory=dict)
    total: dict[str, int] = field(default_factory=dict)

    @classmethod
    def of(cls, choices: Sequence[Choice]) -> "Tally":
        """An empty tally for these choices."""
        return cls(tuple(len(choice) for choice in choices))

    def add(self, reason: str, family: Family, rows: Rows) -> None:
        """Count rows turned away; axes that are not chosen yet count with all of their options."""
        chosen: list[Counts] = [
            np.asarray(np.bincount(places, minlength=len(axis)), dtype=np.float64)
            for places, axis in zip(rows.places, family.axes, strict=False)
        ]
        self._add(reason, family, len(rows), chosen)

    def add_grid(self, reason: str, family: Family, rows: Rows, cut: Truth) -> None:
        """Count what is cut from the grid of rows with the options of their next axis."""
        by_row = cut.sum(axis=1, dtype=float)
        chosen: list[Counts] = [
            np.asarray(np.bincount(places, by_row, minlength=len(axis)), dtype=np.float64)
            for places, axis in zip(rows.places, family.axes, strict=False)
        ]
        self._add(reason, family, int(by_row.sum()), [*chosen, cut.sum(axis=0, dtype=float)])

    def _add(self, reason: str, family: Family, count: int, chosen: Sequence[Counts]) -> None:
        if count == 0:
            return
        rest = prod(len(axis) for axis in family.axes[len(chosen) :])
        self.total[reason] = self.total.get(reason, 0) + count * rest
        counts = self._counts(reason)
        for place, axis in enumerate(family.axes):
            if place < len(chosen):
                counts[axis.choice][axis.options] += chosen[place] * rest
            else:
                counts[axis.choice][axis.options] += count * rest / len(axis)

    def join(self, other: "Tally") -> None:
        """Add the counts of another part of the same search."""
        for reason, counts in other.turned_away.items():
            for mine, theirs in zip(self._counts(reason), counts, strict=True):
                mine += theirs
        for reason, count in other.total.items():
            self.total[reason] = self.total.get(reason, 0) + count

    def _counts(self, reason: str) -> tuple[Counts, ...]:
        if reason not in self.turned_away:
            self.turned_away[reason] = tuple(np.zeros(size) for size in self.sizes)
        return self.turned_away[reason]
