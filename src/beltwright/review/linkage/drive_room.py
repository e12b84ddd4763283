"""How near rods, levers and arms come to belts and pulleys of the same height, as numbers."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Idler, Pulley
from beltwright.build.linkage import Linkage
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.band import Band
from beltwright.physics.belt.clearance import plan_gap
from beltwright.physics.linkage.rod_gap import place_on_rod
from beltwright.physics.linkage.swing import Vector, rod_end
from beltwright.physics.outline import Outline, gap_in_space, heights_apart
from beltwright.quantity import Kind
from beltwright.review.belt.clearance import (
    band_as_written,
    belt_heights,
    driving_band,
    loose_bands,
    where_it_touches,
)
from beltwright.review.belt.layout import Layout, Loose, belt_run, loose_belt
from beltwright.review.case import Case, NotKnownError
from beltwright.review.linkage.clash_findings import thickness
from beltwright.review.linkage.motion import as_written, link_of, moved
from beltwright.review.nominal import nominal

REACH = 0.025
"""What keeps further above or below a belt than this is not looked at in the plan [m] (assumed)."""

POINTS = 33
"""Points along a rod in the first look, and again between the neighbours of the nearest one."""

Apart = Callable[[ArrayLike, ArrayLike], Array]
"""Distance of a point in the plan from a belt or rim [m]."""


class Turning(NamedTuple):
    """A belt or a wheel that a rod may run into.

    name       as written
    low, high  heights between which it turns, a sample each [m]
    written    gap to it in the plan, as written, the narrower of both clutch positions
    sampled    the same in every sample
    """

    name: str
    low: Array
    high: Array
    written: Apart
    sampled: Apart


class Piece(NamedTuple):
    """A rod, lever or arm over the travel of its hand lever.

    name        "rod", "lever" or "arm"
    start, end  of its middle line, shape (steps, ...) [m]
    half        half its thickness [m]
    """

    name: str
    start: Vector
    end: Vector
    half: Array


class NearestDrive(NamedTuple):
    """Where a linkage comes nearest to a belt or wheel over its travel.

    gap    between both, a sample each [m]
    name   of the belt or wheel
    piece  of the linkage
    place  there, in the build as written [m]
    hand   angle of the hand lever there [rad]
    """

    gap: Array
    name: str
    piece: str
    place: tuple[float, float, float]
    hand: float


def heights_known(case: Case) -> bool:
    """Whether any belt of the build runs at a height that is written."""
    wheels: tuple[Pulley | Idler, ...] = (*case.build.pulley, *case.build.idler)
    return any(wheel.height is not None for wheel in wheels)


def over_all(case: Case, linkage: Linkage) -> float:
    """How far a linkage keeps above or below every belt and wheel, as written [m]."""
    return min(
        (
            _over(piece, turning)
            for piece in _pieces(case, linkage)
            for turning in _all(case)
            if turning.name not in linkage.belongs
        ),
        default=np.inf,
    )


def nearest_drive(case: Case, linkage: Linkage) -> NearestDrive | None:
    """Where a linkage comes nearest to a belt or wheel; None where all lie over or under it."""
    near = [
        _nearest(case, linkage, piece, turning)
        for turning in _all(case)
        if turning.name not in linkage.belongs
        for piece in _pieces(case, linkage)
        if _over(piece, turning) < REACH
    ]
    nearest = min(near, key=lambda each: nominal(each.gap), default=None)
    if nearest is None or not case.replaced:
        return nearest
    return nearest._replace(gap=np.min(np.broadcast_arrays(*(each.gap for each in near)), axis=0))


def _all(case: Case) -> tuple[Turning, ...]:
    """The belts on upright shafts whose height is written, and their wheels."""
    return case.once("turning", lambda: tuple(_turning(case)))


def _turning(case: Case) -> Iterator[Turning]:
    for belt in case.build.belt:
        try:
            layout = belt_run(case, belt)
        except NotKnownError:
            continue
        if layout.plane == "upright" and layout.usable[0] and _has_height(layout):
            yield _belt(case, layout)
            yield from _wheels(case, layout)


def _has_height(layout: Layout) -> bool:
    return any(wheel.height is not None for wheel in layout.wheels)


def _belt(case: Case, layout: Layout) -> Turning:
    """A belt, as written in both clutch positions."""
    paths = [layout.path, *(loose.path() for loose in _loose(case, layout))]
    bands = [band_as_written(layout, path) for path in paths]
    return Turning(
        layout.belt.name,
        *belt_heights(layout),
        partial(_nearest_of, [partial(_from_band, band) for band in bands]),
        partial(_from_belt, case, layout),
    )


def _from_belt(case: Case, layout: Layout, x: ArrayLike, y: ArrayLike) -> Array:
    """Distance of a point from a belt in every sample."""
    belt = layout.belt
    driving = _from_band(driving_band(case, belt), x, y)
    if layout.swinging is None:
        return driving
    loose = [_from_band(band, x, y) for band in loose_bands(case, belt)]
    return np.minimum(driving, where_it_touches(case, belt, loose))


def _wheels(case: Case, layout: Layout) -> Iterator[Turning]:
    """The wheels of a belt, each as thick as the belt is wide; an idler in both positions."""
    runs = [layout.path.run, *(loose.with_.run for loose in _loose(case, layout))]
    for place, wheel in enumerate(layout.wheels):
        if wheel.height is None:
            continue
        rims = [partial(_from_rim, run.x[place], run.y[place], wheel.rim) for run in runs]
        written = [
            partial(_from_rim, *(nominal(at) for at in (run.x[place], run.y[place], wheel.rim)))
            for run in runs
        ]
        yield Turning(
            wheel.name,
            *layout.wheel_heights(place),
            partial(_nearest_of, written),
            partial(_nearest_of, rims),
        )


def _loose(case: Case, layout: Layout) -> list[Loose]:
    """How the belt lies with the clutch down, where it has one."""
    return [] if layout.swinging is None else [loose_belt(case, layout.belt)]


def _from_band(band: Band, x: ArrayLike, y: ArrayLike) -> Array:
    """Distance of a point from a belt: the point as an outline of three corners in one place."""
    three_x, three_y = (np.stack([np.atleast_1d(at)] * 3) for at in (x, y))
    return plan_gap(band, Outline(three_x, three_y, 0.0, 0.0))


def _from_rim(
    at_x: ArrayLike, at_y: ArrayLike, rim: ArrayLike, x: ArrayLike, y: ArrayLike
) -> Array:
    return np.asarray(np.hypot(np.subtract(x, at_x), np.subtract(y, at_y)) - rim)


def _nearest_of(each: Sequence[Apart], x: ArrayLike, y: ArrayLike) -> Array:
    return np.asarray(np.min(np.broadcast_arrays(*(apart(x, y) for apart in each)), axis=0))


def _pieces(case: Case, linkage: Linkage) -> tuple[Piece, ...]:
    """Rod, lever and arm over the travel, in the build as written."""
    return case.once(("linkage.pieces", linkage.name), lambda: _worked_pieces(case, linkage))


def _worked_pieces(case: Case, linkage: Linkage) -> tuple[Piece, ...]:
    whole, link = moved(case, linkage), as_written(link_of(case, linkage))
    ends = rod_end(link.lever, whole.lever[:, 0]), rod_end(link.arm, whole.arm[:, 0])
    bar = 0.5 * lever_width(case, linkage)
    return (
        Piece("rod", *ends, 0.5 * thickness(case, linkage)),
        Piece("lever", link.lever.pivot, ends[0], bar),
        Piece("arm", link.arm.pivot, ends[1], bar),
    )


def lever_width(case: Case, linkage: Linkage) -> Array:
    """Width of the bar that lever and arm are made of [m]."""
    return case.suppose(
        None,
        f"linkage.{linkage.name}.lever.width",
        "25 mm",
        Kind.LENGTH,
        "a lever is made from a bar of about an inch (assumed)",
    )


def _over(piece: Piece, turning: Turning) -> float:
    """How far a piece keeps above or below a belt or wheel over its travel, as written [m].

    Both ends of a straight piece bound its heights; where the rod has no place there are none.
    """
    ends = np.concatenate([np.ravel(piece.start[2]), np.ravel(piece.end[2])])
    if not np.isfinite(ends).any():
        return np.inf
    below = nominal(turning.low) - float(np.nanmax(ends))
    above = float(np.nanmin(ends)) - nominal(turning.high)
    return max(below, above) - nominal(piece.half)


def _nearest(case: Case, linkage: Linkage, piece: Piece, turning: Turning) -> NearestDrive:
    """Where a piece comes nearest, looked for along it and over its travel."""
    steps = np.linspace(0.0, 1.0, POINTS)[:, None]
    share, at = _least(piece, turning, steps)
    near = np.clip(share + (2.0 * steps - 1.0) / (POINTS - 1), 0.0, 1.0)
    share, _ = _least(_at_step(piece, at), turning, near)
    gap = (
        _of_candidates(piece, turning)
        if case.replaced
        else _sampled(case, linkage, piece.name, at, share, turning) - piece.half
    )
    there = place_on_rod(*_at_step(piece, at)[1:3], share)
    x, y, z = (nominal(each) for each in there)
    hand = float(moved(case, linkage).hand[at, 0])
    return NearestDrive(gap, turning.name, piece.name, (x, y, z), hand)


def _least(piece: Piece, turning: Turning, shares: Array) -> tuple[float, int]:
    """The share along a piece and the step of its travel at which the gap is least."""
    x, y, z = place_on_rod(piece.start, piece.end, shares)
    low, high = nominal(turning.low), nominal(turning.high)
    x, y, z = np.broadcast_arrays(x, y, z)
    over = heights_apart(z, z, low, high)
    # what keeps further over or under is no nearer, wherever it stands in the plan
    looked_at = np.flatnonzero(over < REACH + nominal(piece.half))
    if looked_at.size == 0:
        best = int(np.nanargmin(over))
    else:
        plan = turning.written(x.ravel()[looked_at], y.ravel()[looked_at])
        best = int(looked_at[np.nanargmin(gap_in_space(plan, over.ravel()[looked_at]))])
    at = np.unravel_index(best, over.shape)
    return float(np.broadcast_to(shares, over.shape)[at]), int(at[-1])


def _at_step(piece: Piece, step: int) -> Piece:
    """A piece at one step of its travel; a pivot stands still."""

    def there(end: Vector) -> Vector:
        x, y, z = (np.ravel(each)[[step if np.size(each) > 1 else 0]] for each in end)
        return x, y, z

    return Piece(piece.name, there(piece.start), there(piece.end), piece.half)


def _sampled(
    case: Case, linkage: Linkage, piece: str, step: int, share: float, turning: Turning
) -> Array:
    """The gap there in every sample, from the middle of the piece."""
    whole, link = moved(case, linkage), link_of(case, linkage)
    ends = rod_end(link.lever, whole.lever[step]), rod_end(link.arm, whole.arm[step])
    start, end = {
        "rod": ends,
        "lever": (link.lever.pivot, ends[0]),
        "arm": (link.arm.pivot, ends[1]),
    }[piece]
    x, y, z = place_on_rod(start, end, share)
    over = heights_apart(z, z, turning.low, turning.high)
    return np.atleast_1d(gap_in_space(turning.sampled(x, y), over))


def _of_candidates(piece: Piece, turning: Turning) -> Array:
    """The gap for every candidate of the drive, on the points of the first look."""
    x, y, z = np.broadcast_arrays(
        *place_on_rod(piece.start, piece.end, np.linspace(0.0, 1.0, POINTS)[:, None])
    )
    x, y, z = (each.reshape(-1, 1) for each in (x, y, z))
    over = heights_apart(z, z, turning.low, turning.high)
    near = np.flatnonzero((over < REACH + piece.half).any(axis=1))
    gaps = gap_in_space(turning.sampled(x[near], y[near]), over[near])
    return np.asarray(np.min(gaps, axis=0, initial=REACH) - piece.half)
