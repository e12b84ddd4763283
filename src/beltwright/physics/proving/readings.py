"""What counted turns, marked distances and brake marks say: plain kinematics."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def mean_speed(distance: ArrayLike, time: ArrayLike) -> Array:
    """Answer the speed over a marked distance.

    v = s / t

    Parameters
    ----------
    distance : array, shape (...) [m]
    time : array, shape (...) [s]
        More than 0.

    Returns
    -------
    speed : array, shape (...) [m/s]

    Range of validity: steady speed from mark to mark.
    Source: kinematics.

    Examples
    --------
    >>> float(mean_speed(20.0, 8.0))
    2.5
    """
    return np.asarray(np.asarray(distance, dtype=float) / time)


def counted_roll_out(distance: ArrayLike, turns: ArrayLike) -> Array:
    """Answer how far a wheel rolls in one turn, from several counted.

    roll-out = s / n

    Parameters
    ----------
    distance : array, shape (...) [m]
    turns : array, shape (...) [1]
        Of a driven wheel; of two that turn unevenly, the mean. More than 0.

    Returns
    -------
    roll_out : array, shape (...) [m]

    Range of validity: rolled straight ahead, tyres at their load and pressure, no slip.
    Source: kinematics.

    Examples
    --------
    >>> float(counted_roll_out(6.0, 4.0))
    1.5
    """
    return np.asarray(np.asarray(distance, dtype=float) / turns)


def counted_ratio(engine_turns: ArrayLike, wheel_turns: ArrayLike) -> Array:
    """Answer the ratio of a driveline, from turns counted by hand.

    i = n engine / n wheels

    Parameters
    ----------
    engine_turns : array, shape (...) [1]
    wheel_turns : array, shape (...) [1]
        Of the driven wheels, more than 0: with an open differential the mean of both, for one
        that stands still lets the other turn twice.

    Returns
    -------
    ratio : array, shape (...) [1]

    Range of validity: turned slowly without load, so that no belt creeps.
    Source: kinematics; an open differential turns with the mean of its wheels (Willis).

    Examples
    --------
    >>> float(counted_ratio(37.0, 2.0))
    18.5
    """
    return np.asarray(np.asarray(engine_turns, dtype=float) / wheel_turns)
