"""Balloons: numbered references on leaders, each with the mark of its verdict.

Source: ISO 6433:2012, item references in circles of one size, set in rows or columns outside
the outlines, on leaders that do not cross (from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import pi
from typing import Literal

from beltwright.drawing.arrow import leader_dot
from beltwright.drawing.ink import Area, Colour, Ink, Letters, Stroke
from beltwright.drawing.lettering import text_width
from beltwright.drawing.line_kinds import LineKind, Pen
from beltwright.drawing.path import Path, Point, Straight, circle, direction, distance
from beltwright.drawing.shapes import Shape
from beltwright.drawing.spacing import spread_apart
from beltwright.drawing.verdict_mark import Verdict, verdict_mark
from beltwright.drawing.view import View, polar

_NUMBER = 1.4  # height of the number, in lettering of the drawing
_RIM = 1.9  # radius of the circle, in lettering of the drawing
_MARK = 0.6  # half-size of the verdict mark, in lettering of the drawing
_MARK_ANGLE = -pi / 4.0
_MARK_SEAT = 1.12  # how far out the mark stands, in radii of the circle


def balloon_pitch(pen: Pen) -> float:
    """Smallest distance of the centres of two balloons [mm]."""
    return 2.0 * (_RIM + _MARK + 0.4) * pen.lettering


@dataclass(frozen=True, slots=True)
class Balloon(Shape):
    """A number in a circle at `at`, on a leader to `point`, both on the machine [m].

    `dot` is left out where the leader runs to another balloon that speaks of the same place.
    """

    point: Point
    at: Point
    number: str
    verdict: Verdict | None = None
    dot: bool = True

    def pieces(self, view: View, pen: Pen) -> Iterable[Ink]:
        tip, centre = view.point(self.point), view.point(self.at)
        rim = _RIM * pen.lettering
        if distance(tip, centre) > rim:
            start = polar(centre, rim, direction(centre, tip))
            yield Stroke(Path((Straight(start, tip),)), LineKind.THIN, pen=pen)
            if self.dot:
                yield leader_dot(tip, pen)
        yield Area((circle(centre, rim),), Colour.PAPER)
        yield Stroke(circle(centre, rim), LineKind.THIN, pen=pen)
        yield self._number(centre, pen)
        if self.verdict is not None:
            seat = polar(centre, _MARK_SEAT * rim, _MARK_ANGLE)
            yield Area((circle(seat, 1.6 * _MARK * pen.lettering),), Colour.PAPER)
            yield verdict_mark(self.verdict, seat, _MARK * pen.lettering, pen)

    def machine_bounds(self) -> list[Point]:
        return [self.point, self.at]

    def _number(self, centre: Point, pen: Pen) -> Letters:
        room = 1.35 * _RIM * pen.lettering
        height = _NUMBER * pen.lettering
        height *= min(1.0, room / text_width(self.number, height))
        return Letters(
            self.number, (centre[0], centre[1] - height / 2.0), height, "middle", bold=True
        )


_Side = Literal["left", "right", "bottom", "top"]


def balloon_places(points: Sequence[Point], box: tuple[Point, Point], pitch: float) -> list[Point]:
    """Where the balloon of each point goes: in columns and rows round a box, in order.

    Each goes to the side of the box nearest to its point; along a side they keep the order of
    their points, so that leaders do not cross, and stand at least `pitch` apart. All in one
    unit, the machine's or the paper's. A side that is too short for its balloons is overrun
    equally at both ends.
    """
    (x0, y0), (x1, y1) = box
    sides: dict[_Side, list[int]] = {"left": [], "right": [], "bottom": [], "top": []}
    for index, (x, y) in enumerate(points):
        away: dict[_Side, float] = {
            "left": x - x0,
            "right": x1 - x,
            "bottom": y - y0,
            "top": y1 - y,
        }
        sides[min(away, key=lambda side: away[side])].append(index)
    places: dict[int, Point] = {}
    for side, indices in sides.items():
        upright = side in ("left", "right")
        axis, low, high = (1, y0, y1) if upright else (0, x0 + pitch, x1 - pitch)
        # of several at one place the first stands on top, or leftmost
        turn = -1 if upright else 1
        indices.sort(key=lambda index: (points[index][axis], turn * index))
        spots = spread_apart([points[index][axis] for index in indices], low, high, pitch)
        level = {"left": x0, "right": x1, "bottom": y0, "top": y1}[side]
        for index, spot in zip(indices, spots, strict=True):
            places[index] = (level, spot) if upright else (spot, level)
    return [places[index] for index in range(len(points))]
