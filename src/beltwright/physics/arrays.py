"""The array types that every physics function takes and returns."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
"""A float64 array in SI units."""

ArrayLike = float | Array
"""A float or an array in SI units; functions broadcast over every leading axis."""
