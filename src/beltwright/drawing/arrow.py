"""Arrowheads, leaders' dots and lettering along a line, as dimensions and balloons need them.

Source: ISO 129-1:2018, closed and filled arrowheads of 15 to 90 degrees, lettering above the
line and readable from the bottom or the right of the sheet (from memory).
"""

from math import pi, radians, tan

from beltwright.drawing.ink import Area, Colour
from beltwright.drawing.line_kinds import Pen
from beltwright.drawing.path import Point, circle, polyline
from beltwright.drawing.view import polar
from beltwright.physics.angle import within_half_turn

ARROW_ANGLE = radians(20.0)
"""Included angle of an arrowhead [rad]."""

_DOT_WIDTHS = 2.5


def arrow_length(pen: Pen) -> float:
    """Length of an arrowhead [mm]: ten narrow lines."""
    return 10.0 * pen.narrow


def arrowhead(tip: Point, pointing: float, pen: Pen) -> Area:
    """A filled arrowhead with its tip at a point, pointing at an angle [rad]."""
    length = arrow_length(pen)
    half = length * tan(ARROW_ANGLE / 2.0)
    tail = polar(tip, -length, pointing)
    corners = [tip, polar(tail, half, pointing + pi / 2.0), polar(tail, -half, pointing + pi / 2.0)]
    return Area((polyline(corners, closed=True),), Colour.INK)


def leader_dot(at: Point, pen: Pen) -> Area:
    """The dot of a leader that ends inside an outline."""
    return Area((circle(at, _DOT_WIDTHS * pen.narrow),), Colour.INK)


def reading_angle(angle: float) -> float:
    """The angle turned by half a turn where needed, so that it reads from below or the right."""
    turned = float(within_half_turn(angle))
    slack = 1e-9
    if turned > pi / 2.0 + slack:
        return turned - pi
    if turned <= -pi / 2.0 + slack:
        return turned + pi
    return turned
