"""How near a belt's real width comes to a part, and where."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.band import Band
from beltwright.physics.belt.nearest import Points, offers
from beltwright.physics.outline import Outline, gap_in_space, height_gap


class Clearance(NamedTuple):
    """The nearest approach of a belt to a part.

    Attributes
    ----------
    gap : array, shape (...) [m]
        Distance between belt and part in space; negative where they overlap.
    plan_gap : array, shape (...) [m]
        The same, seen along the shafts.
    height_gap : array, shape (...) [m]
        How far the belt passes above or below; 0 where the heights overlap.
    belt_x, belt_y : array, shape (...) [m]
        Nearest point of the belt's surface.
    part_x, part_y : array, shape (...) [m]
        Nearest point of the part.
    piece : array of int, shape (...) [1]
        Which part of the belt it is: span i is i, the arc on pulley i is n + i.
    """

    gap: Array
    plan_gap: Array
    height_gap: Array
    belt_x: Array
    belt_y: Array
    part_x: Array
    part_y: Array
    piece: NDArray[np.intp]


def plan_gap(band: Band, outline: Outline) -> Array:
    """Find the gap between a belt and a part, seen along the shafts.

    Gap = distance of the outline from the middle of the band - half the band's width.

    Parameters
    ----------
    band : Band [m]
        The belt.
    outline : Outline [m]
        The part, corners on the first axis.

    Returns
    -------
    array, shape (...) [m]
        Minus half the band's width where the middle of the belt goes through the part.

    Notes
    -----
    Range of validity: paths without a fault; NaN for one without a tangent.

    Source: plane geometry, exact.

    Examples
    --------
    >>> from beltwright.physics.belt.band import belt_band
    >>> from beltwright.physics.belt.path import belt_path
    >>> from beltwright.physics.belt.run import Run
    >>> path = belt_path(Run([0.0, 0.4], [0.0, 0.0], [0.05, 0.05], [1, 1]))
    >>> part = Outline(np.array([0.1, 0.2, 0.2]), np.array([0.08, 0.08, 0.07]), 0.3, 0.4)
    >>> round(float(plan_gap(belt_band(path, 0.002, 0.006), part)), 6)
    0.018
    """
    nearest = np.asarray(np.inf)
    with np.errstate(invalid="ignore", divide="ignore"):
        for offer in offers(band, outline.over(_axes(band))):
            nearest = np.minimum(nearest, offer.square.min(axis=0))
        return np.asarray(np.sqrt(nearest) - band.half)


def clearance(band: Band, low: ArrayLike, high: ArrayLike, outline: Outline) -> Clearance:
    """Find the nearest approach of a belt to a part, and where it is.

    Plan gap as in `plan_gap`; gap = sqrt(plan gap^2 + height gap^2) where the belt passes above or
    below, with a negative plan gap counted as none.

    Parameters
    ----------
    band : Band [m]
        The belt.
    low : array, shape (...) [m]
        Lowest height that the belt fills.
    high : array, shape (...) [m]
        Highest height that it fills.
    outline : Outline [m]
        The part, corners on the first axis.

    Returns
    -------
    Clearance [m]
        Gap and nearest points.

    Notes
    -----
    Range of validity: as for `plan_gap`; the belt stands straight up and down within its heights.

    Source: plane geometry, exact.

    Examples
    --------
    >>> from beltwright.physics.belt.band import belt_band
    >>> from beltwright.physics.belt.path import belt_path
    >>> from beltwright.physics.belt.run import Run
    >>> path = belt_path(Run([0.0, 0.4], [0.0, 0.0], [0.05, 0.05], [1, 1]))
    >>> part = Outline(np.array([0.1, 0.2, 0.2]), np.array([0.08, 0.08, 0.07]), 0.3, 0.4)
    >>> near = clearance(belt_band(path, 0.002, 0.006), 0.33, 0.343, part)
    >>> round(float(near.part_x), 6), round(float(near.belt_y), 6), int(near.piece)
    (0.2, 0.052, 1)
    """
    with np.errstate(invalid="ignore", divide="ignore"):
        square, piece, points = _nearest(band, outline.over(_axes(band)))
        distance = np.sqrt(square)
        in_plan = np.asarray(distance - band.half)
        to_surface = np.where(distance > 0.0, np.minimum(band.half / distance, 1.0), 0.0)
    over = height_gap(low, high, outline)
    return Clearance(
        gap=gap_in_space(in_plan, over),
        plan_gap=in_plan,
        height_gap=over,
        belt_x=points.belt_x + to_surface * (points.part_x - points.belt_x),
        belt_y=points.belt_y + to_surface * (points.part_y - points.belt_y),
        part_x=points.part_x,
        part_y=points.part_y,
        piece=piece,
    )


def _axes(band: Band) -> int:
    return np.ndim(band.middle.length)


def _nearest(band: Band, outline: Outline) -> tuple[Array, NDArray[np.intp], Points]:
    """Return squared distance, piece and points of the nearest pair."""
    found = list(offers(band, outline))
    lowest = np.array(np.broadcast_arrays(*[offer.square.min(axis=0) for offer in found]))
    winner = lowest.argmin(axis=0)
    points = [np.full(winner.shape, np.nan) for _ in Points._fields]
    for place, offer in enumerate(found):
        if not np.any(winner == place):
            continue
        shape = (offer.square.shape[0], *winner.shape)
        corner = np.broadcast_to(offer.square, shape).argmin(axis=0)[np.newaxis]
        for i, value in enumerate(offer.points()):
            chosen = np.take_along_axis(np.broadcast_to(value, shape), corner, axis=0)[0]
            points[i] = np.where(winner == place, chosen, points[i])
    pieces = np.array([offer.piece for offer in found])
    return lowest.min(axis=0), pieces[winner], Points(*points)
