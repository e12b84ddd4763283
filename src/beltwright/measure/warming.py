"""Temperatures against time, to the steady temperature and the time that it takes."""

import math
from dataclasses import dataclass

import numpy as np

from beltwright.measure.measured import Measured
from beltwright.measure.refusal import NotMeasuredError
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind

TRIED = 400
"""Time constants that are tried before the best is refined."""

LONG_ENOUGH = 1.0
"""A run shorter than this share of its time constant shows no bend [1]."""

TOO_LOOSE = 0.25
"""A rise known less well than this share of it is not known [1]."""

READ_TO = 1.0
"""How well a cheap thermometer is read, where the fit says less [K]; common practice."""


@dataclass(frozen=True)
class WarmUp:
    """Where a warm-up leads.

    steady    temperature that it would reach
    constant  time in which 63 % of the rise is done
    rise      of the steady temperature over the air, in kelvin as a plain number
    """

    steady: Measured
    constant: Measured
    rise: Measured


def warm_up(seconds: Array, temperature: Array, air: float) -> WarmUp:
    """Fit an exponential approach to a warm-up; refuse a run that was too short to tell.

    T = T∞ - (T∞ - T0) e^(-t/τ), by least squares: for each τ the other two are a straight line in
    e^(-t/τ), so only τ is searched for. Source: Newton's law of cooling for one body at one
    temperature; Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, chapter 5,
    the lumped capacitance method.

    Parameters: seconds [s], temperature [K], shape (n,); air [K].
    """
    _check(seconds, temperature)
    span = float(np.ptp(seconds))
    constant = _best(seconds - seconds[0], temperature, span)
    steady, start, spread = _fitted(seconds - seconds[0], temperature, constant)
    if steady <= start or constant * LONG_ENOUGH > span or spread[0] > TOO_LOOSE * (steady - air):
        raise NotMeasuredError(
            f"The run of {span / 60.0:.0f} min was too short to tell where it leads: it still "
            "climbs almost straight. Go on until three readings in a row hardly rise."
        )
    how = f"{seconds.size} readings over {span / 60.0:.0f} min, missed by {spread[2]:.1f} °C."
    doubt = float(np.hypot(spread[0], READ_TO))
    return WarmUp(
        Measured(steady, doubt, Kind.TEMPERATURE, how, ("At this load, in this air.",)),
        Measured(constant, float(spread[1]), Kind.TIME, how),
        Measured(steady - air, doubt, Kind.RATIO, "Steady temperature over the air [K]."),
    )


def _check(seconds: Array, temperature: Array) -> None:
    if seconds.size < 5:
        raise NotMeasuredError("Give five times and temperatures at least.")
    if np.any(np.diff(seconds) <= 0.0):
        raise NotMeasuredError("The times must follow one another.")
    if not np.all(np.isfinite(temperature)):
        raise NotMeasuredError("A temperature is missing.")


def _missed(time: Array, temperature: Array, constant: Array) -> Array:
    """Sum of squares that the best line in e^(-t/τ) misses, shape of `constant` [K²]."""
    bend = np.exp(-time / constant[..., None])
    bend = bend - bend.mean(axis=-1, keepdims=True)
    value = temperature - temperature.mean()
    shared = bend @ value
    missed: Array = value @ value - shared**2 / np.sum(bend * bend, axis=-1)
    return missed


def _best(time: Array, temperature: Array, span: float) -> float:
    """The time constant that misses least, between a hundredth of the run and ten runs."""
    low, high = math.log(span / 100.0), math.log(span * 10.0)
    for _ in range(4):
        tried = np.exp(np.linspace(low, high, TRIED))
        best = int(_missed(time, temperature, tried).argmin())
        low = math.log(tried[max(best - 1, 0)])
        high = math.log(tried[min(best + 1, TRIED - 1)])
    return float(tried[best])


def _fitted(time: Array, temperature: Array, constant: float) -> tuple[float, float, Array]:
    """Steady and first temperature; twice the deviation of steady, of τ, and what is missed."""
    bend = np.exp(-time / constant)
    slope, steady = np.polyfit(bend, temperature, 1)
    missed = temperature - steady - slope * bend
    change = np.stack([np.ones_like(bend), bend, slope * bend * time / constant**2], axis=-1)
    deviation = math.sqrt(float(missed @ missed) / max(time.size - 3, 1))
    inverse = np.linalg.pinv(change.T @ change)
    doubt = 2.0 * deviation * np.sqrt(np.diag(inverse))
    return float(steady), float(steady + slope), np.array([doubt[0], doubt[2], deviation])
