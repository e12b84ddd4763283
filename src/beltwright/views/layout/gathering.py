"""From the numbers of the review to what there is to draw, plane by plane."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, sin
from typing import Literal

import numpy as np

from beltwright.build.driveline import Idler, Pulley
from beltwright.build.driveline import Shaft as ShaftTable
from beltwright.build.fields import Point as WrittenPoint
from beltwright.build.shop import Obstacle
from beltwright.drawing.path import Path, Point
from beltwright.quantity import Kind
from beltwright.review.belt.clearance import nearest_place
from beltwright.review.belt.layout import Layout, belt_run, loose_belt
from beltwright.review.belt.obstacles import outline_of
from beltwright.review.belt.wheels import BeltWheel
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal
from beltwright.views.layout.drawn_belt import (
    drawable,
    pitch_line,
    span_ends,
    wheel_centre,
)
from beltwright.views.layout.drawn_layout import (
    Drag,
    DrawnArm,
    DrawnBelt,
    DrawnGap,
    DrawnGuard,
    DrawnHandle,
    DrawnLayout,
    DrawnPart,
    DrawnPlate,
    DrawnRod,
    DrawnStrand,
    DrawnWheel,
)
from beltwright.views.plan_state import length_figure

IDLER_BOLT = 0.005
"""Radius at which the bolt of an idler, or a shaft of unknown diameter, is drawn [m]."""

NARROW, NEAR = 0.025, 0.06
"""Every gap narrower than the first is marked on the drawing, and the nearest one within the
second [m]."""

BEYOND = 0.05
"""How far beyond the wheels a part is drawn whose height is not written [m]."""

Plane = Literal["upright", "cross"]
SEEN_FROM: dict[Plane, Literal["above", "the right"]] = {"upright": "above", "cross": "the right"}


def drawn_layouts(case: Case) -> list[DrawnLayout]:
    """One layout for each plane in which belts run, the one seen from above first.

    A belt that cannot run as the build is written leaves its wheels on the drawing without it; one
    whose wheels are not all described is left out.
    """
    layouts = list(runs(case))
    planes: list[Plane] = ["upright", "cross"]
    return [
        drawn_layout(case, plane, found)
        for plane in planes
        if (found := [layout for layout in layouts if layout.plane == plane])
    ]


def runs(case: Case) -> Iterator[Layout]:
    """The belts whose wheels are all described."""
    for belt in case.build.belt:
        try:
            yield belt_run(case, belt)
        except NotKnownError:
            continue


def drawn_layout(case: Case, plane: Plane, layouts: Sequence[Layout]) -> DrawnLayout:
    """What there is to draw of belts that run in one plane."""
    wheels = {
        wheel.name: _wheel(case, layout, place)
        for layout in layouts
        for place, wheel in enumerate(layout.wheels)
    }
    armed = [layout for layout in layouts if _arm_idler(layout) is not None]
    # a small wheel is not to be hidden by a large one above it
    in_order = tuple(sorted(wheels.values(), key=lambda wheel: -wheel.rim))
    parts = tuple(
        _part(one) if plane == "upright" else _part_from_the_side(case, one, in_order)
        for one in case.build.obstacle
    )
    plates = tuple(_plates(case, plane, layouts))
    return DrawnLayout(
        seen_from=SEEN_FROM[plane],
        wheels=in_order,
        arms=tuple(_arm(layout) for layout in armed),
        released_wheels=tuple(_released_wheel(case, layout) for layout in armed),
        belts=tuple(_belt(case, layout) for layout in sorted(layouts, key=_from_below)),
        parts=parts,
        gaps=tuple(gap for layout in layouts for gap in _gaps(case, layout)),
        slots=tuple(
            (_point(shaft.at), _point(shaft.slot_to))
            for shaft in case.build.shaft
            if shaft.slot_to is not None and shaft.axis == plane and shaft.name in _shafts(layouts)
        ),
        guards=tuple(_guards(case, layouts, in_order)) if case.build.guard else (),
        plates=plates,
        rods=tuple(_rods(case, plane, layouts, in_order, (*parts, *plates))),
    )


def _plates(case: Case, plane: Plane, layouts: Sequence[Layout]) -> Iterator[DrawnPlate]:
    """The plates in a plane, only looked for in a build that has some."""
    if case.build.plate:
        from beltwright.views.layout.beside import drawn_plates

        yield from drawn_plates(case, plane, layouts)


def _rods(
    case: Case,
    plane: Plane,
    layouts: Sequence[Layout],
    wheels: Sequence[DrawnWheel],
    parts: Sequence[DrawnPart | DrawnPlate],
) -> Iterator[DrawnRod]:
    """The rods beside wheels and parts, only looked for in a build that has some."""
    if case.build.linkage and wheels:
        from beltwright.views.layout.beside import drawn_rods

        sides = [(wheel.at, wheel.rim) for wheel in wheels]
        rims = [(x + way * rim, y + way * rim) for (x, y), rim in sides for way in (-1.0, 1.0)]
        beside = [*rims, *(at for part in parts for at in part.corners)]
        yield from drawn_rods(case, plane, layouts, beside)


def _guards(
    case: Case, layouts: Sequence[Layout], wheels: tuple[DrawnWheel, ...]
) -> Iterator[DrawnGuard]:
    """The guards of these belts that have a form."""
    from beltwright.review.guard.bent import bent
    from beltwright.views.layout.drawn_guard import drawn_guard

    for guard in case.build.guard:
        try:
            shape = bent(case, guard)
        except NotKnownError:
            continue
        if shape.layout.belt in [layout.belt for layout in layouts]:
            yield drawn_guard(case, shape, wheels)


def mean_height(layout: Layout) -> float | None:
    """Mean height of a belt's wheels [m], None where none is written."""
    heights = [nominal(wheel.height) for wheel in layout.wheels if wheel.height is not None]
    return sum(heights) / len(heights) if heights else None


def _from_below(layout: Layout) -> float:
    return mean_height(layout) or 0.0


def _shafts(layouts: Sequence[Layout]) -> set[str]:
    return {
        wheel.of.shaft
        for layout in layouts
        for wheel in layout.wheels
        if isinstance(wheel.of, Pulley)
    }


def _wheel(case: Case, layout: Layout, place: int) -> DrawnWheel:
    wheel = layout.wheels[place]
    shaft = _shaft(case, wheel)
    bore = IDLER_BOLT
    if shaft is not None and shaft.diameter is not None:
        bore = shaft.diameter.value / 2.0
    return DrawnWheel(
        name=wheel.name,
        owner="pulley" if isinstance(wheel.of, Pulley) else "idler",
        at=_centre(layout, place),
        rim=nominal(wheel.rim),
        shaft=bore,
        turns=layout.along * wheel.side * _sense(layout),
        size=case.units.show(2.0 * nominal(wheel.rim), Kind.LENGTH),
        drag=_wheel_drag(wheel, shaft),
    )


def _centre(layout: Layout, place: int) -> Point:
    """Where a wheel stands in drive; at the released end where it has no place in drive."""
    at = wheel_centre(layout.path, place)
    if np.isfinite(at).all():
        return at
    mover = layout.mover
    assert mover is not None
    motion = mover.mount.motion(mover.loose)
    return nominal(motion.x), nominal(motion.y)


def _sense(layout: Layout) -> int:
    """+1 where the order of the run goes round counter-clockwise."""
    return 1 if nominal(layout.path.sense) > 0.0 else -1


def _shaft(case: Case, wheel: BeltWheel) -> ShaftTable | None:
    if not isinstance(wheel.of, Pulley):
        return None
    name = wheel.of.shaft
    return next(shaft for shaft in case.build.shaft if shaft.name == name)


def _wheel_drag(wheel: BeltWheel, shaft: ShaftTable | None) -> Drag | None:
    if shaft is not None:
        return _drag(shaft.at)
    if isinstance(wheel.of, Idler) and wheel.of.at is not None:
        return _drag(wheel.of.at)
    return None


def _arm_idler(layout: Layout) -> Idler | None:
    """The idler that takes up the belt's length on an arm."""
    return layout.mover.of if layout.mover and isinstance(layout.mover.of, Idler) else None


def _arm(layout: Layout) -> DrawnArm:
    idler, mover = _arm_idler(layout), layout.mover
    assert idler is not None
    assert idler.arm is not None
    assert mover is not None
    loose = mover.mount.motion(mover.loose)
    angle = nominal(layout.position)
    driving = None
    if np.isfinite(angle):
        there = mover.mount.motion(layout.position)
        driving = (nominal(there.x), nominal(there.y))
    return DrawnArm(
        name=idler.name,
        pivot=_point(idler.arm.pivot),
        drag=_drag(idler.arm.pivot),
        driving=driving,
        released=(nominal(loose.x), nominal(loose.y)),
        hooks=None if driving is None else _hooks(idler, angle),
    )


def _hooks(idler: Idler, angle: float) -> tuple[Point, Point] | None:
    """Where the spring hooks into the arm and into the frame, in drive."""
    assert idler.arm is not None
    spring = idler.arm.spring
    if spring is None:
        return None
    (px, py), (along, left) = _point(idler.arm.pivot), _point(spring.arm_hook)
    on_arm = (
        px + along * cos(angle) - left * sin(angle),
        py + along * sin(angle) + left * cos(angle),
    )
    return on_arm, _point(spring.frame_hook)


def _released_wheel(case: Case, layout: Layout) -> DrawnWheel:
    assert layout.mover is not None
    wheel = layout.wheels[layout.mover.place]
    loose = layout.mover.mount.motion(layout.mover.loose)
    return DrawnWheel(
        name=wheel.name,
        owner="idler",
        at=(nominal(loose.x), nominal(loose.y)),
        rim=nominal(wheel.rim),
        shaft=IDLER_BOLT,
        turns=0,
        size=case.units.show(2.0 * nominal(wheel.rim), Kind.LENGTH),
    )


def _belt(case: Case, layout: Layout) -> DrawnBelt:
    """The belt in both clutch positions; its back is on the outer side of its loop."""
    path, own, belt = layout.path, layout.section, layout.belt
    runs = bool(layout.usable[0]) and drawable(path)
    above, below = own.belt_above_pitch, own.belt_below_pitch
    left, right = (below, above) if _sense(layout) > 0 else (above, below)
    return DrawnBelt(
        name=belt.name,
        title=f"{belt.name}, {belt.section}, {belt.length.text} {belt.length_is}",
        driving=pitch_line(path) if runs else None,
        released=_released_line(case, layout),
        left=left,
        right=right,
        strands=tuple(_strand(layout, place) for place in range(len(path.run))) if runs else (),
    )


def _released_line(case: Case, layout: Layout) -> Path | None:
    if _arm_idler(layout) is None:
        return None
    path = loose_belt(case, layout.belt).path()
    return pitch_line(path) if drawable(path) else None


def _strand(layout: Layout, place: int) -> DrawnStrand:
    """A span in the way that the belt travels."""
    ends = span_ends(layout.path, place)
    start, end = ends if layout.along >= 0 else ends[::-1]
    pull = layout.strand(place)
    return DrawnStrand(start, end, None if pull == "between" else pull)


def _part(part: Obstacle) -> DrawnPart:
    """A part from above."""
    corners = tuple(_point(corner) for corner in part.outline)
    handles = (
        DrawnHandle(f"{part.name}, corner {number}", at, _drag(written))
        for number, (at, written) in enumerate(zip(corners, part.outline, strict=True), start=1)
    )
    return DrawnPart(part.name, corners, tuple(handles))


def _part_from_the_side(case: Case, part: Obstacle, wheels: Sequence[DrawnWheel]) -> DrawnPart:
    """The box that a part fills; where a height is not written, a little beyond the wheels."""
    x = [nominal(value) for value in outline_of(case, "cross", part).x]
    known = [one.value for one in (part.from_height, part.to_height) if one is not None]
    low = min([*known, *(wheel.at[1] - wheel.rim - BEYOND for wheel in wheels)])
    high = max([*known, *(wheel.at[1] + wheel.rim + BEYOND for wheel in wheels)])
    bottom = low if part.from_height is None else part.from_height.value
    top = high if part.to_height is None else part.to_height.value
    near, far = min(x), max(x)
    handles = (
        DrawnHandle(f"{part.name}, {name}", ((near + far) / 2.0, at), ("", written.key))
        for name, written, at in (
            ("bottom", part.from_height, bottom),
            ("top", part.to_height, top),
        )
        if written is not None
    )
    return DrawnPart(
        part.name, ((near, bottom), (far, bottom), (far, top), (near, top)), tuple(handles)
    )


def _gaps(case: Case, layout: Layout) -> Iterator[DrawnGap]:
    """The nearest gap of a belt that runs, and every other one that is narrow."""
    if not layout.usable[0]:
        return
    found = [(part, nearest_place(case, layout.belt, part)) for part in case.build.obstacle]
    beside = [(part, near) for part, near in found if nominal(near.height_gap) == 0.0]
    beside.sort(key=lambda one: nominal(one[1].gap))
    for number, (part, near) in enumerate(beside):
        gap = nominal(near.plan_gap)
        if 0.0 < gap < (NEAR if number == 0 else NARROW):
            yield DrawnGap(
                (nominal(near.belt_x), nominal(near.belt_y)),
                (nominal(near.part_x), nominal(near.part_y)),
                length_figure(case.units, gap),
                f"clearance.{layout.belt.name}.{part.name}",
            )


def _point(written: WrittenPoint) -> Point:
    return written[0].value, written[1].value


def _drag(written: WrittenPoint) -> Drag:
    return written[0].key, written[1].key
