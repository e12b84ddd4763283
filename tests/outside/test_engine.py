"""Engine and wheel speeds against printed problems and independent integration.

Sources:
[1] A general engineering handbook, mean piston speeds: seen in print.
[2] F. L. Singer, Strength of Materials, problem 140 (rotating steel ring, 7850 kg/m³, 150 MPa, mean
    radius 220 mm): seen in print.
[3] The old shop rule of 6000 ft/min for cast-iron rims: from memory, high.
[4] SciPy's quad as an independent reference.
[5] ISO 8528-5, definition of speed droop: from memory, high.
"""

from math import pi

import numpy as np
import pytest
from scipy.integrate import quad

from beltwright.build.reading import read_text
from beltwright.build.starter import starter_text
from beltwright.physics.engine.torque import (
    full_load_torque,
    governed_torque,
    mean_piston_speed,
    no_load_speed,
    torque_of_power,
)
from beltwright.physics.engine.wheel_stress import (
    CAST_IRON_RIM_SPEED,
    bursting_speed,
    rim_speed,
    rim_stress,
)
from beltwright.review.case import Case
from beltwright.review.driveline.speed import top_gear
from beltwright.review.engine.torque import engine_torque, full_load
from beltwright.review.motion.ground import grounds
from beltwright.review.motion.pull import top_speed_on

RPM = pi / 30


@pytest.mark.parametrize(
    ("stroke", "rpm", "printed", "tolerance"),
    [(0.085, 5500, 15.58, 0.005), (0.090, 3000, 9.00, 0.005)],
)
def test_mean_piston_speed(stroke: float, rpm: float, printed: float, tolerance: float) -> None:
    """[1], printed as 15.58 and 9."""
    assert float(mean_piston_speed(stroke, rpm * RPM)) == pytest.approx(printed, abs=tolerance)


def test_mean_piston_speed_is_the_mean() -> None:
    """[4]: the speed of a piston on crank and rod, averaged over a stroke by quad."""
    crank, rod, speed = 0.0335, 0.11, 3600 * RPM

    def piston(angle: float) -> float:
        sine, cosine = np.sin(angle), np.cos(angle)
        swing = crank**2 * sine * cosine / np.sqrt(rod**2 - (crank * sine) ** 2)
        return float(speed * (crank * sine + swing))

    mean = quad(piston, 0, pi)[0] / pi
    assert float(mean_piston_speed(2 * crank, speed)) == pytest.approx(mean, rel=1e-9)


def test_rotating_ring() -> None:
    """[2]: 150 MPa at 628.33 rad/s (6000.1 rpm), ±0.1 %."""
    assert float(rim_stress(7850.0, 0.220, 628.33)) == pytest.approx(150e6, rel=0.001)
    stress = rim_stress(7850.0, 0.220, 100.0)
    assert float(bursting_speed(150e6, stress, 100.0)) / RPM == pytest.approx(6000.1, rel=0.001)


@pytest.mark.parametrize(("rpm", "stress"), [(3600, 10.233e6), (5400, 23.024e6)])
def test_cast_iron_rim_at_overspeed(rpm: float, stress: float) -> None:
    """ρω²r² worked exactly: 7200 kg/m³, mean radius 100 mm; ±0.1 %."""
    assert float(rim_stress(7200.0, 0.100, rpm * RPM)) == pytest.approx(stress, rel=0.001)


def test_old_rim_rule() -> None:
    """[3]: a rim of 100 mm mean radius at 3600 rpm runs 7421 ft/min, past the rule's 6000."""
    speed = float(rim_speed(0.100, 3600 * RPM))
    assert speed / (0.3048 / 60) == pytest.approx(7421, abs=1)
    assert speed > CAST_IRON_RIM_SPEED == pytest.approx(30.48)


def test_droop() -> None:
    """[5]: δ = (n₀ − n_r)/n_r; 3600 rpm with 5 % runs free at 3780, half torque at 3690."""
    free = no_load_speed(3600 * RPM, 0.05)
    assert float(free) / RPM == pytest.approx(3780.0)
    half = governed_torque(3690.0 * RPM, 20.0, 20.0, 3600 * RPM, free)
    assert float(half) == pytest.approx(10.0)


def test_assumed_curve_passes_through_its_rating_and_peak() -> None:
    """Common practice, no source: only that the shape does what it says, by its own calculus."""
    rated, speed = torque_of_power(9300.0, 345.0), 345.0
    grid = np.linspace(0.3, 1.1, 80_001) * speed
    curve = full_load_torque(grid, 9300.0, speed, 0.12, 0.68)
    assert float(grid[np.argmax(curve)] / speed) == pytest.approx(0.68, abs=1e-4)
    assert float(curve.max() / rated) == pytest.approx(1.12, rel=1e-9)
    assert float(full_load_torque(speed, 9300.0, speed, 0.12, 0.68)) == pytest.approx(float(rated))


@pytest.mark.parametrize("no_load", [3300.0, 3000.0, 2600.0])
def test_an_engine_governed_below_its_label_droops_below_its_speed_without_load(
    no_load: float,
) -> None:
    """ISO 8528-5: droop = (speed without load - declared speed) / declared speed. A label of 8 kW
    at 3300 rpm does not make an engine pull fully at the very speed at which its governor idles
    it: there it has nothing left, and its full torque only below no load / (1 + 7 %)."""
    text = starter_text()
    assert 'no_load = "3400 ± 30 rpm"' in text
    told = text.replace('no_load = "3400 ± 30 rpm"', f'no_load = "{no_load:g} rpm"')
    case = Case(read_text(told, "build.toml"), 0)
    turns = np.array([no_load, no_load / 1.07, no_load / 1.035]) * RPM
    idle, full, between = (float(engine_torque(case, each)[0]) for each in turns)
    assert idle == pytest.approx(0.0, abs=1e-9)
    assert full == pytest.approx(float(full_load(case, turns[1])[0]), rel=1e-12)
    share = (1.0 - 1.0 / 1.035) / (1.0 - 1.0 / 1.07)
    assert between == pytest.approx(share * full, rel=1e-9)
    top = top_speed_on(case, grounds(case)[0], top_gear(case))
    assert bool(top.governed[0])
