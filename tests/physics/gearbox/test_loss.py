"""Parts of the gearbox's loss, and how the case cools: trends and limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.gearbox.cooling import (
    Case,
    conductance,
    forced_convection,
    natural_convection,
)
from beltwright.physics.gearbox.loss import (
    LAMINAR_CHURNING,
    TURBULENT_CHURNING,
    DippingGear,
    bearing_loss,
    churning_loss,
    mesh_loss,
    wetted_area,
)
from beltwright.physics.gearbox.seal import seal_loss

GEAR = DippingGear(pitch_radius=0.055, face_width=0.014, dip=0.03, oil_volume=0.6e-3)


@given(st.floats(10.0, 300.0), st.floats(1.05, 2.0))
def test_churning_grows_with_speed(speed: float, faster: float) -> None:
    slow, fast = churning_loss(GEAR, np.array([speed, speed * faster]), 880.0, 100e-6)
    assert fast > slow


@given(st.floats(0.004, 0.05))
def test_churning_grows_with_dip(dip: float) -> None:
    shallow = DippingGear(0.055, 0.014, dip, 0.6e-3)
    deep = DippingGear(0.055, 0.014, dip * 1.1, 0.6e-3)
    assert churning_loss(deep, 150.0, 880.0, 100e-6) > churning_loss(shallow, 150.0, 880.0, 100e-6)


def test_thick_oil_churns_more_while_the_flow_is_viscous() -> None:
    thick, thin = churning_loss(GEAR, 150.0, 880.0, np.array([500e-6, 50e-6]))
    assert thick > thin


def test_churning_joins_its_two_regimes() -> None:
    """No jump at either end of the change of regime."""
    width = 0.055 * 0.014
    for reynolds in (LAMINAR_CHURNING, TURBULENT_CHURNING):
        viscosity = 150.0 * width / (reynolds * np.array([1.0 - 1e-9, 1.0 + 1e-9]))
        before, after = churning_loss(GEAR, 150.0, 880.0, viscosity)
        assert before == pytest.approx(after, rel=1e-6)


def test_a_standing_gear_or_a_dry_one_churns_nothing() -> None:
    assert churning_loss(GEAR, 0.0, 880.0, 100e-6) == 0.0
    assert churning_loss(DippingGear(0.055, 0.014, 0.0, 0.6e-3), 150.0, 880.0, 100e-6) == 0.0


def test_a_drowned_gear_is_wet_all_over() -> None:
    gear = DippingGear(0.05, 0.02, 0.2, 1e-3)
    assert wetted_area(gear) == pytest.approx(2 * np.pi * 0.05**2 + 2 * np.pi * 0.05 * 0.02)


def test_mesh_loss_of_no_mesh_and_of_all_power() -> None:
    assert mesh_loss(5000.0, 0.01, 0) == 0.0
    assert mesh_loss(5000.0, 1.0, 1) == 5000.0


def test_bearing_loss_is_continuous_in_viscosity_and_grows_with_load() -> None:
    turns = 100.0 * 30.0 / np.pi
    edge = 2000.0 / turns * 1e-6
    under, over = bearing_loss(0.04, 100.0, 500.0, edge * np.array([1 - 1e-9, 1 + 1e-9]))
    # 160 is 2000^(2/3) = 158.7 rounded, so the parts meet within 1 %
    assert under == pytest.approx(over, rel=0.01)
    assert bearing_loss(0.04, 100.0, 1000.0, 40e-6) > bearing_loss(0.04, 100.0, 500.0, 40e-6)


def test_seal_estimates_are_in_order() -> None:
    loss = seal_loss(np.array([0.017, 0.025, 0.045]), 150.0, 333.15, 140e-6)
    assert np.all(loss.low <= loss.usual)
    assert np.all(loss.usual <= loss.high)


@given(st.floats(1.0, 80.0), st.floats(0.0, 8.0))
def test_cooling_grows_with_heat_and_speed(rise: float, speed: float) -> None:
    case = Case(area=0.2, height=0.16, width=0.18)
    base = conductance(case, 293.15 + rise, 293.15, speed)
    assert conductance(case, 298.15 + rise, 293.15, speed) > base - 0.02
    assert conductance(case, 293.15 + rise, 293.15, speed + 0.5) > base


def test_a_case_as_cold_as_the_air_still_radiates() -> None:
    case = Case(area=0.2, height=0.16, width=0.18)
    assert natural_convection(293.15, 293.15, 0.16) > 0.0
    assert forced_convection(293.15, 293.15, 0.0, 0.18) > 0.0
    assert conductance(case, 293.15, 293.15) > 0.2 * 4.0
