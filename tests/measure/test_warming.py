"""Warm-ups: where they lead comes back with its ±, and a run that was too short is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.warming import warm_up

AIR = 291.0


def _run(
    rise: float, constant: float, length: float, noise: float = 0.0, seed: int = 0
) -> tuple[np.ndarray, np.ndarray]:
    seconds = np.linspace(0.0, length, 13)
    exact = AIR + rise * (1.0 - np.exp(-seconds / constant))
    return seconds, exact + np.random.default_rng(seed).normal(0.0, noise, 13)


@given(st.floats(10.0, 80.0), st.floats(300.0, 4000.0), st.floats(1.5, 5.0))
def test_an_exact_approach_comes_back(rise: float, constant: float, lengths: float) -> None:
    found = warm_up(*_run(rise, constant, lengths * constant), AIR)
    assert found.rise.value == pytest.approx(rise, rel=2e-3)
    assert found.constant.value == pytest.approx(constant, rel=4e-3)
    assert found.steady.value == pytest.approx(AIR + rise, rel=2e-3)


@pytest.mark.parametrize("seed", range(12))
def test_readings_that_scatter_stay_within_the_spread(seed: int) -> None:
    found = warm_up(*_run(45.0, 1500.0, 4500.0, 0.7, seed), AIR)
    assert abs(found.steady.value - AIR - 45.0) < 1.6 * found.steady.spread
    assert abs(found.constant.value - 1500.0) < 1.6 * found.constant.spread


@given(st.floats(20.0, 80.0), st.floats(0.05, 0.8))
def test_a_run_that_still_climbs_straight_is_refused(rise: float, part: float) -> None:
    with pytest.raises(NotMeasuredError, match="too short to tell"):
        warm_up(*_run(rise, 2000.0, part * 2000.0), AIR)


def test_a_run_that_cools_is_refused() -> None:
    seconds, temperature = _run(-20.0, 1000.0, 4000.0)
    with pytest.raises(NotMeasuredError, match="too short"):
        warm_up(seconds, temperature, AIR)


@pytest.mark.parametrize(
    ("seconds", "temperature", "says"),
    [
        (np.arange(4.0), np.arange(4.0), "five times"),
        (np.array([0.0, 1, 1, 2, 3]), np.arange(5.0), "follow one another"),
        (np.arange(5.0), np.array([290.0, np.nan, 1, 2, 3]), "missing"),
    ],
)
def test_readings_that_say_nothing_are_refused(
    seconds: np.ndarray, temperature: np.ndarray, says: str
) -> None:
    with pytest.raises(NotMeasuredError, match=says):
        warm_up(seconds, temperature, AIR)
