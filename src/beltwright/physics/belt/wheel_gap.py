"""How near the rim of a pulley or idler comes to a part."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.outline import Outline


def wheel_gap(x: ArrayLike, y: ArrayLike, rim: ArrayLike, outline: Outline) -> Array:
    """Find the gap between a wheel and a part, seen along the shafts.

    Gap = distance of the centre from the nearest side - rim; minus that distance where the centre
    lies within the part.

    Parameters
    ----------
    x : array, shape (...) [m]
        Centre of the wheel.
    y : array, shape (...) [m]
        Centre of the wheel.
    rim : array, shape (...) [m]
        Outside radius of the wheel.
    outline : Outline [m]
        The part, corners on the first axis.

    Returns
    -------
    array, shape (...) [m]
        Negative where they overlap.

    Notes
    -----
    Range of validity: outlines that do not cross themselves.

    Source: plane geometry, exact.

    Examples
    --------
    >>> square = np.array([0.1, 0.2, 0.2, 0.1]), np.array([0.0, 0.0, 0.1, 0.1])
    >>> round(float(wheel_gap(0.0, 0.05, 0.04, Outline(*square, 0.0, 1.0))), 6)
    0.06
    """
    part = outline.over(np.broadcast(x, y, rim).ndim)
    apart = part.from_sides(x, y)
    return np.asarray(np.where(part.holds(x, y), -apart, apart) - rim)
