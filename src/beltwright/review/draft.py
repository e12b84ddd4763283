"""A question put to a build, and the draft of its answer before tolerances and verdict."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.quantity import Kind
from beltwright.review.finding import Explained, Verdict


@dataclass(frozen=True, kw_only=True)
class Draft:
    """An answer as arrays over the samples, with the words that go with it.

    value       what is reported [SI of `kind`], index 0 nominal; None where the answer is words
    holds       for answers in words: whether all is well, a sample each
    at_least    the limit that value is held to [SI], and
    at_most     its other side
    worst       the verdict when the limit is broken: STOP only for what can hurt or wreck
    stops       where `worst` hangs on the numbers: for which samples it is STOP; index 0 as `worst`
    near        share of the limit within which a value that still holds is marginal
    verdict     set only where the question has no limit (a plain statement)
    unit        unit to show in where the builder's own for the kind would be odd ("m/s" of a belt)
    says        words to show in place of a number
    below_zero  words before a value below 0, which is then shown without its sign ("short by")
    causes      what would explain a reading that the plan did not expect, the likeliest first
    """

    kind: Kind | None = None
    value: Array | None = None
    holds: NDArray[np.bool_] | None = None
    at_least: ArrayLike | None = None
    at_most: ArrayLike | None = None
    worst: Verdict = Verdict.STOP
    stops: NDArray[np.bool_] | None = None
    near: float = 0.05
    verdict: Verdict | None = None
    unit: str = ""
    says: str = ""
    below_zero: str = ""
    meaning: str
    remedy: str = ""
    formula: str
    working: str
    source: str
    leaves_out: str = ""
    caution: str = ""
    place: tuple[float, float, float] | None = None
    causes: tuple[Explained, ...] = ()


class Ask(NamedTuple):
    """A question: its stable id, its title, and how it is answered."""

    id: str
    title: str
    answer: Callable[[], Draft]
