"""Speed against turn radius, on the level and across a slope: does it slide, does it tip?"""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gravity import STANDARD_GRAVITY


def sideways_limit(static_side_limit: ArrayLike) -> Array:
    """Answer what sideways push over weight begins to tip the machine.

    k = tan θ_static

    Parameters
    ----------
    static_side_limit : array, shape (...) [rad]
        Slope at which the standing machine tips to that side.

    Returns
    -------
    limit : array, shape (...) [1]

    Range of validity: as the static limit.
    Source: on a slope the sideways push over the load is tan θ.

    Examples
    --------
    >>> print(f"{sideways_limit(np.radians(39.289)):.4f}")
    0.8182
    """
    return np.asarray(np.tan(np.asarray(static_side_limit)))


def fastest_turn(radius: ArrayLike, limit: ArrayLike, side_slope: ArrayLike = 0.0) -> Array:
    """Answer the speed at which a turn uses up what holds the machine sideways.

    (v²/R + g sin β) / (g cos β) = k, so v² = g R (k cos β − sin β)

    Parameters
    ----------
    radius : array, shape (...) [m]
        Of the path of the centre of gravity.
    limit : array, shape (...) [1]
        Sideways push over load that is still held: `sideways_limit` for tipping, the grip for
        sliding.
    side_slope : array, shape (...) [rad]
        Positive where the ground falls away to the outside of the turn.

    Returns
    -------
    speed : array, shape (...) [m/s]
        Zero where the slope alone is already too much.

    Range of validity: steady turn on even ground. A swerve, a bump or a shifting load tips the
    machine sooner: stay well under.
    Source: circular motion; T. D. Gillespie, Fundamentals of Vehicle Dynamics, 1992, section 9
    (quasi-static rollover of a rigid vehicle, with cross-slope), from memory.

    Examples
    --------
    >>> print(f"{fastest_turn(3.0, 0.90 / (2 * 0.55)):.4f}")
    4.9062
    """
    held = limit * np.cos(side_slope) - np.sin(side_slope)
    return np.asarray(np.sqrt(STANDARD_GRAVITY * np.asarray(radius) * np.maximum(held, 0.0)))


def tightest_turn(speed: ArrayLike, limit: ArrayLike, side_slope: ArrayLike = 0.0) -> Array:
    """Answer the least radius that a speed allows.

    R = v² / (g (k cos β − sin β))

    Parameters
    ----------
    speed : array, shape (...) [m/s]
    limit : array, shape (...) [1]
        As in `fastest_turn`; the lesser of grip and tipping for both.
    side_slope : array, shape (...) [rad]

    Returns
    -------
    radius : array, shape (...) [m]
        Infinite where the slope alone is already too much.

    Range of validity: as `fastest_turn`.
    Source: as `fastest_turn`.

    Examples
    --------
    >>> print(f"{tightest_turn(4.9062, 0.90 / (2 * 0.55)):.3f}")
    3.000
    """
    held = np.asarray(limit * np.cos(side_slope) - np.sin(side_slope))
    holds = held > 0.0
    radius = np.square(speed) / (STANDARD_GRAVITY * np.where(holds, held, 1.0))
    return np.where(holds, radius, np.inf)
