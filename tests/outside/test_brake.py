"""Brake torque, stopping and heat against handbooks and independent integration.

Sources
-------
Shigley: Shigley's Mechanical Engineering Design, chapter 16: sections 16-2 (long shoe, with
    example 16-2, from memory, high), 16-4 (band), 16-5 (disc, with example 16-3, from memory,
    high), 16-9 and 16-10 (energy, heat); table 16-3 (linings, from memory, medium).
Tribology: Tribology Handbook, 2nd ed. 1995, section B8, table 8.10 (seen in print).
Gillespie: T. D. Gillespie, Fundamentals of Vehicle Dynamics, SAE 1992, chapter 3 (from memory).
SciPy: quad, solve_ivp and brentq as independent references.
"""

from collections.abc import Callable
from math import cos, sin

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from beltwright.physics.brake.heat import (
    braking_power,
    heat_of_a_stop,
    rise_on_descent,
)
from beltwright.physics.brake.stopping import (
    brake_force_limits,
    deceleration,
    slope_held_by_grip,
    stopping_distance,
)
from beltwright.physics.brake.torque import band, disc_worn_in, drum_shoe, pad_pressure
from beltwright.physics.customary import INCH, POUND_FORCE
from beltwright.physics.motion.chassis import Chassis
from beltwright.tables.brake_linings import brake_lining_pressures, brake_linings

GRAVITY = 9.80665
MACHINE = Chassis(mass=320.0, wheelbase=1.25, ahead=0.45, height=0.55)


@pytest.mark.parametrize(
    ("name", "friction", "celsius"),
    [
        # Tribology, table 8.10
        ("woven cotton", 0.50, 100.0),
        ("woven asbestos", 0.40, 125.0),
        ("moulded light", 0.38, 175.0),
        ("moulded", 0.35, 200.0),
        ("moulded heavy", 0.35, 225.0),
        ("resin pad", 0.32, 300.0),
        ("sintered", 0.30, 300.0),
    ],
)
def test_linings(name: str, friction: float, celsius: float) -> None:
    """The table prints its source."""
    lining = brake_linings().named(name)
    assert lining.friction == friction
    assert lining.continuous == pytest.approx(celsius + 273.15, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        # Shigley, table 16-3, maximum pressure in psi
        ("woven cotton", 100.0, 100.0),
        ("woven asbestos", 100.0, 100.0),
        ("moulded light", 100.0, 150.0),  # rigid moulded, without asbestos
        ("moulded", 100.0, 150.0),
        ("moulded heavy", 100.0, 150.0),
        ("resin pad", 750.0, 750.0),  # rigid moulded pads
        ("sintered", 300.0, 400.0),  # sintered metal, dry
    ],
)
def test_pressures_that_linings_are_made_for(name: str, low: float, high: float) -> None:
    psi = brake_lining_pressures().named(name).pressure / (POUND_FORCE / INCH**2)
    assert low * (1.0 - 1e-9) <= psi <= high * (1.0 + 1e-9)


def test_every_lining_has_its_pressure() -> None:
    assert [row.name for row in brake_lining_pressures()] == [row.name for row in brake_linings()]


def test_usual_linings_lie_in_the_general_range() -> None:
    """Textbooks: modern linings 0.3 to 0.5."""
    for name in ("moulded light", "moulded", "moulded heavy", "resin pad", "sintered"):
        assert 0.3 <= brake_linings().named(name).friction <= 0.5


def test_band() -> None:
    """Shigley 16-4 (Euler): 270°, μ 0.35, 100 N, r 60 mm: ratio 5.2035, 25.221 N·m."""
    helped = band(100.0, 0.35, np.radians(270.0), 0.06, 0.04, turning_from_anchor=True)
    assert helped.anchor_pull == pytest.approx(520.35, abs=5e-3)
    assert helped.torque == pytest.approx(25.221, abs=5e-4)
    assert helped.peak_pressure == pytest.approx(2 * 520.35 / (0.04 * 0.12), rel=1e-5)


@pytest.mark.parametrize("surface_runs", [1.0, -1.0])
def test_band_by_integration(surface_runs: float) -> None:
    """The balance of each piece of band, stepped from the pedal's end (φ = 0) to the pin.

    Along +φ the piece is pulled by T + dT at its far end, held by T at its near end, and dragged by
    μ T dφ the way in which the drum's surface runs: T + dT − T + surface_runs μ T dφ = 0.
    """
    answer = solve_ivp(
        lambda _, pull: -surface_runs * 0.3 * pull, (0.0, 4.2), [150.0], rtol=1e-11, atol=1e-9
    )
    # from the pinned end towards the pedal's end is against +φ
    found = band(150.0, 0.3, 4.2, 0.07, 0.03, turning_from_anchor=surface_runs < 0.0)
    assert found.anchor_pull == pytest.approx(answer.y[0, -1], rel=1e-8)
    assert found.torque == pytest.approx(abs(answer.y[0, -1] - 150.0) * 0.07, rel=1e-8)


def test_the_tight_end_is_where_the_surface_comes_from() -> None:
    """Capstan of a ship (Euler): its surface runs from the load towards the hand, which holds a
    large load by a small pull. The pin stands for the load, the pedal for the hand."""
    hauls = band(100.0, 0.3, 3.0 * np.pi, 0.1, 0.05, turning_from_anchor=True)
    assert hauls.anchor_pull == pytest.approx(100.0 * np.exp(0.9 * np.pi), rel=1e-12)
    slips = band(100.0, 0.3, 3.0 * np.pi, 0.1, 0.05, turning_from_anchor=False)
    assert slips.anchor_pull < 100.0 < hauls.anchor_pull


def test_disc() -> None:
    """Shigley 16-5: two faces, μ 0.35, 800 N, 40 to 60 mm, worn in: 28.00 N·m."""
    assert disc_worn_in(800.0, 0.35, 0.040, 0.060) == pytest.approx(28.0, rel=1e-12)


def test_a_caliper_pad() -> None:
    """Shigley, example 16-3: two pads of 108°, 3.875 to 5.5 in, μ 0.37, 13 000 lbf in by even wear:
    3748 lbf on each pad, 315.8 psi at its inner edge."""
    inner, outer, force = 3.875 * INCH, 5.5 * INCH, 3748.0 * POUND_FORCE
    torque = disc_worn_in(force, 0.37, inner, outer)
    # four printed figures each
    assert torque / POUND_FORCE / INCH == pytest.approx(13_000.0, rel=2e-4)
    pad = np.radians(108.0) * (inner + outer) / 2.0
    pressure = pad_pressure(force, pad, inner, outer)
    assert pressure / (POUND_FORCE / INCH**2) == pytest.approx(315.8, rel=2e-4)


def test_a_worn_in_pad_by_integration() -> None:
    """Even wear: p r is the same all over; ∫ p dA is the force, ∫ μ p r dA the torque."""
    inner, outer, pad, force = 0.041, 0.063, 0.034, 900.0
    angle = pad / ((inner + outer) / 2.0)
    highest = float(pad_pressure(force, pad, inner, outer))
    pressed, _ = quad(lambda r: highest * inner / r * r * angle, inner, outer)
    assert pressed == pytest.approx(force, rel=1e-12)
    turned, _ = quad(lambda r: 0.35 * highest * inner / r * r * r * angle, inner, outer)
    assert disc_worn_in(force, 0.35, inner, outer, faces=1) == pytest.approx(turned, rel=1e-12)


# Shigley, example 16-2 (from memory, high): r 150 mm, face 32 mm, μ 0.32, 0 to 126°,
# pivot at 112 and 50 mm from the centre, force arm 212 mm; right shoe at 1000 kPa
SHOE = {
    "force_arm": 0.212,
    "pivot_distance": float(np.hypot(0.112, 0.050)),
    "radius": 0.150,
    "width": 0.032,
    "friction": 0.32,
    "begins": 0.0,
    "ends": float(np.radians(126.0)),
}


def test_leading_shoe() -> None:
    """Shigley, example 16-2: force 2.28 kN at 1000 kPa, torque 366 N·m."""
    shoe = drum_shoe(2280.0, leading=True, **SHOE)
    # both shown to three figures
    assert shoe.peak_pressure == pytest.approx(1000e3, rel=5e-3)
    assert shoe.torque / shoe.peak_pressure * 1e6 == pytest.approx(365.8, rel=5e-4)


def test_trailing_shoe() -> None:
    """Shigley, example 16-2: the same force gives 443 kPa and 162 N·m; 528 N·m together."""
    trailing = drum_shoe(2280.0, leading=False, **SHOE)
    leading = drum_shoe(2280.0, leading=True, **SHOE)
    # three printed figures, carried through from rounded moments in the book
    assert trailing.peak_pressure == pytest.approx(443e3, rel=3e-3)
    assert trailing.torque == pytest.approx(162.0, rel=3e-3)
    assert trailing.torque + leading.torque == pytest.approx(528.0, rel=5e-3)


@pytest.mark.parametrize(("begins", "ends"), [(15.0, 80.0), (20.0, 130.0), (100.0, 160.0)])
@pytest.mark.parametrize("leading", [True, False])
def test_shoe_by_integration(begins: float, ends: float, leading: bool) -> None:
    """Pressure p_a sin θ / sin θ_a integrated over the lining, moments about the pivot."""
    first, last = np.radians(begins), np.radians(ends)
    radius, distance, width, friction, arm, force = 0.08, 0.06, 0.025, 0.35, 0.11, 400.0
    highest = max(np.sin(t) for t in np.linspace(first, last, 100_001))

    def over(part: Callable[[float], float]) -> float:
        value, _ = quad(part, first, last, epsabs=1e-14)
        return float(value) * width * radius / float(highest)

    normal = over(lambda t: sin(t) * distance * sin(t))
    dragging = friction * over(lambda t: sin(t) * (radius - distance * cos(t)))
    turning = friction * radius * over(sin)
    pressure = force * arm / (normal - dragging if leading else normal + dragging)
    shoe = drum_shoe(force, arm, distance, radius, width, friction, first, last, leading=leading)
    # the highest sine is taken from a fine table of angles: good to 1e-9
    assert shoe.peak_pressure == pytest.approx(pressure, rel=1e-8)
    assert shoe.torque == pytest.approx(turning * pressure, rel=1e-8)


def test_a_stop() -> None:
    """Kinematics: 320 kg from 2.2 m/s at 3 m/s²: 0.8067 m, 774.4 J."""
    assert stopping_distance(2.2, 3.0) == pytest.approx(2.2**2 / 6.0, rel=1e-12)
    assert heat_of_a_stop(320.0, 2.2) == pytest.approx(774.4, rel=1e-12)


def test_a_stop_downhill_by_stepping() -> None:
    """Rolling machine stepped by solve_ivp; heat counted as brake force times path."""
    slope, drag, brake = -0.12, 0.05, 900.0
    pulling = 320.0 * GRAVITY * (np.sin(slope) + drag * np.cos(slope))

    def motion(_: float, state: np.ndarray) -> list[float]:
        return [float(state[1]), -(brake + pulling) / 340.0, brake * float(state[1])]

    def stands(_: float, state: np.ndarray) -> float:
        return float(state[1])

    stands.terminal = True  # type: ignore[attr-defined]
    answer = solve_ivp(motion, (0.0, 60.0), [0.0, 5.0, 0.0], events=stands, rtol=1e-10)
    slowing = deceleration(320.0, brake, 1e9, slope, drag, rotating_mass=20.0)
    assert stopping_distance(5.0, slowing, 0.5) == pytest.approx(2.5 + answer.y[0, -1], rel=1e-8)
    assert heat_of_a_stop(320.0, 5.0, slowing, slope, drag, 20.0) == pytest.approx(
        answer.y[2, -1], rel=1e-8
    )


@pytest.mark.parametrize("front_share", [0.0, 0.3, 0.6, 1.0])
def test_locking_by_root_finding(front_share: float) -> None:
    """Gillespie: raise the brake force until an axle asks more than its load times the grip."""
    weight, slope, drag, grip = 320.0 * GRAVITY, -0.1, 0.05, 0.5

    def loads(force: float) -> tuple[float, float]:
        rolling = drag * weight * np.cos(slope)
        slowing = (force + rolling + weight * np.sin(slope)) / 320.0
        front = (
            weight * (0.45 * np.cos(slope) - 0.55 * np.sin(slope)) + 320.0 * slowing * 0.55
        ) / 1.25
        return float(front), float(weight * np.cos(slope) - front)

    rear = brentq(lambda b: (1 - front_share) * b - grip * loads(b)[1], 0.0, 2e4, xtol=1e-9)
    limits = brake_force_limits(MACHINE, grip, front_share, slope, drag)
    assert limits.rear == pytest.approx(rear, rel=1e-9)
    if front_share * 1.25 > grip * 0.55:
        front = brentq(lambda b: front_share * b - grip * loads(b)[0], 0.0, 2e5, xtol=1e-9)
        assert limits.front == pytest.approx(front, rel=1e-9)
    else:
        assert np.isinf(limits.front)


def test_rear_brakes_closed_form() -> None:
    """Gillespie: rear-only on the level, a/g = μ (L − b) / (L + μ h)."""
    limit = brake_force_limits(MACHINE, 0.6).usable
    assert limit / MACHINE.weight == pytest.approx(0.6 * 0.8 / (1.25 + 0.6 * 0.55), rel=1e-12)


def test_parking_by_root_finding() -> None:
    """Rear wheels locked, m g sin θ = μ N_rear, nose up and nose down."""
    held = slope_held_by_grip(MACHINE, 0.6)
    for found, sign in ((held.facing_up, 1.0), (held.facing_down, -1.0)):
        root = brentq(
            lambda t, sign=sign: (
                np.sin(t) - 0.6 * (0.8 * np.cos(t) + sign * 0.55 * np.sin(t)) / 1.25
            ),
            0.0,
            1.5,
            xtol=1e-14,
        )
        assert found == pytest.approx(root, abs=1e-12)


def test_long_descent_by_stepping() -> None:
    """m c dT/dt = P − h A T stepped by solve_ivp."""
    power = float(braking_power(320.0, 3.0, np.radians(10.0), 0.06))
    assert power == pytest.approx(
        320.0 * GRAVITY * 3.0 * (np.sin(np.radians(10.0)) - 0.06 * np.cos(np.radians(10.0)))
    )
    answer = solve_ivp(
        lambda _, rise: (power - 1.5 * rise) / 600.0, (0.0, 90.0), [0.0], rtol=1e-10, atol=1e-9
    )
    assert rise_on_descent(power, 90.0, 600.0, 1.5) == pytest.approx(answer.y[0, -1], rel=1e-8)
