"""From a guard as it is to be bent to the lines that are drawn: the nominal build."""

from collections.abc import Iterator
from math import cos, pi, sin, tan

from beltwright.drawing.path import Arc, Path, Piece, Point, Straight, direction, distance
from beltwright.physics.arrays import Array
from beltwright.physics.sheet_metal.strip import other_face
from beltwright.review.case import Case
from beltwright.review.guard.bent import Bent
from beltwright.review.nominal import nominal
from beltwright.views.layout.drawn_layout import DrawnGuard, DrawnWheel

COVER = 0.02
"""A wheel this much higher than a strip's own lies above it [m]."""


def drawn_guard(case: Case, shape: Bent, wheels: tuple[DrawnWheel, ...]) -> DrawnGuard:
    """A guard as it stands beside its belt."""
    at = middle(shape)
    return DrawnGuard(
        name=shape.guard.name,
        title=f"{shape.guard.name}, {shape.guard.kind} of the {shape.belt.name}",
        outline=strip_path(shape),
        middle=at,
        outwards=direction(_centre(shape), at),
        hidden=_is_covered(case, shape, at, wheels),
    )


def strip_path(shape: Bent) -> Path:
    """The strip's edge with its bends rounded as they are to be bent, closed."""
    thickness, radius = nominal(shape.thickness), nominal(shape.radius)
    turns = [shape.turn * float(angle) for angle in shape.angles]
    inner = [radius if angle > 0.0 else radius + thickness for angle in shape.angles]
    outer = [2.0 * radius + thickness - one for one in inner]
    towards = _corners(shape.form.x, shape.form.y)
    away = _corners(*other_face(shape.form, shape.turn * shape.thickness[:1]))
    there = list(_rounded(towards, turns, inner))
    back = list(_rounded(away, turns, outer))[::-1]
    edges: list[Piece] = [
        *there,
        Straight(towards[-1], away[-1]),
        *(_reversed(piece) for piece in back),
        Straight(away[0], towards[0]),
    ]
    return Path(tuple(edges), closed=True)


def bend_points(shape: Bent) -> list[Point]:
    """The corners of the face towards the belt, one a bend [m]."""
    return _corners(shape.form.x, shape.form.y)[1:-1]


def middle(shape: Bent) -> Point:
    """A point in the middle of the strip's arc, on its face towards the belt [m]."""
    x, y = _centre(shape)
    heading = nominal(shape.form.heading[shape.feet_before]) + 0.5 * shape.turn * shape.total
    out, curve = heading - 0.5 * shape.turn * pi, nominal(shape.curve)
    return x + curve * cos(out), y + curve * sin(out)


def _centre(shape: Bent) -> Point:
    run = shape.layout.path.run
    return nominal(run.x[shape.place]), nominal(run.y[shape.place])


def _corners(x: Array, y: Array) -> list[Point]:
    return [(nominal(one), nominal(other)) for one, other in zip(x, y, strict=True)]


def _rounded(corners: list[Point], turns: list[float], radii: list[float]) -> Iterator[Piece]:
    """Straight lines from corner to corner, every corner rounded."""
    last = corners[0]
    for corner, after, before, turn, radius in zip(
        corners[1:-1], corners[2:], corners[:-2], turns, radii, strict=True
    ):
        back = radius * tan(abs(turn) / 2.0)
        begin, end = _towards(corner, before, back), _towards(corner, after, back)
        yield Straight(last, begin)
        if turn:
            yield _bend(begin, direction(before, corner), turn, radius)
        last = end
    yield Straight(last, corners[-1])


def _bend(begin: Point, heading: float, turn: float, radius: float) -> Arc:
    """An arc that goes on from a heading."""
    side = pi / 2.0 if turn > 0.0 else -pi / 2.0
    to_centre = heading + side
    centre = (begin[0] + radius * cos(to_centre), begin[1] + radius * sin(to_centre))
    return Arc(centre, radius, to_centre + pi, turn)


def _towards(start: Point, end: Point, by: float) -> Point:
    length = distance(start, end)
    share = by / length if length else 0.0
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _reversed(piece: Piece) -> Piece:
    if isinstance(piece, Arc):
        return Arc(piece.centre, piece.radius, piece.begin + piece.sweep, -piece.sweep)
    return Straight(piece.end, piece.start)


def _is_covered(case: Case, shape: Bent, at: Point, wheels: tuple[DrawnWheel, ...]) -> bool:
    """Whether a wheel that runs above the strip hides it from the eye."""
    height = shape.layout.wheels[shape.place].height
    if height is None or shape.layout.plane == "cross":
        return False
    heights = {one.name: one.height for one in case.build.pulley}
    heights |= {one.name: one.height for one in case.build.idler}
    top = nominal(height) + COVER
    above = {name for name, up in heights.items() if up is not None and up.value > top}
    return any(distance(at, wheel.at) < wheel.rim for wheel in wheels if wheel.name in above)
