"""Dimensions: lengths, radii and diameters, angles.

Source: ISO 129-1:2018, aligned lettering above the dimension line, extension lines that start a
little off the outline and run eight narrow lines past the dimension line (from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, pi, sin
from typing import Literal

from beltwright.drawing.arrow import arrow_length, arrowhead, reading_angle
from beltwright.drawing.ink import Ink, Letters, Stroke
from beltwright.drawing.lettering import set_fractions, text_width
from beltwright.drawing.line_kinds import LineKind, Pen
from beltwright.drawing.path import Path, Point, Straight, circle, direction, distance
from beltwright.drawing.shapes import Shape
from beltwright.drawing.view import View, polar

Along = Literal["between", "x", "y"]

_TEXT_GAP = 0.35  # lettering to its line, in heights of a capital


def _extension_overrun(pen: Pen) -> float:
    return 8.0 * pen.narrow


def _extension_gap(pen: Pen) -> float:
    return 4.0 * pen.narrow


def _thin(start: Point, end: Point, pen: Pen) -> Stroke:
    return Stroke(Path((Straight(start, end),)), LineKind.THIN, pen=pen)


def _above(text: str, at: Point, along: float, pen: Pen, anchor: str = "middle") -> Letters:
    """Lettering above a line through a point, turned to be readable."""
    angle = reading_angle(along)
    baseline = polar(at, _TEXT_GAP * pen.lettering, angle + pi / 2.0)
    side: Literal["start", "middle", "end"] = "middle"
    if anchor != "middle":
        forwards = cos(angle - along) > 0.0
        side = "start" if forwards else "end"
    return Letters(set_fractions(text), baseline, pen.lettering, side, angle, clear=True)


@dataclass(frozen=True, slots=True)
class LinearDimension(Shape):
    """The distance of two points, between them or along one axis of the machine.

    `offset` [mm] puts the dimension line to the left (positive) or right of the way from start
    to end, or of the axis. It counts from the outermost of both points and of the points in
    `clearing`, so that the line can be put outside of everything.
    """

    start: Point
    end: Point
    text: str
    offset: float
    along: Along = "between"
    clearing: Sequence[Point] = ()

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        a, b, along = self._line_on_paper(view)
        normal = along + pi / 2.0
        for point, foot in ((view.point(self.start), a), (view.point(self.end), b)):
            yield from _extension(point, foot, normal, pen)
        yield from _measured(a, b, self.text, pen)

    def machine_bounds(self) -> list[Point]:
        return [self.start, self.end]

    def _line_on_paper(self, view: View) -> tuple[Point, Point, float]:
        """Both ends of the dimension line and its direction [rad]."""
        a, b = view.point(self.start), view.point(self.end)
        axes = {"x": (1.0, 0.0), "y": (0.0, 1.0)}
        if self.along == "between":
            along = direction(a, b)
        else:
            along = direction((0.0, 0.0), view.turned(axes[self.along]))
        nx, ny = -sin(along), cos(along)
        height_a, height_b = a[0] * nx + a[1] * ny, b[0] * nx + b[1] * ny
        passed = [view.point(point) for point in self.clearing]
        heights = [height_a, height_b, *(x * nx + y * ny for x, y in passed)]
        outer = max(heights) if self.offset > 0.0 else min(heights)
        level = outer + self.offset
        return (
            (a[0] + (level - height_a) * nx, a[1] + (level - height_a) * ny),
            (b[0] + (level - height_b) * nx, b[1] + (level - height_b) * ny),
            along,
        )


def _extension(point: Point, foot: Point, normal: float, pen: Pen) -> Iterable[Ink]:
    """The extension line from a measured point past the end of the dimension line."""
    reach = (foot[0] - point[0]) * cos(normal) + (foot[1] - point[1]) * sin(normal)
    if abs(reach) <= _extension_gap(pen):
        return
    away = normal if reach > 0.0 else normal + pi
    yield _thin(
        polar(point, _extension_gap(pen), away), polar(foot, _extension_overrun(pen), away), pen
    )


def _measured(a: Point, b: Point, text: str, pen: Pen) -> Iterable[Ink]:
    """A dimension line with its arrows and text, the arrows outside where there is no room."""
    along = direction(a, b)
    room, arrow = distance(a, b), arrow_length(pen)
    inside = room >= 3.0 * arrow
    if inside:
        yield _thin(a, b, pen)
    else:
        yield _thin(polar(a, -2.0 * arrow, along), polar(b, 2.0 * arrow, along), pen)
    yield arrowhead(a, along + pi if inside else along, pen)
    yield arrowhead(b, along if inside else along + pi, pen)
    width = text_width(text, pen.lettering)
    if width <= room - (2.0 * arrow if inside else 0.0):
        middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
        yield _above(text, middle, along, pen)
    else:
        past = polar(b, 2.0 * arrow, along)
        yield _thin(past, polar(past, width, along), pen)
        yield _above(text, past, along, pen, "away")


@dataclass(frozen=True, slots=True)
class RadialDimension(Shape):
    """A radius or diameter, on a leader that points at the circle from outside.

    `angle` [rad] says where on the circle; `reach` [mm] how far out the text stands. The text
    carries its own sign, as in "⌀95" or "R12".
    """

    centre: Point
    radius: float
    angle: float
    text: str
    reach: float = 12.0

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        pointing = self.angle + view.forward.value
        tip = polar(view.point(self.centre), view.length(self.radius), pointing)
        elbow = polar(tip, self.reach, pointing)
        level = 0.0 if cos(pointing) >= 0.0 else pi
        width = text_width(self.text, pen.lettering) + pen.lettering / 2.0
        yield _thin(tip, elbow, pen)
        yield _thin(elbow, polar(elbow, width, level), pen)
        yield arrowhead(tip, pointing + pi, pen)
        yield _above(self.text, polar(elbow, width / 2.0, level), 0.0, pen)

    def machine_bounds(self) -> list[Point]:
        return list(circle(self.centre, self.radius).bounds())
