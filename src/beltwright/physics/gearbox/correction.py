"""What a measured warm-up says about the predicted losses and cooling of a gearbox."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gearbox.heat import Law, Stage, temperature_at, warm_up

ROUNDS = 12
"""Most Gauss–Newton rounds; the fit settles in three to six."""

SETTLED = 1e-6
"""Change of the logarithm of a factor at which the fit is done [1]."""

NUDGE = 1e-4
"""Change of the logarithm of a factor from which its effect is read [1]."""


class Correction(NamedTuple):
    """Factors that bring the prediction to the measured temperatures.

    Attributes
    ----------
    loss : array, shape (...) [1]
        Factor on the heat that is made.
    conductance : array, shape (...) [1]
        Factor on the heat that is given off.
    loss_spread : array, shape (...) [1]
        Standard deviation of the logarithm of the loss factor that is left.
    conductance_spread : array, shape (...) [1]
        The same for the conductance factor.
    misfit : array, shape (...) [K]
        Root mean square of what the corrected prediction still misses.
    """

    loss: Array
    conductance: Array
    loss_spread: Array
    conductance_spread: Array
    misfit: Array


def corrected(stage: Stage, loss_factor: ArrayLike, conductance_factor: ArrayLike) -> Stage:
    """Answer how a stage of a duty cycle looks once a measured warm-up has corrected it.

    Q → f Q, G → g G.

    Parameters
    ----------
    stage : Stage, shape (...) [s]
    loss_factor : array, shape (...) [1]
    conductance_factor : array, shape (...) [1]

    Returns
    -------
    stage : Stage, shape (...) [s]

    Range of validity: the same case, oil level and oil as in the measured run.
    Source: definition of the factors.

    Examples
    --------
    >>> stage = Stage(60.0, lambda t: 100.0 + 0 * t, lambda t: 2.0 + 0 * t)
    >>> float(corrected(stage, 1.5, 1.0).loss(np.float64(300.0)))
    150.0
    """
    return stage._replace(
        loss=_scaled(stage.loss, loss_factor),
        conductance=_scaled(stage.conductance, conductance_factor),
    )


def fit_correction(
    stages: Sequence[Stage],
    capacity: ArrayLike,
    start_temperature: ArrayLike,
    air_temperature: ArrayLike,
    measured_time: Array,
    measured_temperature: Array,
    reading_error: ArrayLike = 2.0,
    loss_doubt: ArrayLike = 0.5,
    conductance_doubt: ArrayLike = 0.3,
    steps: int = 40,
) -> Correction:
    """Answer by which factors loss and cooling must be scaled to meet a measured warm-up.

    Least squares of (T predicted − T measured)/σ over the readings, with ln f / doubt as one more
    reading for each factor: where the readings cannot tell the two apart (one reading, or all of
    them early), the factor that is less certain moves more.

    Parameters
    ----------
    stages : sequence of Stage, shape (...) [s]
        What the gearbox did during the measured run, as predicted.
    capacity : array, shape (...) [J/K]
    start_temperature : array, shape (...) [K]
    air_temperature : array, shape (...) [K]
    measured_time : array, shape (m) [s]
    measured_temperature : array, shape (m) [K]
    reading_error : array, shape (...) [K]
        Standard error of one reading; about 2 for a strip or an infra-red thermometer.
    loss_doubt : array, shape (...) [1]
        Standard deviation of ln f before the run: 0.5 is "within a factor of 1.6".
    conductance_doubt : array, shape (...) [1]
        The same for the conductance: 0.3 is "within a factor of 1.35".
    steps : int [1]
        Steps in each stage of the simulated run.

    Returns
    -------
    correction : Correction, shape (...) [1]

    Range of validity: one or more readings of the oil, or of the case beside it, above air
    temperature.
    Source: Gauss–Newton with a prior, as in Tarantola, Inverse Problem Theory, chapter 3.

    Examples
    --------
    >>> stage = Stage(3600.0, lambda t: 100.0 + 0 * t, lambda t: 2.5 + 0 * t)
    >>> run = warm_up([corrected(stage, 1.4, 0.9)], 9570.0, 293.15, 293.15)
    >>> times = np.array([900.0, 1800.0, 3600.0])
    >>> measured = temperature_at(run, times)
    >>> found = fit_correction([stage], 9570.0, 293.15, 293.15, times, measured, 0.01)
    >>> round(float(found.loss), 2), round(float(found.conductance), 2)
    (1.4, 0.9)
    """

    def predict(factors: Array) -> Array:
        scaled = [corrected(stage, np.exp(factors[0]), np.exp(factors[1])) for stage in stages]
        run = warm_up(scaled, capacity, start_temperature, air_temperature, steps)
        return temperature_at(run, measured_time)

    error = np.asarray(reading_error, dtype=np.float64)[..., np.newaxis]
    doubt = np.stack(np.broadcast_arrays(np.asarray(loss_doubt, float), conductance_doubt))
    shape = predict(np.zeros((2, *doubt.shape[1:]))).shape[:-1]
    factors = np.zeros((2, *np.broadcast_shapes(shape, doubt.shape[1:])))
    for _ in range(ROUNDS):
        predicted = predict(factors)
        slopes = [(predict(_nudged(factors, at)) - predicted) / NUDGE / error for at in (0, 1)]
        step = _least_squares(slopes, (measured_temperature - predicted) / error, factors, doubt)
        # a step of more than a factor of e would leave the range where the slopes hold
        factors = factors + np.clip(step.move, -1.0, 1.0)
        if np.all(np.abs(step.move) < SETTLED):
            break
    return Correction(
        loss=np.exp(factors[0]),
        conductance=np.exp(factors[1]),
        loss_spread=np.sqrt(step.variance[0]),
        conductance_spread=np.sqrt(step.variance[1]),
        misfit=np.sqrt(np.mean((predict(factors) - measured_temperature) ** 2, axis=-1)),
    )


class _Step(NamedTuple):
    move: Array
    variance: Array


def _least_squares(slopes: list[Array], missing: Array, factors: Array, doubt: Array) -> _Step:
    """Solve the two normal equations in closed form, over every leading axis at once."""
    precision = 1.0 / doubt**2
    first = np.sum(slopes[0] ** 2, axis=-1) + precision[0]
    cross = np.sum(slopes[0] * slopes[1], axis=-1)
    second = np.sum(slopes[1] ** 2, axis=-1) + precision[1]
    pull = [np.sum(slopes[at] * missing, -1) - precision[at] * factors[at] for at in (0, 1)]
    determinant = first * second - cross**2
    move = np.stack([second * pull[0] - cross * pull[1], first * pull[1] - cross * pull[0]])
    return _Step(
        move=move / determinant,
        variance=np.stack(np.broadcast_arrays(second, first)) / determinant,
    )


def _scaled(law: Law, factor: ArrayLike) -> Law:
    return lambda temperature: np.asarray(law(temperature) * factor)


def _nudged(factors: Array, which: int) -> Array:
    changed = factors.copy()
    changed[which] += NUDGE
    return changed
