"""The shapes of a machine, in machine coordinates [m], and how each is inked on paper [mm].

A shape says what kind of line it is; a non-empty `id` names it (a finding, a part) and `title`
is what the screen says of it when it is pointed at or read aloud.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from beltwright.drawing.hatch import HATCH_ANGLE, hatch
from beltwright.drawing.ink import Anchor, Area, Colour, Group, Ink, Letters, Stroke
from beltwright.drawing.lettering import set_fractions
from beltwright.drawing.line_kinds import LineKind, Pen
from beltwright.drawing.path import Arc as ArcPiece
from beltwright.drawing.path import Path, Point, Straight, polyline
from beltwright.drawing.path import circle as circle_path
from beltwright.drawing.view import View

CENTRE_OVERRUN = 2.5
"""How far a centre mark runs past its circle [mm]."""

HATCH_SPACING = 3.0
"""Distance of hatching lines [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """Anything that is drawn."""

    id: str = ""
    title: str = ""
    data: tuple[tuple[str, str], ...] = ()
    """What the screen is to know of it, as pairs of a name and a value."""

    def inked(self, view: View, pen: Pen) -> Group:
        """The shape on paper."""
        return Group(tuple(self.pieces(view, pen)), self.id, self.title, self.data)

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        """The pieces of ink that the shape is made of."""
        raise NotImplementedError

    def machine_bounds(self) -> list[Point]:
        """Points that the shape reaches [m]; empty for lettering, whose size is the paper's."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline(Shape):
    """A shape that is one path, with a kind of line and perhaps a filling."""

    kind: LineKind = LineKind.VISIBLE
    filling: Colour | None = None
    """`Colour.PAPER` hides what lies underneath."""

    def path(self) -> Path:
        """The path [m]."""
        raise NotImplementedError

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        path = view.path(self.path())
        if self.filling is not None:
            yield Area((path,), self.filling)
        yield Stroke(path, self.kind, pen=pen)

    def machine_bounds(self) -> list[Point]:
        return list(self.path().bounds())


@dataclass(frozen=True, slots=True)
class Line(Outline):
    """A straight line."""

    start: Point
    end: Point

    def path(self) -> Path:
        return Path((Straight(self.start, self.end),))


@dataclass(frozen=True, slots=True)
class Polyline(Outline):
    """Straight lines through points."""

    points: Sequence[Point]

    def path(self) -> Path:
        return polyline(self.points)


@dataclass(frozen=True, slots=True)
class Polygon(Outline):
    """A closed outline with straight sides."""

    points: Sequence[Point]

    def path(self) -> Path:
        return polyline(self.points, closed=True)


@dataclass(frozen=True, slots=True)
class Circle(Outline):
    """A full circle."""

    centre: Point
    radius: float

    def path(self) -> Path:
        return circle_path(self.centre, self.radius)


@dataclass(frozen=True, slots=True)
class Arc(Outline):
    """A piece of a circle, begin and sweep in radians."""

    centre: Point
    radius: float
    begin: float
    sweep: float

    def path(self) -> Path:
        return Path((ArcPiece(self.centre, self.radius, self.begin, self.sweep),))


@dataclass(frozen=True, slots=True)
class Curve(Outline):
    """Any path of lines and arcs."""

    line: Path

    def path(self) -> Path:
        return self.line


@dataclass(frozen=True, slots=True)
class Band(Shape):
    """A belt or strap of its true width along a closed line, both faces drawn.

    `line` is the pitch line; `left` and `right` [m] are how far the belt reaches to either side
    of it, looking along the line.
    """

    line: Path
    left: float
    right: float
    kind: LineKind = LineKind.VISIBLE
    filling: Colour | None = Colour.BELT

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        faces = tuple(view.path(self.line.offset(d)) for d in (self.left, -self.right))
        if self.filling is not None:
            yield Area(faces, self.filling)
        for face in faces:
            yield Stroke(face, self.kind, pen=pen)

    def machine_bounds(self) -> list[Point]:
        return [point for d in (self.left, -self.right) for point in self.line.offset(d).bounds()]


@dataclass(frozen=True, slots=True)
class HatchedRegion(Shape):
    """A region where something may stand; an outline inside another is a hole."""

    outlines: Sequence[Path]
    angle: float = HATCH_ANGLE
    colour: Colour = Colour.INK

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        outlines = tuple(view.path(outline) for outline in self.outlines)
        for line in hatch(outlines, HATCH_SPACING, self.angle):
            yield Stroke(Path((line,)), LineKind.THIN, self.colour, pen)
        for outline in outlines:
            yield Stroke(outline, LineKind.THIN, self.colour, pen)

    def machine_bounds(self) -> list[Point]:
        return [point for outline in self.outlines for point in outline.bounds()]


@dataclass(frozen=True, slots=True)
class CentreMark(Shape):
    """The cross of centre lines of a circle."""

    centre: Point
    radius: float

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        x, y = view.point(self.centre)
        half = view.length(self.radius) + CENTRE_OVERRUN
        phase = _dash_in_the_middle(half, pen)
        for dx, dy in ((half, 0.0), (0.0, half)):
            line = Path((Straight((x - dx, y - dy), (x + dx, y + dy)),))
            yield Stroke(line, LineKind.CENTRE, pen=pen, phase=phase)

    def machine_bounds(self) -> list[Point]:
        return list(circle_path(self.centre, self.radius).bounds())


@dataclass(frozen=True, slots=True)
class Text(Shape):
    """A line of lettering at a point of the machine."""

    at: Point
    text: str
    anchor: Anchor = "middle"
    height: float | None = None
    """[mm] on paper; the lettering of the pen if not given."""
    angle: float = 0.0
    """[rad] on paper."""
    bold: bool = False
    colour: Colour = Colour.INK

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        height = pen.lettering if self.height is None else self.height
        yield Letters(
            set_fractions(self.text),
            view.point(self.at),
            height,
            self.anchor,
            self.angle,
            self.bold,
            self.colour,
            clear=True,
        )

    def machine_bounds(self) -> list[Point]:
        return [self.at]


@dataclass(frozen=True, slots=True)
class Together(Shape):
    """Shapes under one name, such as all the pulleys."""

    shapes: Sequence[Shape]

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        return [shape.inked(view, pen) for shape in self.shapes]

    def machine_bounds(self) -> list[Point]:
        return [point for shape in self.shapes for point in shape.machine_bounds()]


@dataclass(frozen=True, slots=True)
class Scene:
    """Shapes in the order in which they are laid over one another."""

    shapes: tuple[Shape, ...]
    title: str
    description: str = ""

    def bounds(self) -> tuple[Point, Point]:
        """Lower left and upper right corner of the box round all shapes [m]."""
        points = [point for shape in self.shapes for point in shape.machine_bounds()]
        if not points:
            raise ValueError("the scene holds nothing that has a place on the machine")
        xs, ys = zip(*points, strict=True)
        return (min(xs), min(ys)), (max(xs), max(ys))

    def inked(self, view: View, pen: Pen) -> Group:
        """All shapes on paper."""
        return Group(tuple(shape.inked(view, pen) for shape in self.shapes), title=self.description)


def _dash_in_the_middle(half: float, pen: Pen) -> float:
    """Phase that puts the middle of a long dash half-way along a centre line.

    Source: ISO 128-2:2020, chain lines cross at a dash (from memory).
    """
    dashes = pen.dashes(LineKind.CENTRE)
    if half < dashes[0] / 2.0:
        return 0.0
    return (dashes[0] / 2.0 - half) % sum(dashes)
