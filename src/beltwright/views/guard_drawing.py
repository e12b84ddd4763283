"""A guard at true size: the flat strip with its marks, and the form that it is bent to."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, degrees, pi, sin

from beltwright.drawing.dimensions import LinearDimension
from beltwright.drawing.ink import Anchor, Colour
from beltwright.drawing.line_kinds import LineKind
from beltwright.drawing.path import Point, direction
from beltwright.drawing.shapes import (
    Arc,
    CentreMark,
    Circle,
    Curve,
    Line,
    Polygon,
    Scene,
    Shape,
    Text,
)
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.guard.bent import Bent, strip_width
from beltwright.review.guard.holes import holes
from beltwright.review.nominal import nominal
from beltwright.views.layout.drawn_guard import bend_points, strip_path

MM = 0.001
"""The drawings are at true size, so that a millimetre of paper is one of metal [m]."""

_OVERRUN = 3.0 * MM  # a mark runs past both edges of the strip
_SMALL = 2.5  # height of lettering [mm]


def mark_places(case: Case, shape: Bent) -> Iterator[tuple[float, float, float]]:
    """Every bend: from the first end of the strip at hand [m], its angle [rad], its length [m]."""
    start = holes(case, shape).start
    for mark, angle, allowance in zip(
        shape.flat.marks, shape.angles, shape.flat.allowances, strict=True
    ):
        yield start + nominal(mark), float(angle), nominal(allowance)


def flat_scene(case: Case, shape: Bent) -> Scene:
    """The strip laid flat, the face towards the belt up, its first end at the left."""
    start, length = holes(case, shape).start, nominal(shape.flat.length)
    half = 0.5 * nominal(strip_width(case, shape.guard))
    shapes: list[Shape] = [
        Polygon([(start, -half), (start + length, -half), (start + length, half), (start, half)]),
        *_strip_at_hand(case, shape, half),
        *_holes(case, shape),
    ]
    for number, (place, angle, _) in enumerate(mark_places(case, shape), start=1):
        shapes += _mark(case, number, place, angle, half)
    shapes += [
        LinearDimension(
            (start, -half),
            (start + length, -half),
            case.units.show(length, Kind.LENGTH),
            -38.0,
            id="strip length",
        ),
        Text((start, half + 26.0 * MM), "First end", "start", height=_SMALL, bold=True),
        Text(
            (start, -half - 46.0 * MM),
            "This face towards the belt. Print at actual size.",
            "start",
            height=_SMALL,
        ),
    ]
    title = f"{shape.guard.name}: flat strip with marks"
    return Scene(tuple(shapes), title, "Face towards the belt, first end at the left, one to one")


def bent_scene(case: Case, shape: Bent) -> Scene:
    """The bent strip beside its pulley and the belt, as it stands on the machine."""
    run, place = shape.layout.path.run, shape.place
    centre = nominal(run.x[place]), nominal(run.y[place])
    wheel = shape.layout.wheels[place]
    rim = nominal(wheel.rim)
    shapes: list[Shape] = [
        Circle(centre, rim, kind=LineKind.THIN, title=wheel.name),
        CentreMark(centre, 0.006),
        _belt_face(shape, centre),
        Curve(strip_path(shape), title=shape.guard.name, id="bent strip"),
        Text((centre[0], centre[1] - 0.4 * rim), wheel.name, height=_SMALL),
        Text(
            (centre[0], centre[1] - 0.4 * rim - 4.0 * MM),
            f"gap {case.units.show(nominal(shape.gap), Kind.LENGTH)}",
            height=_SMALL,
        ),
        *_numbers(shape, centre),
        _first_end(shape),
    ]
    view = "above" if shape.layout.plane == "upright" else "the right"
    title = f"{shape.guard.name}: bent form, seen from {view}"
    return Scene(tuple(shapes), title, f"Seen from {view}, forward to the right, one to one")


def _mark(case: Case, number: int, place: float, angle: float, half: float) -> Iterator[Shape]:
    """One bend across the strip: number and distance above it, angle and direction below."""
    yield Line(
        (place, -half - _OVERRUN),
        (place, half + _OVERRUN),
        kind=LineKind.VISIBLE,
        id=f"mark {number}",
    )
    shown = case.units.show(round(place, 4), Kind.LENGTH)
    way = "to the belt" if angle > 0.0 else "away"
    turned = f"{degrees(abs(angle)):.1f}° {way}"
    aside = place + 0.5 * _SMALL * MM
    for text, y, anchor in (
        (f"{number}: {shown}", half + _OVERRUN + MM, "start"),
        (turned, -half - _OVERRUN - MM, "end"),
    ):
        side: Anchor = "start" if anchor == "start" else "end"
        yield Text((aside, y), text, side, height=_SMALL, angle=pi / 2.0)


def _strip_at_hand(case: Case, shape: Bent, half: float) -> Iterator[Shape]:
    """Where the strip at hand ends, if that is not where the guard ends."""
    strip = shape.guard.strip
    if strip is None or strip.length is None:
        return
    at = nominal(case.si(strip.length))
    yield Line(
        (at, -half - 4.0 * MM),
        (at, half + 4.0 * MM),
        kind=LineKind.PHANTOM,
        title="end of the strip at hand",
    )
    yield Text(
        (at - MM, half + 5.0 * MM),
        "strip at hand ends",
        "start",
        height=_SMALL,
        angle=pi / 2.0,
        colour=Colour.QUIET,
    )


def _holes(case: Case, shape: Bent) -> Iterator[Shape]:
    strip = shape.guard.strip
    for hole in strip.holes if strip is not None else ():
        at, radius = (nominal(case.si(hole.from_end)), 0.0), 0.5 * nominal(case.si(hole.diameter))
        yield Circle(at, radius, title="hole that is there")
        yield CentreMark(at, radius)


def _belt_face(shape: Bent, centre: Point) -> Shape:
    """The belt's outer face on the pulley, over its wrap."""
    heading = nominal(shape.form.heading[shape.feet_before])
    begin = heading - 0.5 * shape.turn * pi
    sweep = shape.turn * shape.total
    return Arc(centre, nominal(shape.face), begin, sweep, kind=LineKind.PHANTOM, title="belt")


def _numbers(shape: Bent, centre: Point) -> Iterator[Shape]:
    """The number of every bend, beside it on the side away from the pulley."""
    away = nominal(shape.thickness) + 4.0 * MM
    for number, point in enumerate(bend_points(shape), start=1):
        out = direction(centre, point)
        at = point[0] + away * cos(out), point[1] + away * sin(out) - 0.5 * _SMALL * MM
        yield Text(at, str(number), height=_SMALL)


def _first_end(shape: Bent) -> Shape:
    x, y = nominal(shape.form.x[0]), nominal(shape.form.y[0])
    heading = nominal(shape.form.heading[0])
    at = x - 6.0 * MM * cos(heading), y - 6.0 * MM * sin(heading)
    return Text(at, "first end", height=_SMALL, bold=True)
