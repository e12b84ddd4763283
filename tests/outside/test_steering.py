"""Steering linkage and turning circle against textbook geometry and independent computing.

Sources
-------
Wong: J. Y. Wong, Theory of Ground Vehicles, 3rd ed. 2001, section 5.1 (from memory).
Norton: R. L. Norton, Design of Machinery, example 4-1 (printed 57.33° and −98.01°, from
    memory, high; recomputed by circle intersection: 57.325°, −98.005°).
ISO 8855: Road vehicles, vehicle dynamics, vocabulary (scrub radius, axes).
Gough: parking torque T = μ W √(b²/8 + e²) (from memory, medium).
SciPy: brentq and dblquad as independent references.
"""

import numpy as np
import pytest
from scipy.integrate import dblquad
from scipy.optimize import brentq

from beltwright.physics.steering import (
    arm_turned_by_rod,
    ideal_outer_angle,
    scrub_radius,
    standing_steer_torque,
    steer_error,
    turning_circle,
)


@pytest.mark.parametrize(
    ("inner", "wheelbase", "kingpins"), [(10.0, 1.2, 0.6), (30.0, 1.235, 0.62), (45.0, 1.5, 0.9)]
)
def test_ackermann_condition(inner: float, wheelbase: float, kingpins: float) -> None:
    """Wong 5.1: cot δ_o − cot δ_i = w / L."""
    outer = ideal_outer_angle(np.radians(inner), kingpins, wheelbase)
    difference = 1.0 / np.tan(outer) - 1.0 / np.tan(np.radians(inner))
    assert difference == pytest.approx(kingpins / wheelbase, rel=1e-12)


def test_ackermann_by_drawing() -> None:
    """Both front axle lines meet the rear axle's line at one point, built from coordinates."""
    wheelbase, kingpins, centre = 1.235, 0.62, 1.9
    inner = np.arctan(wheelbase / (centre - kingpins / 2))
    outer = np.arctan(wheelbase / (centre + kingpins / 2))
    assert ideal_outer_angle(inner, kingpins, wheelbase) == pytest.approx(outer, rel=1e-12)
    circle = turning_circle(inner, outer, kingpins, wheelbase, 0.04)
    assert circle.rear_middle == pytest.approx(centre, rel=1e-12)
    assert circle.outer_front == pytest.approx(wheelbase / np.sin(outer) + 0.04, rel=1e-12)


@pytest.mark.parametrize(("mirrored", "printed"), [(1.0, 57.325), (-1.0, -98.005)])
def test_rod_against_the_four_bar_example(mirrored: float, printed: float) -> None:
    """Norton 4-1: crank 40, coupler 120, rocker 80, ground 100, crank at 40°."""
    # with the crank on the ground line: rocker 80 and coupler 120 over a base of 100 − 40
    cosine = (60.0**2 + 80.0**2 - 120.0**2) / (2 * 60.0 * 80.0)
    start = np.pi - np.arccos(cosine)
    rocker = (100.0 + 80.0 * np.cos(start), mirrored * 80.0 * np.sin(start))
    follows = arm_turned_by_rod((0.0, 0.0), (40.0, 0.0), (100.0, 0.0), rocker, np.radians(40.0))
    assert np.degrees(follows + mirrored * start) == pytest.approx(printed, abs=1e-3)


@pytest.mark.parametrize("turned", [-25.0, -10.0, 0.0, 20.0, 40.0])
def test_tie_rod_by_root_finding(turned: float) -> None:
    """The length of the rod kept by brentq on the angle of the other arm."""
    left, right = np.array([1.2, 0.31]), np.array([1.2, -0.31])
    arm, other = np.array([-0.12, -0.05]), np.array([-0.12, 0.05])

    def pin(pivot: np.ndarray, arm: np.ndarray, angle: float) -> np.ndarray:
        cosine, sine = np.cos(angle), np.sin(angle)
        turned_arm = [arm[0] * cosine - arm[1] * sine, arm[0] * sine + arm[1] * cosine]
        return np.asarray(pivot + np.array(turned_arm))

    rod = np.linalg.norm((left + arm) - (right + other))
    angle = np.radians(turned)
    root = brentq(
        lambda d: np.linalg.norm(pin(left, arm, angle) - pin(right, other, d)) - rod,
        angle - 0.7,
        angle + 0.7,
        xtol=1e-14,
    )
    follows = arm_turned_by_rod(
        tuple(left), tuple(left + arm), tuple(right), tuple(right + other), angle
    )
    assert follows == pytest.approx(root, abs=1e-11)


def test_parallel_arms_steer_alike() -> None:
    """Geometry: a parallelogram turns both arms by the same angle."""
    turned = np.radians(np.linspace(-40.0, 40.0, 9))
    follows = arm_turned_by_rod((1.2, 0.3), (1.08, 0.3), (1.2, -0.3), (1.08, -0.3), turned)
    np.testing.assert_allclose(follows, turned, rtol=0.0, atol=1e-13)
    error = steer_error(turned[-1], follows[-1], 0.6, 1.2)
    assert error == pytest.approx(turned[-1] - np.arctan(1 / (1 / np.tan(turned[-1]) + 0.5)))


def test_arms_that_aim_at_the_rear_axle_err_little() -> None:
    """Wong 5.1: arms aimed at the middle of the rear axle come near the ideal, within 3°."""
    wheelbase, half = 1.2, 0.3
    aim = np.array([-wheelbase, -half]) / np.hypot(wheelbase, half) * 0.12
    left, right = (wheelbase, half), (wheelbase, -half)
    inner = np.radians(np.linspace(1.0, 30.0, 30))
    outer = arm_turned_by_rod(
        left,
        (left[0] + aim[0], left[1] + aim[1]),
        right,
        (right[0] + aim[0], right[1] - aim[1]),
        inner,
    )
    assert np.max(np.abs(steer_error(inner, outer, 2 * half, wheelbase))) < np.radians(3.0)
    parallel = steer_error(inner[-1], inner[-1], 2 * half, wheelbase)
    assert abs(steer_error(inner[-1], outer[-1], 2 * half, wheelbase)) < parallel


def test_scrub_radius_in_space() -> None:
    """ISO 8855: where the kingpin axis meets the ground, as a line in space."""
    offset, lean, radius = 0.08, np.radians(8.0), 0.19
    axle = np.array([-offset, radius])  # kingpin axis at axle height, wheel's middle at 0
    direction = np.array([np.sin(-lean), np.cos(-lean)])  # its top leans inwards
    meets = axle - direction * axle[1] / direction[1]
    assert scrub_radius(offset, lean, radius) == pytest.approx(-meets[0], rel=1e-12)


def test_standing_torque_between_its_bounds() -> None:
    """Gough: near μ W e for a large offset; a round even patch of width b gives μ W b/3."""
    load, grip, width = 600.0, 0.7, 0.15
    # ∫ r over a disc of diameter b at even pressure, by dblquad
    moment, _ = dblquad(lambda r, _: r * r, 0.0, 2 * np.pi, 0.0, width / 2)
    even = grip * load * moment / (np.pi * width**2 / 4)
    assert even == pytest.approx(grip * load * width / 3, rel=1e-9)
    # the estimate b/√8 = 0.354 b stands for a patch a little longer than wide: within 10 %
    assert standing_steer_torque(load, grip, width, 0.0) == pytest.approx(even, rel=0.1)
    assert standing_steer_torque(load, grip, width, 2.0) == pytest.approx(
        grip * load * 2.0, rel=1e-3
    )
