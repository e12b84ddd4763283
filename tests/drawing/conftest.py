"""A belt drive of our own to draw: two pulleys, a back-side idler on its arm, an obstacle."""

from itertools import pairwise
from math import acos, atan2, cos, hypot, pi, sin

import pytest

from beltwright.drawing.balloons import Balloon, balloon_pitch, balloon_places
from beltwright.drawing.dimensions import LinearDimension, RadialDimension
from beltwright.drawing.ink import Colour
from beltwright.drawing.line_kinds import FINE_PEN, LineKind
from beltwright.drawing.path import Arc, Path, Piece, Point, Straight, rectangle
from beltwright.drawing.shapes import (
    Band,
    CentreMark,
    Circle,
    Curve,
    HatchedRegion,
    Line,
    Polygon,
    Scene,
    Shape,
    Text,
)
from beltwright.drawing.verdict_mark import Verdict

Wheel = tuple[Point, float, int]
"""Centre [m], radius of the pitch line [m], +1 on the inside of the belt, -1 on its back."""

INPUT: Wheel = ((0.0, 0.0), 0.0925, 1)
ENGINE: Wheel = ((0.62, 0.03), 0.044, 1)
IDLER: Wheel = ((0.33, 0.075), 0.0465, -1)
PIVOT: Point = (0.27, 0.19)


def belt_round(wheels: list[Wheel]) -> Path:
    """The belt round wheels listed against the clock."""
    tangents = []
    for (c1, r1, s1), (c2, r2, s2) in zip(wheels, [*wheels[1:], wheels[0]], strict=True):
        along = atan2(c2[1] - c1[1], c2[0] - c1[0])
        gap = hypot(c2[0] - c1[0], c2[1] - c1[1])
        tangents.append(along - acos((s1 * r1 - s2 * r2) / gap))
    arcs = []
    for i, (centre, radius, side) in enumerate(wheels):
        begin, end = tangents[i - 1], tangents[i]
        sweep = (side * (end - begin)) % (2.0 * pi) * side
        arcs.append(Arc(centre, radius, begin if side > 0 else begin + pi, sweep))
    pieces: list[Piece] = []
    for arc, following in pairwise([*arcs, arcs[0]]):
        pieces += [arc, Straight(arc.end, following.start)]
    return Path(tuple(pieces), closed=True)


def made_scene() -> Scene:
    """The demonstration scene."""
    belt = belt_round([INPUT, ENGINE, IDLER])
    shapes: list[Shape] = [
        HatchedRegion([rectangle((0.19, 0.115), 0.05, 0.045)], colour=Colour.ACCENT),
        Polygon(
            [(0.40, -0.005), (0.45, -0.005), (0.45, 0.035), (0.40, 0.035)],
            filling=Colour.TINT,
            id="obstacle.shift lever",
            title="Shift lever",
        ),
        Band(belt, 0.004, 0.0045, id="belt.traction belt", title="Traction belt, A 67"),
        Curve(belt, kind=LineKind.CENTRE),
    ]
    for name, (centre, radius, side) in {
        "input pulley": INPUT,
        "engine pulley": ENGINE,
        "clutch idler": IDLER,
    }.items():
        face = radius - (0.004 if side > 0 else 0.0045)
        shapes += [
            Circle(centre, face, id=f"pulley.{name}", title=name, filling=Colour.PAPER),
            Circle(centre, 0.0127, kind=LineKind.VISIBLE),
            CentreMark(centre, radius + 0.004),
        ]
    released = (PIVOT[0] + 0.13 * cos(-1.5), PIVOT[1] + 0.13 * sin(-1.5) + 0.02)
    shapes += [
        Circle(released, 0.042, kind=LineKind.PHANTOM),
        Line(PIVOT, IDLER[0], kind=LineKind.VISIBLE),
        Circle(PIVOT, 0.006, filling=Colour.PAPER),
        Text((0.425, -0.03), "shift lever"),
        LinearDimension(
            INPUT[0], ENGINE[0], "620 ±1", -32.0, along="x", id="dim.x", title="620 mm"
        ),
        LinearDimension(ENGINE[0], INPUT[0], "30", -20.0, along="y"),
        RadialDimension(INPUT[0], 0.0885, 2.4, "⌀177"),
        RadialDimension(ENGINE[0], 0.04, -0.7, "⌀4 5/8 in"),
    ]
    spots: list[tuple[Point, Verdict]] = [
        ((0.43, 0.02), "stop"),
        (IDLER[0], "marginal"),
        (ENGINE[0], "sound"),
        ((0.2, -0.075), "not known"),
        ((-0.05, 0.03), "sound"),
    ]
    pitch = balloon_pitch(FINE_PEN) / 200.0
    places = balloon_places([point for point, _ in spots], ((-0.2, -0.22), (0.8, 0.3)), pitch)
    shapes += [
        Balloon(point, at, str(number), verdict, id=f"balloon.{number}", title=f"{verdict}")
        for number, ((point, verdict), at) in enumerate(zip(spots, places, strict=True), 1)
    ]
    return Scene(tuple(shapes), "Belt layout", "Two pulleys and a clutch idler seen from above")


@pytest.fixture(scope="session")
def scene() -> Scene:
    """The demonstration scene."""
    return made_scene()
