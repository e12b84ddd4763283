"""Angles that differ by whole turns point the same way."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def within_half_turn(angle: ArrayLike, near: ArrayLike = 0.0) -> Array:
    """Answer which angle points the same way and lies within half a turn of another.

    b + ((a - b + pi) mod 2 pi) - pi.

    Parameters
    ----------
    angle : array, shape (...) [rad]
        a.
    near : array, shape (...), optional [rad]
        b.

    Returns
    -------
    array, shape (...) [rad]
        From half a turn below b, which counts, to half a turn above it, which does not.

    Notes
    -----
    Range of validity: any angle; what is many turns off loses as many digits.

    Source: definition of the remainder.

    Examples
    --------
    >>> [round(float(np.degrees(within_half_turn(np.radians(a)))), 6) for a in (350.0, -190.0)]
    [-10.0, 170.0]
    >>> round(float(np.degrees(within_half_turn(np.radians(-10.0), np.radians(300.0)))), 6)
    350.0
    """
    off = np.remainder(np.subtract(angle, near) + np.pi, 2.0 * np.pi) - np.pi
    return np.asarray(near + off)
