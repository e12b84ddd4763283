"""Steering: straight ahead, mirrored, out of reach, many at once."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.steering import (
    arm_turned_by_rod,
    ideal_outer_angle,
    steer_error,
    turning_circle,
)

angles = st.floats(-0.4, 0.4)
behind = st.floats(0.08, 0.2)
inward = st.floats(0.0, 0.06)


@given(behind, inward)
def test_straight_ahead_stays_straight(back: float, inside: float) -> None:
    """Nothing turned, nothing follows."""
    pins = ((1.2, 0.31), (1.2 - back, 0.31 - inside), (1.2, -0.31), (1.2 - back, -0.31 + inside))
    assert arm_turned_by_rod(*pins, 0.0) == pytest.approx(0.0, abs=1e-12)


@given(behind, inward, angles)
def test_the_rod_works_both_ways(back: float, inside: float, turned: float) -> None:
    """Turning the second arm back by what it followed turns the first as before."""
    left = ((1.2, 0.31), (1.2 - back, 0.31 - inside))
    right = ((1.2, -0.31), (1.2 - back, -0.31 + inside))
    follows = arm_turned_by_rod(*left, *right, turned)
    if np.isfinite(follows) and abs(follows) < 0.5:
        again = arm_turned_by_rod(*right, *left, follows)
        assert again == pytest.approx(turned, abs=1e-7)


@given(behind, inward, angles)
def test_mirrored_linkage_mirrors(back: float, inside: float, turned: float) -> None:
    """A turn to the left on one side is a turn to the right on the other."""
    left = ((1.2, 0.31), (1.2 - back, 0.31 - inside))
    right = ((1.2, -0.31), (1.2 - back, -0.31 + inside))
    one = arm_turned_by_rod(*left, *right, turned)
    other = arm_turned_by_rod(*right, *left, -turned)
    np.testing.assert_allclose(one, -other, atol=1e-10)


def test_out_of_reach_says_so() -> None:
    """Past its toggle the rod reaches nothing; the other angles stand."""
    pins = ((1.2, 0.31), (1.08, 0.26), (1.2, -0.31), (1.08, -0.26))
    follows = arm_turned_by_rod(*pins, np.radians([-40.0, -20.0, 20.0]))
    np.testing.assert_array_equal(np.isnan(follows), [True, False, False])


def test_no_steer_needs_no_difference() -> None:
    """Straight ahead both wheels point alike, and the ideal has no error."""
    assert ideal_outer_angle(0.0, 0.6, 1.2) == 0.0
    inner = np.radians(np.linspace(0.0, 60.0, 7))
    outer = ideal_outer_angle(inner, 0.6, 1.2)
    np.testing.assert_allclose(steer_error(inner, outer, 0.6, 1.2), 0.0, atol=1e-15)
    assert np.all(outer <= inner)


def test_more_lock_turns_tighter() -> None:
    """And many locks at once."""
    inner = np.radians([20.0, 30.0, 40.0])
    circle = turning_circle(inner, ideal_outer_angle(inner, 0.6, 1.2), 0.6, 1.2)
    assert np.all(np.diff(circle.outer_front) < 0.0)
