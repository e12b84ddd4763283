"""What the machine costs: spent, still to buy, to make, and what has no price yet."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Idler
from beltwright.build.model import Build
from beltwright.build.shop import Part
from beltwright.physics.arrays import Array
from beltwright.review.case import Case

SHOP, MAKE = "shop", "make"


class Money(NamedTuple):
    """Amounts in the build's own currency.

    spent     paid for what lies on the bench
    to_buy    for what a shop or a donor's owner still wants
    to_make   for the stock of what is made
    unpriced  parts that must still be bought and have no price
    """

    spent: Array
    to_buy: Array
    to_make: Array
    unpriced: tuple[Part, ...]

    @property
    def total(self) -> Array:
        """All of it."""
        return self.spent + self.to_buy + self.to_make


def money(case: Case) -> Money:
    """Give what the parts of a build cost."""
    return case.once("money", lambda: _money(case))


def _money(case: Case) -> Money:
    parts = case.build.part
    return Money(
        spent=_cost(case, (part for part in parts if part.have)),
        to_buy=_cost(case, (part for part in parts if not part.have and part.source != MAKE)),
        to_make=_cost(case, (part for part in parts if not part.have and part.source == MAKE)),
        unpriced=tuple(part for part in parts if _lacks_price(part)),
    )


def cost_of(case: Case, part: Part) -> Array:
    """Give what one entry costs, all of its pieces together; nothing where it has no price."""
    return np.zeros(1) if part.price is None else case.si(part.price) * part.quantity


def parts_without_entry(case: Case) -> tuple[str, ...]:
    """Give what the build needs and no part of the list serves, as a part would name its use."""
    served = {part.use for part in case.build.part}
    return tuple(name for name in _needed(case.build) if name not in served)


def spring_of(idler: Idler) -> str:
    """Give what a part serves that is the spring of an idler's arm."""
    return f"spring of the {idler.name}"


def _needed(build: Build) -> Iterator[str]:
    """Give everything in the driveline that is bought or made."""
    for named in (build.pulley, build.idler, build.belt, build.chain, build.plate):
        yield from (each.name for each in named)
    yield from (spring_of(each) for each in build.idler if each.arm and each.arm.spring)


def _cost(case: Case, parts: Iterable[Part]) -> Array:
    return sum((cost_of(case, part) for part in parts), np.zeros(1))


def _lacks_price(part: Part) -> bool:
    """Whether a part must be bought and nobody knows for how much; a donor's parts come free."""
    return part.price is None and not part.have and part.source in (None, SHOP)
