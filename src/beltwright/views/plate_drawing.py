"""A plate at true size: outline, holes with their centre lines, and what each hole is."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

from beltwright.build.plate import Plate
from beltwright.drawing.dimensions import LinearDimension, RadialDimension
from beltwright.drawing.extent import bounds
from beltwright.drawing.free_place import Occupied, freest
from beltwright.drawing.ink import Colour
from beltwright.drawing.line_kinds import FINE_PEN, LineKind
from beltwright.drawing.path import Arc, Path, Point, Straight, direction, distance
from beltwright.drawing.shapes import (
    CentreMark,
    Circle,
    Curve,
    Line,
    Polygon,
    Scene,
    Shape,
    Text,
    Together,
)
from beltwright.drawing.view import View
from beltwright.physics.arrays import ArrayLike
from beltwright.review.case import Case
from beltwright.review.nominal import nominal
from beltwright.review.plate.plates import Drilled, corners_of, drilled
from beltwright.tables.drills import nearest_drill
from beltwright.tables.threads import thread
from beltwright.views.hole_words import marked

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # no I and no O
_TURNS = [i * pi / 6.0 for i in (1, 2, 10, 11, 4, 5, 7, 8, 0, 3, 6, 9)]
_REACHES = (5.0, 9.0, 15.0, 22.0)
_DIMENSION_ROOM = 9.0  # overall dimensions stand off by this much [mm]
_ROOM = 30.0  # room for lettering round a plate [mm]


def plate_scene(case: Case, plate: Plate) -> Scene:
    """A plate as built, in its own directions, with its lower left corner at the origin."""
    corners = [_at(corner) for corner in corners_of(case, plate)]
    holes = drilled(case, plate)
    drawn: list[Shape] = [
        Together([Polygon(corners, title=plate.name)], id="outline"),
        Together([_hole(each) for each in holes], id="holes"),
        Together([mark for each in holes for mark in _marks(each)], id="centres"),
        Together(list(_overall(case, corners)), id="dimensions"),
    ]
    title = f"{plate.name}, true size"
    return Scene(
        (*drawn, Together(_names(case, plate, drawn, corners), id="names")),
        title,
        f"{plate.name}: {', '.join(hole_line(case, each) for each in holes)}",
    )


def hole_letters(count: int) -> list[str]:
    """The letters of the holes of a plate, as its drawing and its list of holes have them."""
    return [_LETTERS[i % len(_LETTERS)] * (1 + i // len(_LETTERS)) for i in range(count)]


def hole_line(case: Case, drilled_: Drilled) -> str:
    """A hole in a few words: "pivot ⌀10.5 mm", "M8 tapped, drill 6.8 mm"."""
    return f"{drilled_.hole.name} {hole_size(case, drilled_)}"


def hole_size(case: Case, drilled_: Drilled) -> str:
    """How a hole is made: its drill, its thread, the length of its slot."""
    cut, hole = drilled_.cut, drilled_.hole
    if hole.thread is not None:
        size = thread(hole.thread)
        drill = nearest_drill(size.major - size.pitch, size.metric)
        return f"{size.name}, drill {drill.name}"
    length = distance(*_ends(drilled_))
    wide = marked(case, 2.0 * nominal(cut.radius))
    return f"slot {wide} wide, centres {marked(case, length)}" if hole.slot else f"⌀{wide}"


def hole_place(drilled_: Drilled) -> Point:
    """Where a hole begins on its plate [m]."""
    return _ends(drilled_)[0]


def _ends(drilled_: Drilled) -> tuple[Point, Point]:
    cut = drilled_.cut
    return _at((cut.start_x, cut.start_y)), _at((cut.end_x, cut.end_y))


def _at(point: tuple[ArrayLike, ArrayLike]) -> Point:
    x, y = point
    return nominal(x), nominal(y)


def _hole(drilled_: Drilled) -> Shape:
    """A circle, or the closed outline of a slot."""
    (start, end), radius = _ends(drilled_), nominal(drilled_.cut.radius)
    if not drilled_.hole.slot:
        return Circle(start, radius, title=drilled_.hole.name)
    along = direction(start, end)
    far = Arc(end, radius, along - pi / 2.0, pi)
    near = Arc(start, radius, along + pi / 2.0, pi)
    line = Path(
        (far, Straight(far.end, near.start), near, Straight(near.end, far.start)), closed=True
    )
    return Curve(line, title=drilled_.hole.name)


def _marks(drilled_: Drilled) -> Iterator[Shape]:
    """A cross to punch on every centre, the chain line of a slot between its two."""
    start, end = _ends(drilled_)
    radius = nominal(drilled_.cut.radius)
    yield CentreMark(start, radius)
    if drilled_.hole.slot:
        yield CentreMark(end, radius)
        yield Line(start, end, kind=LineKind.CENTRE)


def _overall(case: Case, corners: list[Point]) -> Iterator[Shape]:
    """Width below and height on the left, over all."""
    xs, ys = zip(*corners, strict=True)
    low, left, right, high = min(ys), min(xs), max(xs), max(ys)
    wide, tall = marked(case, right - left), marked(case, high - low)
    yield LinearDimension((left, low), (right, low), wide, -_DIMENSION_ROOM, "x")
    yield LinearDimension((left, low), (left, high), tall, _DIMENSION_ROOM, "y")


def _names(case: Case, plate: Plate, drawn: list[Shape], corners: list[Point]) -> list[Shape]:
    """Letter and size of every hole, and what the plate is, where there is room."""
    view = View(1.0)
    ink = [shape.inked(view, FINE_PEN) for shape in drawn]
    (x0, y0), (x1, y1) = bounds(ink)
    occupied = Occupied(((x0 - _ROOM, y0 - _ROOM), (x1 + _ROOM, y1 + _ROOM)), ink)
    holes = drilled(case, plate)
    names: list[Shape] = [
        freest(list(_labels(case, each, letter)), view, FINE_PEN, occupied)
        for each, letter in zip(holes, hole_letters(len(holes)), strict=True)
    ]
    left, low = min(x for x, _ in corners), min(y for _, y in corners)
    says = ", ".join(part for part in (plate.name, _stock(case, plate)) if part)
    below = low - (_DIMENSION_ROOM + 6.0) * 1e-3
    return [*names, Text((left, below), says, "start", colour=Colour.QUIET)]


def _labels(case: Case, drilled_: Drilled, letter: str) -> Iterator[Shape]:
    """Letter and size on a leader, nearest first, at any turn."""
    (x, y), radius = _ends(drilled_)[0], nominal(drilled_.cut.radius)
    for reach in _REACHES:
        for turn in _TURNS:
            yield RadialDimension(
                (x, y), radius, turn, f"{letter} {hole_size(case, drilled_)}", reach=reach
            )


def _stock(case: Case, plate: Plate) -> str:
    """What it is cut from."""
    thick = "" if plate.thickness is None else marked(case, plate.thickness.value)
    return " ".join(part for part in (thick, plate.material or "") if part)
