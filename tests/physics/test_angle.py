"""An angle keeps its direction and comes within half a turn."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.angle import within_half_turn

ANGLE = st.floats(-50.0, 50.0)


@given(ANGLE, ANGLE)
def test_it_points_the_same_way_and_is_near(angle: float, near: float) -> None:
    found = float(within_half_turn(angle, near))
    assert abs(found - near) <= np.pi + 1e-12
    assert (np.cos(found), np.sin(found)) == pytest.approx(
        (np.cos(angle), np.sin(angle)), abs=1e-12
    )


@given(st.floats(-3.0, 3.0), st.integers(-5, 5))
def test_whole_turns_are_left_out(angle: float, turns: int) -> None:
    assert float(within_half_turn(angle + 2.0 * np.pi * turns)) == pytest.approx(angle, abs=1e-12)


def test_half_a_turn_is_told_as_the_lower_end() -> None:
    assert within_half_turn(np.array([np.pi, -np.pi])) == pytest.approx([-np.pi, -np.pi])


def test_an_angle_that_is_not_known_stays_so() -> None:
    assert np.isnan(within_half_turn(np.nan, 0.3))
