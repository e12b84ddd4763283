"""Time and distance to a speed through the gears, from standing, clutch slipping at first."""

from collections.abc import Callable, Sequence
from functools import cache
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.motion.top_speed import EngineRange, Gear, Resistance, resisting_force

POINTS = 24
"""Gauss-Legendre points on each stretch between two bends of the curve of thrust."""


class RunUp(NamedTuple):
    """How long and how far it takes to reach a speed.

    Attributes
    ----------
    time : array, shape (...) [s]
        Infinite where the speed is never reached.
    distance : array, shape (...) [m]
    """

    time: Array
    distance: Array


def run_up(
    engine: EngineRange,
    gears: Sequence[Gear],
    resistance: Resistance,
    target: ArrayLike,
    start_speed: ArrayLike,
    thrust_limit: ArrayLike = np.inf,
    shift_pause: ArrayLike = 0.0,
) -> RunUp:
    """Answer how long and how far a standing start takes to a speed, wide open.

    t = Σ ∫ (m + m_rot) dv / (F(v) − R(v)) + pauses;  s = Σ ∫ v (m + m_rot) dv / (F − R) + …

    Each gear is held up to the governed speed. While shifting the machine rolls on, slowed by
    R. Until the wheels have caught up the clutch slips and the engine stays at `start_speed`.

    Parameters
    ----------
    engine : EngineRange, shape (...) [rad/s, N m]
    gears : sequence of Gear, shape (...) [1, m, kg]
        In the order in which they are used; one gear where the box is not shifted in motion.
    resistance : Resistance, shape (...) [kg, 1, rad, N, m²]
    target : array, shape (...) [m/s]
    start_speed : array, shape (...) [rad/s]
        Engine speed while the clutch slips.
    thrust_limit : array, shape (...) [N]
        Where the tyres spin or the front lifts; the driver is taken to stay just under it.
    shift_pause : array, shape (...) [s]

    Returns
    -------
    run : RunUp, shape (...) [s, m]

    Range of validity: belt and tyres do not slip once the clutch is in; smooth torque curve
    (each sharp bend in it costs about a thousandth of the time).
    Source: Newton's second law; J. Y. Wong, Theory of Ground Vehicles, 3rd ed. 2001,
    section 3.6.1, from memory. Gauss-Legendre quadrature.

    Examples
    --------
    >>> engine = EngineRange(lambda w: 0.0 * w + 10.0, slowest=10.0, governed=300.0, no_load=320.0)
    >>> gear = Gear(ratio=20.0, efficiency=1.0, rolling_radius=0.25)
    >>> run = run_up(engine, [gear], Resistance(mass=400.0), target=2.0, start_speed=200.0)
    >>> print(f"{run.time:.3f} s, {run.distance:.3f} m")
    1.000 s, 1.000 m
    """
    speed = np.asarray(0.0 * np.asarray(target))
    time, distance = np.zeros_like(speed), np.zeros_like(speed)
    for number, gear in enumerate(gears):
        last = number == len(gears) - 1
        highest = gear.road_speed(engine.no_load if last else engine.governed)
        end = np.minimum(target, highest)
        stretch = _in_gear(engine, gear, resistance, speed, end, start_speed, thrust_limit)
        time, distance = time + stretch.time, distance + stretch.distance
        speed = np.maximum(speed, end)
        if not last:
            shifts = speed < target
            slowing = resisting_force(resistance, speed) / resistance.mass
            after = np.maximum(speed - slowing * shift_pause, 0.0)
            time = time + np.where(shifts, shift_pause, 0.0)
            distance = distance + np.where(shifts, 0.5 * (speed + after) * shift_pause, 0.0)
            speed = np.where(shifts, after, speed)
    reached = speed >= np.asarray(target)
    return RunUp(time=np.where(reached, time, np.inf), distance=np.where(reached, distance, np.inf))


def _in_gear(
    engine: EngineRange,
    gear: Gear,
    resistance: Resistance,
    begin: ArrayLike,
    end: ArrayLike,
    start_speed: ArrayLike,
    thrust_limit: ArrayLike,
) -> RunUp:
    """Time and distance from one speed to another in one gear."""

    def surplus(speed: Array) -> Array:
        engine_speed = np.maximum(gear.engine_speed(speed), start_speed)
        push = np.minimum(gear.thrust(engine.torque(engine_speed)), thrust_limit)
        return np.asarray(push - resisting_force(resistance, speed))

    first, last = np.asarray(begin), np.maximum(begin, end)
    caught_up = np.clip(gear.road_speed(start_speed), first, last)
    governed = np.clip(gear.road_speed(engine.governed), caught_up, last)
    moving = resistance.mass + np.asarray(gear.rotating_mass)
    time, distance = np.asarray(0.0), np.asarray(0.0)
    for low, high in ((first, caught_up), (caught_up, governed), (governed, last)):
        stretch = _over(surplus, moving, low, high)
        time, distance = time + stretch.time, distance + stretch.distance
    return RunUp(time=time, distance=distance)


def _over(surplus: Callable[[Array], Array], moving: Array, low: Array, high: Array) -> RunUp:
    """Time and distance over one stretch of speed without a bend in the thrust."""
    last_surplus = surplus(high)
    column = (-1, *(1,) * np.ndim(last_surplus * moving))
    points, weights = _gauss_points()
    half = 0.5 * (high - low)
    speed = 0.5 * (high + low) + half * points.reshape(column)
    left = surplus(speed)
    stuck = (half > 0.0) & (np.any(left <= 0.0, axis=0) | (last_surplus <= 0.0))
    each = half * moving / np.where(left > 0.0, left, 1.0) * weights.reshape(column)
    return RunUp(
        time=np.where(stuck, np.inf, np.sum(each, axis=0)),
        distance=np.where(stuck, np.inf, np.sum(each * speed, axis=0)),
    )


@cache
def _gauss_points() -> tuple[Array, Array]:
    """Places from −1 to 1 and their weights.

    The places are the eigenvalues of the polynomials' recurrence, the weights twice the squares
    of the eigenvectors' first parts (G. H. Golub and J. H. Welsch, Math. Comp. 23, 1969, 221).
    NumPy's own `leggauss` gives the same, but loading it takes longer than the whole run-up.
    """
    order = np.arange(1.0, POINTS)
    beside = order / np.sqrt(4.0 * order**2 - 1.0)
    points, vectors = np.linalg.eigh(np.diag(beside, -1))
    return points, 2.0 * vectors[0] ** 2
