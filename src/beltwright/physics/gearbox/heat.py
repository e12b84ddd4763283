"""How hot a gearbox gets: warm-up over a duty cycle and the temperature at which it settles.

Oil and case are one lump of heat capacity C that takes the loss Q and gives off G (T − T air):
C dT/dt = Q(T) − G(T) (T − T air). Q falls as the oil thins, G rises as the case radiates and
lifts more air.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike

Law = Callable[[Array], Array]
"""A loss [W] or a conductance [W/K] as a function of the oil temperature [K]."""


CLOSED_GAP = 1e-5
"""Heat that may be left over where a steady temperature is called found [W]."""


class Stage(NamedTuple):
    """One stretch of a duty cycle: constant power, speed and cooling.

    Attributes
    ----------
    duration : array, shape (...) [s]
    loss : callable [W]
        Heat made, as a function of the oil temperature [K].
    conductance : callable [W/K]
        Heat given off for each kelvin above the air, as a function of the oil temperature [K].
    """

    duration: ArrayLike
    loss: Law
    conductance: Law


class WarmUp(NamedTuple):
    """Oil temperature over a duty cycle; the last axis is time.

    Attributes
    ----------
    time : array, shape (..., n) [s]
    temperature : array, shape (..., n) [K]
    """

    time: Array
    temperature: Array


def lumped_capacity(
    metal_mass: ArrayLike,
    metal_heat_capacity: ArrayLike,
    oil_mass: ArrayLike,
    oil_heat_capacity: ArrayLike,
) -> Array:
    """Answer how much heat warms the whole gearbox by one kelvin.

    C = mm cm + mo co.

    Parameters
    ----------
    metal_mass : array, shape (...) [kg]
    metal_heat_capacity : array, shape (...) [J/(kg·K)]
        About 480 for steel and iron, 900 for aluminium.
    oil_mass : array, shape (...) [kg]
    oil_heat_capacity : array, shape (...) [J/(kg·K)]

    Returns
    -------
    capacity : array, shape (...) [J/K]

    Range of validity: case, gears and oil at one temperature; the oil leads the case by 5 to 15 K
    in the first minutes.
    Source: energy balance.

    Examples
    --------
    >>> float(lumped_capacity(14.0, 480.0, 1.5, 1900.0))
    9570.0
    """
    metal = np.asarray(metal_mass, dtype=np.float64) * metal_heat_capacity
    return np.asarray(metal + np.asarray(oil_mass, dtype=np.float64) * oil_heat_capacity)


def warm_up(
    stages: Sequence[Stage],
    capacity: ArrayLike,
    start_temperature: ArrayLike,
    air_temperature: ArrayLike,
    steps: int = 40,
) -> WarmUp:
    """Answer how hot the oil is at every moment of a duty cycle.

    Within a step Q and G stand still, so T → Ts + (T − Ts) e^(−G Δt / C) with Ts = Ta + Q/G is
    exact; Q and G are taken at the temperature of mid-step, which makes the error of second order.

    Parameters
    ----------
    stages : sequence of Stage, shape (...) [s]
    capacity : array, shape (...) [J/K]
    start_temperature : array, shape (...) [K]
    air_temperature : array, shape (...) [K]
    steps : int [1]
        Steps in each stage.

    Returns
    -------
    warm_up : WarmUp, shape (..., 1 + stages · steps) [K]

    Range of validity: as the lumped model; error below 0.05 K with 40 steps of up to a tenth of
    the time constant each.
    Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, section 5.3 (lumped
    capacitance with a source); exponential midpoint rule.

    Examples
    --------
    >>> stage = Stage(1800.0, lambda t: 120.0 + 0 * t, lambda t: 2.7 + 0 * t)
    >>> round(float(warm_up([stage], 9570.0, 293.15, 293.15).temperature[-1] - 293.15), 2)
    17.7
    """
    shape = np.broadcast_shapes(
        *(np.shape(stage.duration) for stage in stages),
        np.shape(capacity),
        np.shape(start_temperature),
        np.shape(air_temperature),
    )
    hot = np.broadcast_to(np.asarray(start_temperature, dtype=np.float64), shape)
    now = np.zeros(shape)
    heat = np.asarray(capacity, dtype=np.float64)
    temperatures, times = [hot], [now]
    for stage in stages:
        step = np.asarray(stage.duration, dtype=np.float64) / steps
        for _ in range(steps):
            middle = _relax(hot, 0.5 * step, hot, stage, heat, air_temperature)
            hot = _relax(hot, step, middle, stage, heat, air_temperature)
            now = now + step
            temperatures.append(hot)
            times.append(now)
    # a law may vary over samples that the other inputs share, so the end has the full shape
    full = np.shape(hot)
    return WarmUp(
        time=np.stack([np.broadcast_to(part, full) for part in times], axis=-1),
        temperature=np.stack([np.broadcast_to(part, full) for part in temperatures], axis=-1),
    )


def steady_temperature(
    loss: Law, conductance: Law, air_temperature: ArrayLike, ceiling: float = 250.0
) -> Array:
    """Answer at which temperature the oil settles under a lasting load.

    Solves G(T) (T − Ta) = Q(T) by safeguarded false position (Illinois rule).

    Parameters
    ----------
    loss : callable [W]
        Heat made, as a function of the oil temperature [K].
    conductance : callable [W/K]
        Heat given off for each kelvin above the air, as a function of the oil temperature [K].
    air_temperature : array, shape (...) [K]
    ceiling : float [K]
        Largest rise above the air that is looked for.

    Returns
    -------
    temperature : array, shape (...) [K]
        Infinity where the oil would settle above the ceiling.

    Range of validity: loss that does not grow with temperature, conductance that does not fall.
    Source: energy balance; Dowell and Jarratt, BIT 11 (1971), 168 (Illinois rule).

    Examples
    --------
    >>> round(float(steady_temperature(lambda t: 120.0 + 0 * t, lambda t: 2.7 + 0 * t, 293.15)), 2)
    337.59
    """
    cool = np.asarray(air_temperature, dtype=np.float64)

    def surplus(temperature: Array) -> Array:
        return np.asarray(conductance(temperature) * (temperature - cool) - loss(temperature))

    coldest_loss, least_conductance = loss(cool), conductance(cool)
    low = cool + np.zeros_like(coldest_loss + least_conductance)
    # cold oil makes the most heat and a cold case gives off the least, so this lies beyond
    high = low + np.minimum(coldest_loss / least_conductance, ceiling)
    below, above = np.asarray(-coldest_loss + np.zeros_like(low)), surplus(high)
    runaway = above < 0.0
    last_side = np.zeros_like(low)
    for _ in range(60):
        gap = above - below
        middle = high - above * (high - low) / np.where(gap == 0.0, 1.0, gap)
        value = surplus(middle)
        if np.all((np.abs(value) < CLOSED_GAP) | (high - low < 1e-9) | runaway):
            break
        side = np.where(value < 0.0, -1.0, 1.0)
        # the end that stays twice running loses half its weight, so that it moves next time
        weight = np.where(side == last_side, 0.5, 1.0)
        below = np.where(side < 0.0, value, below * weight)
        above = np.where(side < 0.0, above * weight, value)
        low, high = np.where(side < 0.0, middle, low), np.where(side < 0.0, high, middle)
        last_side = side
    return np.where(runaway, np.inf, middle)


def temperature_at(course: WarmUp, time: ArrayLike) -> Array:
    """Answer how hot the oil is at given moments of a warm-up.

    Straight line between the two times around each moment; the ends are held.

    Parameters
    ----------
    course : WarmUp, shape (..., n) [K]
    time : array, shape (m) [s]

    Returns
    -------
    temperature : array, shape (..., m) [K]

    Range of validity: that of the warm-up.
    Source: interpolation.

    Examples
    --------
    >>> course = WarmUp(np.array([0.0, 60.0, 120.0]), np.array([290.0, 300.0, 305.0]))
    >>> temperature_at(course, np.array([30.0, 90.0])).tolist()
    [295.0, 302.5]
    """
    wanted = np.asarray(time, dtype=np.float64)
    count = course.time.shape[-1]
    passed = np.sum(course.time[..., np.newaxis, :] <= wanted[..., np.newaxis], axis=-1)
    later = np.clip(passed, 1, count - 1)
    end, start = (np.take_along_axis(course.time, at, -1) for at in (later, later - 1))
    hot, cold = (np.take_along_axis(course.temperature, at, -1) for at in (later, later - 1))
    share = np.clip((wanted - start) / np.where(end > start, end - start, 1.0), 0.0, 1.0)
    return np.asarray(cold + share * (hot - cold))


def _relax(
    hot: Array, step: Array, at: Array, stage: Stage, capacity: Array, air_temperature: ArrayLike
) -> Array:
    giving = stage.conductance(at)
    settled = air_temperature + stage.loss(at) / giving
    return np.asarray(settled + (hot - settled) * np.exp(-giving * step / capacity))
