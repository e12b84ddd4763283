"""Where the weight sits: from scales, and from the places of driver, loads and parts."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def ahead_of_rear_axle(front: ArrayLike, rear: ArrayLike, wheelbase: ArrayLike) -> Array:
    """Answer how far ahead of the rear axle the centre of gravity lies.

    x = L W_front / (W_front + W_rear)

    Parameters
    ----------
    front : array, shape (...) [kg or N]
        What the scales under the front wheels read, machine level.
    rear : array, shape (...) [kg or N]
    wheelbase : array, shape (...) [m]

    Returns
    -------
    ahead : array, shape (...) [m]

    Range of validity: level floor, scales of the same height.
    Source: moments about the rear axle; ISO 10392.

    Examples
    --------
    >>> print(f"{ahead_of_rear_axle(88.0, 126.0, 1.235):.4f}")
    0.5079
    """
    front = np.asarray(front)
    return np.asarray(wheelbase * front / (front + rear))


def left_of_middle(left: ArrayLike, right: ArrayLike, track: ArrayLike) -> Array:
    """Answer how far to the left of the middle the centre of gravity lies.

    y = (t/2) (W_left − W_right) / (W_left + W_right)

    Parameters
    ----------
    left : array, shape (...) [kg or N]
        Both wheels of the left side, machine level.
    right : array, shape (...) [kg or N]
    track : array, shape (...) [m]
        Between the middles of the tyres; the mean of front and rear where they differ.

    Returns
    -------
    left_of_middle : array, shape (...) [m]

    Range of validity: level floor; with unlike tracks, both ends loaded about alike.
    Source: moments about the middle plane; ISO 10392.

    Examples
    --------
    >>> print(f"{left_of_middle(110.0, 104.0, 0.71):.4f}")
    0.0100
    """
    left = np.asarray(left)
    return np.asarray(track / 2.0 * (left - right) / (left + right))


def height_from_raised_end(
    front_share: ArrayLike,
    ahead: ArrayLike,
    wheelbase: ArrayLike,
    front_radius: ArrayLike,
    rear_radius: ArrayLike,
    raised: ArrayLike,
) -> Array:
    """Answer how high the centre of gravity lies, from a weighing with one end raised.

    The axle centres stand L_c = √(L² + (r_f − r_r)²) apart. Level, their line rises towards the
    front by sin α₀ = (r_f − r_r) / L_c; raised, by sin α = (r_f − r_r + H) / L_c. The machine is
    tilted by φ = α − α₀, and moments about the rear axle centre give
    z = r_r + (x cos φ − w L_c cos α) / sin φ.
    With like wheels: z = r + (w₀ − w) L / tan φ, w₀ = x / L.

    Parameters
    ----------
    front_share : array, shape (...) [1]
        Share of the whole weight that rests on the front wheels while an end is raised, w.
    ahead : array, shape (...) [m]
        Of the rear axle, from the level weighing, x.
    wheelbase : array, shape (...) [m]
    front_radius : array, shape (...) [m]
        From axle centre to ground, tyre loaded.
    rear_radius : array, shape (...) [m]
    raised : array, shape (...) [m]
        How high the ground under the front wheels was raised, H; negative for the rear wheels.

    Returns
    -------
    height : array, shape (...) [m]
        Above level ground.

    Raises
    ------
    ValueError
        If nothing was raised, or more than the wheelbase allows.

    Range of validity: wheels free to roll and out of gear, no springs, tyres squashed alike,
    tank closed. The error grows as 1 / tan φ: raise by a third of the wheelbase or more.
    Source: moments about the rear axle; ISO 10392 (centre of gravity, axle lift method), which
    takes like wheels.

    Examples
    --------
    >>> z = height_from_raised_end(1.0 - 138.0 / 214.0, 0.5079, 1.235, 0.19, 0.23, raised=0.4)
    >>> print(f"{z:.3f}")
    0.419
    """
    difference = np.asarray(front_radius) - rear_radius
    axles = np.hypot(wheelbase, difference)
    rises = (difference + raised) / axles
    if np.any(np.equal(raised, 0.0)) or np.any(np.abs(rises) >= 1.0):
        raise ValueError("raise one end, by less than the wheelbase")
    angle = np.arcsin(rises)
    tilt = angle - np.arctan2(difference, wheelbase)
    moment = ahead * np.cos(tilt) - front_share * axles * np.cos(angle)
    return np.asarray(rear_radius + moment / np.sin(tilt))


class Balance(NamedTuple):
    """Mass and centre of gravity. Origin on the ground under the rear axle centre.

    Attributes
    ----------
    mass : array, shape (...) [kg]
    x : array, shape (...) [m]
        Forward.
    y : array, shape (...) [m]
        To the left.
    z : array, shape (...) [m]
        Up from the ground.
    """

    mass: Array
    x: Array
    y: Array
    z: Array


def put_together(
    masses: Sequence[ArrayLike],
    x: Sequence[ArrayLike],
    y: Sequence[ArrayLike],
    z: Sequence[ArrayLike],
) -> Balance:
    """Answer where the weight sits with driver, loads and parts together.

    x = Σ m_i x_i / Σ m_i, likewise y and z; a part that is taken off counts with −m

    Parameters
    ----------
    masses : sequence of arrays, shape (...) [kg]
    x : sequence of arrays, shape (...) [m]
    y : sequence of arrays, shape (...) [m]
    z : sequence of arrays, shape (...) [m]

    Returns
    -------
    balance : Balance, shape (...) [kg, m]

    Range of validity: loads that stay where they are (no half-full tank, no swinging load).
    Source: definition of the centre of mass.

    Examples
    --------
    >>> both = put_together([214.0, 82.0], [0.508, 0.25], [0.0, 0.0], [0.42, 0.85])
    >>> print(f"{both.mass:.0f} kg, {both.x:.3f} m ahead, {both.z:.3f} m up")
    296 kg, 0.437 m ahead, 0.539 m up
    """
    total = _sum(masses)
    return Balance(
        mass=total,
        x=np.asarray(_moment(masses, x) / total),
        y=np.asarray(_moment(masses, y) / total),
        z=np.asarray(_moment(masses, z) / total),
    )


def _sum(values: Sequence[ArrayLike]) -> Array:
    total = np.asarray(0.0)
    for value in values:
        total = total + value
    return total


def _moment(masses: Sequence[ArrayLike], arms: Sequence[ArrayLike]) -> Array:
    return _sum([mass * np.asarray(arm) for mass, arm in zip(masses, arms, strict=True)])
