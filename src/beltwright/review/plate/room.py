"""How near a plate comes to the belts of its plane and their wheels, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Idler
from beltwright.build.plate import Plate
from beltwright.physics.arrays import Array
from beltwright.physics.belt.clearance import Clearance, clearance, plan_gap
from beltwright.physics.belt.wheel_gap import wheel_gap
from beltwright.physics.outline import Outline, gap_in_space, heights_apart
from beltwright.review.belt.clearance import (
    band_as_written,
    belt_heights,
    driving_band,
    driving_plan,
    loose_bands,
    where_it_touches,
)
from beltwright.review.belt.layout import Layout, belt_layout, loose_belt
from beltwright.review.belt.near_parts import FAR, off_place, stray_of
from beltwright.review.belt.obstacles import NO_END, Plane
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal
from beltwright.review.plate.plates import corners_of, idler_named, on_machine, shaft_carried
from beltwright.review.plate.strain import belts_on


class PlateRoom(NamedTuple):
    """How near a plate comes to a belt or to one of its wheels.

    beside  what it comes nearest to, as the build is written
    plan    the gap seen along the shafts, in the worse of both clutch positions [m]
    over    how far the belt passes above or below the plate [m]; None where that is not known
    """

    beside: str
    plan: Array
    over: Array | None

    @property
    def gap(self) -> Array:
        """The gap in space [m]; where the heights are not known, the one seen along the shafts."""
        return np.atleast_1d(self.plan if self.over is None else gap_in_space(self.plan, self.over))


def plane_of(case: Case, plate: Plate) -> Plane | None:
    """The plane that a placed plate lies in: that of what it carries, else the only one there is.

    None where it is not placed, or where that cannot be told.
    """
    if plate.at is None:
        return None
    axes = [shaft.axis for shaft in case.build.shaft]
    for name in (hole.carries for hole in plate.hole if hole.carries):
        if idler_named(case, name) is None:
            return shaft_carried(case, name).axis
        run = {wheel for belt in case.build.belt if name in belt.run for wheel in belt.run}
        axes = [shaft_carried(case, p.name).axis for p in case.build.pulley if p.name in run]
        break
    planes = set(axes)
    return planes.pop() if len(planes) == 1 else None


def plate_outline(case: Case, plate: Plate) -> Outline:
    """A placed plate in its plane; how high it stands is not looked at."""
    corners = [on_machine(case, plate, corner) for corner in corners_of(case, plate)]
    x, y = (np.stack(np.broadcast_arrays(*(corner[axis] for corner in corners))) for axis in (0, 1))
    return Outline(x, y, -NO_END, NO_END)


def plate_room(case: Case, plate: Plate, belt: Belt) -> PlateRoom:
    """How near a plate comes to a belt: as written where no tolerance brings them near."""
    work = ("plate_room", plate.name, belt.name)
    return case.once(work, lambda: _plate_room(case, plate, belt))


def nearest_spot(case: Case, plate: Plate, belt: Belt) -> Clearance:
    """Where a plate comes nearest to a belt, clutch up, in the build as written."""
    layout = belt_layout(case, belt)
    outline = plate_outline(case, plate)
    written = Outline(outline.x[:, :1], outline.y[:, :1], -NO_END, NO_END)
    return clearance(band_as_written(layout, layout.path), 0.0, 0.0, written)


def _plate_room(case: Case, plate: Plate, belt: Belt) -> PlateRoom:
    if case.samples == 0 or case.replaced:
        return _room(case, plate, belt)
    written = _room(case.under(case.build, 0), plate, belt)
    layout = belt_layout(case, belt)
    over = _over(case, plate, layout)
    if over is not None and over.min() > FAR:
        return written
    far = nominal(written.plan) > FAR + _strays(layout, plate_outline(case, plate))
    return written if far else _room(case, plate, belt)


def _strays(layout: Layout, plate: Outline) -> float:
    """How far belt, rims and plate may come nearer to one another than as written [m]."""
    corners = max(off_place(x, y) for x, y in zip(plate.x, plate.y, strict=True))
    rims = max(off_place(wheel.rim, 0.0) for wheel in layout.wheels)
    return stray_of(layout.path) + corners + rims


def _room(case: Case, plate: Plate, belt: Belt) -> PlateRoom:
    layout, outline = belt_layout(case, belt), plate_outline(case, plate)
    gaps = {belt.name: _to_belt(case, layout, outline)}
    carried = {hole.carries for hole in plate.hole}
    for place, wheel in enumerate(layout.wheels):
        shaft = None if isinstance(wheel.of, Idler) else wheel.of.shaft
        if wheel.name not in carried and shaft not in carried - {None}:
            gaps[wheel.name] = _to_wheel(case, layout, place, outline)
    beside = min(gaps, key=lambda name: nominal(gaps[name]))
    plan = np.min(np.broadcast_arrays(*gaps.values()), axis=0)
    return PlateRoom(beside, layout.where_it_runs(plan), _over(case, plate, layout))


def _to_belt(case: Case, layout: Layout, outline: Outline) -> Array:
    """The gap to a belt in both clutch positions, its slack spans trembling in drive."""
    driving = driving_plan(layout, driving_band(case, layout.belt), outline).trembling
    if layout.swinging is None:
        return driving
    found = [plan_gap(band, outline) for band in loose_bands(case, layout.belt)]
    return np.minimum(driving, where_it_touches(case, layout.belt, found))


def _to_wheel(case: Case, layout: Layout, place: int, outline: Outline) -> Array:
    """The gap to the rim of a wheel in both clutch positions."""
    runs, rim = [layout.path.run], layout.wheels[place].rim
    if layout.swinging == place:
        runs.append(loose_belt(case, layout.belt).with_.run)
    gaps = [wheel_gap(run.x[place], run.y[place], rim, outline) for run in runs]
    return np.asarray(np.min(np.broadcast_arrays(*gaps), axis=0))


def _over(case: Case, plate: Plate, layout: Layout) -> Array | None:
    """How far a belt passes above or below a plate: by their heights, or by its stand-off."""
    written = [wheel for wheel in layout.wheels if wheel.height is not None]
    if plate.height is not None and written and layout.plane == "upright":
        middle, half = case.si(plate.height), 0.5 * _thickness(case, plate)
        return heights_apart(*belt_heights(layout), middle - half, middle + half)
    off = next(
        (
            hole.stand_off
            for hole in plate.hole
            if hole.carries and hole.stand_off and layout.belt in belts_on(case, hole.carries)
        ),
        None,
    )
    if off is None:
        return None
    apart = np.abs(case.si(off)) - 0.5 * (_thickness(case, plate) + layout.width)
    return np.asarray(np.maximum(apart, 0.0))


def _thickness(case: Case, plate: Plate) -> Array:
    if plate.thickness is None:
        raise NotKnownError(
            f"plate.{plate.name}.thickness",
            'Close a caliper on the sheet and write it, for example thickness = "6 mm".',
        )
    return case.si(plate.thickness)
