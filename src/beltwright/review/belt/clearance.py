"""How near every belt comes to what stands round it, in both clutch positions, as numbers."""

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.build.shop import Obstacle
from beltwright.physics.arrays import Array
from beltwright.physics.belt.band import Band, belt_band
from beltwright.physics.belt.clearance import Clearance, clearance, plan_gap
from beltwright.physics.belt.flap import driving_bow, flap_gap, free_bow
from beltwright.physics.belt.loop import BeltPath, path_in_sense
from beltwright.physics.belt.outline import Outline, height_gap
from beltwright.physics.belt.own_gap import OwnGap, passing_gaps, rim_gaps, span_gaps
from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout, belt_run, loose_belt
from beltwright.review.belt.obstacles import NO_END, grouped_parts
from beltwright.review.case import Case

BELT_SPACING = 1.2
"""Distance between belts side by side over the width of one [1]; grooves of classical sheaves stand
1.12 to 1.2 belt widths apart (RMA IP-20, from memory)."""


@dataclass(frozen=True)
class DrivingGap:
    """How near a belt comes to a part with the clutch up.

    taut       the gap to the taut belt [m]
    trembling  the same with the slack spans trembling [m]
    """

    taut: Array
    trembling: Array


@dataclass(frozen=True)
class LooseGap:
    """How near a belt comes to a part with the clutch down.

    at_rest  the gap to the belt drawn taut round what it still touches [m]
    flapping the same with all the slack gathered in the span beside the part [m]
    """

    at_rest: Array
    flapping: Array


def driving_gap(case: Case, belt: Belt, part: Obstacle) -> DrivingGap:
    """How near a belt comes to a part with the clutch up [m]; NaN where it has no run."""
    return case.once(("driving_gaps", belt.name), lambda: _driving_gaps(case, belt))[part.name]


def loose_gap(case: Case, belt: Belt, part: Obstacle) -> LooseGap:
    """How near a belt comes to a part with the clutch down.

    Raises NotKnownError where no idler of it swings on an arm.
    """
    return case.once(("loose_gaps", belt.name), lambda: _loose_gaps(case, belt))[part.name]


def driving_plan(layout: Layout, band: Band, outline: Outline) -> DrivingGap:
    """How near a belt's band comes to an outline in its plane, clutch up."""
    taut = plan_gap(band, outline)
    trembling = taut
    for place, span in enumerate(band.middle.spans):
        if layout.strand(place) != "tight":
            bowed = flap_gap(band, place, driving_bow(span.length), outline)
            trembling = np.minimum(trembling, bowed)
    return DrivingGap(taut, trembling)


def loose_plan(band: Band, slack: Array, outline: Outline) -> LooseGap:
    """How near a loose belt's band comes to an outline in its plane."""
    at_rest = plan_gap(band, outline)
    flapping = at_rest
    for place, span in enumerate(band.middle.spans):
        bowed = flap_gap(band, place, free_bow(span.length, slack), outline)
        flapping = np.minimum(flapping, bowed)
    return LooseGap(at_rest, flapping)


def band_as_written(layout: Layout, path: BeltPath) -> Band:
    """The belt in its true width along a path, in the build as written."""
    first = np.zeros(1, dtype=np.intp)
    sense = float(np.atleast_1d(path.sense)[0])
    return _band(layout, path_in_sense(path.run.taken(path.length.shape, first), sense))


def nearest_place(case: Case, belt: Belt, part: Obstacle) -> Clearance:
    """Where a belt comes nearest to a part with the clutch up, in the build as written."""
    return case.once(("nearest_places", belt.name), lambda: _nearest_places(case, belt))[part.name]


def own_gap(case: Case, belt: Belt) -> tuple[OwnGap, ...]:
    """How near a belt's spans come to each other and to the pulleys that they pass, clutch up."""
    return case.once(("own_gap", belt.name), lambda: _own_gap(driving_band(case, belt), case, belt))


def rims_apart(case: Case, belt: Belt) -> tuple[OwnGap, ...]:
    """How near the rims of a belt's pulleys stand, clutch up."""
    layout = belt_run(case, belt)
    return rim_gaps(layout.path.run, [wheel.rim for wheel in layout.wheels])


def loose_own_gap(case: Case, belt: Belt) -> tuple[OwnGap, ...]:
    """The same with the clutch down, for the idler on its arm against the rims of the others.

    Raises NotKnownError where no idler of it swings on an arm.
    """
    layout, loose = belt_run(case, belt), loose_belt(case, belt)
    assert layout.mover is not None
    place = layout.mover.place
    gaps = rim_gaps(loose.with_.run, [wheel.rim for wheel in layout.wheels])
    return tuple(gap for gap in gaps if place in (gap.first, gap.second))


def wanted_gap(case: Case, part: Obstacle) -> Array:
    """The gap that a belt must keep from a part [m]."""
    return case.suppose(
        part.gap,
        f"obstacle.{part.name}.gap",
        "6 mm",
        Kind.LENGTH,
        "a belt is kept about a quarter of an inch from what stands still (common practice)",
    )


def driving_band(case: Case, belt: Belt) -> Band:
    """The belt in its true width, clutch up."""
    return case.once(
        ("driving_band", belt.name),
        lambda: _band(belt_run(case, belt), belt_run(case, belt).path),
    )


def least(gaps: Sequence[OwnGap]) -> OwnGap | None:
    """The narrowest of several gaps in the build as written."""
    return min(gaps, key=lambda gap: float(np.atleast_1d(gap.gap)[0]), default=None)


def _heights(layout: Layout) -> tuple[Array, Array]:
    """Between which heights a belt runs; everywhere, where no pulley's height is written [m]."""
    known = [wheel.height for wheel in layout.wheels if wheel.height is not None]
    if not known or layout.plane == "cross":
        return np.full(1, -NO_END), np.full(1, NO_END)
    width = layout.section.cross.top_width
    half = 0.5 * width * (1.0 + BELT_SPACING * (layout.belt.count - 1))
    lowest, highest = known[0], known[0]
    for height in known[1:]:
        lowest, highest = np.minimum(lowest, height), np.maximum(highest, height)
    return lowest - half, highest + half


def _band(layout: Layout, path: BeltPath) -> Band:
    own = layout.section
    return belt_band(path, own.belt_above_pitch, own.belt_below_pitch)


def _in_space(plan: Array, over: Array) -> Array:
    """Join a gap in the plane with one across it."""
    apart = np.maximum(plan, 0.0)
    return np.where(over > 0.0, np.sqrt(apart * apart + over * over), plan)


def _driving_gaps(case: Case, belt: Belt) -> dict[str, DrivingGap]:
    layout = belt_run(case, belt)
    gaps = {}
    for group in grouped_parts(case, layout.plane):
        over = height_gap(*_heights(layout), group.outline)
        plan = driving_plan(layout, driving_band(case, belt), group.outline)
        taut, trembling = _in_space(plan.taut, over), _in_space(plan.trembling, over)
        for row, name in enumerate(group.names):
            gaps[name] = DrivingGap(taut[row], trembling[row])
    return gaps


def _nearest_places(case: Case, belt: Belt) -> dict[str, Clearance]:
    layout = belt_run(case, belt)
    band = band_as_written(layout, layout.path)
    low, high = _heights(layout)
    places = {}
    for group in grouped_parts(case, layout.plane):
        near = clearance(band, low[:1], high[:1], group.as_written())
        for row, name in enumerate(group.names):
            places[name] = Clearance(*(getattr(near, each.name)[row] for each in fields(near)))
    return places


def _loose_gaps(case: Case, belt: Belt) -> dict[str, LooseGap]:
    layout, loose = belt_run(case, belt), loose_belt(case, belt)
    gaps = {}
    for group in grouped_parts(case, layout.plane):
        over = height_gap(*_heights(layout), group.outline)
        found = [
            loose_plan(band, loose.belt.slack, group.outline) for band in _loose_bands(case, belt)
        ]
        at_rest, flapping = found[0].at_rest, found[0].flapping
        if len(found) > 1:
            at_rest = np.where(loose.belt.touches, at_rest, found[1].at_rest)
            flapping = np.where(loose.belt.touches, flapping, found[1].flapping)
        at_rest, flapping = _in_space(at_rest, over), _in_space(flapping, over)
        for row, name in enumerate(group.names):
            gaps[name] = LooseGap(at_rest[row], flapping[row])
    return gaps


def _loose_bands(case: Case, belt: Belt) -> tuple[Band, ...]:
    """The bands that the loose belt has, with the idler, without it, or both among the samples."""
    return case.once(("loose_bands", belt.name), lambda: _worked_loose_bands(case, belt))


def _worked_loose_bands(case: Case, belt: Belt) -> tuple[Band, ...]:
    layout, loose = belt_run(case, belt), loose_belt(case, belt)
    paths = [loose.with_]
    if loose.without is not None and not np.all(loose.belt.touches):
        paths = [loose.without] if not np.any(loose.belt.touches) else [*paths, loose.without]
    return tuple(_band(layout, path) for path in paths)


def _own_gap(band: Band, case: Case, belt: Belt) -> tuple[OwnGap, ...]:
    rims = [wheel.rim for wheel in belt_run(case, belt).wheels]
    return (*span_gaps(band), *passing_gaps(band, rims))
