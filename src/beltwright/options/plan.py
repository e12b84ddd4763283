"""In which order the axes of a family are walked, so that cheap limits cut as early as they can."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from beltwright.options.family import Family
from beltwright.options.limit import Limit, Term
from beltwright.review.case import Case, NotKnownError

ROOT = -1
"""The level before the first axis: numbers that no choice changes."""


@dataclass(frozen=True)
class Plan:
    """A family with its axes in walking order, and where each number is complete.

    family  the family, axes reordered
    limits  the limits that can be worked out for it, in the order in which they are judged
    needs   for every number, the axes that it depends on, in walking order
    """

    family: Family
    limits: tuple[Limit, ...]
    needs: dict[Term, frozenset[int]]

    def level(self, term: Term) -> int:
        """The last axis that a number needs, ROOT where it needs none."""
        return max(self.needs[term], default=ROOT)

    def limits_at(self, level: int) -> list[Limit]:
        """The cheap limits that can be judged once an axis is chosen."""
        return [
            limit
            for limit in self.limits
            if not limit.full and max(self.level(term) for term in limit.terms) == level
        ]

    def terms_at(self, level: int) -> list[Term]:
        """The numbers of cheap limits that are complete once an axis is chosen."""
        cheap = {term: None for limit in self.limits if not limit.full for term in limit.terms}
        return [term for term in cheap if self.level(term) == level]


def plan(family: Family, limits: Sequence[Limit]) -> Plan:
    """Order a family's axes by the limits that need them, in the order of the limits."""
    usable: list[Limit] = []
    needs: dict[Term, frozenset[int]] = {}
    order: list[int] = []
    for limit in limits:
        found = _axes_of(family, limit)
        if found is None:
            continue
        usable.append(limit)
        needs |= found
        for term in limit.terms:
            order += [axis for axis in sorted(found[term]) if axis not in order]
    order += [axis for axis in range(len(family.axes)) if axis not in order]
    walked = replace(family, axes=tuple(family.axes[axis] for axis in order))
    return Plan(
        walked,
        tuple(usable),
        {term: frozenset(order.index(axis) for axis in axes) for term, axes in needs.items()},
    )


def _axes_of(family: Family, limit: Limit) -> dict[Term, frozenset[int]] | None:
    """The axes that each number of a limit needs; None where a measurement is missing."""
    case = Case(family.build)
    found = {}
    for term in limit.terms:
        with case.watching() as used:
            try:
                term(case)
            except NotKnownError:
                return None
        found[term] = frozenset(
            place
            for place, axis in enumerate(family.axes)
            if len(axis) > 1 and not used.isdisjoint(axis.values)
        )
    return found
