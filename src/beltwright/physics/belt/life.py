"""How often a belt is bent and what that leaves of its life.

The life is a textbook estimate for clean industrial drives with new belts and good grooves. On a
cart it is only good for comparing two layouts of the same belt.
"""

from collections.abc import Sequence

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def flex_rate(belt_speed: ArrayLike, pitch_length: ArrayLike, pulleys: int) -> Array:
    """Answer how often each piece of the belt is bent in a second.

    n v / L

    Parameters
    ----------
    belt_speed : array, shape (...) [m/s]
    pitch_length : array, shape (...) [m]
    pulleys : number [1]
        Pulleys and idlers that the belt bends round.

    Returns
    -------
    rate : array, shape (...) [1/s]

    Range of validity: any loop; a bend over the back counts as one, though it costs more life.
    Source: kinematics; DIN 7753-2 uses the same count.

    Examples
    --------
    >>> float(flex_rate(20.0, 2.0, 4))
    40.0
    """
    return np.asarray(pulleys * np.asarray(belt_speed) / pitch_length)


def peak_pull(
    tight_pull: ArrayLike, bending_constant: ArrayLike, pitch_diameter: ArrayLike
) -> Array:
    """Answer the hardest pull, bending counted in, that the cord feels on one pulley.

    F = T + Kb/d

    Parameters
    ----------
    tight_pull : array, shape (...) [N]
        The larger of the pulls on the two sides of the pulley, centrifugal pull included.
    bending_constant : array, shape (...) [N m]
        Kb of the section.
    pitch_diameter : array, shape (...) [m]

    Returns
    -------
    pull : array, shape (...) [N]

    Range of validity: classical sections A, B and C.
    Source: Shigley, Mechanical Engineering Design, 9th ed., section 17-3, Table 17-16.

    Examples
    --------
    >>> round(float(peak_pull(400.0, 24.86, 0.0889)), 1)
    679.6
    """
    return np.asarray(tight_pull + np.asarray(bending_constant) / pitch_diameter)


def passes_to_failure(
    peak_pulls: Sequence[ArrayLike], fatigue_pull: ArrayLike, fatigue_exponent: ArrayLike
) -> Array:
    """Answer how many times a belt goes round before it is likely to fail.

    N = 1 / Σ (Fᵢ/K)^b

    Parameters
    ----------
    peak_pulls : sequence of arrays, shape (...) [N]
        One for each pulley that bends the belt.
    fatigue_pull : array, shape (...) [N]
        K of the section.
    fatigue_exponent : array, shape (...) [1]
        b of the section.

    Returns
    -------
    passes : array, shape (...) [1]

    Range of validity: 10⁸ to 10⁹ passes and no less than the recommended sheave. Beyond 10⁹ say
    only "more than". Under that size it is an extrapolation: use the ratio of two results.
    Source: Shigley, Mechanical Engineering Design, 9th ed., eq. 17-27, Table 17-17.

    Examples
    --------
    >>> f"{float(passes_to_failure((170.1, 144.7), 1193.0, 10.926)):.1e}"
    '1.5e+09'
    """
    damage: Array = np.zeros(())
    for pull in peak_pulls:
        damage = damage + (np.asarray(pull) / fatigue_pull) ** fatigue_exponent
    return np.asarray(1.0 / damage)


def running_time(passes: ArrayLike, pitch_length: ArrayLike, belt_speed: ArrayLike) -> Array:
    """Answer how long a belt runs for a number of passes.

    t = N L / v

    Parameters
    ----------
    passes : array, shape (...) [1]
    pitch_length : array, shape (...) [m]
    belt_speed : array, shape (...) [m/s]

    Returns
    -------
    time : array, shape (...) [s]

    Range of validity: as the passes.
    Source: Shigley, Mechanical Engineering Design, 9th ed., eq. 17-28.

    Examples
    --------
    >>> float(running_time(1e6, 2.0, 20.0))
    100000.0
    """
    return np.asarray(passes * np.asarray(pitch_length) / belt_speed)
