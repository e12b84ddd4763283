"""How near the pulleys and idlers of a belt stand to the parts round them, and what that means."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.run import Run
from beltwright.physics.belt.wheel_gap import wheel_gap
from beltwright.physics.outline import gap_in_space, height_gap
from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout, belt_layout, belt_run, loose_belt
from beltwright.review.belt.near_parts import off_place, part_stray
from beltwright.review.belt.obstacles import grouped_parts, outline_of
from beltwright.review.belt.wheels import place_missing
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal

WHEEL_GAP = 0.003
"""Gap that a turning rim keeps from what stands still [m] (assumed)."""

STRIKE_CAUTION = "A rim that strikes something bursts, or throws the belt. Turn it by hand first."


Gaps = dict[tuple[int, str], Array]
"""The gap [m] of each wheel, by its place in the run, to each part, by its name."""


class WheelRoom(NamedTuple):
    """How near one wheel comes to one part in the worse of both clutch positions [m]."""

    wheel: str
    part: str
    gap: Array


def wheel_room(case: Case, belt: Belt) -> tuple[WheelRoom, ...]:
    """Every wheel of a belt against every part."""
    return case.once(("wheel_room", belt.name), lambda: tuple(_rooms(case, belt)))


def questions(case: Case, belt: Belt) -> Iterator[Ask]:
    """The question about the wheels of one belt."""
    if case.build.obstacle:
        yield Ask(
            f"clearance.{belt.name}.wheels",
            f"Room round the pulleys and idlers of the {belt.name}",
            partial(_wheels, case, belt),
        )


def _rooms(case: Case, belt: Belt) -> Iterator[WheelRoom]:
    """The gaps as written; those that may be the narrowest in some sample, in every one."""
    layout = belt_run(case, belt)
    if case.samples and not case.replaced:
        still = case.under(case.build, 0)
        gaps = _gaps(still, belt_run(still, belt))
        gaps |= {pair: _gap(case, layout, *pair) for pair in _narrowest(case, layout, gaps)}
    else:
        gaps = _gaps(case, layout)
    for (place, part), gap in gaps.items():
        yield WheelRoom(layout.wheels[place].name, part, gap)


def _narrowest(case: Case, layout: Layout, gaps: Gaps) -> list[tuple[int, str]]:
    """The wheels and parts that may be the nearest in some sample."""
    strays = [_stray(case, layout, place) for place in range(len(layout.wheels))]
    stray_of = {part.name: part_stray(part) for part in case.build.obstacle}
    off = {(place, part): strays[place] + stray_of[part] for place, part in gaps}
    most = min(nominal(gap) + off[pair] for pair, gap in gaps.items())
    return [pair for pair, gap in gaps.items() if not nominal(gap) - off[pair] > most]


def _stray(case: Case, layout: Layout, place: int) -> float:
    """How far any point of a wheel strays from where it is as written, heights included [m]."""
    wheel, stray = layout.wheels[place], 0.0
    for run in _runs(case, layout, place):
        stray = max(stray, off_place(run.x[place], run.y[place]))
    height = 0.0 if wheel.height is None else off_place(wheel.height, 0.0)
    return stray + off_place(wheel.rim, 0.0) + height


def _runs(case: Case, layout: Layout, place: int) -> list[Run]:
    """The runs in which a wheel stands somewhere else: clutch up and, on an arm, down."""
    if layout.swinging == place:
        return [layout.path.run, loose_belt(case, layout.belt).with_.run]
    return [layout.path.run]


def _gap(case: Case, layout: Layout, place: int, part: str) -> Array:
    """How near one wheel comes to one part."""
    written = next(each for each in case.build.obstacle if each.name == part)
    outline, rim = outline_of(case, layout.plane, written), layout.wheels[place].rim
    gaps = [
        wheel_gap(run.x[place], run.y[place], rim, outline) for run in _runs(case, layout, place)
    ]
    nearest = gaps[0] if len(gaps) == 1 else np.minimum(gaps[0], gaps[1])
    return gap_in_space(nearest, height_gap(*layout.wheel_heights(place), outline))


def _gaps(case: Case, layout: Layout) -> Gaps:
    """How near every wheel comes to every part: wheels and parts side by side, in one go."""
    stands = [
        (place, run) for place in range(len(layout.wheels)) for run in _runs(case, layout, place)
    ]
    x = _beside([run.x[place] for place, run in stands])
    y = _beside([run.y[place] for place, run in stands])
    rim = _beside([layout.wheels[place].rim for place, _ in stands])
    low = _beside([layout.wheel_heights(place)[0] for place, _ in stands])
    high = _beside([layout.wheel_heights(place)[1] for place, _ in stands])
    found: Gaps = {}
    for group in grouped_parts(case, layout.plane):
        plan, over = wheel_gap(x, y, rim, group.outline), height_gap(low, high, group.outline)
        for (place, _), row in zip(stands, gap_in_space(plan, over), strict=True):
            for part, gap in zip(group.names, row, strict=True):
                found[place, part] = np.minimum(gap, found.get((place, part), np.inf))
    return found


def _beside(values: Sequence[ArrayLike]) -> Array:
    """One value a wheel along the first axis, with room for the parts along the second."""
    return np.stack(np.broadcast_arrays(*(np.atleast_1d(value) for value in values)))[:, np.newaxis]


def _wheels(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    rooms = wheel_room(case, belt)
    smallest = np.full(1, np.inf)
    for room in rooms:
        smallest = np.minimum(smallest, room.gap)
    smallest = layout.where_it_runs(smallest)
    nearest = min(rooms, key=lambda room: nominal(room.gap))
    wheel = next(one for one in layout.wheels if one.name == nearest.wheel)
    if layout.plane == "cross" and wheel.height is None and falls_short(smallest, WHEEL_GAP):
        why = f"Seen from the right the {nearest.wheel} and the {nearest.part} overlap."
        raise place_missing(wheel, "cross", why)
    show = partial(case.units.show, kind=Kind.LENGTH)
    gap = nominal(smallest)
    return Draft(
        kind=Kind.LENGTH,
        value=smallest,
        below_zero="overlap of",
        at_least=WHEEL_GAP,
        worst=Verdict.STOP if gap <= 0.0 else Verdict.MARGINAL,
        stops=np.atleast_1d(smallest <= 0.0),
        meaning=f"The rim of the {nearest.wheel} stands {show(gap)} from the {nearest.part}."
        if gap > 0.0
        else f"The {nearest.wheel} and the {nearest.part} are in the same place.",
        remedy=f"Move the {nearest.wheel} or the {nearest.part}."
        if falls_short(smallest, WHEEL_GAP)
        else "",
        formula="gap = distance of the centre from the part − outside radius",
        working=f"narrowest of {len(rooms)} gaps: {show(gap)}",
        source="plane geometry, exact; 3 mm: assumed, no source",
        leaves_out="flanges, hubs and bolts that reach past the rim; play of the arm",
        caution=STRIKE_CAUTION,
    )
