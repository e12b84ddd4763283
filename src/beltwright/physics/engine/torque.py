"""What the engine gives: full-load torque over speed, the governor's band, the piston's speed."""

from collections.abc import Sequence

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def torque_of_power(power: ArrayLike, speed: ArrayLike) -> Array:
    """Answer the torque that gives a power at a turning speed.

    T = P / ω

    Parameters
    ----------
    power : array, shape (...) [W]
    speed : array, shape (...) [rad/s]

    Returns
    -------
    torque : array, shape (...) [N m]

    Range of validity: speed above 0.
    Source: mechanics. The power of older small engines is a gross rating (SAE J1940), with what
    muffler and air cleaner cost left out.

    Examples
    --------
    >>> round(float(torque_of_power(9300.0, 3300 * np.pi / 30)), 2)
    26.91
    """
    return np.asarray(np.asarray(power) / speed)


def full_load_torque(
    speed: ArrayLike,
    rated_power: ArrayLike,
    rated_speed: ArrayLike,
    torque_rise: ArrayLike,
    peak_at: ArrayLike,
) -> Array:
    """Answer the full-load torque of a small four-stroke from its rating alone.

    T = T_r (1 + a (1 − ((ω/ω_r − p)/(1 − p))²)), T_r = P/ω_r: a parabola through the rating that
    peaks at p ω_r.

    Parameters
    ----------
    speed : array, shape (...) [rad/s]
    rated_power : array, shape (...) [W]
    rated_speed : array, shape (...) [rad/s]
    torque_rise : array, shape (...) [1]
        a, usually 0.06 to 0.20.
    peak_at : array, shape (...) [1]
        p, usually 0.60 to 0.75.

    Returns
    -------
    torque : array, shape (...) [N m]
        Not below 0.

    Range of validity: an assumed shape for small air-cooled four-strokes, from idle to a tenth
    above the rated speed; measured points are better.
    Source: common practice, no source.

    Examples
    --------
    >>> float(full_load_torque(350.0, 8750.0, 350.0, 0.12, 0.68))
    25.0
    """
    share = (np.asarray(speed) / rated_speed - peak_at) / (1 - np.asarray(peak_at))
    shape = 1 + torque_rise * (1 - np.square(share))
    return np.asarray(np.maximum(torque_of_power(rated_power, rated_speed) * shape, 0.0))


def measured_torque(
    speed: ArrayLike, speeds: Sequence[ArrayLike], torques: Sequence[ArrayLike]
) -> Array:
    """Answer the full-load torque between measured points.

    Straight lines between the points, which cannot overshoot them; held beyond the first and
    the last.

    Parameters
    ----------
    speed : array, shape (...) [rad/s]
    speeds : sequence of n arrays, shape (...) [rad/s]
        Rising.
    torques : sequence of n arrays, shape (...) [N m]

    Returns
    -------
    torque : array, shape (...) [N m]

    Raises
    ------
    ValueError
        Fewer than two points, or not one torque for each speed.

    Range of validity: between the points; beyond them it is a guess.
    Source: linear interpolation.

    Examples
    --------
    >>> float(measured_torque(250.0, (200.0, 300.0), (24.0, 28.0)))
    26.0
    """
    if len(speeds) < 2 or len(speeds) != len(torques):
        raise ValueError("a torque curve needs two points or more, a torque for each speed")
    torque = np.asarray(torques[0]) + 0.0 * np.asarray(speed)
    for low, high, before, after in zip(
        speeds[:-1], speeds[1:], torques[:-1], torques[1:], strict=True
    ):
        part = np.clip((np.asarray(speed) - low) / (np.asarray(high) - low), 0.0, 1.0)
        torque = torque + part * (np.asarray(after) - before)
    return torque


def no_load_speed(rated_speed: ArrayLike, droop: ArrayLike) -> Array:
    """Answer how fast a governed engine runs with nothing to drive.

    ω₀ = ω_r (1 + δ)

    Parameters
    ----------
    rated_speed : array, shape (...) [rad/s]
        At rated power.
    droop : array, shape (...) [1]
        4 to 10 % for flyweight governors of small engines (common practice).

    Returns
    -------
    speed : array, shape (...) [rad/s]

    Range of validity: a mechanical governor at one setting of the throttle.
    Source: definition of speed droop in ISO 8528-5.

    Examples
    --------
    >>> round(float(no_load_speed(345.0, 0.08)), 1)
    372.6
    """
    return np.asarray(rated_speed * (1 + np.asarray(droop)))


def governed_torque(
    speed: ArrayLike,
    full_load: ArrayLike,
    rated_torque: ArrayLike,
    rated_speed: ArrayLike,
    no_load_speed: ArrayLike,
) -> Array:
    """Answer the most torque that the engine gives at a speed with its governor at work.

    Up to the rated speed the full load; above it the lesser of that and the governor's line
    T_r (ω₀ − ω)/(ω₀ − ω_r); 0 at no-load speed and above.

    Parameters
    ----------
    speed : array, shape (...) [rad/s]
    full_load : array, shape (...) [N m]
        Full-load torque at that speed.
    rated_torque : array, shape (...) [N m]
    rated_speed : array, shape (...) [rad/s]
    no_load_speed : array, shape (...) [rad/s]

    Returns
    -------
    torque : array, shape (...) [N m]

    Range of validity: throttle lever at its stop, steady running.
    Source: straight droop line, ISO 8528-5 (definition).

    Examples
    --------
    >>> float(governed_torque(360.0, 24.0, 25.0, 350.0, 370.0))
    12.5
    """
    left = (np.asarray(no_load_speed) - speed) / (np.asarray(no_load_speed) - rated_speed)
    line = rated_torque * np.maximum(left, 0.0)
    return np.where(np.asarray(speed) > rated_speed, np.minimum(full_load, line), full_load)


def mean_piston_speed(stroke: ArrayLike, speed: ArrayLike) -> Array:
    """Answer how fast the piston moves on average, which wear and rod loads follow.

    c = 2 s n = s ω/π

    Parameters
    ----------
    stroke : array, shape (...) [m]
    speed : array, shape (...) [rad/s]
        Of the crankshaft.

    Returns
    -------
    piston_speed : array, shape (...) [m/s]

    Range of validity: any crank engine. The inertia load on the rod grows with its square.
    Source: kinematics.

    Examples
    --------
    >>> round(float(mean_piston_speed(0.085, 5500 * np.pi / 30)), 2)
    15.58
    """
    return np.asarray(stroke * np.asarray(speed) / np.pi)
