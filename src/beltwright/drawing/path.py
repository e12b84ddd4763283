"""A path of straight lines and arcs, exact under shifting, turning, scaling and offsetting."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, ceil, cos, hypot, pi, sin

Point = tuple[float, float]

FULL_TURN = 2.0 * pi

_CHORD_ANGLE = pi / 36.0  # sampled arcs: 5 degrees keep 0.1 % of the radius


@dataclass(frozen=True, slots=True)
class Straight:
    """A straight piece from one point to another."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        return distance(self.start, self.end)


@dataclass(frozen=True, slots=True)
class Arc:
    """A piece of a circle: start and sweep in radians, a positive sweep turns left."""

    centre: Point
    radius: float
    begin: float
    sweep: float

    def at(self, angle: float) -> Point:
        """The point of the circle at an angle [rad]."""
        x, y = self.centre
        return (x + self.radius * cos(angle), y + self.radius * sin(angle))

    @property
    def start(self) -> Point:
        return self.at(self.begin)

    @property
    def end(self) -> Point:
        return self.at(self.begin + self.sweep)

    @property
    def length(self) -> float:
        return abs(self.radius * self.sweep)

    def split(self, largest: float) -> Iterator[Arc]:
        """The same arc in equal pieces of at most `largest` [rad]."""
        count = max(1, ceil(abs(self.sweep) / largest - 1e-9))
        step = self.sweep / count
        return (Arc(self.centre, self.radius, self.begin + i * step, step) for i in range(count))


Piece = Straight | Arc


@dataclass(frozen=True, slots=True)
class Path:
    """Straight lines and arcs, one after another."""

    pieces: tuple[Piece, ...]
    closed: bool = False

    @property
    def length(self) -> float:
        """Length along the path, in the unit of its points."""
        return sum(piece.length for piece in self.pieces)

    def offset(self, distance: float) -> Path:
        """The path moved to its left by a distance.

        Exact for a path whose pieces meet without a corner, as a belt's do: lines shift, arcs
        change their radius.
        """
        return Path(tuple(_offset_piece(piece, distance) for piece in self.pieces), self.closed)

    def sampled(self) -> list[Point]:
        """Points along the path; an arc keeps within 0.1 % of its radius."""
        points: list[Point] = [self.pieces[0].start]
        for piece in self.pieces:
            if isinstance(piece, Arc):
                count = max(1, ceil(abs(piece.sweep) / _CHORD_ANGLE - 1e-9))
                step = piece.sweep / count
                points += [piece.at(piece.begin + i * step) for i in range(1, count + 1)]
            else:
                points.append(piece.end)
        return points

    def bounds(self) -> tuple[Point, Point]:
        """Lower left and upper right corner of the box round the path, exactly."""
        points = [point for piece in self.pieces for point in _extremes(piece)]
        xs, ys = zip(*points, strict=True)
        return (min(xs), min(ys)), (max(xs), max(ys))


def polyline(points: Sequence[Point], closed: bool = False) -> Path:
    """Straight lines through points, back to the first one when closed."""
    through = [*points, points[0]] if closed else list(points)
    return Path(tuple(Straight(a, b) for a, b in pairwise(through)), closed)


def circle(centre: Point, radius: float) -> Path:
    """A full circle."""
    return Path((Arc(centre, radius, 0.0, FULL_TURN),), closed=True)


def rectangle(corner: Point, width: float, height: float) -> Path:
    """A rectangle from its lower left corner."""
    x, y = corner
    return polyline([(x, y), (x + width, y), (x + width, y + height), (x, y + height)], closed=True)


def _offset_piece(piece: Piece, distance: float) -> Piece:
    if isinstance(piece, Arc):
        inwards = distance if piece.sweep > 0.0 else -distance
        return Arc(piece.centre, piece.radius - inwards, piece.begin, piece.sweep)
    (x0, y0), (x1, y1) = piece.start, piece.end
    across = distance / piece.length if piece.length else 0.0
    dx, dy = (y0 - y1) * across, (x1 - x0) * across
    return Straight((x0 + dx, y0 + dy), (x1 + dx, y1 + dy))


def _extremes(piece: Piece) -> Iterator[Point]:
    """The ends of a piece and, of an arc, the quarter points that it passes."""
    yield piece.start
    yield piece.end
    if isinstance(piece, Arc):
        low, high = sorted((piece.begin, piece.begin + piece.sweep))
        first = ceil(low / (pi / 2.0))
        while first * (pi / 2.0) <= high:
            yield piece.at(first * (pi / 2.0))
            first += 1


def direction(start: Point, end: Point) -> float:
    """Angle of the line from one point to another [rad]."""
    return atan2(end[1] - start[1], end[0] - start[0])


def distance(one: Point, other: Point) -> float:
    """Distance of two points, in their own unit."""
    return hypot(other[0] - one[0], other[1] - one[1])
