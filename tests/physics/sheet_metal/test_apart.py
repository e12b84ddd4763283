"""Outlines against each other, checked against Shapely."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from beltwright.physics.outline import Outline
from beltwright.physics.sheet_metal.apart import outlines_apart

PLACES = st.floats(-2.0, 2.0)
TURNS = st.floats(0.0, 6.3)
SIZES = st.floats(0.1, 1.5)
ELL = np.array([[0.0, 1.0, 1.0, 0.2, 0.2, 0.0], [0.0, 0.0, 0.2, 0.2, 1.0, 1.0]])


def placed(turn: float, x: float, y: float, size: float) -> Outline:
    """An L-shaped strip anywhere."""
    cos, sin = np.cos(turn), np.sin(turn)
    px, py = size * (cos * ELL[0] - sin * ELL[1]) + x, size * (sin * ELL[0] + cos * ELL[1]) + y
    return Outline(px, py, 0.0, 1.0)


def by_shapely(one: Outline, other: Outline) -> float:
    """Their distance by an independent library."""
    first, second = (Polygon(np.column_stack([part.x, part.y])) for part in (one, other))
    return float(first.distance(second))


@given(TURNS, PLACES, PLACES, SIZES)
def test_two_outlines_are_as_far_apart_as_shapely_says(
    turn: float, x: float, y: float, size: float
) -> None:
    one, other = placed(0.0, 0.0, 0.0, 1.0), placed(turn, x, y, size)
    assert outlines_apart(one, other) == pytest.approx(by_shapely(one, other), abs=1e-9)


def test_an_outline_within_another_touches_it() -> None:
    x, y = np.array([-1.0, 1.0, 1.0, -1.0]), np.array([-1.0, -1.0, 1.0, 1.0])
    around, within = Outline(x, y, 0.0, 1.0), Outline(0.1 * x, 0.1 * y, 0.0, 1.0)
    assert outlines_apart(around, within) == 0.0
    assert outlines_apart(within, around) == 0.0


def test_many_pairs_at_once_give_what_each_gives_alone() -> None:
    one = placed(0.3, 0.0, 0.0, 1.0)
    many = [placed(0.1 * step, 1.5 + 0.2 * step, -0.5, 0.8) for step in range(5)]
    stacked = Outline(
        np.stack([each.x for each in many], axis=1),
        np.stack([each.y for each in many], axis=1),
        0.0,
        1.0,
    )
    together = outlines_apart(stacked, Outline(one.x[:, None], one.y[:, None], 0.0, 1.0))
    assert together == pytest.approx([by_shapely(one, each) for each in many])
