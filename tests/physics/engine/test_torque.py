"""Torque curves, governor and wheels: ends, refusals, many at once."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.engine.torque import (
    full_load_torque,
    governed_torque,
    measured_torque,
    no_load_speed,
)
from beltwright.physics.engine.wheel_stress import bursting_speed, rim_stress


def test_full_load_never_turns_negative() -> None:
    assert full_load_torque(3000.0, 9000.0, 345.0, 0.12, 0.68) == 0.0


def test_measured_points_are_met_and_held_beyond() -> None:
    speeds, torques = (150.0, 250.0, 350.0), (20.0, 26.0, 23.0)
    asked = np.array([100.0, 150.0, 200.0, 250.0, 300.0, 350.0, 400.0])
    curve = measured_torque(asked, speeds, torques)
    assert curve.tolist() == pytest.approx([20.0, 20.0, 23.0, 26.0, 24.5, 23.0, 23.0])


def test_measured_points_may_vary_over_the_samples() -> None:
    low = np.array([20.0, 22.0])
    curve = measured_torque(np.array([[150.0], [200.0]]), (150.0, 250.0), (low, 26.0))
    assert curve.tolist() == [[20.0, 22.0], [23.0, 24.0]]


@pytest.mark.parametrize(("speeds", "torques"), [((150.0,), (20.0,)), ((150.0, 250.0), (20.0,))])
def test_a_curve_needs_points(speeds: tuple[float, ...], torques: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="two points or more"):
        measured_torque(200.0, speeds, torques)


def test_the_governor_cuts_in_above_rated_speed() -> None:
    speeds = np.array([200.0, 350.0, 360.0, 370.0, 400.0])
    torque = governed_torque(speeds, 25.0, 25.0, 350.0, 370.0)
    assert torque.tolist() == [25.0, 25.0, 12.5, 0.0, 0.0]


def test_the_governor_gives_no_more_than_full_load() -> None:
    assert governed_torque(351.0, 10.0, 25.0, 350.0, 370.0) == 10.0


@given(st.floats(0.0, 1.0), st.floats(200.0, 400.0), st.floats(0.02, 0.15))
def test_the_governor_takes_torque_away_evenly(share: float, rated: float, droop: float) -> None:
    free = no_load_speed(rated, droop)
    speed = free - (free - rated) * share
    back = governed_torque(speed, 25.0, 25.0, rated, free)
    assert float(back) == pytest.approx(25.0 * share, abs=1e-9)


@given(st.floats(1000.0, 9000.0), st.floats(0.02, 0.2), st.floats(50.0, 500.0))
def test_stress_at_the_bursting_speed_is_the_strength(
    density: float, radius: float, speed: float
) -> None:
    burst = bursting_speed(150e6, rim_stress(density, radius, speed), speed)
    assert float(rim_stress(density, radius, burst)) == pytest.approx(150e6, rel=1e-12)
