"""Whether a value that keeps its limit is near enough to it for a remedy to be worth telling."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.review.judging import too_often

NEAR = 0.05
"""Share of the limit that counts as near, as in a draft that says nothing else."""


def falls_short(value: Array, at_least: ArrayLike, near: float = NEAR) -> bool:
    """The nominal value is below its limit or near it, or its tolerances reach below too often.

    A sample without an answer, or an unlimited one, keeps no limit."""
    bound = np.asarray(at_least, dtype=float)
    close = value < bound + near * np.abs(bound)
    return bool(close.flat[0]) or too_often(~(np.isfinite(value) & (value >= bound)))


def goes_over(value: Array, at_most: ArrayLike, near: float = NEAR) -> bool:
    """The nominal value is above its limit or near it, or its tolerances reach above too often."""
    return falls_short(-np.asarray(value), -np.asarray(at_most, dtype=float), near)
