"""Ratings at their ends: at rest, too small a sheave, too fast, more belts."""

import numpy as np
import pytest

from beltwright.physics import customary
from beltwright.physics.belt.rating import (
    PublishedRatings,
    allowed_power,
    arc_factor,
    industrial_power,
    light_duty_power,
    textbook_power,
)
from beltwright.quantity import units

A_INDUSTRIAL = (1.004, 1.652, 1.547e-4, 0.2126)
A_TEXTBOOK = (1.95, 3.80, 0.0136)
LIGHT = (0.4666, 0.7231, 0.0002286)


def test_nothing_is_carried_at_rest() -> None:
    assert industrial_power(0.09, 0.0, 1.1106, A_INDUSTRIAL) == 0.0
    assert textbook_power(0.09, 0.0, 1.0, A_TEXTBOOK) == 0.0
    assert light_duty_power(0.09, 0.0, LIGHT) == 0.0


def test_no_rating_is_negative() -> None:
    small = np.array([0.005, 0.02])
    assert np.all(industrial_power(small, 360.0, 1.0, A_INDUSTRIAL) >= 0.0)
    assert np.all(textbook_power(small, 360.0 * small / 2, 1.0, A_TEXTBOOK) >= 0.0)
    assert np.all(light_duty_power(small, 360.0, LIGHT) >= 0.0)
    assert textbook_power(0.09, 80.0, 1.0, A_TEXTBOOK) == 0.0


def test_a_rating_has_a_best_speed() -> None:
    speeds = np.linspace(1.0, 2000.0, 4000)
    power = industrial_power(0.1, speeds, 1.0, A_INDUSTRIAL)
    assert 0 < np.argmax(power) < speeds.size - 1


def test_the_larger_pulley_helps() -> None:
    one = industrial_power(0.09, 350.0, np.array([1.0, 1.1106]), A_INDUSTRIAL)
    assert one[1] > one[0]
    other = textbook_power(0.09, 15.0, np.array([1.0, 1.14]), A_TEXTBOOK)
    assert other[1] > other[0]


def test_the_cautious_rating_is_taken_sample_by_sample() -> None:
    both = PublishedRatings(np.array([900.0, 700.0]), np.array([800.0, 750.0]))
    assert both.cautious.tolist() == [800.0, 700.0]


def test_arc_factor_stays_between_nothing_and_one() -> None:
    wraps = np.radians([-20.0, 0.0, 90.0, 180.0, 260.0])
    factors = arc_factor(wraps)
    assert factors[:2].tolist() == [0.0, 0.0]
    assert factors[3] == pytest.approx(1.0)
    assert factors[4] == 1.0


def test_belts_side_by_side_share() -> None:
    one = allowed_power(2000.0, 0.9, 1.0, 1.5)
    assert allowed_power(2000.0, 0.9, 1.0, 1.5, belts=2) == 2 * one


def test_customary_units_are_those_that_the_builder_writes() -> None:
    assert float(units.INCH) == customary.INCH
    assert pytest.approx(float(units.FOOT / units.MINUTE), rel=1e-15) == customary.FOOT_PER_MINUTE
    assert pytest.approx(float(units.POUND_FORCE), rel=1e-15) == customary.POUND_FORCE
    assert pytest.approx(float(units.HORSEPOWER), rel=1e-15) == customary.HORSEPOWER


def test_a_pulley_thinner_than_its_belt_carries_nothing() -> None:
    power = textbook_power(-0.004, -0.7, 1.0, A_TEXTBOOK)
    assert power == 0.0
