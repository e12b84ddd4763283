"""Warm-up, steady temperature and the correction from a measured run."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.arrays import Array
from beltwright.physics.gearbox.correction import corrected, fit_correction
from beltwright.physics.gearbox.heat import (
    Stage,
    WarmUp,
    steady_temperature,
    temperature_at,
    warm_up,
)

ROOM = 293.15


def _constant(value: float | Array) -> Stage:
    return Stage(1800.0, lambda t: value + 0 * t, lambda t: 2.5 + 0 * t)


@given(st.floats(10.0, 800.0), st.floats(0.5, 20.0), st.integers(1, 60))
def test_constant_heat_is_exact_whatever_the_step(loss: float, giving: float, steps: int) -> None:
    stage = Stage(1800.0, lambda t: loss + 0 * t, lambda t: giving + 0 * t)
    found = warm_up([stage], 9000.0, ROOM, ROOM, steps).temperature[-1] - ROOM
    exact = loss / giving * (1.0 - np.exp(-giving * 1800.0 / 9000.0))
    assert found == pytest.approx(exact, rel=1e-9)


def test_a_batch_equals_its_single_runs() -> None:
    losses = np.array([60.0, 120.0, 240.0])
    batch = warm_up([_constant(losses)], 9000.0, ROOM, ROOM).temperature
    singles = [warm_up([_constant(v)], 9000.0, ROOM, ROOM).temperature for v in losses]
    assert batch == pytest.approx(np.stack(singles))


def test_samples_may_enter_by_any_input() -> None:
    air = np.array([283.15, 293.15])
    course = warm_up([_constant(120.0)], 9000.0, ROOM, air)
    assert course.temperature.shape == (2, 41)
    assert course.temperature[0, -1] < course.temperature[1, -1]


def test_error_of_thinning_oil_falls_with_the_square_of_the_step() -> None:
    stage = Stage(3600.0, lambda t: 60.0 + 4e3 / (t - 273.15), lambda t: 1.0 + 0.01 * (t - 273.15))
    fine = warm_up([stage], 9000.0, ROOM, ROOM, 1280).temperature[-1]
    errors = [
        abs(float(warm_up([stage], 9000.0, ROOM, ROOM, n).temperature[-1] - fine))
        for n in (10, 20, 40)
    ]
    assert errors[0] / errors[1] == pytest.approx(4.0, rel=0.25)
    assert errors[1] / errors[2] == pytest.approx(4.0, rel=0.25)


@given(st.floats(1.0, 2000.0), st.floats(0.2, 30.0), st.floats(0.0, 0.02))
def test_steady_temperature_balances(loss: float, giving: float, thinning: float) -> None:
    def made(t: Array) -> Array:
        return np.asarray(loss * np.exp(-thinning * (t - ROOM)))

    def given_off(t: Array) -> Array:
        return np.asarray(giving * (1.0 + 0.002 * (t - ROOM)))

    settled = steady_temperature(made, given_off, ROOM, ceiling=20000.0)
    assert given_off(settled) * (settled - ROOM) == pytest.approx(made(settled), abs=2e-5)


def test_no_loss_settles_at_the_air() -> None:
    settled = steady_temperature(lambda t: 0.0 * t, lambda t: 2.0 + 0 * t, ROOM)
    assert float(settled) == pytest.approx(ROOM)


def test_past_the_ceiling_is_endless() -> None:
    losses = np.array([100.0, 1e6])
    settled = steady_temperature(lambda t: losses + 0 * t, lambda t: 2.0 + 0 * t, ROOM)
    assert np.isfinite(settled).tolist() == [True, False]


def test_temperature_at_keeps_to_the_ends() -> None:
    course = WarmUp(np.array([0.0, 100.0]), np.array([290.0, 310.0]))
    found = temperature_at(course, np.array([-5.0, 0.0, 50.0, 100.0, 500.0]))
    assert found.tolist() == [290.0, 290.0, 300.0, 310.0, 310.0]


@given(st.floats(0.5, 2.0), st.floats(0.7, 1.4))
def test_a_measured_run_gives_both_factors_back(loss: float, giving: float) -> None:
    stage = Stage(7200.0, lambda t: 100.0 + 0 * t, lambda t: 2.5 + 0 * t)
    times = np.array([900.0, 1800.0, 3600.0, 7200.0])
    run = warm_up([corrected(stage, loss, giving)], 9000.0, ROOM, ROOM)
    found = fit_correction(
        [stage], 9000.0, ROOM, ROOM, times, temperature_at(run, times), reading_error=0.001
    )
    assert found.loss == pytest.approx(loss, rel=1e-3)
    assert found.conductance == pytest.approx(giving, rel=1e-3)
    assert found.misfit < 0.01


def test_one_reading_moves_the_less_certain_factor_more() -> None:
    stage = Stage(7200.0, lambda t: 100.0 + 0 * t, lambda t: 2.5 + 0 * t)
    hot = 150.0 / 2.5 * (1.0 - np.exp(-2.5 * 7200.0 / 9000.0)) + ROOM
    found = fit_correction([stage], 9000.0, ROOM, ROOM, np.array([7200.0]), np.array([hot]))
    assert 1.0 < float(found.loss) < 1.5
    assert 0.8 < float(found.conductance) < 1.0
    assert np.log(found.loss) > -np.log(found.conductance)
    # one reading cannot tell loss from cooling, so doubt is left in both
    assert 0.0 < found.loss_spread < 0.5
    assert 0.0 < found.conductance_spread < 0.3


def test_a_reading_that_agrees_changes_nothing() -> None:
    stage = _constant(100.0)
    run = warm_up([stage], 9000.0, ROOM, ROOM)
    times = np.array([1200.0])
    found = fit_correction([stage], 9000.0, ROOM, ROOM, times, temperature_at(run, times))
    assert found.loss == pytest.approx(1.0)
    assert found.conductance == pytest.approx(1.0)


def test_correction_over_samples() -> None:
    air = np.array([288.15, 293.15, 298.15])
    stage = _constant(100.0)
    found = fit_correction([stage], 9000.0, air, air, np.array([1800.0]), np.array([318.15]))
    assert found.loss.shape == (3,)
    assert np.all(np.diff(found.loss) < 0.0)
