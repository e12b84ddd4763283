"""How hot disc or drum get: one stop, many stops, a long way down a hill."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gravity import STANDARD_GRAVITY


def heat_of_a_stop(
    mass: ArrayLike,
    speed: ArrayLike,
    deceleration: ArrayLike = np.inf,
    slope: ArrayLike = 0.0,
    rolling_resistance: ArrayLike = 0.0,
    rotating_mass: ArrayLike = 0.0,
) -> Array:
    """Answer how much energy the brake turns into heat in one stop.

    Q = ½ (m + m_rot) v² − m g (sin θ + f cos θ) v² / (2 a)

    Parameters
    ----------
    mass : array, shape (...) [kg]
    speed : array, shape (...) [m/s]
    deceleration : array, shape (...) [m/s²]
        Infinite leaves slope and rolling drag out.
    slope : array, shape (...) [rad]
        Negative downhill, where the brake also takes the height that is lost.
    rolling_resistance : array, shape (...) [1]
    rotating_mass : array, shape (...) [kg]

    Returns
    -------
    heat : array, shape (...) [J]

    Range of validity: the wheels do not lock (locked tyres take the heat themselves).
    Source: energy balance; Shigley's Mechanical Engineering Design, section 16-9.

    Examples
    --------
    >>> print(f"{heat_of_a_stop(320.0, 2.2):.1f}")
    774.4
    """
    squared = np.square(np.asarray(speed))
    ground = mass * np.asarray(
        STANDARD_GRAVITY * (np.sin(slope) + rolling_resistance * np.cos(slope))
    )
    moving = 0.5 * (mass + np.asarray(rotating_mass)) * squared
    return np.asarray(np.maximum(moving - ground * squared / (2.0 * np.asarray(deceleration)), 0))


def braking_power(
    mass: ArrayLike, speed: ArrayLike, descent: ArrayLike, rolling_resistance: ArrayLike = 0.0
) -> Array:
    """Answer how much heat a second the brake must take to hold a speed downhill.

    P = m g (sin θ − f cos θ) v

    Parameters
    ----------
    mass : array, shape (...) [kg]
    speed : array, shape (...) [m/s]
    descent : array, shape (...) [rad]
        Angle of the slope, positive downhill.
    rolling_resistance : array, shape (...) [1]

    Returns
    -------
    power : array, shape (...) [W]

    Range of validity: clutch out, no engine braking, no air drag.
    Source: energy balance.

    Examples
    --------
    >>> print(f"{braking_power(320.0, 3.0, np.radians(15.0)):.0f}")
    2437
    """
    pulling = np.sin(descent) - rolling_resistance * np.cos(descent)
    return np.asarray(mass * STANDARD_GRAVITY * np.maximum(pulling, 0.0) * speed)


def rise_on_descent(
    power: ArrayLike, duration: ArrayLike, heat_capacity: ArrayLike, conductance: ArrayLike
) -> Array:
    """Answer how hot the brake is at the foot of a descent on which it dragged all the way.

    ΔT = P / (h A) (1 − e^(−t/τ)),  τ = m c / (h A)

    Parameters
    ----------
    power : array, shape (...) [W]
    duration : array, shape (...) [s]
        Length of the descent over the speed.
    heat_capacity : array, shape (...) [J/K]
    conductance : array, shape (...) [W/K]
        Zero counts on no cooling at all.

    Returns
    -------
    rise : array, shape (...) [K]
        Above the air.

    Range of validity: one temperature through the whole part, same cooling throughout.
    Source: energy balance of a lumped mass.

    Examples
    --------
    >>> print(f"{rise_on_descent(500.0, 60.0, 600.0, 1.5):.2f}")
    46.43
    """
    lost = np.asarray(conductance * np.asarray(duration)) / heat_capacity
    # (1 − e^(−x)) / x tends to 1: with no cooling the rise is simply P t / (m c)
    kept = np.where(lost > 0.0, -np.expm1(-lost) / np.where(lost > 0.0, lost, 1.0), 1.0)
    return np.asarray(power * np.asarray(duration) / heat_capacity * kept)
