"""Speed against turn radius, on the level and across a slope: does it slide, does it tip?"""

import numpy as np
from numpy.typing import NDArray

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


def sideways_demand(speed: ArrayLike, radius: ArrayLike, side_slope: ArrayLike = 0.0) -> Array:
    """Answer what sideways push over load a turn asks of the tyres.

    k = (v²/(g R) + sin β) / cos β

    Parameters
    ----------
    speed : array, shape (...) [m/s]
    radius : array, shape (...) [m]
    side_slope : array, shape (...) [rad]
        Positive where the ground falls away to the outside of the turn.

    Returns
    -------
    demand : array, shape (...) [1]
        Compare it with the grip and with `sideways_limit`.

    Range of validity: steady turn on even ground.
    Source: circular motion.

    Examples
    --------
    >>> print(f"{sideways_demand(4.0, 5.0):.4f}")
    0.3263
    """
    turning = np.square(speed) / (STANDARD_GRAVITY * np.asarray(radius))
    return np.asarray((turning + np.sin(side_slope)) / np.cos(side_slope))


def slides_before_tipping(grip: ArrayLike, static_side_limit: ArrayLike) -> NDArray[np.bool_]:
    """Answer whether the tyres let go before the machine tips, turning or on a side slope.

    μ < tan θ_static

    Parameters
    ----------
    grip : array, shape (...) [1]
        Use the high end of the range: a rut or a root holds better than any ground.
    static_side_limit : array, shape (...) [rad]

    Returns
    -------
    slides : array of booleans, shape (...) [1]

    Range of validity: until a sliding tyre meets a rut, a root or a kerb; then it tips after all.
    Source: both limits of `fastest_turn` compared.

    Examples
    --------
    >>> bool(slides_before_tipping(0.5, np.radians(32.0)))
    True
    """
    return np.asarray(np.asarray(grip) < np.tan(static_side_limit))


def outer_load_share(demand: ArrayLike, track: ArrayLike, height: ArrayLike) -> Array:
    """Answer what share of the weight the outer tyres carry in a turn.

    s = ½ + k h / t

    Parameters
    ----------
    demand : array, shape (...) [1]
        From `sideways_demand`.
    track : array, shape (...) [m]
    height : array, shape (...) [m]
        Of the centre of gravity.

    Returns
    -------
    share : array, shape (...) [1]
        1 where the inner tyres carry nothing.

    Range of validity: rigid axles, weight in the middle.
    Source: moments about the inner tyres; T. D. Gillespie, Fundamentals of Vehicle Dynamics,
    1992, section 9, from memory.

    Examples
    --------
    >>> print(f"{outer_load_share(0.3263, 0.90, 0.55):.4f}")
    0.6994
    """
    return np.asarray(np.clip(0.5 + demand * np.asarray(height) / track, 0.0, 1.0))
