"""A curve made of flats: how far corners stand off an arc, and how many bends it takes.

A strip is bent into an arc by equal bends. Its flats touch the wanted arc in their middles, as
those of a strip that goes round the outside do.
"""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike

SHARPEST = 0.9 * np.pi
"""No bend of a polygon turns further than this; its corners would run away [rad]."""

_WHOLE = 1e-9  # a bend more is not asked for by rounding


def corner_error(radius: ArrayLike, angle: ArrayLike, bend_radius: ArrayLike = 0.0) -> Array:
    """Answer how far a bend stands outside an arc that the flats touch in their middles.

    e = (R - r) (1 / cos(A / 2) - 1).

    Parameters
    ----------
    radius : array, shape (...) [m]
        R, of the arc.
    angle : array, shape (...) [rad]
        A, of one bend.
    bend_radius : array, shape (...), optional [m]
        r, of the face in the bend, at most R.

    Returns
    -------
    array, shape (...) [m]
        From the arc outwards to the face in the middle of the bend.

    Notes
    -----
    Range of validity: |A| below half a turn.

    Source: plane geometry, exact.

    Examples
    --------
    >>> round(1e3 * float(corner_error(0.060, np.radians(20.0))), 4)
    0.9256
    """
    rounded = np.maximum(np.subtract(radius, bend_radius), 0.0)
    return np.asarray(rounded * (1.0 / np.cos(0.5 * np.abs(angle)) - 1.0))


def bends_for_corner_error(
    radius: ArrayLike, total: ArrayLike, error: ArrayLike, bend_radius: ArrayLike = 0.0
) -> Array:
    """Answer how many equal bends keep the corners within an error of the arc.

    n = total / (2 acos(1 / (1 + e / (R - r)))), rounded up.

    Parameters
    ----------
    radius : array, shape (...) [m]
        R, of the arc that the flats touch.
    total : array, shape (...) [rad]
        Angle of the whole arc.
    error : array, shape (...) [m]
        e, that is allowed; above 0.
    bend_radius : array, shape (...), optional [m]
        r, of the face in the bend.

    Returns
    -------
    array, shape (...) [1]
        Whole number, at least 1.

    Notes
    -----
    Range of validity: no bend turns further than `SHARPEST`, whatever the error.

    Source: `corner_error` turned round, exact.

    Examples
    --------
    >>> float(bends_for_corner_error(0.060, np.radians(200.0), 0.001))
    10.0
    """
    rounded = np.maximum(np.subtract(radius, bend_radius), 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        half = np.arccos(rounded / (rounded + error))
    most = np.minimum(2.0 * half, SHARPEST)
    return np.asarray(np.maximum(np.ceil(np.abs(total) / most - _WHOLE), 1.0))
