"""Arrows of motion: which way a wheel turns and which way a belt runs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import pi, radians

from beltwright.drawing.arrow import arrow_length, arrowhead
from beltwright.drawing.ink import Ink, Stroke
from beltwright.drawing.line_kinds import LineKind, Pen
from beltwright.drawing.path import Arc, Path, Point
from beltwright.drawing.shapes import Shape
from beltwright.drawing.view import View, polar

_TURN_BEGIN, _TURN_SWEEP = radians(100.0), radians(70.0)
_INSIDE = 0.62  # radius of the arrow, as a share of the wheel's


@dataclass(frozen=True, slots=True)
class TurningArrow(Shape):
    """An arc with an arrowhead inside a wheel; `sense` +1 turns counter-clockwise."""

    centre: Point
    radius: float
    sense: int

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        radius = _INSIDE * view.length(self.radius)
        sweep = self.sense * _TURN_SWEEP
        begin = _TURN_BEGIN + view.forward.value - sweep / 2.0
        arc = Arc(view.point(self.centre), radius, begin, sweep)
        lean = min(arrow_length(pen) / (2.0 * radius), 0.5)
        pointing = begin + sweep + self.sense * (pi / 2.0 - lean)
        yield Stroke(Path((arc,)), LineKind.THIN, pen=pen)
        yield arrowhead(arc.end, pointing, pen)

    def machine_bounds(self) -> list[Point]:
        return [self.centre]


@dataclass(frozen=True, slots=True)
class RunningArrow(Shape):
    """An arrowhead on a belt, pointing the way it runs: `heading` [rad] on the machine."""

    at: Point
    heading: float

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        pointing = self.heading + view.forward.value
        tip = polar(view.point(self.at), arrow_length(pen) / 2.0, pointing)
        yield arrowhead(tip, pointing, pen)

    def machine_bounds(self) -> list[Point]:
        return [self.at]
