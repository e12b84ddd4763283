"""Closed cases: trends, limits and what a vent must carry."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.gearbox.pressure import (
    ClosedCase,
    air_space,
    closed_pressure,
    cooled_pressure,
    vent_bore,
    vent_pressure,
    water_drawn_in,
)


@given(st.floats(273.15, 373.15), st.floats(0.0, 1.0), st.floats(0.1, 3.0))
def test_nothing_changes_at_the_closing_temperature(
    kelvin: float, humidity: float, litres: float
) -> None:
    case = ClosedCase(litres * 1e-3, 1e-3, kelvin, humidity=humidity)
    assert closed_pressure(case, kelvin) == pytest.approx(101325.0)


@given(st.floats(280.0, 360.0), st.floats(1.0, 20.0))
def test_pressure_rises_with_heat_oil_and_water(kelvin: float, more: float) -> None:
    dry = ClosedCase(0.5e-3, 0.6e-3, 278.15)
    assert closed_pressure(dry, kelvin + more) > closed_pressure(dry, kelvin)
    fuller = ClosedCase(0.5e-3, 1.2e-3, 278.15)
    assert closed_pressure(fuller, kelvin) > closed_pressure(dry, kelvin)
    wet = ClosedCase(0.5e-3, 0.6e-3, 278.15, free_water=1e-3)
    assert closed_pressure(wet, kelvin) > closed_pressure(dry, kelvin)


def test_oil_that_fills_the_case_leaves_no_number() -> None:
    full = ClosedCase(air_volume=0.01e-3, oil_volume=1.5e-3)
    assert np.isnan(air_space(full, 353.15))
    assert np.isnan(closed_pressure(full, 353.15))


def test_saturated_air_rains_out_when_it_cools() -> None:
    damp = ClosedCase(1e-3, 0.0, 303.15, humidity=1.0)
    dry = ClosedCase(1e-3, 0.0, 303.15, humidity=0.0)
    assert cooled_pressure(damp, 353.15, 278.15) < cooled_pressure(dry, 353.15, 278.15)


def test_a_case_that_never_cools_draws_no_water() -> None:
    assert water_drawn_in(ClosedCase(1e-3, 0.6e-3), 333.15, 333.15) == pytest.approx(0.0, abs=1e-15)


@given(st.floats(1e-8, 1e-5), st.floats(0.05, 2.0), st.floats(10.0, 5000.0))
def test_the_bore_found_holds_the_pressure(flow: float, length: float, allowed: float) -> None:
    bore = vent_bore(flow, length, allowed)
    assert vent_pressure(flow, bore, length, air_density=0.0) == pytest.approx(allowed)


def test_a_wider_hose_breathes_more_easily() -> None:
    narrow, wide = vent_pressure(1e-6, np.array([0.003, 0.006]), 0.4)
    assert narrow > 10.0 * wide
