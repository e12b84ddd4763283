"""The belt drive as shapes: belts of true width, wheels, arms, parts in the way."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, sin

from beltwright.drawing.ink import Colour
from beltwright.drawing.line_kinds import LineKind
from beltwright.drawing.motion_arrows import RunningArrow, TurningArrow
from beltwright.drawing.path import Point, direction, distance
from beltwright.drawing.shapes import (
    Arc,
    Band,
    CentreMark,
    Circle,
    Curve,
    Line,
    Polygon,
    Polyline,
    Shape,
    Together,
)
from beltwright.physics.angle import within_half_turn
from beltwright.views.layout.drawn_layout import (
    DrawnArm,
    DrawnBelt,
    DrawnGuard,
    DrawnLayout,
    DrawnPart,
    DrawnPlate,
    DrawnRod,
    DrawnWheel,
)

PIVOT_RADIUS = 0.005
"""A pivot bolt is drawn as one of 10 mm [m]."""

JOINT_RADIUS = 0.004
"""A ball joint is drawn as one of 8 mm [m]."""

_COILS = 9


def layout_shapes(layout: DrawnLayout) -> list[Together]:
    """The drive from the bottom up, without any lettering."""
    return [
        Together([part_shape(part) for part in layout.parts], id="obstacles"),
        Together(
            [
                *(_slot(start, end) for start, end in layout.slots),
                *(shape for belt in layout.belts for shape in _released_belt(belt)),
                *(_released_wheel(wheel) for wheel in layout.released_wheels),
                *(shape for arm in layout.arms for shape in _swing(arm)),
            ],
            id="released",
        ),
        Together([wheel_shape(wheel) for wheel in layout.wheels], id="pulleys"),
        Together(_beside(layout, hidden=True), id="beneath"),
        Together([guard_shape(guard) for guard in layout.guards], id="guards"),
        Together(
            [
                *(shape for belt in layout.belts for shape in _driving_belt(belt)),
                *(shape for arm in layout.arms for shape in _arm(arm)),
            ],
            id="driving",
        ),
        Together(_beside(layout, hidden=False), id="above"),
    ]


def _beside(layout: DrawnLayout, hidden: bool) -> list[Shape]:
    """Plates and rods under the belts, or those over them."""
    return [
        *(plate_shape(plate) for plate in layout.plates if plate.hidden is hidden),
        *(rod_shape(rod) for rod in layout.rods if rod.hidden is hidden),
    ]


def wheel_shape(wheel: DrawnWheel) -> Together:
    """Rim, bore, centre lines and the arrow of turning of a pulley or idler."""
    shapes: list[Shape] = [
        Circle(wheel.at, wheel.rim, filling=Colour.PAPER),
        Circle(wheel.at, wheel.shaft, filling=Colour.TINT),
        CentreMark(wheel.at, wheel.rim),
    ]
    if wheel.turns:
        shapes.append(TurningArrow(wheel.at, wheel.rim, wheel.turns))
    data = [("name", wheel.name), ("key", f"{wheel.owner}.{wheel.name}")]
    if wheel.drag:
        data.append(("drag", " ".join(wheel.drag)))
    return Together(shapes, title=f"{wheel.name}, {wheel.size}", data=tuple(data))


def part_shape(part: DrawnPart) -> Polygon:
    """The outline of something in the way."""
    return Polygon(
        part.corners,
        filling=Colour.TINT,
        title=part.name,
        data=(("name", part.name), ("key", f"obstacle.{part.name}")),
    )


def guard_shape(guard: DrawnGuard) -> Curve:
    """The strip of a guard or keeper in its true thickness, dashed where a wheel hides it."""
    return Curve(
        guard.outline,
        kind=LineKind.HIDDEN if guard.hidden else LineKind.VISIBLE,
        filling=None if guard.hidden else Colour.TINT,
        title=guard.title,
        data=(("name", guard.name), ("key", f"guard.{guard.name}")),
    )


def plate_shape(plate: DrawnPlate) -> Together:
    """A plate and its holes: dashed where it lies under the belts, thin where it lies over them."""
    kind = LineKind.HIDDEN if plate.hidden else LineKind.THIN
    return Together(
        [
            Polygon(plate.corners, kind=kind),
            *(Circle(hole.at, hole.radius, kind=LineKind.THIN) for hole in plate.holes),
        ],
        title=plate.name,
        data=(("name", plate.name), ("key", f"plate.{plate.name}")),
    )


def rod_shape(rod: DrawnRod) -> Together:
    """The rod of a linkage, its lever and its arm, in neutral; dashed under the belts."""
    kind = LineKind.HIDDEN if rod.hidden else LineKind.THIN
    return Together(
        [
            *(Line(*ends, kind=kind) for ends in rod.lines),
            *(
                Circle(joint, JOINT_RADIUS, kind=LineKind.THIN, filling=Colour.PAPER)
                for joint in rod.joints
            ),
        ],
        title=f"{rod.name}, in neutral",
        data=(("name", rod.name), ("key", f"linkage.{rod.name}")),
    )


def part_handles(part: DrawnPart | DrawnPlate, mm: float) -> Iterator[Shape]:
    """A small open square wherever a part can be drawn out; `mm` is one of paper [m]."""
    half = 0.8 * mm
    for handle in part.handles:
        x, y = handle.at
        yield Polygon(
            [
                (x - half, y - half),
                (x + half, y - half),
                (x + half, y + half),
                (x - half, y + half),
            ],
            kind=LineKind.THIN,
            filling=Colour.PAPER,
            title=handle.name,
            data=(("name", handle.name), ("drag", " ".join(handle.drag))),
        )


def _driving_belt(belt: DrawnBelt) -> Iterator[Shape]:
    if belt.driving is None:
        return
    yield Band(
        belt.driving,
        belt.left,
        belt.right,
        title=belt.title,
        data=(("name", belt.name), ("key", f"belt.{belt.name}")),
    )
    yield Curve(belt.driving, kind=LineKind.CENTRE)
    for strand in belt.strands:
        yield RunningArrow(strand.at(0.5), strand.heading)


def _released_belt(belt: DrawnBelt) -> Iterator[Shape]:
    if belt.released is not None:
        yield Curve(belt.released, kind=LineKind.PHANTOM)


def _released_wheel(wheel: DrawnWheel) -> Shape:
    title = f"{wheel.name} with the clutch down"
    return Circle(wheel.at, wheel.rim, kind=LineKind.PHANTOM, title=title)


def _arm(arm: DrawnArm) -> Iterator[Shape]:
    """Arm, spring and pivot; the pivot can be dragged."""
    if arm.driving is not None:
        yield Line(arm.pivot, arm.driving)
    if arm.hooks is not None:
        yield Polyline(_coils(*arm.hooks), kind=LineKind.THIN, title=f"spring of the {arm.name}")
    yield Together(
        [
            Circle(arm.pivot, PIVOT_RADIUS, filling=Colour.PAPER),
            CentreMark(arm.pivot, PIVOT_RADIUS),
        ],
        title=f"pivot of the {arm.name}",
        data=(
            ("name", f"pivot of the {arm.name}"),
            ("key", f"idler.{arm.name}.arm.pivot"),
            ("drag", " ".join(arm.drag)),
        ),
    )


def _swing(arm: DrawnArm) -> Iterator[Shape]:
    """The arm with the clutch down, and the arc between its two positions."""
    yield Line(arm.pivot, arm.released, kind=LineKind.PHANTOM)
    if arm.driving is None:
        return
    begin, end = (direction(arm.pivot, place) for place in (arm.released, arm.driving))
    sweep = float(within_half_turn(end - begin))
    length = distance(arm.pivot, arm.released)
    yield Arc(arm.pivot, length, begin, sweep, kind=LineKind.PHANTOM)


def _coils(start: Point, end: Point) -> list[Point]:
    """A zigzag between two hooks, as springs are drawn in short (ISO 2162-1)."""
    along = direction(start, end)
    length = distance(start, end)
    half = min(0.008, length / 6.0)
    points = [start]
    for coil in range(_COILS + 1):
        share = 0.2 + 0.6 * coil / _COILS
        side = 0.0 if coil in (0, _COILS) else half if coil % 2 else -half
        points.append(
            (
                start[0] + share * length * cos(along) - side * sin(along),
                start[1] + share * length * sin(along) + side * cos(along),
            )
        )
    return [*points, end]


def _slot(start: Point, end: Point) -> Shape:
    return Line(start, end, kind=LineKind.PHANTOM, title="slot of the shaft")
