"""Gearbox heat against heat-transfer texts, general libraries and closed forms.

Sources:
- Churchill and Chu (1975), Churchill and Bernstein (1977) as coded by the ht library; air by the
  CoolProp library (Lemmon and others, 2000).
- F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer: lumped capacitance
  (5.25); table A.4, air at atmospheric pressure.
- Stefan–Boltzmann law with the CODATA constant.
- scipy.integrate.solve_ivp and scipy.optimize.brentq as independent solvers.
- A. Palmgren, Ball and Roller Bearing Engineering; Changenet and Velex (2007): formulas written out
  a second time in their authors' units.
"""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from ht import Nu_cylinder_Churchill_Bernstein, Nu_vertical_plate_Churchill
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from beltwright.physics.arrays import Array
from beltwright.physics.gearbox.cooling import (
    Case,
    air,
    conductance,
    forced_convection,
    natural_convection,
    radiation,
)
from beltwright.physics.gearbox.heat import (
    Stage,
    lumped_capacity,
    steady_temperature,
    temperature_at,
    warm_up,
)
from beltwright.physics.gearbox.loss import DippingGear, bearing_loss, churning_loss
from beltwright.physics.gearbox.oil import kinematic_viscosity, walther_line
from beltwright.physics.gearbox.seal import seal_loss

ROOM, WARM = 293.15, 353.15


@pytest.mark.parametrize(
    ("kelvin", "conductivity", "viscosity", "prandtl"),
    # Incropera and DeWitt, table A.4: k in mW/(m·K), ν in mm²/s, Pr
    [(300, 26.3, 15.89, 0.707), (350, 30.0, 20.92, 0.700), (400, 33.8, 26.41, 0.690)],
)
def test_air_of_the_textbook(
    kelvin: float, conductivity: float, viscosity: float, prandtl: float
) -> None:
    """At 100 kPa, which its density of 1.1614 kg/m³ at 300 K comes from.

    Within 1 %: the standard atmosphere's fits, which ours are, stand that far from the table.
    """
    gas = air(kelvin, 100e3)
    assert gas.conductivity * 1e3 == pytest.approx(conductivity, rel=0.01)
    assert gas.kinematic_viscosity * 1e6 == pytest.approx(viscosity, rel=0.01)
    # the heat capacity is held at that of 300 K, 0.8 % under that of 400 K
    assert gas.prandtl == pytest.approx(prandtl, rel=0.015)


def _library_air(film: float) -> tuple[float, float, float]:
    names = ("conductivity", "viscosity", "Dmass", "Prandtl")
    k, mu, rho, pr = (PropsSI(n, "T", film, "P", 101325, "Air") for n in names)
    return k, mu / rho, pr


def test_natural_convection_against_library() -> None:
    """Wall 80 °C, air 20 °C, 0.2 m: Nu 43.49, h 6.11 W/(m²·K) by ht and CoolProp; ± 1 % for air."""
    k, nu, pr = _library_air(323.15)
    grashof = 9.80665 * 60.0 / 323.15 * 0.2**3 / nu**2
    nusselt = Nu_vertical_plate_Churchill(Pr=pr, Gr=grashof)
    assert nusselt == pytest.approx(43.49, abs=0.02)
    found = float(natural_convection(WARM, ROOM, 0.2))
    assert found == pytest.approx(nusselt * k / 0.2, rel=0.01)
    assert found == pytest.approx(6.11, rel=0.01)


@pytest.mark.parametrize("speed", [0.5, 2.0, 6.0, 12.0])
def test_forced_convection_against_library(speed: float) -> None:
    """Churchill–Bernstein by ht with CoolProp's air; ± 1 % for air."""
    k, nu, pr = _library_air(323.15)
    expected = Nu_cylinder_Churchill_Bernstein(Re=speed * 0.18 / nu, Pr=pr) * k / 0.18
    assert forced_convection(WARM, ROOM, speed, 0.18) == pytest.approx(expected, rel=0.01)


def test_radiation_coefficient() -> None:
    """80 to 20 °C, ε 0.9: 6.948 W/(m²·K)."""
    assert radiation(WARM, ROOM, 0.9) == pytest.approx(6.948, abs=5e-4)


def test_standing_case_lies_in_the_usual_range() -> None:
    """Still air 10 to 14 W/(m²·K) (ISO/TR 14179-1, from memory, low to medium confidence)."""
    case = Case(area=1.0, height=0.16, width=0.18)
    assert 10.0 < float(conductance(case, WARM, ROOM)) < 14.0


def test_moving_case_lies_in_the_usual_range() -> None:
    """Outdoors, ventilated: 20 to 24 W/(m²·K) (as above); 12 km/h with half of it at the case."""
    case = Case(area=1.0, height=0.16, width=0.18)
    assert 17.0 < float(conductance(case, WARM, ROOM, ground_speed=3.3)) < 24.0


def test_steady_rise() -> None:
    """120 W over 15 W/(m²·K) and 0.18 m²: 44.44 K."""
    found = steady_temperature(lambda t: 120.0 + 0 * t, lambda t: 15.0 * 0.18 + 0 * t, ROOM)
    assert float(found) - ROOM == pytest.approx(44.44, abs=5e-3)


def test_lumped_warm_up() -> None:
    """14 kg at 480 and 1.5 kg at 1900 J/(kg·K): τ 3544 s, 17.70 K after 30 min."""
    capacity = lumped_capacity(14.0, 480.0, 1.5, 1900.0)
    assert float(capacity) / 2.7 == pytest.approx(3544.0, abs=0.5)
    stage = Stage(1800.0, lambda t: 120.0 + 0 * t, lambda t: 2.7 + 0 * t)
    course = warm_up([stage], capacity, ROOM, ROOM)
    assert course.temperature[-1] - ROOM == pytest.approx(17.70, abs=5e-3)


LINE = walther_line(140e-6, 313.15, 14.8e-6, 373.15)
GEAR = DippingGear(pitch_radius=0.055, face_width=0.014, dip=0.03, oil_volume=0.6e-3)
CASE = Case(area=0.22, height=0.16, width=0.18)


def _thinning_loss(temperature: Array) -> Array:
    viscosity = kinematic_viscosity(LINE, temperature)
    churned = churning_loss(GEAR, 180.0, 880.0, viscosity)
    sealed = seal_loss(0.017, 180.0, temperature, 140e-6).usual
    return np.asarray(90.0 + churned + sealed)


def _cooling(temperature: Array) -> Array:
    return conductance(CASE, temperature, ROOM, ground_speed=2.0)


def test_warm_up_with_thinning_oil_against_an_ode_solver() -> None:
    """solve_ivp, two stages (work, then standing): 0.02 K with 40 steps a stage."""
    work = Stage(2400.0, _thinning_loss, _cooling)
    rest = Stage(1800.0, lambda t: 0 * t, lambda t: conductance(CASE, t, ROOM))
    course = warm_up([work, rest], 9570.0, ROOM, ROOM)
    times = np.array([600.0, 2400.0, 3000.0, 4200.0])

    def rate(time: float, state: Array) -> Array:
        stage = work if time < 2400.0 else rest
        return np.asarray(
            (stage.loss(state) - stage.conductance(state) * (state - ROOM)) / 9570.0, dtype=float
        )

    first = solve_ivp(rate, (0.0, 2400.0), [ROOM], rtol=1e-9, atol=1e-9, t_eval=times[:2])
    second = solve_ivp(
        rate, (2400.0, 4200.0), first.y[:, -1], rtol=1e-9, atol=1e-9, t_eval=times[2:]
    )
    expected = np.concatenate([first.y[0], second.y[0]])
    assert temperature_at(course, times) == pytest.approx(expected, abs=0.02)


def test_steady_temperature_with_thinning_oil_against_a_root_finder() -> None:
    """brentq on the same balance; a hundred-thousandth of a watt is left, over some 4 W/K."""

    def surplus(kelvin: float) -> float:
        state = np.asarray(kelvin)
        balance: Array = _cooling(state) * (kelvin - ROOM) - _thinning_loss(state)
        return float(balance)

    expected = brentq(surplus, ROOM, ROOM + 200.0, xtol=1e-10)
    found = steady_temperature(_thinning_loss, _cooling, ROOM)
    assert float(found) == pytest.approx(expected, abs=5e-6)


def test_bearing_of_palmgren() -> None:
    """His formula in his units (mm, rpm, cSt, N·mm): f0 2, f1 0.0006, dm 40, 1910 rpm, 40 cSt."""
    turns = 200.0 * 30.0 / np.pi
    torque = 2.0 * 1e-7 * (40.0 * turns) ** (2 / 3) * 40.0**3 + 0.0006 * 1000.0 * 40.0
    assert bearing_loss(0.04, 200.0, 1000.0, 40e-6) == pytest.approx(torque * 1e-3 * 200.0)


def test_churning_of_changenet_and_velex_by_hand() -> None:
    """Worked by hand for the viscous regime (Re 1350), four digits carried."""
    gear = DippingGear(pitch_radius=0.06, face_width=0.015, dip=0.03, oil_volume=0.6e-3)
    half = np.arccos(0.5)
    wetted = 0.06**2 * (2 * half - np.sin(2 * half)) + 2 * 0.06 * 0.015 * half
    froude, reynolds = 60.0**2 * 0.06 / 9.80665, 60.0 * 0.06 * 0.015 / 40e-6
    drag = 1.366 * 0.25**0.45 * (0.6e-3 / 0.12**3) ** 0.1 * froude**-0.6 * reynolds**-0.21
    expected = 0.5 * 860.0 * 60.0**2 * wetted * 0.06**3 * drag * 60.0
    assert churning_loss(gear, 60.0, 860.0, 40e-6) == pytest.approx(expected)
    assert expected == pytest.approx(2.87, abs=0.005)
