"""The build as written: what stands first on the axis of the samples."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def nominal(values: ArrayLike) -> float:
    """The value of the build as written, its tolerances left out."""
    return float(np.asarray(values).item(0))


def nominal_alone(values: ArrayLike) -> Array:
    """The build as written as an axis of one sample, for the formulas that take arrays."""
    return np.atleast_1d(np.asarray(values, dtype=np.float64))[:1]
