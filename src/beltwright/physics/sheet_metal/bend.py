"""One bend: the metal that it takes up, and how tight it may be."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def bend_allowance(
    angle: ArrayLike, radius: ArrayLike, thickness: ArrayLike, k_factor: ArrayLike
) -> Array:
    """Answer how much length of flat metal goes into a bend.

    BA = A (r + K t).

    Parameters
    ----------
    angle : array, shape (...) [rad]
        A, by which the metal is turned out of the flat.
    radius : array, shape (...) [m]
        r, inside radius.
    thickness : array, shape (...) [m]
        t.
    k_factor : array, shape (...) [1]
        K, where the neutral line lies.

    Returns
    -------
    array, shape (...) [m]
        Length of the neutral line in the bend.

    Notes
    -----
    Range of validity: exact for the K that holds.

    Source: length of an arc; Machinery's Handbook 26, section on bending sheet metal.

    Examples
    --------
    >>> round(1e3 * float(bend_allowance(np.pi / 2, 0.002, 0.0015, 0.42)), 4)
    4.1312
    """
    return np.asarray(np.abs(angle) * (np.asarray(radius) + np.multiply(k_factor, thickness)))


def setback(angle: ArrayLike, radius: ArrayLike) -> Array:
    """Answer how far before the corner of two faces their bend begins.

    s = ρ tan(A / 2).

    Parameters
    ----------
    angle : array, shape (...) [rad]
        A.
    radius : array, shape (...) [m]
        ρ, radius of the face that the corner lies on: r on the inside, r + t on the outside.

    Returns
    -------
    array, shape (...) [m]
        From the corner where the flat faces would meet to where they begin to curve.

    Notes
    -----
    Range of validity: |A| below half a turn.

    Source: tangents of a circle, exact.

    Examples
    --------
    >>> round(1e3 * float(setback(np.pi / 2, 0.002 + 0.0015)), 3)
    3.5
    """
    return np.asarray(np.asarray(radius) * np.tan(0.5 * np.abs(angle)))


def smallest_radius(thickness: ArrayLike, times_thickness: ArrayLike) -> Array:
    """Answer how tight a bend may be before the outside cracks, by a table's multiple.

    r = c t.

    Parameters
    ----------
    thickness : array, shape (...) [m]
        t.
    times_thickness : array, shape (...) [1]
        c, of the material and its temper.

    Returns
    -------
    array, shape (...) [m]
        Least inside radius.

    Notes
    -----
    Range of validity: cold, smooth edges, bend line across the grain; rough sheared edges and
    bends along the grain crack sooner.

    Source: multiples as tabulated in S. Kalpakjian and S. R. Schmid, Manufacturing Engineering and
    Technology, table of minimum bend radii.

    Examples
    --------
    >>> float(smallest_radius(0.002, 0.5))
    0.001
    """
    return np.asarray(np.multiply(thickness, times_thickness), dtype=np.float64)


def outer_strain(radius: ArrayLike, thickness: ArrayLike) -> Array:
    """Answer how far the outside of a bend is stretched.

    e = 1 / (2 r / t + 1), neutral line in the middle.

    Parameters
    ----------
    radius : array, shape (...) [m]
        r, inside radius.
    thickness : array, shape (...) [m]
        t.

    Returns
    -------
    array, shape (...) [1]
        Strain of the outer face.

    Notes
    -----
    Range of validity: a strip wide against its thickness; a little more where the neutral line
    moves inwards.

    Source: S. Kalpakjian and S. R. Schmid, as above, exact for the middle line.

    Examples
    --------
    >>> round(float(outer_strain(0.002, 0.002)), 4)
    0.3333
    """
    return np.asarray(1.0 / (2.0 * np.divide(radius, thickness) + 1.0))
