"""Holes and slots in a plate: metal left to its edges and to one another."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.outline import from_piece

Corner = tuple[ArrayLike, ArrayLike]
"""x and y of a corner, shape (...) [m]."""


class Cut(NamedTuple):
    """A slot between the centres of its two round ends; a round hole has both in one place.

    Attributes
    ----------
    start_x, start_y, end_x, end_y : array, shape (...) [m]
    radius : array, shape (...) [m]
    """

    start_x: ArrayLike
    start_y: ArrayLike
    end_x: ArrayLike
    end_y: ArrayLike
    radius: ArrayLike


def edge_distance(cut: Cut, corners: Sequence[Corner]) -> Array:
    """Answer how far the middle of a hole stands from the nearest edge of its plate.

    The least distance of the slot's middle line from any side; below zero where an end of it lies
    outside (counting crossings), zero where it runs over a side.

    Parameters
    ----------
    cut : Cut, shape (...) [m]
    corners : sequence of n pairs of arrays, shape (...) [m]
        In order, in either sense; the first is not repeated.

    Returns
    -------
    distance : array, shape (...) [m]

    Range of validity: straight sides that do not cross one another.
    Source: plane geometry, exact.

    Examples
    --------
    >>> square = [(0.0, 0.0), (0.1, 0.0), (0.1, 0.1), (0.0, 0.1)]
    >>> round(float(edge_distance(Cut(0.03, 0.02, 0.05, 0.02, 0.005), square)), 9)
    0.02
    """
    ends = (cut.start_x, cut.start_y), (cut.end_x, cut.end_y)
    apart = [_apart(*ends, start, end) for start, end in _sides(corners)]
    nearest = np.min(np.broadcast_arrays(*apart), axis=0)
    within = _within(*ends[0], corners) & _within(*ends[1], corners)
    return np.asarray(np.where(within, nearest, -nearest))


def web_between(one: Cut, other: Cut) -> Array:
    """Answer how much metal is left between two holes.

    web = distance of their middle lines − both radii; below zero where they run together.

    Parameters
    ----------
    one : Cut, shape (...) [m]
    other : Cut, shape (...) [m]

    Returns
    -------
    web : array, shape (...) [m]

    Range of validity: any round holes and straight slots.
    Source: plane geometry, exact.

    Examples
    --------
    >>> round(float(web_between(Cut(0, 0, 0, 0, 0.005), Cut(0.03, 0, 0.05, 0, 0.004))), 9)
    0.021
    """
    apart = _apart(
        (one.start_x, one.start_y),
        (one.end_x, one.end_y),
        (other.start_x, other.start_y),
        (other.end_x, other.end_y),
    )
    return np.asarray(apart - one.radius - other.radius)


def width_left(
    at: Corner, along: tuple[ArrayLike, ArrayLike], corners: Sequence[Corner], cuts: Sequence[Cut]
) -> Array:
    """Answer how wide the metal is across a direction, holes taken off.

    From the nearest side on the left of the point to the nearest one on its right, less what each
    hole takes of that line.

    Parameters
    ----------
    at : pair of arrays, shape (...) [m]
        A point of the plate.
    along : pair of arrays, shape (...) [1]
        Unit direction that is looked along.
    corners : sequence of n pairs of arrays, shape (...) [m]
    cuts : sequence of Cut, shape (...) [m]

    Returns
    -------
    width : array, shape (...) [m]
        0 where the point lies outside.

    Range of validity: holes that do not run together; what a hole takes beyond the sides is
    counted no further than to them.
    Source: plane geometry, exact.

    Examples
    --------
    >>> bar = [(0.0, 0.0), (0.1, 0.0), (0.1, 0.04), (0.0, 0.04)]
    >>> hole = Cut(0.05, 0.02, 0.05, 0.02, 0.005)
    >>> round(float(width_left((0.05, 0.01), (1.0, 0.0), bar, [hole])), 9)
    0.03
    """
    left, right = np.asarray(np.inf), np.asarray(-np.inf)
    for start, end in _sides(corners):
        across = _crossing(_seen(start, at, along), _seen(end, at, along))
        left = np.fmin(left, np.where(across >= 0.0, across, np.inf))
        right = np.fmax(right, np.where(across < 0.0, across, -np.inf))
    width = left - right
    for cut in cuts:
        low, high = _taken_by(cut, at, along)
        taken = np.minimum(high, left) - np.maximum(low, right)
        width = width - np.fmax(taken, 0.0)
    return np.where(np.isfinite(left) & np.isfinite(right), np.maximum(width, 0.0), 0.0)


Pair = tuple[Array, Array]


def _sides(corners: Sequence[Corner]) -> list[tuple[Corner, Corner]]:
    """Give each side by its ends."""
    return list(pairwise([*corners, corners[0]]))


def _seen(point: Corner, at: Corner, along: tuple[ArrayLike, ArrayLike]) -> Pair:
    """Give how far a point lies ahead and to the left of another."""
    dx, dy = np.subtract(point[0], at[0]), np.subtract(point[1], at[1])
    return dx * along[0] + dy * along[1], dy * along[0] - dx * along[1]


def _crossing(start: Pair, end: Pair) -> Array:
    """Give how far to the left a side crosses the line across, NaN where it does not."""
    ahead = end[0] - start[0]
    with np.errstate(divide="ignore", invalid="ignore"):
        across = start[1] - start[0] * (end[1] - start[1]) / ahead
    return np.where((start[0] > 0.0) != (end[0] > 0.0), across, np.nan)


def _taken_by(cut: Cut, at: Corner, along: tuple[ArrayLike, ArrayLike]) -> Pair:
    """Give between which places to the left a hole lies on the line across, NaN for nowhere."""
    start = _seen((cut.start_x, cut.start_y), at, along)
    end = _seen((cut.end_x, cut.end_y), at, along)
    met = [*_round_end(start, cut.radius), *_round_end(end, cut.radius)]
    run = np.hypot(end[0] - start[0], end[1] - start[1])
    with np.errstate(divide="ignore", invalid="ignore"):
        aside = (start[1] - end[1]) / run * cut.radius, (end[0] - start[0]) / run * cut.radius
    met += [
        _crossing(
            (start[0] + side * aside[0], start[1] + side * aside[1]),
            (end[0] + side * aside[0], end[1] + side * aside[1]),
        )
        for side in (1.0, -1.0)
    ]
    places = np.broadcast_arrays(*met)
    return np.fmin.reduce(places), np.fmax.reduce(places)


def _round_end(centre: Pair, radius: ArrayLike) -> list[Array]:
    """Give both places at which the line across meets a circle, NaN where it does not."""
    square = np.square(radius) - centre[0] * centre[0]
    half = np.sqrt(np.where(square >= 0.0, square, np.nan))
    return [centre[1] - half, centre[1] + half]


def _within(x: ArrayLike, y: ArrayLike, corners: Sequence[Corner]) -> NDArray[np.bool_]:
    """Say whether a point lies inside, counting the sides to its right."""
    inside = np.asarray(False)
    for start, end in _sides(corners):
        across = _crossing(_seen(start, (x, y), (0.0, 1.0)), _seen(end, (x, y), (0.0, 1.0)))
        inside = inside ^ (across > 0.0)
    return inside


def _apart(start: Corner, end: Corner, from_: Corner, to: Corner) -> Array:
    """Give the distance of two straight pieces, 0 where they cross."""
    gaps = [
        _from_piece(start, from_, to),
        _from_piece(end, from_, to),
        _from_piece(from_, start, end),
        _from_piece(to, start, end),
    ]
    nearest = np.min(np.broadcast_arrays(*gaps), axis=0)
    cross = (_turn(start, end, from_) * _turn(start, end, to) < 0.0) & (
        _turn(from_, to, start) * _turn(from_, to, end) < 0.0
    )
    return np.where(cross, 0.0, nearest)


def _from_piece(point: Corner, start: Corner, end: Corner) -> Array:
    """Give the distance of a point from a straight piece."""
    return from_piece(
        np.subtract(point[0], start[0]),
        np.subtract(point[1], start[1]),
        np.subtract(end[0], start[0]),
        np.subtract(end[1], start[1]),
    )


def _turn(start: Corner, end: Corner, point: Corner) -> Array:
    """Give twice the area that a point spans with a piece: above zero to its left."""
    dx, dy = np.subtract(end[0], start[0]), np.subtract(end[1], start[1])
    px, py = np.subtract(point[0], start[0]), np.subtract(point[1], start[1])
    return np.asarray(dx * py - dy * px)
