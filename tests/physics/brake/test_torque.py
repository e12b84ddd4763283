"""Brakes: directions, limits that meet, and many at once."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.arrays import ArrayLike
from beltwright.physics.brake.heat import heat_of_a_stop, rise_on_descent
from beltwright.physics.brake.path import (
    force_through_levers,
    torque_at_axle,
)
from beltwright.physics.brake.stopping import (
    brake_force_limits,
    deceleration,
    slope_held_by_brake,
    stopping_distance,
)
from beltwright.physics.brake.torque import band, drum_shoe
from beltwright.physics.motion.chassis import Chassis, axle_loads
from beltwright.physics.motion.traction import thrust_limits


@given(st.floats(0.1, 0.6), st.floats(0.5, 6.0))
def test_a_band_holds_less_the_other_way(friction: float, wrap: float) -> None:
    """By the factor e^(μφ), exactly."""
    helped = band(100.0, friction, wrap, 0.06, 0.03, turning_from_anchor=True)
    against = band(100.0, friction, wrap, 0.06, 0.03, turning_from_anchor=False)
    assert helped.torque / against.torque == pytest.approx(np.exp(friction * wrap), rel=1e-9)
    assert against.peak_pressure == pytest.approx(100.0 / (0.03 * 0.06), rel=1e-12)


def test_a_shoe_with_much_friction_grabs() -> None:
    """Leading only; the trailing shoe never does."""
    shoe = (0.11, 0.06, 0.08, 0.025, np.array([0.3, 2.5]), 0.3, 2.2)
    leading = drum_shoe(300.0, *shoe, leading=True)
    trailing = drum_shoe(300.0, *shoe, leading=False)
    np.testing.assert_array_equal(leading.grabs, [False, True])
    assert np.isinf(leading.torque[1])
    assert not np.any(trailing.grabs)
    assert leading.torque[0] > trailing.torque[0]


@given(st.floats(0.05, 0.9), st.floats(0.0, 1.0), st.floats(-0.3, 0.3), st.floats(0.0, 0.2))
def test_an_axle_at_its_limit_uses_all_its_grip(
    grip: float, front_share: float, slope: float, drag: float
) -> None:
    """Put the brake force back into the axle loads."""
    machine = Chassis(320.0, 1.25, 0.45, 0.55)
    limits = brake_force_limits(machine, grip, front_share, slope, drag)
    held = machine.weight * (np.sin(slope) + drag * np.cos(slope))
    loads = axle_loads(machine, slope, -(limits.rear + held) / 320.0)
    expected = grip * loads.rear
    assert (1.0 - front_share) * limits.rear == pytest.approx(expected, rel=1e-8, abs=1e-6)


def test_an_axle_without_brake_and_without_grip_never_locks() -> None:
    """Front brakes alone on ground without grip: nothing to divide by, nothing to lock behind."""
    limits = brake_force_limits(Chassis(320.0, 1.25, 0.45, 0.55), 0.0, front_share=1.0)
    assert limits.front == 0.0
    assert np.isinf(limits.rear)


def test_best_sharing_uses_the_whole_grip() -> None:
    """Where both axles lock together the machine stops at μ g."""
    machine, grip = Chassis(320.0, 1.25, 0.45, 0.55), 0.6
    share = (0.45 + grip * 0.55) / 1.25
    limits = brake_force_limits(machine, grip, share)
    assert limits.front == pytest.approx(float(limits.rear), rel=1e-12)
    assert limits.usable == pytest.approx(grip * float(machine.weight), rel=1e-12)


def test_braking_while_rolling_back_lifts_the_front_like_driving_off() -> None:
    """A locked rear axle pushes uphill: its limit is the one of thrust."""
    machine = Chassis(320.0, 1.25, 0.45, 0.55)
    assert brake_force_limits(machine, 0.6).usable < thrust_limits(machine, 0.6).slip


def test_no_stop_where_the_slope_is_stronger() -> None:
    """Downhill with a weak brake the distance is endless."""
    slowing = deceleration(320.0, 200.0, 5000.0, slope=-0.3)
    assert slowing < 0.0
    assert np.isinf(stopping_distance(3.0, slowing, 1.0))


def test_grip_ends_what_a_strong_brake_can_do() -> None:
    """Past the grip limit more brake does not help, and turning parts do not count."""
    assert deceleration(320.0, 9000.0, 960.0, rotating_mass=50.0) == pytest.approx(3.0)
    assert deceleration(320.0, 370.0, 960.0, rotating_mass=50.0) == pytest.approx(1.0)


def test_pedal_to_pad() -> None:
    """Each lever multiplies the force; what the joints lose is lost."""
    ratios: list[ArrayLike] = [4.0, np.array([2.0, 3.0])]
    np.testing.assert_allclose(force_through_levers(100.0, ratios, 0.5), [400.0, 600.0])
    assert torque_at_axle(28.0, 12.5) == pytest.approx(350.0)


def test_parking_force_at_its_ends() -> None:
    """No brake holds nothing; a brake stronger than the weight holds a wall."""
    assert slope_held_by_brake(3000.0, 0.0) == 0.0
    assert slope_held_by_brake(3000.0, 4000.0) == pytest.approx(np.pi / 2.0)


def test_heat_at_its_ends() -> None:
    """Uphill stops can leave the brake nothing; without cooling all heat stays."""
    weak = deceleration(300.0, 0.0, 1e9, slope=0.2)
    assert heat_of_a_stop(300.0, 3.0, weak, slope=0.2) == pytest.approx(0.0, abs=1e-9)
    assert heat_of_a_stop(300.0, 3.0, 1.0, slope=0.2) == 0.0
    assert rise_on_descent(500.0, 60.0, 600.0, 0.0) == pytest.approx(50.0)
    nearly = rise_on_descent(500.0, 60.0, 600.0, 1e-9)
    assert nearly == pytest.approx(50.0, rel=1e-9)
