"""What the review says of how near a plate comes to the belts and their wheels."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.build.plate import Plate
from beltwright.quantity import Kind
from beltwright.review.belt.clearance import wanted_gap
from beltwright.review.belt.clearance_findings import RUB_CAUTION, range_left_out
from beltwright.review.belt.layout import belt_layout, belt_run
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal
from beltwright.review.plate.room import (
    PlateRoom,
    nearest_spot,
    plane_of,
    plate_room,
)


def questions(case: Case, plate: Plate) -> Iterator[Ask]:
    """The questions about a placed plate: one for each belt in its plane."""
    plane = plane_of(case, plate)
    for belt in case.build.belt if plane else ():
        if _runs_in(case, belt) == plane:
            yield Ask(
                f"plate.{plate.name}.room.{belt.name}",
                f"Room between the {plate.name} and the {belt.name}",
                partial(_room, case, plate, belt),
            )


def _runs_in(case: Case, belt: Belt) -> str:
    try:
        return belt_run(case, belt).plane
    except NotKnownError:
        return ""


def _room(case: Case, plate: Plate, belt: Belt) -> Draft:
    layout, found, wanted = (
        belt_layout(case, belt),
        plate_room(case, plate, belt),
        wanted_gap(case, plate),
    )
    if found.over is None and falls_short(found.plan, wanted):
        raise _height_missing(plate, layout.plane)
    gap = found.gap
    show = partial(case.units.show, kind=Kind.LENGTH)
    missing = nominal(wanted) - nominal(gap)
    near = nearest_spot(case, plate, belt)
    return Draft(
        kind=Kind.LENGTH,
        value=gap,
        below_zero="overlap of",
        at_least=wanted,
        worst=Verdict.STOP if nominal(gap) <= 0.0 else Verdict.MARGINAL,
        stops=np.atleast_1d(gap <= 0.0),
        meaning=_meaning(case, plate, belt, found),
        remedy=_remedy(case, plate, missing) if falls_short(gap, wanted) else "",
        formula="gap = √(gap in the plane² + gap across it²)",
        working=f"in the plane {_apart(case, nominal(found.plan))}, across it "
        + ("not known" if found.over is None else show(nominal(found.over))),
        source="plane geometry, exact; bow of slack spans in drive 1/64 of the span: common "
        "practice; a wheel as thick as its belt: assumed",
        leaves_out="nuts, bolt heads and hubs that reach further than plate and belt"
        + range_left_out(case, found.gap),
        caution=RUB_CAUTION if missing > 0.0 else "",
        place=layout.on_machine(near.part_x, near.part_y, layout.wheels[0].height),
    )


def _height_missing(plate: Plate, plane: str) -> NotKnownError:
    why = f"Seen along the shafts, belt and {plate.name} overlap or almost do."
    if plane == "upright":
        return NotKnownError(
            f"plate.{plate.name}.height",
            "Measure from the ground to the middle of the plate's thickness and write it, for "
            'example height = "297 mm".',
            why,
        )
    return NotKnownError(
        f"plate.{plate.name}.hole",
        "Measure from the middle of the plate's thickness to the middle of the belt and write it "
        'at the hole that carries the wheel, for example stand_off = "25 mm".',
        why,
    )


def _meaning(case: Case, plate: Plate, belt: Belt, found: PlateRoom) -> str:
    gap, what = nominal(found.gap), found.beside
    runs = f"The {what} {'runs' if what == belt.name else 'turns'}"
    if gap <= 0.0:
        return f"{runs} into the {plate.name}."
    shown = case.units.show(gap, Kind.LENGTH)
    if nominal(found.plan) > 0.0:
        return f"{runs} past the edge of the {plate.name} with {shown} of room."
    return f"{runs} over or under the {plate.name} with {shown} of room."


def _remedy(case: Case, plate: Plate, missing: float) -> str:
    if missing <= 0.0:
        return "Measure the gap with the belt on, or give it more room."
    by = case.units.show(missing, Kind.LENGTH)
    return (
        f"Cut the corner of the {plate.name} back by {by} there, or set it {by} further from the "
        "belt's plane with longer spacers."
    )


def _apart(case: Case, plan: float) -> str:
    return case.units.show(plan, Kind.LENGTH) if plan > 0.0 else "overlapping"
