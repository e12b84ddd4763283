"""Pressure in closed gear cases against steam tables and the gas laws.

Sources:
- IAPWS Industrial Formulation 1997, by the iapws library, and the reference equation of state
  IAPWS-95, by the CoolProp library: saturation pressure of water.
- IAPWS SR1-86(1992), revised supplementary release on saturation properties, table 1 (printed
  check values).
- Tribology Handbook, 2nd edition, section B23: pressure and speed of rotary lip seals.
- Ideal gas law and Dalton's law, written out as expressions.
- F. M. White, Fluid Mechanics, section 6.4: Hagen–Poiseuille.
- ISO 2533, standard atmosphere: 89,876 Pa at 1000 m (from memory, high confidence).
"""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97

from beltwright.physics.gearbox.pressure import (
    ClosedCase,
    air_space,
    closed_pressure,
    cooled_pressure,
    saturation_pressure,
    vent_bore,
    vent_flow,
    vent_pressure,
    water_drawn_in,
)
from beltwright.physics.gearbox.seal import lip_speed
from beltwright.review.gearbox.pressure_findings import THINNER_AIR
from beltwright.tables.seals import seal_material, seal_speeds

PSI = 0.45359237 * 9.80665 / 0.0254**2
TWENTY, EIGHTY, NINETY = 293.15, 353.15, 363.15
SEA_LEVEL = 101325.0


@pytest.mark.parametrize("celsius", [0.01, 20, 60, 80, 100, 120, 150])
def test_saturation_pressure_against_two_libraries(celsius: float) -> None:
    kelvin = celsius + 273.15
    found = float(saturation_pressure(kelvin))
    assert found == pytest.approx(IAPWS97(T=kelvin, x=0).P * 1e6, rel=3e-4)
    assert found == pytest.approx(PropsSI("P", "T", kelvin, "Q", 0, "Water"), rel=3e-4)


@pytest.mark.parametrize(
    ("kelvin", "printed"),
    # IAPWS SR1-86(1992), table 1: pressure in Pa as printed
    [(273.16, 611.657), (373.1243, 0.101325e6), (647.096, 22.064e6)],
)
def test_saturation_pressure_as_printed(kelvin: float, printed: float) -> None:
    assert saturation_pressure(kelvin) == pytest.approx(printed, rel=1e-5)


@pytest.mark.parametrize(
    ("celsius", "kilopascal"),
    # IAPWS-IF97 as printed in steam tables
    [(60, 19.946), (80, 47.415), (100, 101.418), (120, 198.665)],
)
def test_saturation_pressure_of_steam_tables(celsius: float, kilopascal: float) -> None:
    assert saturation_pressure(celsius + 273.15) / 1e3 == pytest.approx(kilopascal, rel=3e-4)


def test_dry_air_at_constant_volume() -> None:
    """20 to 90 °C from 101.325 kPa: 24.195 kPa = 3.509 psi gauge (p/T)."""
    case = ClosedCase(air_volume=1e-3, oil_volume=0.0, humidity=0.0)
    gauge = float(closed_pressure(case, NINETY)) - SEA_LEVEL
    assert gauge == pytest.approx(SEA_LEVEL * 70.0 / 293.15, rel=1e-12)
    assert gauge / 1e3 == pytest.approx(24.195, abs=5e-4)
    assert gauge / PSI == pytest.approx(3.509, abs=5e-4)


def test_air_with_free_water() -> None:
    """50 % humidity at 20 °C, free water, 80 °C: 168.07 kPa by Dalton's law and IF97, ± 0.01."""
    case = ClosedCase(air_volume=1e-3, oil_volume=0.0, humidity=0.5, free_water=0.01)
    assert closed_pressure(case, EIGHTY) / 1e3 == pytest.approx(168.07, abs=0.01)


def test_air_squeezed_by_oil() -> None:
    """0.5 L of air over 1.5 L of oil, 20 to 80 °C: 0.4370 L, 139.66 kPa, 5.56 psi gauge."""
    case = ClosedCase(air_volume=0.5e-3, oil_volume=1.5e-3, humidity=0.0, expansion=7e-4)
    pressure = float(closed_pressure(case, EIGHTY))
    assert air_space(case, EIGHTY) * 1e3 == pytest.approx(0.4370, abs=5e-5)
    assert pressure / 1e3 == pytest.approx(139.66, abs=5e-3)
    assert (pressure - SEA_LEVEL) / PSI == pytest.approx(5.56, abs=5e-3)


def test_a_little_water_boils_away() -> None:
    """1 mg of water in 1 L at 80 °C is all vapour: n R T / V beside the dry air."""
    case = ClosedCase(air_volume=1e-3, oil_volume=0.0, humidity=0.0, free_water=1e-6)
    water = 1e-6 / 18.015268e-3 * 8.314462618 * EIGHTY / 1e-3
    dry = SEA_LEVEL * EIGHTY / TWENTY
    assert closed_pressure(case, EIGHTY) == pytest.approx(dry + water, rel=1e-12)


def test_vacuum_after_cooling() -> None:
    """Dry case closed at 90 °C and cooled to 20 °C: p/T gives 81.794 kPa."""
    case = ClosedCase(air_volume=1e-3, oil_volume=0.0, humidity=0.0)
    cold = float(cooled_pressure(case, NINETY, TWENTY))
    assert cold == pytest.approx(SEA_LEVEL * TWENTY / NINETY, rel=1e-12)


def test_water_breathed_in_against_the_density_of_steam() -> None:
    """Volume drawn in times the saturated vapour density of IF97, ± 0.2 % for the ideal gas."""
    case = ClosedCase(air_volume=1e-3, oil_volume=0.0)
    drawn = 1e-3 * (1.0 - TWENTY / NINETY)
    assert water_drawn_in(case, NINETY, TWENTY) == pytest.approx(
        drawn * IAPWS97(T=TWENTY, x=1).rho, rel=2e-3
    )


def test_vent_flow_is_the_rate_of_displaced_air() -> None:
    """Finite difference of the gas that no longer fits at constant pressure, ± 1e-6."""
    case = ClosedCase(air_volume=0.5e-3, oil_volume=1.5e-3)
    kept = [float(air_space(case, t)) / t for t in (333.14, 333.16)]
    rate = (kept[0] - kept[1]) / 0.02 * 333.15
    assert vent_flow(case, 333.15, 1.0) == pytest.approx(rate, rel=1e-6)


def test_hose_of_hagen_and_poiseuille() -> None:
    """White 6.4: Δp = 8 μ L Q / (π R⁴), for the hose that just holds 1 kPa."""
    bore = float(vent_bore(1e-6, 0.5, 1000.0))
    assert 8.0 * 1.9e-5 * 0.5 * 1e-6 / (np.pi * (bore / 2.0) ** 4) == pytest.approx(1000.0)
    assert vent_pressure(1e-6, bore, 0.5, air_density=0.0) == pytest.approx(1000.0)


def test_lip_speed() -> None:
    """π d n: 25 mm at 3600 rpm rubs at 4.7124 m/s, 927.6 ft/min."""
    speed = float(lip_speed(0.025, 3600.0 * np.pi / 30.0))
    assert speed == pytest.approx(4.7124, abs=5e-5)
    assert speed / (0.3048 / 60.0) == pytest.approx(927.6, abs=0.05)


@pytest.mark.parametrize(
    ("millimetre", "turns", "tolerance"),
    # Tribology Handbook B23: about 8000 rpm to 35 mm, about 4000 rpm at 75 mm
    [(6, 8000, 50), (20, 8000, 50), (35, 8000, 50), (75, 4000, 20)],
)
def test_seal_speeds_of_the_handbook(millimetre: float, turns: float, tolerance: float) -> None:
    rows = seal_speeds().rows
    speed = np.interp(millimetre * 1e-3, [r.diameter for r in rows], [r.speed for r in rows])
    assert speed / (np.pi * millimetre * 1e-3) * 60.0 == pytest.approx(turns, abs=tolerance)


@pytest.mark.parametrize(
    ("name", "hottest"),
    # Tribology Handbook B23, p. 23.3
    [
        ("nitrile", 100),
        ("acrylic", 130),
        ("fluoro rubber", 200),
        ("silicone", 200),
    ],
)
def test_seal_temperatures_of_the_handbook(name: str, hottest: float) -> None:
    assert seal_material(name).hottest - 273.15 == pytest.approx(hottest)


def test_seal_pressures_of_the_handbook() -> None:
    """Tribology Handbook B23: 0.6 bar up to 75 mm, 0.3 bar above."""
    by_size = {round(row.diameter * 1e3): row.pressure for row in seal_speeds()}
    assert by_size[75] == pytest.approx(60e3)
    assert by_size[76] == pytest.approx(30e3)


def test_a_closed_case_is_pressed_more_on_a_mountain() -> None:
    """ISO 2533: p = p0 (1 - 0.0065 h / 288.15)^5.2559, printed 89,876 Pa at 1000 m. What is shut in
    stays as it is, so its gauge pressure grows by what the air outside loses."""
    above = SEA_LEVEL * (1.0 - 0.0065 * 1000.0 / 288.15) ** 5.2559
    assert above == pytest.approx(89876.0, abs=5.0)
    valley = ClosedCase(air_volume=0.0005, oil_volume=0.0006)
    inside = float(closed_pressure(valley, EIGHTY))
    gained = (inside - above) - (inside - SEA_LEVEL)
    assert gained == pytest.approx(THINNER_AIR * 1000.0, rel=5e-3)
