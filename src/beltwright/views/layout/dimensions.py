"""Dimensions of a belt drive: centres from one another, sizes of wheels, nearest gaps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from beltwright.drawing.dimensions import LinearDimension
from beltwright.drawing.path import Point
from beltwright.drawing.shapes import Shape
from beltwright.quantity import Units
from beltwright.views.layout.drawn_layout import DrawnLayout
from beltwright.views.plan_state import length_figure

FIRST, NEXT = 9.0, 7.0
"""Distance of the first dimension line from the outlines, and of the next ones [mm]."""


def centre_dimensions(layout: DrawnLayout, units: Units, box: tuple[Point, Point]) -> list[Shape]:
    """Distances of the fixed centres from the first, x below the drawing and y on its right."""
    centres = fixed_centres(layout)
    if len(centres) < 2:
        return []
    first, *others = centres
    low, high = box
    below = sorted(others, key=lambda at: abs(at[0] - first[0]))
    beside = sorted(others, key=lambda at: abs(at[1] - first[1]))
    return [
        *_along("x", first, [at for at in below if _apart(at[0], first[0])], units, low, -1.0),
        *_along("y", first, [at for at in beside if _apart(at[1], first[1])], units, high, -1.0),
    ]


def _along(
    axis: str,
    first: Point,
    others: Sequence[Point],
    units: Units,
    clear_of: Point,
    side: float,
) -> Iterator[Shape]:
    """Dimension lines one outside another, the shortest nearest to the drawing."""
    for number, other in enumerate(others):
        reach = abs(other[0] - first[0] if axis == "x" else other[1] - first[1])
        yield LinearDimension(
            first,
            other,
            length_figure(units, reach),
            side * (FIRST + number * NEXT),
            along="x" if axis == "x" else "y",
            clearing=(clear_of,),
        )


def fixed_centres(layout: DrawnLayout) -> list[Point]:
    """Centres that do not move with the clutch, from the rearmost forwards."""
    moving = {arm.name for arm in layout.arms}
    fixed = [wheel.at for wheel in layout.wheels if wheel.name not in moving]
    pivots = [arm.pivot for arm in layout.arms]
    return sorted(dict.fromkeys([*fixed, *pivots]))


def _apart(one: float, other: float) -> bool:
    return abs(one - other) > 1e-6
