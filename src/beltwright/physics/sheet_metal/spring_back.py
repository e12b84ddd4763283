"""How far a bend opens again when it is let go. Weak: a guide to where to begin, no more."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def relaxed_radius(
    radius: ArrayLike, thickness: ArrayLike, strength: ArrayLike, modulus: ArrayLike
) -> Array:
    """Answer to what inside radius a bend opens when it is let go.

    Ri / Rf = 4 q^3 - 3 q + 1, with q = Ri Y / (E t).

    Parameters
    ----------
    radius : array, shape (...) [m]
        Ri, inside radius while it is held.
    thickness : array, shape (...) [m]
        t.
    strength : array, shape (...) [Pa]
        Y, yield strength.
    modulus : array, shape (...) [Pa]
        E, Young's modulus.

    Returns
    -------
    array, shape (...) [m]
        Rf, after it is let go; infinite where the bend was elastic.

    Notes
    -----
    Range of validity: pure bending of a metal that does not harden, q up to 0.5.

    Source: S. Kalpakjian and S. R. Schmid, Manufacturing Engineering and Technology, section on
    springback (from memory, high).

    Examples
    --------
    >>> round(1e3 * float(relaxed_radius(0.012, 0.001, 205e6, 190e9)), 2)
    12.48
    """
    held = np.asarray(radius, dtype=np.float64)
    q = np.minimum(held * strength / np.multiply(modulus, thickness), 0.5)
    with np.errstate(divide="ignore"):
        return np.asarray(held / (4.0 * q**3 - 3.0 * q + 1.0))


def over_bend_ratio(
    radius: ArrayLike, thickness: ArrayLike, strength: ArrayLike, modulus: ArrayLike
) -> Array:
    """Answer how much further a bend must be taken than it is to stay.

    Ai / Af = (2 Rf / t + 1) / (2 Ri / t + 1): the middle line keeps its length.

    Parameters
    ----------
    radius : array, shape (...) [m]
        Ri, inside radius while it is held.
    thickness : array, shape (...) [m]
        t.
    strength : array, shape (...) [Pa]
        Y, yield strength.
    modulus : array, shape (...) [Pa]
        E, Young's modulus.

    Returns
    -------
    array, shape (...) [1]
        Angle to bend to over the angle that stays, at least 1; infinite where nothing stays.

    Notes
    -----
    Range of validity: as for `relaxed_radius`. Hand bends scatter more than this: strength differs
    from strip to strip by a half, and pliers bend sharper than they look.

    Source: as for `relaxed_radius` (the springback factor, inverted).

    Examples
    --------
    >>> round(float(over_bend_ratio(0.012, 0.001, 205e6, 190e9)), 4)
    1.0388
    """
    freed = relaxed_radius(radius, thickness, strength, modulus)
    return np.asarray((2.0 * freed / thickness + 1.0) / (2.0 * np.divide(radius, thickness) + 1.0))
