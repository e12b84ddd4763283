"""Readings of a first drive and the rule by which they agree, against published rules.

E_n: ISO/IEC Guide 43-1:1997, A.2.1.4, and ISO 13528:2005, 7.5: E_n = (x − X) / √(U_lab² + U_ref²)
with expanded uncertainties, satisfactory where |E_n| ≤ 1. From memory, confidence high; the rows
below are exact arithmetic by that rule.
Least squares and its doubt: SciPy's `curve_fit` with absolute sigma, an independent general
library; G. Cowan, Statistical Data Analysis, 1998, section 7.5 (rise of chi-square by one).
Coverage of a rectangular distribution: JCGM 101:2008, 6.4.2 and 7.7.2.
Stops and turns: uniformly accelerated motion and kinematics, exact.
Warm-up: lumped exponential, exact (Incropera and DeWitt, section 5.3).
"""

import math

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.optimize import curve_fit

from beltwright.physics.brake.stopping import stopping_distance
from beltwright.physics.gearbox.heat import Stage, temperature_at, warm_up
from beltwright.physics.gearing import ground_speed
from beltwright.physics.proving.agreement import (
    AGREES,
    best_fit,
    expanded_uncertainty,
    normalized_error,
)
from beltwright.physics.proving.readings import (
    counted_ratio,
    counted_roll_out,
    mean_speed,
)

MPH = 1609.344 / 3600.0
FOOT = 0.3048


@pytest.mark.parametrize(
    ("read", "expected", "u_read", "u_expected", "error", "agrees"),
    [
        (10.3, 10.0, 0.3, 0.4, 0.6, True),
        (10.5, 10.0, 0.3, 0.4, 1.0, True),
        (9.4, 10.0, 0.3, 0.4, -1.2, False),
        (5.0, 5.0, 0.0, 0.1, 0.0, True),
        (105.0, 100.0, 5.0, 12.0, 5.0 / 13.0, True),
    ],
)
def test_normalized_error(
    read: float, expected: float, u_read: float, u_expected: float, error: float, agrees: bool
) -> None:
    found = float(normalized_error(read, expected, u_read, u_expected))
    assert_allclose(found, error, rtol=1e-12, atol=1e-12)
    assert (abs(found) <= AGREES + 1e-12) is agrees


def test_expanded_uncertainty_of_a_rectangle_is_95_hundredths_of_its_half_width() -> None:
    draws = np.linspace(7.0, 13.0, 100_001)
    assert_allclose(expanded_uncertainty(np.concatenate(([10.0], draws))), 0.95 * 3.0, rtol=1e-4)


def test_expanded_uncertainty_of_a_normal_is_1_96_standard_deviations() -> None:
    """Tabled coverage factor of 95 %: 1.959964 (JCGM 100:2008, table G.1 gives 1.960)."""
    draws = np.random.default_rng(4).normal(10.0, 2.0, 400_000)
    # 400,000 draws tell the ends of the interval to about half a per cent
    assert_allclose(expanded_uncertainty(np.concatenate(([10.0], draws))), 1.960 * 2.0, rtol=5e-3)


def test_the_best_fit_is_that_of_general_least_squares() -> None:
    """Three speeds of one engine, each with its own doubt: the engine speed that fits them all."""
    ratio = np.array([60.0, 40.0, 25.0])
    roll_out, doubt = 1.5, np.array([0.02, 0.03, 0.05])
    read = np.array([1.36, 2.10, 3.31])

    def speed(ratios: np.ndarray, rotation: float | np.ndarray) -> np.ndarray:
        return ground_speed(rotation, ratios, roll_out)

    best, covariance = curve_fit(speed, ratio, read, p0=[300.0], sigma=doubt, absolute_sigma=True)
    candidates = np.linspace(200.0, 500.0, 161)
    errors = (read[:, None] - speed(ratio[:, None], candidates[None, :])) / doubt[:, None]
    fit = best_fit(candidates, errors)
    assert_allclose(fit.value, best[0], rtol=1e-6)
    assert_allclose(0.5 * (fit.high - fit.low), math.sqrt(covariance[0, 0]), rtol=1e-5)


@pytest.mark.parametrize(
    ("mph", "feet_of_braking", "gravities"),
    [
        # trade form of v²/(2 a): feet = mph² / (29.9 × share of g), 29.9 printed to three digits
        (20.0, 20.0**2 / (29.9 * 0.5), 0.5),
        (10.0, 10.0**2 / (29.9 * 0.3), 0.3),
    ],
)
def test_a_stop_is_as_long_as_the_trade_form_says(
    mph: float, feet_of_braking: float, gravities: float
) -> None:
    path = stopping_distance(mph * MPH, gravities * 9.80665)
    assert_allclose(path, feet_of_braking * FOOT, rtol=2e-3)


@pytest.mark.parametrize(
    ("metres", "seconds", "km_h"), [(100.0, 36.0, 10.0), (20.0, 9.0, 8.0), (1609.344, 360.0, None)]
)
def test_mean_speed(metres: float, seconds: float, km_h: float | None) -> None:
    wanted = 10.0 * MPH if km_h is None else km_h / 3.6
    assert_allclose(mean_speed(metres, seconds), wanted, rtol=1e-12)


def test_turns_counted_are_exact() -> None:
    assert_allclose(counted_roll_out(5 * math.pi * 0.4, 5.0), math.pi * 0.4, rtol=1e-15)
    # an open differential: one wheel held, the other turns twice, the mean turns once
    assert_allclose(counted_ratio(24.2, 0.5 * (0.0 + 2.0)), 24.2, rtol=1e-15)


def test_speed_from_counted_turns_is_that_of_the_belt_and_box() -> None:
    """REFERENCE row "Ground speed": 3600 rpm, 3.0 to 9.0 in and 20:1, 19.0 in tyre: 3.3915 mph."""
    ratio = counted_ratio(60.0, 1.0)
    roll_out = counted_roll_out(3.0 * math.pi * 19.0 * 0.0254, 3.0)
    assert_allclose(ground_speed(3600 * math.pi / 30, ratio, roll_out) / MPH, 3.3915, rtol=2e-5)


@pytest.mark.parametrize("minutes", [10.0, 30.0, 90.0])
def test_a_warm_up_runs_along_its_exponential(minutes: float) -> None:
    """REFERENCE row "Warm-up": 120 W, 2.7 W/K, 9570 J/K; rise of 17.70 K after 30 min."""
    run = warm_up([Stage(5400.0, lambda t: 120.0 + 0 * t, lambda t: 2.7 + 0 * t)], 9570.0, 280, 280)
    rise = float(temperature_at(run, np.array([minutes * 60.0]))[0]) - 280.0
    exact = 120.0 / 2.7 * (1.0 - math.exp(-minutes * 60.0 * 2.7 / 9570.0))
    # between its steps the run is read along straight lines
    assert_allclose(rise, exact, rtol=2e-3)
    if minutes == 30.0:
        assert_allclose(rise, 17.70, rtol=3e-3)
