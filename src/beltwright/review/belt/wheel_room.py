"""How near the pulleys and idlers of a belt stand to the parts round them, and what that means."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.build.shop import Obstacle
from beltwright.physics.arrays import Array
from beltwright.physics.belt.run import Run
from beltwright.physics.belt.wheel_gap import wheel_gap
from beltwright.physics.outline import gap_in_space, height_gap
from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout, belt_layout, belt_run, loose_belt
from beltwright.review.belt.near_parts import off_place, part_stray
from beltwright.review.belt.obstacles import outline_of
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal

WHEEL_GAP = 0.003
"""Gap that a turning rim keeps from what stands still [m] (assumed)."""

STRIKE_CAUTION = "A rim that strikes something bursts, or throws the belt. Turn it by hand first."


@dataclass(frozen=True)
class WheelRoom:
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
    pairs = [(place, part) for place in range(len(layout.wheels)) for part in case.build.obstacle]
    if case.samples and not case.replaced:
        still = case.under(case.build, 0)
        stands = belt_run(still, belt)
        gaps = [_gap(still, stands, place, part) for place, part in pairs]
        strays = [_stray(case, layout, place) for place in range(len(layout.wheels))]
        off = [strays[place] + part_stray(part) for place, part in pairs]
        least = [nominal(gap) - more for gap, more in zip(gaps, off, strict=True)]
        most = min(nominal(gap) + more for gap, more in zip(gaps, off, strict=True))
        near = [not low > most for low in least]
    else:
        gaps, near = [np.zeros(1)] * len(pairs), [True] * len(pairs)
    for (place, part), gap, sampled in zip(pairs, gaps, near, strict=True):
        room = _gap(case, layout, place, part) if sampled else gap
        yield WheelRoom(layout.wheels[place].name, part.name, room)


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


def _gap(case: Case, layout: Layout, place: int, part: Obstacle) -> Array:
    outline, rim = outline_of(case, layout.plane, part), layout.wheels[place].rim
    gaps = [
        wheel_gap(run.x[place], run.y[place], rim, outline) for run in _runs(case, layout, place)
    ]
    nearest = gaps[0] if len(gaps) == 1 else np.minimum(gaps[0], gaps[1])
    return gap_in_space(nearest, height_gap(*layout.wheel_heights(place), outline))


def _wheels(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    rooms = wheel_room(case, belt)
    smallest = np.full(1, np.inf)
    for room in rooms:
        smallest = np.minimum(smallest, room.gap)
    smallest = layout.where_it_runs(smallest)
    nearest = min(rooms, key=lambda room: nominal(room.gap))
    show = partial(case.units.show, kind=Kind.LENGTH)
    gap = nominal(smallest)
    return Draft(
        kind=Kind.LENGTH,
        value=smallest,
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
