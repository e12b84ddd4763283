"""What lies beside the belts: plates, and the rods of linkages with their levers."""

from collections.abc import Iterable, Iterator, Sequence
from math import inf

from beltwright.build.linkage import Linkage
from beltwright.build.plate import Plate
from beltwright.drawing.path import Point
from beltwright.physics.linkage.swing import rod_end
from beltwright.review.belt.layout import Layout
from beltwright.review.belt.obstacles import Plane
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal
from beltwright.views.layout.drawn_layout import DrawnHandle, DrawnHole, DrawnPlate, DrawnRod

ROUND = 0.06
"""Rods and levers are cut off as far beyond all else that is drawn [m]."""

Box = tuple[Point, Point]
"""Lower left and upper right corner [m]."""

Segment = tuple[Point, Point]


def drawn_plates(case: Case, plane: Plane, layouts: Sequence[Layout]) -> Iterator[DrawnPlate]:
    """The plates whose place in a plane is known."""
    from beltwright.review.plate.room import plane_of

    for plate in case.build.plate:
        try:
            if plane_of(case, plate) == plane:
                yield _plate(case, plate, layouts)
        except NotKnownError:
            continue


def _plate(case: Case, plate: Plate, layouts: Sequence[Layout]) -> DrawnPlate:
    from beltwright.review.plate.plates import drilled, on_machine
    from beltwright.review.plate.room import plate_outline

    outline = plate_outline(case, plate)
    assert plate.at is not None
    x, y = plate.at
    holes = []
    for hole in drilled(case, plate):
        radius, cut = nominal(hole.cut.radius), hole.cut
        ends = [(cut.start_x, cut.start_y), (cut.end_x, cut.end_y)]
        for end in ends[: 2 if hole.hole.slot else 1]:
            at_x, at_y = on_machine(case, plate, end)
            holes.append(DrawnHole((nominal(at_x), nominal(at_y)), radius))
    return DrawnPlate(
        name=plate.name,
        corners=tuple(
            (nominal(along), nominal(up)) for along, up in zip(outline.x, outline.y, strict=True)
        ),
        holes=tuple(holes),
        handles=(
            DrawnHandle(f"{plate.name}, lower left corner", (x.value, y.value), (x.key, y.key)),
        ),
        hidden=not _above_all(plate, layouts),
    )


def _above_all(plate: Plate, layouts: Sequence[Layout]) -> bool:
    """Whether a plate lies above every belt, so that it is seen; where not known it does not."""
    heights = _heights(layouts)
    return plate.height is not None and bool(heights) and plate.height.value > max(heights)


def _heights(layouts: Sequence[Layout]) -> list[float]:
    """The heights of the wheels, as far as they are written [m]."""
    return [nominal(w.height) for one in layouts for w in one.wheels if w.height is not None]


def drawn_rods(
    case: Case, plane: Plane, layouts: Sequence[Layout], beside: Iterable[Point]
) -> Iterator[DrawnRod]:
    """The linkages in neutral, as far as they come near to what else is drawn."""
    box, lowest = _round(beside), min(_heights(layouts), default=-inf)
    for linkage in case.build.linkage:
        try:
            places = _neutral(case, linkage)
        except NotKnownError:
            continue
        start, end, lever, arm = (_seen(place, plane) for place in places)
        lines = ((start, end), (lever, start), (arm, end))
        seen = tuple(part for part in (_within(line, box) for line in lines) if part is not None)
        if seen:
            under = plane == "upright" and max(place[2] for place in places) < lowest
            joints = sorted({at for at in (start, end, lever, arm) if _holds(box, at)})
            yield DrawnRod(linkage.name, seen, tuple(joints), hidden=under)


def _neutral(case: Case, linkage: Linkage) -> list[tuple[float, float, float]]:
    """Both ends of the rod, the pivot of the lever and that of the arm, all in neutral [m]."""
    from beltwright.review.linkage.motion import (
        arm_swing,
        lever_neutral,
        lever_swing,
        neutral_of_arm,
    )

    lever, arm = lever_swing(case, linkage), arm_swing(case, linkage)
    ends = (
        rod_end(lever, lever_neutral(case, linkage)),
        rod_end(arm, neutral_of_arm(case, linkage)),
    )
    return [(nominal(x), nominal(y), nominal(z)) for x, y, z in (*ends, lever.pivot, arm.pivot)]


def _seen(place: tuple[float, float, float], plane: Plane) -> Point:
    """A place on the machine as it lies in a plane."""
    x, y, z = place
    return x, y if plane == "upright" else z


def _round(points: Iterable[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return (min(xs) - ROUND, min(ys) - ROUND), (max(xs) + ROUND, max(ys) + ROUND)


def _holds(box: Box, point: Point) -> bool:
    (left, low), (right, high) = box
    return left <= point[0] <= right and low <= point[1] <= high


def _within(line: Segment, box: Box) -> Segment | None:
    """The part of a line that lies in a box, None where none does (Liang and Barsky, 1984)."""
    (x0, y0), (x1, y1) = line
    enters, leaves = 0.0, 1.0
    for begin, step, low, high in (
        (x0, x1 - x0, box[0][0], box[1][0]),
        (y0, y1 - y0, box[0][1], box[1][1]),
    ):
        if step == 0.0:
            if not low <= begin <= high:
                return None
            continue
        one, other = (low - begin) / step, (high - begin) / step
        enters, leaves = max(enters, min(one, other)), min(leaves, max(one, other))
    if enters >= leaves:
        return None
    first, last = ((x0 + share * (x1 - x0), y0 + share * (y1 - y0)) for share in (enters, leaves))
    return first, last
