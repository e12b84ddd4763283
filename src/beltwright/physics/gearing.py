"""Ratios and speeds of a driveline: pure kinematics."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def belt_ratio(driver_pitch: ArrayLike, driven_pitch: ArrayLike, creep: ArrayLike = 0.0) -> Array:
    """Turns of the driver for one turn of the driven pulley.

    ratio = driven_pitch / (driver_pitch · (1 − creep))

    Parameters
    ----------
    driver_pitch : array, shape (...) [m]
        pitch diameter of the driving pulley, > 0
    driven_pitch : array, shape (...) [m]
        pitch diameter of the driven pulley, > 0
    creep : array, shape (...) [1]
        share of the belt speed lost to elastic creep, 0 to 0.05

    Returns
    -------
    array, shape (...) [1]

    Notes
    -----
    Range of validity: a belt that does not slip in the groove.

    Source: kinematics; creep of a loaded V-belt 0.5 to 2 %, common practice, no source.

    Examples
    --------
    >>> float(belt_ratio(0.1, 0.25))
    2.5
    """
    ratio: Array = np.asarray(driven_pitch) / (np.asarray(driver_pitch) * (1.0 - np.asarray(creep)))
    return ratio


def tooth_ratio(driver_teeth: ArrayLike, driven_teeth: ArrayLike) -> Array:
    """Turns of the driver for one turn of the driven sprocket or gear.

    ratio = driven_teeth / driver_teeth

    Parameters
    ----------
    driver_teeth : array, shape (...) [1]
        teeth of the driver, > 0
    driven_teeth : array, shape (...) [1]
        teeth of the driven wheel, > 0

    Returns
    -------
    array, shape (...) [1]

    Notes
    -----
    Range of validity: exact.

    Source: kinematics.

    Examples
    --------
    >>> float(tooth_ratio(10, 35))
    3.5
    """
    ratio: Array = np.asarray(driven_teeth, dtype=float) / np.asarray(driver_teeth, dtype=float)
    return ratio


def ground_speed(rotation: ArrayLike, ratio: ArrayLike, roll_out: ArrayLike) -> Array:
    """Speed over the ground.

    speed = rotation / (2π · ratio) · roll_out

    Parameters
    ----------
    rotation : array, shape (...) [rad/s]
        speed of the engine
    ratio : array, shape (...) [1]
        turns of the engine for one turn of the wheel, > 0
    roll_out : array, shape (...) [m]
        distance rolled in one turn of the wheel

    Returns
    -------
    array, shape (...) [m/s]

    Notes
    -----
    Range of validity: no slip between tyre and ground.

    Source: kinematics.

    Examples
    --------
    >>> round(float(ground_speed(2 * np.pi, 10.0, 1.5)), 3)
    0.15
    """
    speed: Array = np.asarray(rotation) / (2.0 * np.pi * np.asarray(ratio)) * np.asarray(roll_out)
    return speed


def rolling_radius(roll_out: ArrayLike) -> Array:
    """Effective radius of a tyre from the distance that it rolls in one turn.

    radius = roll_out / 2π

    Parameters
    ----------
    roll_out : array, shape (...) [m]
        distance rolled in one turn, loaded

    Returns
    -------
    array, shape (...) [m]

    Notes
    -----
    Range of validity: the load and pressure at which the roll-out was measured.

    Source: kinematics.

    Examples
    --------
    >>> round(float(rolling_radius(np.pi)), 3)
    0.5
    """
    radius: Array = np.asarray(roll_out) / (2.0 * np.pi)
    return radius


def overspeed(rotation: ArrayLike, made_for: ArrayLike) -> Array:
    """How far a part turns above the speed that it was made for.

    overspeed = rotation / made_for − 1

    Parameters
    ----------
    rotation : array, shape (...) [rad/s]
        speed that it will turn at
    made_for : array, shape (...) [rad/s]
        speed that it turned at in its donor, > 0

    Returns
    -------
    array, shape (...) [1]
        0.25 is a quarter too fast; negative is slower than before

    Notes
    -----
    Range of validity: exact.

    Source: kinematics.

    Examples
    --------
    >>> float(overspeed(125.0, 100.0))
    0.25
    """
    over: Array = np.asarray(rotation) / np.asarray(made_for) - 1.0
    return over
