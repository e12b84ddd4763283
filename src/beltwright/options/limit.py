"""A limit that a candidate must keep, held the way the review holds it."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.review.case import Case

Term = Callable[[Case], ArrayLike]
"""A number of a case, over its candidates."""

Truth = NDArray[np.bool_]


@dataclass(frozen=True)
class Limit:
    """One limit of the review, as numbers that can be worked out apart.

    id        the finding that it belongs to
    why       what a candidate that breaks it does, after "every … belt": "is too slow"
    value     what is held
    at_least  its lower bound, and
    at_most   its upper one
    goal      whether it is a wish that may be given up; a stop never is
    full      whether it needs the whole belt path worked out, so that it is judged last
    """

    id: str
    why: str
    value: Term
    at_least: Term | None = None
    at_most: Term | None = None
    goal: bool = False
    full: bool = False

    @property
    def reason(self) -> str:
        """The finding and how it is broken: what is counted and told."""
        return f"{self.id}: {self.why}"

    @property
    def terms(self) -> tuple[Term, ...]:
        """The numbers that it takes, bounds first."""
        bounds = (self.at_least, self.at_most)
        return (*(bound for bound in bounds if bound is not None), self.value)


@dataclass(frozen=True)
class Held:
    """The numbers of one limit over a block of candidates.

    known  whether each can be worked out; where left out, whether its value is finite
    """

    value: ArrayLike
    at_least: ArrayLike | None = None
    at_most: ArrayLike | None = None
    known: Truth | None = None

    def kept(self) -> Truth:
        """Whether each candidate keeps it; what can't be worked out doesn't."""
        kept = np.isfinite(self.value) if self.known is None else self.known
        if self.at_least is not None:
            kept = kept & np.greater_equal(self.value, self.at_least)
        if self.at_most is not None:
            kept = kept & np.less_equal(self.value, self.at_most)
        return np.atleast_1d(kept)

    def excess(self) -> Array:
        """By how much each breaks it, as a share of the bound; 0 where kept, infinite where the
        value can't be worked out."""
        over = np.zeros(1)
        # a bound at infinity holds nothing, and a share of it is none
        with np.errstate(invalid="ignore"):
            if self.at_least is not None:
                under = np.subtract(self.at_least, self.value)
                over = np.maximum(over, _share(under, self.at_least))
            if self.at_most is not None:
                past = np.subtract(self.value, self.at_most)
                over = np.maximum(over, _share(past, self.at_most))
        return np.where(self.kept(), 0.0, np.where(np.isfinite(self.value), over, np.inf))


SMALLEST_BOUND = 1e-3
"""A bound of nought has no share; what lies past it then counts against this, in SI units."""


def _share(past: Array, bound: ArrayLike) -> Array:
    return past / np.maximum(np.abs(bound), SMALLEST_BOUND)


def held(limit: Limit, number: Callable[[Term], ArrayLike]) -> Held:
    """The numbers of a limit, each got by `number`."""
    return Held(
        number(limit.value),
        None if limit.at_least is None else number(limit.at_least),
        None if limit.at_most is None else number(limit.at_most),
    )


def held_in(limit: Limit, case: Case) -> Held:
    """The numbers of a limit in a case."""
    return held(limit, lambda term: term(case))
