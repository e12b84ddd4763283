"""The throttle's cable, levers and springs against textbooks and independent computation.

Sources
-------
Meriam: J. L. Meriam and L. G. Kraige, Engineering Mechanics: Statics, section 6/8 (flexible
    belts), the sample problem of a cable over a fixed drum (from memory, high; the figures are
    recomputed from its closed form).
Shigley: Shigley's Mechanical Engineering Design, 9th ed.: section 10-11 with example 10-6
    (extension spring: 0.035 in wire, 0.248 in outside, 12.17 turns, 1.19 lbf initial, 5.25 lbf
    load; from memory, medium, and recomputed from equations 10-9 and 10-40), table A-5 (steel,
    207 GPa).
SciPy: brentq, quad, solve_ivp as independent references.
"""

from math import cos, exp, hypot, pi, sin

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from beltwright.physics.cable import cable_efficiency, cable_stretch, strand_stiffness
from beltwright.physics.spring import spring_on_arm, spring_pull
from beltwright.physics.throttle.lever import (
    angle_at_reach,
    matching_radius,
    wire_lever,
    wire_reach,
)
from beltwright.physics.throttle.stroke import opening_pull, pedal_push

INCH, POUND_FORCE = 0.0254, 4.4482216152605

ARM_END, PEDAL_END = (-0.055, 0.032), (-0.060, 0.058)
ARM, PEDAL, FOOT = 0.025, 0.060, 0.180
CLOSED, OPEN, REST = np.radians([60.0, 105.0, 100.0])
HOOK, FRAME, FREE, RATE, INITIAL = (0.018, 0.0), (0.070, -0.005), 0.045, 600.0, 3.0


@pytest.mark.parametrize(
    ("held", "friction", "bend", "pulled", "tolerance"),
    [
        # Meriam: 100 kg (981 N) over a quarter turn, 0.30: raised by 1572 N, held by 612 N
        (981.0, 0.30, pi / 2, 1572.0, 0.5),
        (612.0, 0.30, pi / 2, 981.0, 1.0),
        # the same: 500 N hold it over ln(981/500)/0.30 = 2.25 rad, printed as 128.7 degrees
        (500.0, 0.30, np.radians(128.7), 981.0, 1.0),
    ],
)
def test_rope_over_a_drum(
    held: float, friction: float, bend: float, pulled: float, tolerance: float
) -> None:
    """Tolerance: the last printed digit of the smaller pull, times their ratio."""
    assert held / cable_efficiency(friction, bend) == pytest.approx(pulled, abs=tolerance)


def test_cable_by_integration() -> None:
    """dF/dφ = −μ F along a bent sheath."""
    answer = solve_ivp(lambda _, pull: -0.15 * pull, (0.0, 5.0), [1.0], rtol=1e-11, atol=1e-12)
    assert cable_efficiency(0.15, 5.0) == pytest.approx(answer.y[0, -1], rel=1e-8)


def test_stretch_by_integration() -> None:
    """Hooke's law summed along the wire, whose pull grows from the far end as e^(μφx/l)."""
    length, stiffness, fall = 1.45, 73e3, 0.15 * 4.2
    whole, _ = quad(lambda x: 40.0 * exp(fall * x / length) / stiffness, 0.0, length)
    stretch = cable_stretch(40.0, cable_efficiency(0.15, 4.2), length, stiffness)
    assert float(stretch) == pytest.approx(whole, rel=1e-12)


def test_a_solid_steel_wire() -> None:
    """Shigley, table A-5: 1 mm of steel, 1 m long, stretches 1 mm under 207 GPa × area / 1000."""
    stiffness = strand_stiffness(0.001, 207e9, 1.0)
    pull = 207e9 * pi * 0.0005**2 / 1000.0
    assert float(cable_stretch(pull, 1.0, 1.0, stiffness)) == pytest.approx(0.001, rel=1e-12)


def test_extension_spring() -> None:
    """Shigley, example 10-6: k = d⁴ G / (8 D³ N), y = (F − F₀) / k, about 0.227 in at 5.25 lbf."""
    wire, mean, turns, shear, modulus = 0.035, 0.248 - 0.035, 12.17, 11.6e6, 28.7e6
    rate = wire**4 * shear / (8.0 * mean**3 * (turns + shear / modulus))
    assert rate == pytest.approx(17.91, abs=0.005)
    drawn = (5.25 - 1.19) / rate
    assert drawn == pytest.approx(0.227, abs=5e-4)
    pull = spring_pull(
        (0.817 + drawn) * INCH, 0.817 * INCH, rate * POUND_FORCE / INCH, 1.19 * POUND_FORCE
    )
    assert float(pull) / POUND_FORCE == pytest.approx(5.25, rel=1e-12)


def _away(angle: float, radius: float, end: tuple[float, float]) -> float:
    return hypot(end[0] - radius * cos(angle), end[1] - radius * sin(angle))


def _arm_at(drawn: float) -> float:
    """The arm's angle by root search, once so much wire is drawn out of its place."""
    start = _away(CLOSED, ARM, ARM_END)
    found: float = brentq(
        lambda a: start - _away(a, ARM, ARM_END) - drawn, CLOSED, OPEN + 0.3, xtol=1e-14
    )
    return found


def test_levers_by_root_search() -> None:
    for drawn in (0.002, 0.01, 0.018):
        reach = wire_reach(CLOSED, ARM, ARM_END) - drawn
        angle = angle_at_reach(reach, ARM, ARM_END, CLOSED, 1.0)
        assert float(angle) == pytest.approx(_arm_at(drawn), abs=1e-11)


def test_matching_hole_by_root_search() -> None:
    for travel in (0.012, 0.019, 0.024):
        radius = brentq(
            lambda r, s=travel: _away(CLOSED, r, ARM_END) - _away(OPEN, r, ARM_END) - s,
            0.005,
            0.050,
            xtol=1e-14,
        )
        assert float(matching_radius(travel, CLOSED, OPEN, ARM_END)) == pytest.approx(
            radius, rel=1e-10
        )


def _energy(pedal: float) -> float:
    """Energy of the arm's spring with the pedal at an angle, wire taut from the start."""
    arm = _arm_at(_away(pedal, PEDAL, PEDAL_END) - _away(REST, PEDAL, PEDAL_END))
    hook = (
        HOOK[0] * cos(arm) - HOOK[1] * sin(arm),
        HOOK[0] * sin(arm) + HOOK[1] * cos(arm),
    )
    stretch = hypot(FRAME[0] - hook[0], FRAME[1] - hook[1]) - FREE
    return INITIAL * stretch + RATE * stretch**2 / 2.0


def test_pedal_push_is_the_slope_of_the_energy() -> None:
    """Without friction the foot does the work that the spring takes up: P l dθ = dE."""
    for turned in np.radians([4.0, 10.0, 17.0]):
        pedal, step = float(REST - turned), 1e-5
        slope = (_energy(pedal - step) - _energy(pedal + step)) / (2.0 * step)
        arm = _arm_at(_away(pedal, PEDAL, PEDAL_END) - _away(float(REST), PEDAL, PEDAL_END))
        spring = spring_on_arm(arm, (0.0, 0.0), HOOK, FRAME, FREE, RATE, INITIAL)
        at_arm = wire_lever(arm, ARM, ARM_END, wire_reach(arm, ARM, ARM_END))
        at_pedal = wire_lever(pedal, PEDAL, PEDAL_END, wire_reach(pedal, PEDAL, PEDAL_END))
        pull = opening_pull(-spring.moment, 0.0, at_arm)
        push = pedal_push(pull, at_pedal, 0.0, 0.0, FOOT)
        assert float(push) == pytest.approx(slope / FOOT, rel=1e-7)
