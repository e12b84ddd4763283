"""How near every belt comes to what stands round it, in both clutch positions, as numbers."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.build.plate import Plate
from beltwright.build.shop import Obstacle
from beltwright.physics.arrays import Array
from beltwright.physics.belt.band import Band, belt_band
from beltwright.physics.belt.clearance import Clearance, clearance, plan_gap
from beltwright.physics.belt.flap import driving_bow, flap_gap, free_bow
from beltwright.physics.belt.loop import BeltPath, path_in_sense
from beltwright.physics.belt.own_gap import OwnGap, passing_gaps, rim_gaps, span_gaps
from beltwright.physics.outline import Outline, gap_in_space, height_gap
from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout, belt_run, loose_belt
from beltwright.review.belt.near_parts import NearParts, Strayed, near_parts, stray_of
from beltwright.review.belt.obstacles import NO_END, PartGroup, Plane, grouped, grouped_parts
from beltwright.review.case import Case
from beltwright.review.nominal import nominal

BLOCK = 12
"""Parts that are worked out side by side: more of them run out of the processor's cache."""


class DrivingGap(NamedTuple):
    """How near a belt comes to a part with the clutch up.

    taut       the gap to the taut belt [m]
    trembling  the same with the slack spans trembling [m]
    """

    taut: Array
    trembling: Array


class LooseGap(NamedTuple):
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
    written = path.run.taken(path.length.shape, first)
    return _band(layout, path_in_sense(written, nominal(path.sense)))


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


def wanted_gap(case: Case, part: Obstacle | Plate) -> Array:
    """The gap that a belt must keep from a part or a plate [m]."""
    table = "plate" if isinstance(part, Plate) else "obstacle"
    return case.suppose(
        part.gap,
        f"{table}.{part.name}.gap",
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
    return min(gaps, key=lambda gap: nominal(gap.gap), default=None)


def belt_heights(layout: Layout) -> tuple[Array, Array]:
    """Between which heights a belt runs, or how far left on shafts that lie across; everywhere,
    where that is written of no pulley [m]."""
    known = [wheel.height for wheel in layout.wheels if wheel.height is not None]
    if not known:
        return np.full(1, -NO_END), np.full(1, NO_END)
    half = 0.5 * layout.width
    lowest, highest = known[0], known[0]
    for height in known[1:]:
        lowest, highest = np.minimum(lowest, height), np.maximum(highest, height)
    return lowest - half, highest + half


def _band(layout: Layout, path: BeltPath) -> Band:
    own = layout.section
    return belt_band(path, own.belt_above_pitch, own.belt_below_pitch)


def _driving_gaps(case: Case, belt: Belt) -> dict[str, DrivingGap]:
    plane = belt_run(case, belt).plane
    if not _sampled(case):
        return _driving_gaps_to(case, belt, grouped_parts(case, plane))
    far = _driving_gaps(_still(case), belt)
    return far | _driving_gaps_to(case, belt, _groups(case, plane, _near(case, belt).beside))


def _driving_gaps_to(case: Case, belt: Belt, groups: Sequence[PartGroup]) -> dict[str, DrivingGap]:
    layout = belt_run(case, belt)
    gaps = {}
    for group in groups:
        over = height_gap(*belt_heights(layout), group.outline)
        plan = driving_plan(layout, driving_band(case, belt), group.outline)
        taut, trembling = gap_in_space(plan.taut, over), gap_in_space(plan.trembling, over)
        for row, name in enumerate(group.names):
            gaps[name] = DrivingGap(taut[row], trembling[row])
    return gaps


def _sampled(case: Case) -> bool:
    return case.samples > 0 and not case.replaced


def _still(case: Case) -> Case:
    """The build as written, without its tolerances."""
    return case.once("as written", lambda: case.under(case.build, 0))


def _groups(case: Case, plane: Plane, names: frozenset[str]) -> tuple[PartGroup, ...]:
    parts = [part for part in case.build.obstacle if part.name in names]
    return grouped(case, plane, parts, BLOCK)


def _near(case: Case, belt: Belt) -> NearParts:
    return case.once(("near_parts", belt.name), lambda: _worked_near(case, belt))


def _worked_near(case: Case, belt: Belt) -> NearParts:
    layout = belt_run(case, belt)
    groups = grouped_parts(_still(case), layout.plane)
    driving = [_strayed(layout, layout.path, driving_band(case, belt), driving_bow)]
    loose = []
    if layout.swinging is not None:
        slack = loose_belt(case, belt).belt.slack
        loose = [
            _strayed(layout, path, band, partial(free_bow, excess=slack))
            for path, band in zip(_loose_paths(case, belt), loose_bands(case, belt), strict=True)
        ]
    return near_parts(case.build.obstacle, groups, driving, loose)


def _strayed(layout: Layout, path: BeltPath, band: Band, bow: Callable[[Array], Array]) -> Strayed:
    low, high = belt_heights(layout)
    bows = (np.atleast_1d(bow(span.length)) for span in path.spans)
    return Strayed(
        band=band_as_written(layout, path),
        outer=(float(low.min()), float(high.max())),
        inner=(float(low.max()), float(high.min())),
        stray=stray_of(band.middle),
        bow=max(float(np.max(each, where=np.isfinite(each), initial=0.0)) for each in bows),
    )


def _nearest_places(case: Case, belt: Belt) -> dict[str, Clearance]:
    layout, band = belt_run(case, belt), driving_band(case, belt)
    if np.size(band.middle.length) > 1:
        band = band_as_written(layout, layout.path)
    low, high = belt_heights(layout)
    places = {}
    for group in grouped_parts(_still(case) if _sampled(case) else case, layout.plane):
        near = clearance(band, low[:1], high[:1], group.as_written())
        for row, name in enumerate(group.names):
            places[name] = Clearance(*(each[row] for each in near))
    return places


def _loose_gaps(case: Case, belt: Belt) -> dict[str, LooseGap]:
    plane = belt_run(case, belt).plane
    if not _sampled(case):
        return _loose_gaps_to(case, belt, grouped_parts(case, plane))
    gaps, near = _loose_gaps(_still(case), belt), _near(case, belt)
    at_rest = _gaps_at_rest(case, belt, _groups(case, plane, near.beside))
    flapping = _loose_gaps_to(case, belt, _groups(case, plane, near.struck))
    for name, gap in gaps.items():
        gaps[name] = LooseGap(
            at_rest.get(name, gap.at_rest),
            flapping[name].flapping if name in flapping else gap.flapping,
        )
    return gaps


def _gaps_at_rest(case: Case, belt: Belt, groups: Sequence[PartGroup]) -> dict[str, Array]:
    layout = belt_run(case, belt)
    gaps: dict[str, Array] = {}
    for group in groups:
        over = height_gap(*belt_heights(layout), group.outline)
        found = [plan_gap(band, group.outline) for band in loose_bands(case, belt)]
        rest = gap_in_space(where_it_touches(case, belt, found), over)
        gaps.update(zip(group.names, rest, strict=True))
    return gaps


def _loose_gaps_to(case: Case, belt: Belt, groups: Sequence[PartGroup]) -> dict[str, LooseGap]:
    layout, slack = belt_run(case, belt), loose_belt(case, belt).belt.slack
    gaps = {}
    for group in groups:
        over = height_gap(*belt_heights(layout), group.outline)
        found = [loose_plan(band, slack, group.outline) for band in loose_bands(case, belt)]
        rest, flapping = (
            gap_in_space(where_it_touches(case, belt, each), over)
            for each in ([one.at_rest for one in found], [one.flapping for one in found])
        )
        for row, name in enumerate(group.names):
            gaps[name] = LooseGap(rest[row], flapping[row])
    return gaps


def where_it_touches(case: Case, belt: Belt, found: Sequence[Array]) -> Array:
    """The gap of the band that each sample has: with the idler where the belt still touches it."""
    if len(found) == 1:
        return found[0]
    return np.where(loose_belt(case, belt).belt.touches, found[0], found[1])


def loose_bands(case: Case, belt: Belt) -> tuple[Band, ...]:
    """The bands that the loose belt has, with the idler, without it, or both among the samples."""
    return case.once(("loose_bands", belt.name), lambda: _worked_loose_bands(case, belt))


def _worked_loose_bands(case: Case, belt: Belt) -> tuple[Band, ...]:
    layout = belt_run(case, belt)
    return tuple(_band(layout, path) for path in _loose_paths(case, belt))


def _loose_paths(case: Case, belt: Belt) -> Sequence[BeltPath]:
    loose = loose_belt(case, belt)
    if loose.without is None or np.all(loose.belt.touches):
        return [loose.with_]
    return [loose.with_, loose.without] if np.any(loose.belt.touches) else [loose.without]


def _own_gap(band: Band, case: Case, belt: Belt) -> tuple[OwnGap, ...]:
    rims = [wheel.rim for wheel in belt_run(case, belt).wheels]
    return (*span_gaps(band), *passing_gaps(band, rims))
