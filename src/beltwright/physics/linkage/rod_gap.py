"""How near a straight rod comes to something that stands in its way."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.wheel_gap import wheel_gap
from beltwright.physics.linkage.swing import Vector
from beltwright.physics.outline import Outline

POINTS = 65
"""Points along the rod in the first look, and again between the neighbours of the nearest one."""


class RodGap(NamedTuple):
    """Where a rod comes nearest to a part.

    Attributes
    ----------
    gap : array, shape (...) [m]
        From the rod's middle line to the part; below zero inside it.
    share : array, shape (...) [1]
        Of the way from the rod's start to its end.
    """

    gap: Array
    share: Array


def point_gap(
    place: Vector, corners_x: ArrayLike, corners_y: ArrayLike, low: ArrayLike, high: ArrayLike
) -> Array:
    """Answer how far a point is from an upright part with a flat underside and top.

    Outside: √(plan² + over²); inside: the shortest way out, with a minus.

    Parameters
    ----------
    place : three arrays, shape (...) [m]
    corners_x : array, shape (corners, ...) [m]
        Outline of the part in the plan, in order.
    corners_y : array, shape (corners, ...) [m]
    low : array, shape (...) [m]
        Height of its underside.
    high : array, shape (...) [m]
        Height of its top.

    Returns
    -------
    gap : array, shape (...) [m]

    Range of validity: an outline that does not cross itself.
    Source: plane geometry, exact; in the plan as a wheel without a rim.

    Examples
    --------
    >>> xs, ys = np.array([0.0, 1.0, 1.0, 0.0]), np.array([0.0, 0.0, 1.0, 1.0])
    >>> [float(point_gap((x, 0.5, 0.5), xs, ys, 0.0, 1.0)) for x in (1.25, 0.875)]
    [0.25, -0.125]
    """
    outline = Outline(*map(np.asarray, (corners_x, corners_y, low, high)))
    plan = wheel_gap(place[0], place[1], 0.0, outline)
    over = np.maximum(np.subtract(low, place[2]), np.subtract(place[2], high))
    outside = np.hypot(np.maximum(plan, 0.0), np.maximum(over, 0.0))
    return np.asarray(np.where((plan < 0.0) & (over < 0.0), np.maximum(plan, over), outside))


def rod_gap(
    start: Vector,
    end: Vector,
    corners_x: ArrayLike,
    corners_y: ArrayLike,
    low: ArrayLike,
    high: ArrayLike,
) -> RodGap:
    """Answer how near a rod comes to an upright part, and where.

    The least of `point_gap` along the rod: looked for on 65 points, then on 65 between the
    neighbours of the nearest.

    Parameters
    ----------
    start : three arrays, shape (...) [m]
    end : three arrays, shape (...) [m]
    corners_x : array, shape (corners,) [m]
        Outline of the part in the plan, in order.
    corners_y : array, shape (corners,) [m]
    low : array, shape () [m]
        Height of its underside.
    high : array, shape () [m]
        Height of its top.

    Returns
    -------
    RodGap [m, 1]

    Range of validity: a straight rod; the least gap of a part whose outline turns in on itself is
    found to a hundredth of the rod, of any other to a thousandth.
    Source: the gap changes along the rod no faster than one goes along it.

    Examples
    --------
    >>> xs, ys = np.array([0.0, 1.0, 1.0, 0.0]), np.array([0.0, 0.0, 1.0, 1.0])
    >>> near = rod_gap((-1.0, 2.0, 0.5), (2.0, 1.1, 0.5), xs, ys, 0.0, 1.0)
    >>> print(f"{near.gap:.3f} {near.share:.3f}")
    0.383 0.703
    """
    shape = np.broadcast_shapes(*(np.shape(each) for each in (*start, *end)))
    steps = np.linspace(-1.0, 1.0, POINTS).reshape(-1, *(1,) * len(shape))
    part = (corners_x, corners_y, low, high)
    first = _nearest(start, end, np.broadcast_to(0.5 + 0.5 * steps, (POINTS, *shape)), part)
    closer = first.share + steps / (POINTS - 1)
    return _nearest(start, end, np.clip(closer, 0.0, 1.0), part)


def place_on_rod(start: Vector, end: Vector, share: ArrayLike) -> Vector:
    """Answer where a point on a rod stands.

    Parameters
    ----------
    start : three arrays, shape (...) [m]
    end : three arrays, shape (...) [m]
    share : array, shape (...) [1]
        Of the way from start to end.

    Returns
    -------
    place : three arrays, shape (...) [m]

    Range of validity: a straight rod.
    Source: point on a line.

    Examples
    --------
    >>> [float(each) for each in place_on_rod((0.0, 0.0, 0.0), (1.0, 2.0, 0.0), 0.25)]
    [0.25, 0.5, 0.0]
    """
    place = [np.asarray(a + share * np.subtract(b, a)) for a, b in zip(start, end, strict=True)]
    return place[0], place[1], place[2]


def _nearest(
    start: Vector,
    end: Vector,
    shares: Array,
    part: tuple[ArrayLike, ArrayLike, ArrayLike, ArrayLike],
) -> RodGap:
    """The nearest of the points that stand along the first axis."""
    gaps = point_gap(place_on_rod(start, end, shares), *part)
    nearest = np.argmin(gaps, axis=0)[None]
    return RodGap(
        np.take_along_axis(gaps, nearest, axis=0)[0],
        np.take_along_axis(shares, nearest, axis=0)[0],
    )
