"""How far the ink on a paper reaches, and whether any of it lies in a rectangle [mm]."""

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import cos, sin

from beltwright.drawing.ink import Area, Group, Ink, Letters, Picture, Stroke, Window
from beltwright.drawing.lettering import text_width
from beltwright.drawing.path import Path, Point, polyline, rectangle

Box = tuple[Point, Point]
"""Lower left and upper right corner [mm]."""

_DESCENT = 0.3  # below the line, in heights of a capital


def bounds(pieces: Iterable[Ink]) -> Box:
    """The box round all the ink."""
    points = [point for path in paths(pieces) for point in path.sampled()]
    if not points:
        raise ValueError("nothing is drawn")
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def lettering_box(letters: Letters) -> Box:
    """The box round some lettering."""
    xs, ys = zip(*_text_box(letters), strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def touches(pieces: Iterable[Ink], box: Box) -> bool:
    """Whether some of the ink lies in the box; of anything but a line, its own box counts."""
    for piece in pieces:
        if isinstance(piece, Group):
            if touches(piece.pieces, box):
                return True
        elif isinstance(piece, Stroke):
            if any(_enters(*step, box) for step in pairwise(piece.path.sampled())):
                return True
        elif _overlap(bounds([piece]), box):
            return True
    return False


def _overlap(one: Box, other: Box) -> bool:
    return all(one[0][axis] <= other[1][axis] and other[0][axis] <= one[1][axis] for axis in (0, 1))


def paths(pieces: Iterable[Ink]) -> Iterator[Path]:
    """The paths along all ink; lettering and pictures by their outline."""
    for piece in pieces:
        match piece:
            case Stroke():
                yield piece.path
            case Area():
                yield from piece.outlines
            case Letters():
                yield polyline(_text_box(piece))
            case Picture() | Window():
                yield rectangle(piece.corner, piece.width, piece.height)
            case Group():
                yield from paths(piece.pieces)


def _text_box(letters: Letters) -> list[Point]:
    width = text_width(letters.text, letters.height, letters.bold)
    left = {"start": 0.0, "middle": -width / 2.0, "end": -width}[letters.anchor]
    low, high = -_DESCENT * letters.height, letters.height
    (x, y), c, s = letters.at, cos(letters.angle), sin(letters.angle)
    corners = [(left, low), (left + width, low), (left + width, high), (left, high), (left, low)]
    return [(x + u * c - v * s, y + u * s + v * c) for u, v in corners]


def _enters(start: Point, end: Point, box: Box) -> bool:
    """Whether a straight line enters a box: Liang and Barsky, ACM Trans. Graphics 3 (1984)."""
    (sx, sy), (ex, ey) = start, end
    (x0, y0), (x1, y1) = box
    enter, leave = 0.0, 1.0
    for delta, to_low, to_high in (
        (ex - sx, x0 - sx, x1 - sx),
        (ey - sy, y0 - sy, y1 - sy),
    ):
        if delta == 0.0:
            if to_low > 0.0 or to_high < 0.0:
                return False
            continue
        near, far = sorted((to_low / delta, to_high / delta))
        enter, leave = max(enter, near), min(leave, far)
    return enter <= leave
