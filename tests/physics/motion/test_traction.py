"""Axle loads, thrust limits and climbs agree with one another, one at a time or many."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.motion.chassis import Chassis, axle_loads
from beltwright.physics.motion.climb import (
    VERTICAL,
    climb_before_lift,
    climb_by_grip,
    climb_by_power,
)
from beltwright.physics.motion.traction import Driven, thrust_limits

DRIVEN: list[Driven] = ["rear", "front", "all"]

machines = st.builds(
    Chassis,
    mass=st.floats(100.0, 800.0),
    wheelbase=st.floats(0.9, 2.0),
    ahead=st.floats(0.3, 0.6),
    height=st.floats(0.3, 0.8),
    hitch_height=st.floats(0.0, 0.5),
)
grips = st.floats(0.05, 0.9)
slopes = st.floats(-0.3, 0.4)
drags = st.floats(0.0, 0.3)
pulls = st.floats(0.0, 500.0)


@given(machines, slopes, st.floats(-4.0, 4.0), pulls)
def test_axles_carry_the_weight(
    machine: Chassis, slope: float, acceleration: float, pull: float
) -> None:
    """Whatever the machine does, the axles together carry m g cos θ."""
    loads = axle_loads(machine, slope, acceleration, pull)
    assert loads.front + loads.rear == pytest.approx(machine.weight * np.cos(slope), rel=1e-12)


@given(machines, grips, slopes, drags, pulls, st.sampled_from(DRIVEN))
def test_thrust_limit_is_the_load_times_the_grip(
    machine: Chassis, grip: float, slope: float, drag: float, pull: float, driven: Driven
) -> None:
    """Put the thrust at the limit back into the axle loads: the driven axle just holds it."""
    limits = thrust_limits(machine, grip, driven, slope, drag, pull)
    if not np.isfinite(limits.slip) or limits.slip == 0.0:
        return
    held = machine.weight * (np.sin(slope) + drag * np.cos(slope)) + pull
    loads = axle_loads(machine, slope, (limits.slip - held) / machine.mass, pull)
    load = {"rear": loads.rear, "front": loads.front, "all": loads.front + loads.rear}[driven]
    assert grip * load == pytest.approx(limits.slip, rel=1e-9, abs=1e-9)


@given(machines, slopes, drags, pulls)
def test_front_carries_nothing_at_the_lift_limit(
    machine: Chassis, slope: float, drag: float, pull: float
) -> None:
    """Put the lifting thrust back into the axle loads: the front axle carries nothing."""
    limits = thrust_limits(machine, 0.5, "rear", slope, drag, pull)
    if limits.lift == 0.0:
        return
    held = machine.weight * (np.sin(slope) + drag * np.cos(slope)) + pull
    loads = axle_loads(machine, slope, (limits.lift - held) / machine.mass, pull)
    assert loads.front == pytest.approx(0.0, abs=1e-9 * float(machine.weight))


@given(machines, grips, drags, pulls, st.sampled_from(DRIVEN))
def test_climb_by_grip_leaves_nothing_over(
    machine: Chassis, grip: float, drag: float, pull: float, driven: Driven
) -> None:
    """On the slope found, the thrust limit just covers what holds the machine back."""
    slope = climb_by_grip(machine, grip, driven, drag, pull)
    if abs(slope) >= VERTICAL - 1e-9:
        return
    limits = thrust_limits(machine, grip, driven, slope, drag, pull)
    held = machine.weight * (np.sin(slope) + drag * np.cos(slope)) + pull
    if limits.slip > 0.0 and np.isfinite(limits.slip):
        assert limits.slip == pytest.approx(held, rel=1e-8, abs=1e-6)


def test_climb_ends() -> None:
    """A thrust above the weight climbs anything; one below the drag does not move on the level."""
    assert climb_by_power(1000.0, 2000.0) == VERTICAL
    assert climb_by_power(1000.0, 40.0, rolling_resistance=0.06) < 0.0
    high = Chassis(mass=200.0, wheelbase=1.0, ahead=0.3, height=1.5)
    assert climb_by_grip(high, 0.9) == VERTICAL
    assert climb_before_lift(high) == pytest.approx(np.arctan(0.2), rel=1e-12)


def test_a_pull_on_a_high_hitch_lifts_the_front_sooner() -> None:
    """The hitch below the centre of gravity helps, above the ground it still lifts the front."""
    low = Chassis(300.0, 1.25, 0.45, 0.55, hitch_height=0.0)
    high = Chassis(300.0, 1.25, 0.45, 0.55, hitch_height=0.5)
    assert climb_before_lift(high, 600.0) < climb_before_lift(low, 600.0)
    assert climb_before_lift(low, 600.0) == pytest.approx(climb_before_lift(low), rel=1e-12)


def test_many_machines_at_once() -> None:
    """A row of builds gives what each gives alone."""
    heights = np.array([0.4, 0.55, 0.7, 2.5])
    together = thrust_limits(Chassis(300.0, 1.25, 0.45, heights), 0.6, "rear", 0.1, 0.05)
    for number, height in enumerate(heights):
        alone = thrust_limits(Chassis(300.0, 1.25, 0.45, float(height)), 0.6, "rear", 0.1, 0.05)
        assert together.usable[number] == alone.usable
