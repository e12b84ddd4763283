"""Levers and arms that swing about a pivot in space, and the ends of their rods."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike

Vector = tuple[ArrayLike, ArrayLike, ArrayLike]
"""x forward, y to the left and z up, each an array of shape (...)."""


class Swing(NamedTuple):
    """A lever or arm whose rod end runs on a circle in space.

    Attributes
    ----------
    pivot : three arrays, shape (...) [m]
        Middle of that circle.
    ahead : three arrays, shape (...) [1]
        Unit vector to the rod end at the angle 0.
    beside : three arrays, shape (...) [1]
        Unit vector to the rod end at a quarter turn, square to `ahead`.
    radius : array, shape (...) [m]
        From the pivot's line to the rod end.
    """

    pivot: Vector
    ahead: Vector
    beside: Vector
    radius: ArrayLike


def rod_end(swing: Swing, angle: ArrayLike) -> Vector:
    """Answer where the rod end of a lever or arm stands.

    p = pivot + r (ahead cos θ + beside sin θ)

    Parameters
    ----------
    swing : Swing [m]
    angle : array, shape (...) [rad]

    Returns
    -------
    place : three arrays, shape (...) [m]

    Range of validity: a stiff arm, no play in its pivot.
    Source: circle in space, by definition.

    Examples
    --------
    >>> upright = Swing((1.0, 0.0, 0.2), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.05)
    >>> [round(float(each), 6) for each in rod_end(upright, np.pi / 2)]
    [1.0, 0.05, 0.2]
    """
    x, y = swing.radius * np.cos(angle), swing.radius * np.sin(angle)
    place = [
        np.asarray(p + a * x + b * y)
        for p, a, b in zip(swing.pivot, swing.ahead, swing.beside, strict=True)
    ]
    return place[0], place[1], place[2]


def way_of_motion(swing: Swing, angle: ArrayLike) -> Vector:
    """Answer which way the rod end moves as the angle grows.

    t = beside cos θ − ahead sin θ

    Parameters
    ----------
    swing : Swing [m]
    angle : array, shape (...) [rad]

    Returns
    -------
    way : three arrays, shape (...) [1]
        Unit vector.

    Range of validity: everywhere.
    Source: derivative of `rod_end` over r.

    Examples
    --------
    >>> upright = Swing((1.0, 0.0, 0.2), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.05)
    >>> [round(float(each), 6) for each in way_of_motion(upright, 0.0)]
    [0.0, 1.0, 0.0]
    """
    cosine, sine = np.cos(angle), np.sin(angle)
    way = [
        np.asarray(b * cosine - a * sine) for a, b in zip(swing.ahead, swing.beside, strict=True)
    ]
    return way[0], way[1], way[2]


def axis_of(swing: Swing) -> Vector:
    """Answer along which line a lever or arm turns, and so its ball joint's stud stands.

    n = ahead × beside

    Parameters
    ----------
    swing : Swing [m]

    Returns
    -------
    axis : three arrays, shape (...) [1]
        Unit vector; turning by a growing angle is right-handed about it.

    Range of validity: everywhere.
    Source: vector product.

    Examples
    --------
    >>> axis_of(Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 0.05))
    (0.0, -1.0, 0.0)
    """
    (a, b, c), (d, e, f) = swing.ahead, swing.beside
    return b * f - c * e, c * d - a * f, a * e - b * d


def along(one: Vector, other: Vector) -> Array:
    """Answer how far one vector reaches along another.

    a · b

    Parameters
    ----------
    one : three arrays, shape (...) [m or 1]
    other : three arrays, shape (...) [m or 1]

    Returns
    -------
    product : array, shape (...) [m², m or 1]

    Range of validity: everywhere.
    Source: scalar product.

    Examples
    --------
    >>> float(along((1.0, 2.0, 3.0), (0.0, 1.0, 1.0)))
    5.0
    """
    return np.asarray(one[0] * other[0] + one[1] * other[1] + one[2] * other[2])


def way_between(start: Vector, end: Vector) -> Vector:
    """Answer how one gets from a place to another.

    b − a

    Parameters
    ----------
    start : three arrays, shape (...) [m]
    end : three arrays, shape (...) [m]

    Returns
    -------
    way : three arrays, shape (...) [m]

    Range of validity: everywhere.
    Source: difference of two places.

    Examples
    --------
    >>> way_between((1.0, 0.0, 0.0), (1.0, 0.5, 0.0))
    (0.0, 0.5, 0.0)
    """
    return end[0] - start[0], end[1] - start[1], end[2] - start[2]
