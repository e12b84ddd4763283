"""Pull, climb, top speed and run-up against books, a standard and independent integration.

Sources
-------
Wong: J. Y. Wong, Theory of Ground Vehicles, 3rd ed., Wiley 2001, chapter 3 (formulas from memory).
Marks: Marks' Standard Handbook for Mechanical Engineers, rolling resistance after Moyer; and
    J. Carvill, Mechanical Engineer's Data Handbook (both seen in print).
ISO 2533: Standard Atmosphere, 1975.
Shigley: Shigley's Mechanical Engineering Design, section 16-9 (energy of a clutch, from memory).
SciPy: solve_ivp, quad and brentq as independent references.
"""

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from beltwright.physics.motion.chassis import Chassis
from beltwright.physics.motion.climb import climb_before_lift, climb_by_grip, climb_by_power
from beltwright.physics.motion.clutch_start import clutch_start
from beltwright.physics.motion.run_up import run_up
from beltwright.physics.motion.top_speed import (
    AIR_DENSITY,
    EngineRange,
    Gear,
    Resistance,
    resisting_force,
    top_speed,
)
from beltwright.physics.motion.traction import Driven, thrust, thrust_limits
from beltwright.tables.surfaces import surface

GRAVITY = 9.80665
MACHINE = Chassis(mass=320.0, wheelbase=1.25, ahead=0.45, height=0.55)


@pytest.mark.parametrize(
    ("slope", "expected"),
    [
        (np.radians(15.0), 320.0 * GRAVITY * np.sin(np.radians(15.0))),  # statics: 812.2 N
        (np.arctan(0.20), 320.0 * GRAVITY * 0.20 / np.hypot(1.0, 0.20)),  # statics: 615.4 N
    ],
)
def test_force_of_a_grade(slope: float, expected: float) -> None:
    """Statics: m g sin θ."""
    assert resisting_force(Resistance(320.0, slope=slope), 0.0) == pytest.approx(expected, 1e-12)


@pytest.mark.parametrize(("slope", "printed"), [(np.radians(15.0), 812.2), (np.arctan(0.2), 615.4)])
def test_force_of_a_grade_in_figures(slope: float, printed: float) -> None:
    """The same to the four figures of the reference sheet."""
    assert resisting_force(Resistance(320.0, slope=slope), 0.0) == pytest.approx(printed, abs=0.05)


def test_thrust_of_a_whole_driveline() -> None:
    """Statics: 16 N·m, belt 3:1 at 95 %, box 20:1 at 85 %, tyre 0.24 m: 775.2 N·m, 3230 N."""
    assert thrust(16.0, 3.0 * 20.0, 0.95 * 0.85, 1.0) == pytest.approx(775.2, abs=0.05)
    assert thrust(16.0, 3.0 * 20.0, 0.95 * 0.85, 0.24) == pytest.approx(3230.0, abs=0.5)


def test_steepest_climb_by_grip() -> None:
    """Wong: tan θ = μ (L − b) / (L − μ h) for rear drive: 27.553°."""
    assert np.degrees(climb_by_grip(MACHINE, 0.6)) == pytest.approx(27.553, abs=5e-4)


def test_steepest_climb_before_the_front_lifts() -> None:
    """Wong: tan θ = b / h: 39.289°."""
    assert np.degrees(climb_before_lift(MACHINE)) == pytest.approx(39.289, abs=5e-4)


@pytest.mark.parametrize("driven", ["rear", "front", "all"])
def test_climb_by_grip_by_root_finding(driven: Driven) -> None:
    """Moments written out anew and solved by brentq, with rolling drag and drawbar pull."""
    machine = Chassis(mass=320.0, wheelbase=1.25, ahead=0.45, height=0.55, hitch_height=0.35)
    weight, drag, pull, grip = 320.0 * GRAVITY, 0.06, 250.0, 0.55

    def short_of_grip(slope: float) -> float:
        front = (weight * (0.45 * np.cos(slope) - 0.55 * np.sin(slope)) - pull * 0.35) / 1.25
        whole = weight * np.cos(slope)
        load = {"rear": whole - front, "front": front, "all": whole}[driven]
        return float(weight * np.sin(slope) + drag * whole + pull - grip * load)

    root = brentq(short_of_grip, -0.5, 1.2, xtol=1e-14)
    found = climb_by_grip(
        machine,
        grip,
        driven,
        rolling_resistance=drag,
        drawbar_pull=pull,
    )
    assert found == pytest.approx(root, abs=1e-12)


def test_climb_by_power_by_root_finding() -> None:
    """m g (sin θ + f cos θ) = T − P solved by brentq."""
    weight = 320.0 * GRAVITY
    root = brentq(
        lambda slope: weight * (np.sin(slope) + 0.06 * np.cos(slope)) - (1300.0 - 200.0),
        0.0,
        1.0,
        xtol=1e-14,
    )
    assert climb_by_power(weight, 1300.0, 0.06, 200.0) == pytest.approx(root, abs=1e-12)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("asphalt", 0.008, 0.02),  # Marks, hard road
        ("gravel", 0.012, 0.06),  # Marks, firm to loose gravel
        ("loose sand", 0.1, 0.4),  # Marks, sand to loose sand
        ("mown grass", 0.05, 0.10),  # terramechanics texts, from memory, low to medium
    ],
)
def test_rolling_resistance_ranges(name: str, low: float, high: float) -> None:
    """The table prints the range of its source."""
    found = surface(name)
    assert (found.rolling_low, found.rolling_high) == (low, high)


def test_pasture_holds_medium_hard_soil() -> None:
    """Marks: medium-hard soil 0.08."""
    assert surface("pasture").rolling_low <= 0.08 <= surface("pasture").rolling_high


@pytest.mark.parametrize(
    ("name", "sliding", "peak"),
    [
        # Wong, table 1.3 (from memory, medium)
        ("asphalt", 0.75, 0.90),
        ("wet asphalt", 0.45, 0.70),
        ("gravel", 0.55, 0.60),
        ("packed snow", 0.15, 0.20),
        ("ice path", 0.07, 0.10),
    ],
)
def test_grip_ranges_hold_the_book(name: str, sliding: float, peak: float) -> None:
    """The sliding and the peak value of the book lie inside the range of the table."""
    found = surface(name)
    assert found.grip_low <= sliding <= peak <= found.grip_high


def test_air_density_of_the_standard_atmosphere() -> None:
    """ISO 2533: 1.225 kg/m³ = p / (R T) with 101325 Pa, 287.05287 J/(kg K), 288.15 K."""
    assert pytest.approx(101325.0 / (287.05287 * 288.15), abs=5e-5) == AIR_DENSITY


def test_run_up_at_even_power_under_a_cap() -> None:
    """320 kg × 1.08, 2500 W capped at 1300 N, drag 0.06, to 2.2 m/s: 0.6913 s (SciPy)."""
    engine = EngineRange(lambda w: 2500.0 / w, slowest=0.1, governed=50.0, no_load=60.0)
    gear = Gear(ratio=1.0, efficiency=1.0, rolling_radius=1.0, rotating_mass=0.08 * 320.0)
    drag = Resistance(320.0, rolling_resistance=0.06)
    # the cap ends at 2500/1300 m/s: taken as the speed at which the clutch stops slipping
    run = run_up(engine, [gear], drag, 2.2, start_speed=2500.0 / 1300.0, thrust_limit=1300.0)
    assert run.time == pytest.approx(0.6913, abs=5e-5)


def test_run_up_through_the_gears_by_stepping() -> None:
    """Every phase integrated in time by solve_ivp: slip, pull, pause, next gear."""
    engine = EngineRange(
        lambda w: np.where(w <= 345.0, 14.0 + 0.03 * w - 1e-4 * w * w, 0.0),
        slowest=150.0,
        governed=345.0,
        no_load=377.0,
    )
    gears = [Gear(60.0, 0.8, 0.24, 30.0), Gear(25.0, 0.82, 0.24, 12.0)]
    drag = Resistance(300.0, rolling_resistance=0.06, slope=0.03, drag_area=0.7)
    target, pause, start = 3.0, 0.4, 220.0
    time, distance, speed = 0.0, 0.0, 0.0
    for gear, goal in zip(gears, (345.0 * 0.24 / 60.0, target), strict=True):

        def motion(_: float, state: np.ndarray, gear: Gear = gear) -> list[float]:
            w = max(float(state[1]) * float(gear.ratio) / 0.24, start)
            torque = 14.0 + 0.03 * w - 1e-4 * w * w
            push = min(torque * float(gear.ratio) * float(gear.efficiency) / 0.24, 1500.0)
            held = 300.0 * GRAVITY * (np.sin(0.03) + 0.06 * np.cos(0.03))
            held += 0.5 * 1.225 * 0.7 * float(state[1]) ** 2
            return [float(state[1]), (push - held) / (300.0 + float(gear.rotating_mass))]

        def there(_: float, state: np.ndarray, goal: float = goal) -> float:
            return float(state[1]) - goal

        there.terminal = True  # type: ignore[attr-defined]
        answer = solve_ivp(motion, (0.0, 60.0), [0.0, speed], events=there, rtol=1e-10, atol=1e-12)
        time += float(answer.t[-1])
        distance += float(answer.y[0, -1])
        speed = float(answer.y[1, -1])
        if goal < target:
            held = float(resisting_force(drag, speed)) / 300.0
            after = speed - held * pause
            time, distance = time + pause, distance + 0.5 * (speed + after) * pause
            speed = after
    run = run_up(engine, gears, drag, target, start, thrust_limit=1500.0, shift_pause=pause)
    # the cap of 1500 N is not one of the bends that the quadrature knows of
    assert run.time == pytest.approx(time, rel=2e-3)
    assert run.distance == pytest.approx(distance, rel=2e-3)
    free = run_up(engine, gears[1:], drag, target, start)
    assert free.time == pytest.approx(_seconds_in_gear(target, start), rel=1e-9)


def _seconds_in_gear(target: float, start: float) -> float:
    """∫ m dv / (F − R) in the upper gear by adaptive quadrature, split where the slip ends."""

    def slowness(speed: float) -> float:
        w = max(speed * 25.0 / 0.24, start)
        push = (14.0 + 0.03 * w - 1e-4 * w * w) * 25.0 * 0.82 / 0.24
        held = 300.0 * GRAVITY * (np.sin(0.03) + 0.06 * np.cos(0.03))
        return float(312.0 / (push - held - 0.5 * 1.225 * 0.7 * speed**2))

    caught_up = start * 0.24 / 25.0
    slipping, _ = quad(slowness, 0.0, caught_up, epsrel=1e-12)
    pulling, _ = quad(slowness, caught_up, target, epsrel=1e-12)
    return float(slipping + pulling)


@pytest.mark.parametrize("slope", [-0.05, 0.0, 0.05, 0.12])
def test_top_speed_by_root_finding(slope: float) -> None:
    """The balance of forces written out anew and solved by brentq."""

    def torque(w: float) -> float:
        return float(np.interp(w, [150.0, 260.0, 345.0, 377.0], [17.0, 20.0, 18.0, 0.0]))

    def surplus(w: float) -> float:
        speed = w * 0.24 / 18.0
        held = 320.0 * GRAVITY * (np.sin(slope) + 0.06 * np.cos(slope))
        return float(torque(w) * 18.0 * 0.8 / 0.24 - held - 0.5 * 1.225 * 0.7 * speed**2)

    engine = EngineRange(
        lambda w: np.interp(w, [150.0, 260.0, 345.0, 377.0], [17.0, 20.0, 18.0, 0.0]),
        slowest=150.0,
        governed=345.0,
        no_load=377.0,
    )
    top = top_speed(
        engine,
        Gear(18.0, 0.8, 0.24),
        Resistance(320.0, rolling_resistance=0.06, slope=slope, drag_area=0.7),
    )
    root = brentq(surplus, 300.0, 377.0, xtol=1e-12)
    assert top.speed == pytest.approx(root * 0.24 / 18.0, rel=1e-9)
    assert top.governed == (root >= 345.0)


def test_wheel_spin_by_stepping_load_and_thrust_to_rest() -> None:
    """Wong: F = μ m g (L − b + f h) / (L − μ h) sign by sign, found by fixed-point steps."""
    force = 0.0
    for _ in range(200):
        acceleration = force / 320.0 - GRAVITY * (np.sin(0.1) + 0.06 * np.cos(0.1))
        lifted = 320.0 * (GRAVITY * np.sin(0.1) + acceleration) * 0.55
        rear = (320.0 * GRAVITY * np.cos(0.1) * (1.25 - 0.45) + lifted) / 1.25
        force = 0.5 * rear
    limits = thrust_limits(MACHINE, 0.5, slope=0.1, rolling_resistance=0.06)
    assert limits.slip == pytest.approx(force, rel=1e-12)


def test_clutch_work_between_two_inertias() -> None:
    """Shigley 16-9: W = J₁ J₂ ω² / (2 (J₁ + J₂)) whatever the torque."""
    for torque in (5.0, 20.0, 80.0):
        start = clutch_start(torque, 0.0, 0.0, 0.03, 0.012, 345.0)
        assert start.work == pytest.approx(0.03 * 0.012 * 345.0**2 / (2 * 0.042), rel=1e-12)


def test_clutch_start_by_stepping() -> None:
    """Both sides of the clutch integrated by solve_ivp until they turn alike."""

    def motion(_: float, state: np.ndarray) -> list[float]:
        engine, driven, _work = state
        return [(18.0 - 30.0) / 0.04, (30.0 - 6.0) / 0.02, 30.0 * (engine - driven)]

    def alike(_: float, state: np.ndarray) -> float:
        return float(state[0] - state[1])

    alike.terminal = True  # type: ignore[attr-defined]
    answer = solve_ivp(motion, (0.0, 10.0), [345.0, 0.0, 0.0], events=alike, rtol=1e-10)
    start = clutch_start(30.0, 18.0, 6.0, 0.04, 0.02, 345.0)
    assert start.slips == pytest.approx(answer.t[-1], rel=1e-8)
    assert start.speed == pytest.approx(answer.y[0, -1], rel=1e-8)
    assert start.work == pytest.approx(answer.y[2, -1], rel=1e-8)
