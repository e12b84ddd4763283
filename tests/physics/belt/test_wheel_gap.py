"""The gap between a wheel and a part against Shapely."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon

from beltwright.physics.belt.wheel_gap import wheel_gap
from beltwright.physics.outline import Outline

PLACES = st.floats(-0.5, 0.5)


@given(PLACES, PLACES, st.integers(3, 7), st.floats(0.0, 6.28), st.booleans())
def test_it_is_the_distance_that_shapely_measures(
    x: float, y: float, corners: int, turn: float, inward: bool
) -> None:
    turns = turn + np.linspace(0.0, 2.0 * np.pi, corners, endpoint=False)
    reach = np.where(inward & (np.arange(corners) == 0), 0.02, 0.2)
    part = Outline(reach * np.cos(turns), reach * np.sin(turns), 0.0, 1.0)
    polygon = Polygon(np.stack((part.x, part.y), axis=1))
    apart = polygon.exterior.distance(Point(x, y))
    expected = (-apart if polygon.contains(Point(x, y)) else apart) - 0.04
    assert float(wheel_gap(x, y, 0.04, part)) == pytest.approx(expected, abs=1e-12)


def test_many_places_at_once() -> None:
    part = Outline(np.array([0.1, 0.2, 0.2, 0.1]), np.array([0.0, 0.0, 0.1, 0.1]), 0.0, 1.0)
    x, y = np.array([0.0, 0.15, 0.3]), np.array([0.05, 0.05, 0.2])
    together = wheel_gap(x, y, 0.03, part)
    assert together.shape == (3,)
    assert together.tolist() == [
        float(wheel_gap(a, b, 0.03, part)) for a, b in zip(x, y, strict=True)
    ]
    assert together[1] == pytest.approx(-0.08)
