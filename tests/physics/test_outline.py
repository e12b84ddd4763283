"""Outlines against a geometry library, and gaps across the plan."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from beltwright.physics.outline import (
    Outline,
    from_piece,
    gap_in_space,
    height_gap,
    heights_apart,
)

PLACE = st.floats(-2.0, 2.0)
SHARP = [(0.0, 0.0), (1.0, -0.4), (0.7, 0.2), (1.2, 1.0), (0.5, 0.4), (-0.2, 0.9)]
"""An outline that turns in and out [m]."""


def outline(corners: list[tuple[float, float]]) -> Outline:
    x, y = np.array(corners).T
    return Outline(x, y, 0.0, 1.0)


@given(PLACE, PLACE)
def test_a_point_is_as_far_from_the_sides_as_shapely_finds(x: float, y: float) -> None:
    boundary = Polygon(SHARP).exterior
    assert float(outline(SHARP).from_sides(x, y)) == pytest.approx(
        boundary.distance(Point(x, y)), abs=1e-12
    )


@given(PLACE, PLACE)
def test_a_point_lies_within_where_shapely_says_so(x: float, y: float) -> None:
    shape = Polygon(SHARP)
    if shape.exterior.distance(Point(x, y)) > 1e-9:
        assert bool(outline(SHARP).holds(x, y)) == shape.contains(Point(x, y))


def test_points_stand_beside_candidates_of_the_outline() -> None:
    whole = outline(SHARP).over(1)
    x, y = np.linspace(-1.0, 2.0, 7), np.linspace(2.0, -1.0, 7)
    assert whole.from_sides(x, y) == pytest.approx(
        [float(outline(SHARP).from_sides(*at)) for at in zip(x, y, strict=True)]
    )
    assert whole.from_sides(x[:, None, None], y[:, None, None]).shape == (7, 1)


@given(*[PLACE] * 4)
def test_a_point_is_as_far_from_a_piece_as_shapely_finds(
    away_x: float, away_y: float, along_x: float, along_y: float
) -> None:
    assume(np.hypot(along_x, along_y) > 1e-6)
    piece = LineString([(0.0, 0.0), (along_x, along_y)])
    away = float(from_piece(away_x, away_y, along_x, along_y))
    assert away == pytest.approx(piece.distance(Point(away_x, away_y)), abs=1e-12)


def test_a_piece_without_length_is_a_point() -> None:
    assert float(from_piece(3.0, 4.0, 0.0, 0.0)) == 5.0


@given(*[PLACE] * 4)
def test_heights_are_apart_either_way(low: float, rise: float, other: float, more: float) -> None:
    one, two = (low, low + abs(rise)), (other, other + abs(more))
    apart = float(heights_apart(*one, *two))
    assert apart == float(heights_apart(*two, *one))
    assert (apart > 0.0) == (one[1] < two[0] or two[1] < one[0])


def test_what_fills_all_heights_passes_nothing_by() -> None:
    assert float(heights_apart(-np.inf, np.inf, 0.3, 0.4)) == 0.0
    assert float(height_gap(-np.inf, np.inf, outline(SHARP))) == 0.0


def test_a_gap_in_space_is_the_longest_side_of_both() -> None:
    plan, over = np.array([0.03, -0.01, -0.01]), np.array([0.04, 0.04, 0.0])
    assert gap_in_space(plan, over) == pytest.approx([0.05, 0.04, -0.01])
