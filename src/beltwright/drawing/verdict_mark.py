"""The marks of the four verdicts, told apart by shape before colour."""

from math import pi
from typing import Literal

from beltwright.drawing.ink import Area, Colour, Group, Ink, Stroke
from beltwright.drawing.line_kinds import LineKind, Pen
from beltwright.drawing.path import Arc, Path, Point, Straight, circle, rectangle

Verdict = Literal["sound", "marginal", "stop", "not known"]

_DASHES = 6
_DASH_SHARE = 0.65


def verdict_mark(verdict: Verdict, centre: Point, radius: float, pen: Pen) -> Group:
    """The mark of a verdict on paper: open, half-filled or dashed circle, or filled square."""
    disc = circle(centre, radius)
    match verdict:
        case "sound":
            return Group((Area((disc,), Colour.PAPER), _line(disc, Colour.SOUND, pen)))
        case "marginal":
            return Group(tuple(_half_filled(centre, radius, pen)))
        case "stop":
            x, y = centre
            square = rectangle((x - radius, y - radius), 2.0 * radius, 2.0 * radius)
            return Group((Area((square,), Colour.STOP), _line(square, Colour.STOP, pen)))
        case "not known":
            step = 2.0 * pi / _DASHES
            dashes = [
                Path((Arc(centre, radius, i * step, _DASH_SHARE * step),)) for i in range(_DASHES)
            ]
            lines = tuple(_line(dash, Colour.NOT_KNOWN, pen) for dash in dashes)
            return Group((Area((disc,), Colour.PAPER), *lines))


def _half_filled(centre: Point, radius: float, pen: Pen) -> list[Ink]:
    disc = circle(centre, radius)
    lower = Arc(centre, radius, pi, pi)
    chord = Straight(lower.end, lower.start)
    return [
        Area((disc,), Colour.PAPER),
        Area((Path((lower, chord), closed=True),), Colour.MARGINAL),
        _line(Path((chord,)), Colour.MARGINAL_RIM, pen),
        _line(disc, Colour.MARGINAL_RIM, pen),
    ]


def _line(path: Path, colour: Colour, pen: Pen) -> Stroke:
    return Stroke(path, LineKind.VISIBLE, colour, pen)
