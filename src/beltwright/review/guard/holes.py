"""Holes that a strip at hand has already, and where on it a guard best begins."""

from collections.abc import Iterator
from math import inf
from typing import NamedTuple

import numpy as np

from beltwright.review.case import Case
from beltwright.review.guard.bent import Bent
from beltwright.review.nominal import nominal


class Holes(NamedTuple):
    """What the holes of a strip at hand do to its bends.

    start  how far from the first end of the strip the guard best begins [m]
    clear  least distance from the edge of a hole to a bend, begun there [m]; infinite without holes
    plain  the same, begun at the very end [m]
    """

    start: float
    clear: float
    plain: float


def holes(case: Case, shape: Bent) -> Holes:
    """Where on the strip at hand the guard best begins, so that no bend meets a hole."""
    strip = shape.guard.strip
    if strip is None or not strip.holes:
        return Holes(0.0, inf, inf)
    spare = 0.0
    if strip.length is not None:
        spare = max(0.0, nominal(case.si(strip.length)) - nominal(shape.flat.length))
    starts = np.append(np.arange(0.0, spare, 0.0005), spare)
    clear = np.full(starts.shape, inf)
    for middle, half in _hole_places(case, shape):
        for mark, reach in _bend_places(shape):
            clear = np.minimum(clear, np.abs(starts + mark - middle) - half - reach)
    # the first start that keeps half a thickness more than the two which are asked for
    best = int(np.argmax(np.minimum(clear, 2.5 * nominal(shape.thickness))))
    return Holes(float(starts[best]), float(clear[best]), nominal(clear))


def _hole_places(case: Case, shape: Bent) -> Iterator[tuple[float, float]]:
    """Middle and half width of each hole that the strip at hand has [m]."""
    assert shape.guard.strip is not None
    for hole in shape.guard.strip.holes:
        yield nominal(case.si(hole.from_end)), 0.5 * nominal(case.si(hole.diameter))


def _bend_places(shape: Bent) -> Iterator[tuple[float, float]]:
    """Middle and half length of each bend on the flat strip [m]."""
    for mark, allowance in zip(shape.flat.marks, shape.flat.allowances, strict=True):
        yield nominal(mark), 0.5 * nominal(allowance)
