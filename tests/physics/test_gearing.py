"""Ratios and ground speed."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose

from beltwright.physics.gearing import (
    belt_ratio,
    ground_speed,
    overspeed,
    rolling_radius,
    tooth_ratio,
)

lengths = st.floats(0.01, 1.0)
shares = st.floats(0.0, 0.05)


@given(lengths, lengths, shares)
def test_a_belt_back_and_forth_gives_one_turn_but_for_creep(
    a: float, b: float, creep: float
) -> None:
    there_and_back = belt_ratio(a, b, creep) * belt_ratio(b, a, creep)
    assert_allclose(there_and_back, 1.0 / (1.0 - creep) ** 2, rtol=1e-12)


@given(st.integers(6, 60), st.integers(6, 120), st.integers(6, 60))
def test_stages_multiply(first: int, middle: int, last: int) -> None:
    together = tooth_ratio(first, middle) * tooth_ratio(middle, last)
    assert_allclose(together, tooth_ratio(first, last), rtol=1e-12)


def test_speeds_broadcast_over_candidates_and_gears() -> None:
    rotation = np.array([[100.0], [300.0]])
    ratio = np.array([10.0, 20.0, 40.0])
    speed = ground_speed(rotation, ratio, 1.5)
    assert speed.shape == (2, 3)
    assert_allclose(speed[1, 2], 300.0 / (2 * np.pi * 40.0) * 1.5, rtol=1e-15)


def test_a_wheel_rolls_its_own_circumference() -> None:
    assert_allclose(ground_speed(1.0, 1.0, 2 * np.pi * 0.25), rolling_radius(2 * np.pi * 0.25))


def test_overspeed_is_nought_at_the_donors_speed() -> None:
    over = overspeed(np.array([90.0, 100.0, 150.0]), 100.0)
    assert_allclose(over, np.array([-0.1, 0.0, 0.5]), atol=1e-15)
