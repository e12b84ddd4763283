"""Hatching fills an outline and nothing else; checked against a geometry library."""

from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, MultiLineString, Polygon

from beltwright.drawing.hatch import hatch
from beltwright.drawing.path import circle, polyline, rectangle


def star(radii: list[float]) -> list[tuple[float, float]]:
    """A closed outline that never crosses itself."""
    step = 2.0 * pi / len(radii)
    return [(r * cos(i * step), r * sin(i * step)) for i, r in enumerate(radii)]


@settings(max_examples=50)
@given(st.lists(st.floats(5.0, 60.0), min_size=3, max_size=12), st.floats(0.0, pi))
def test_hatching_lies_inside_and_leaves_nothing_out(radii: list[float], angle: float) -> None:
    points = star(radii)
    lines = hatch([polyline(points, closed=True)], 2.0, angle)
    region = Polygon(points)
    drawn = MultiLineString([LineString([line.start, line.end]) for line in lines])
    assert drawn.difference(region.buffer(1e-6)).length < 1e-6
    across = (-sin(angle), cos(angle))
    along = (cos(angle), sin(angle))
    wanted = sum(
        region.intersection(
            LineString(
                [
                    (2.0 * n * across[0] - 200 * along[0], 2.0 * n * across[1] - 200 * along[1]),
                    (2.0 * n * across[0] + 200 * along[0], 2.0 * n * across[1] + 200 * along[1]),
                ]
            )
        ).length
        for n in range(-60, 61)
    )
    assert drawn.length == pytest.approx(wanted, abs=1e-3)


def test_a_hole_stays_open() -> None:
    lines = hatch([rectangle((0, 0), 100, 100), circle((50, 50), 20)], 1.0, 0.0)
    through_the_middle = [line for line in lines if line.start[1] == 50.0]
    assert [(line.start[0], line.end[0]) for line in through_the_middle] == [
        pytest.approx((0.0, 30.0)),
        pytest.approx((70.0, 100.0)),
    ]
