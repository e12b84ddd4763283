"""Where the machine lands on the paper: scale, turn and place.

Seen from above, x (forward) is drawn to the right with y (left) upwards, or, on an upright
sheet, x upwards with y to the left: the machine then drives up the page. Either way the left
of the machine stays on the left of the direction of travel. A view from the side hands in
(x, z) as its two coordinates and keeps x to the right.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from math import cos, pi, sin

from beltwright.drawing.path import Arc, Path, Piece, Point, Straight

MM = 1000.0
"""Millimetres in a metre."""


class Forward(Enum):
    """Where x of the machine points on the paper."""

    RIGHT = 0.0
    UP = pi / 2.0


@dataclass(frozen=True, slots=True)
class View:
    """Machine coordinates [m] to paper [mm]."""

    scale: float
    """Size on paper over size of the machine [1]; 0.2 for 1:5."""
    origin: Point = (0.0, 0.0)
    """Where the origin of the machine lies on the paper [mm]."""
    forward: Forward = Forward.RIGHT

    @property
    def mm_per_metre(self) -> float:
        return self.scale * MM

    def point(self, at: Point) -> Point:
        """A point of the machine [m] on the paper [mm]."""
        x, y = self.turned(at)
        return (
            self.origin[0] + x * self.mm_per_metre,
            self.origin[1] + y * self.mm_per_metre,
        )

    def turned(self, direction: Point) -> Point:
        """A direction of the machine as it runs on the paper, its length unchanged."""
        if self.forward is Forward.UP:
            return (-direction[1], direction[0])
        return direction

    def length(self, metres: float) -> float:
        """A length of the machine [m] on the paper [mm]."""
        return metres * self.mm_per_metre

    def path(self, path: Path) -> Path:
        """A path of the machine [m] on the paper [mm]."""
        return Path(tuple(self._piece(piece) for piece in path.pieces), path.closed)

    def _piece(self, piece: Piece) -> Piece:
        if isinstance(piece, Arc):
            return Arc(
                self.point(piece.centre),
                self.length(piece.radius),
                piece.begin + self.forward.value,
                piece.sweep,
            )
        return Straight(self.point(piece.start), self.point(piece.end))


_STEPS = (1, 2, 5)
_REDUCTIONS = [Fraction(1, step * 10**power) for power in range(4) for step in _STEPS]
_ENLARGEMENTS = [Fraction(step * 10**power) for power in (1, 0) for step in reversed(_STEPS)]
SCALES: tuple[Fraction, ...] = (*_ENLARGEMENTS, *_REDUCTIONS[1:])
"""Recommended scales, largest first. Source: ISO 5455:1979, table 1 (50:1 to 1:5000)."""


def scale_text(scale: float) -> str:
    """A scale as drawings write it: "1:5", "2:1"."""
    if scale >= 1.0:
        return f"{scale:g}:1"
    return f"1:{1.0 / scale:.6g}"


def fit(
    bounds: tuple[Point, Point],
    corner: Point,
    width: float,
    height: float,
    forward: Forward = Forward.RIGHT,
    largest: float = 1.0,
) -> View:
    """The view at the largest recommended scale that puts a box of the machine on a frame.

    `bounds` are the lower left and upper right corner of the box [m]; `corner`, `width` and
    `height` [mm] are the frame, in the middle of which it is put. A box too large for the
    smallest recommended scale is put there at whatever scale fits.
    """
    turned = View(1.0, forward=forward)
    (x0, y0), (x1, y1) = turned.point(bounds[0]), turned.point(bounds[1])
    box_width, box_height = abs(x1 - x0), abs(y1 - y0)
    room = min(width / max(box_width, 1e-9), height / max(box_height, 1e-9))
    scale = next(
        (float(s) for s in SCALES if s <= largest and float(s) <= room * (1.0 + 1e-9)), room
    )
    middle = ((x0 + x1) / 2.0 * scale, (y0 + y1) / 2.0 * scale)
    origin = (corner[0] + width / 2.0 - middle[0], corner[1] + height / 2.0 - middle[1])
    return View(scale, origin, forward)


def polar(centre: Point, radius: float, angle: float) -> Point:
    """The point at a distance and an angle [rad] from another."""
    return (centre[0] + radius * cos(angle), centre[1] + radius * sin(angle))
