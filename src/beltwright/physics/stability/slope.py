"""The slope on which a standing machine begins to tip, towards any side."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.stability.centre_of_gravity import Balance

RIGHT, LEFT, FRONT, REAR = -np.pi / 2.0, np.pi / 2.0, 0.0, np.pi
"""Where downhill lies, as an angle from straight ahead, counter-clockwise from above [rad]."""

NEVER_STEEPER = np.radians(15.0)
"""Ride-on machines: never above 15°, up and down only [rad]; makers' manuals, seen in print."""

NEVER_STEEPER_LOADED = np.radians(10.0)
"""With an attachment or a trailer: 10° [rad]; makers' manuals, seen in print."""

WORKING_SHARE = 0.5
"""Working limit over static limit [1]; common practice, no source."""


class TipAxis(NamedTuple):
    """A line about which the machine can fall, with the machine on its left, seen from above.

    Attributes
    ----------
    start : three arrays, shape (...) [m]
        x, y and z of one end.
    end : three arrays, shape (...) [m]
        x, y and z of the other.
    """

    start: tuple[ArrayLike, ArrayLike, ArrayLike]
    end: tuple[ArrayLike, ArrayLike, ArrayLike]


def rigid_axes(
    wheelbase: ArrayLike, track_front: ArrayLike, track_rear: ArrayLike
) -> tuple[TipAxis, ...]:
    """Answer about which lines a machine with a rigid front axle can tip.

    The four lines between neighbouring tyre contacts: right, front, left, rear.

    Parameters
    ----------
    wheelbase : array, shape (...) [m]
    track_front : array, shape (...) [m]
        Between the middles of the tyres.
    track_rear : array, shape (...) [m]

    Returns
    -------
    axes : tuple of TipAxis, shape (...) [m]

    Range of validity: hard tyres, even ground. Soft tyres and springs bring the limit down.
    Source: statics; ISO 16231-1 takes the same lines (from memory).

    Examples
    --------
    >>> axes = rigid_axes(1.25, 0.9, 0.9)
    >>> axes[0].start, axes[0].end
    ((0.0, -0.45, 0.0), (1.25, -0.45, 0.0))
    """
    half_front, half_rear = 0.5 * track_front, 0.5 * track_rear
    rear_right, front_right = (0.0, -half_rear, 0.0), (wheelbase, -half_front, 0.0)
    front_left, rear_left = (wheelbase, half_front, 0.0), (0.0, half_rear, 0.0)
    return (
        TipAxis(rear_right, front_right),
        TipAxis(front_right, front_left),
        TipAxis(front_left, rear_left),
        TipAxis(rear_left, rear_right),
    )


def pivoting_axes(
    wheelbase: ArrayLike, track_front: ArrayLike, track_rear: ArrayLike, pivot_height: ArrayLike
) -> tuple[TipAxis, ...]:
    """Answer about which lines a machine with a front axle on a middle pivot can tip.

    Sideways it falls about the line from a rear tyre contact up to the pivot, until the axle
    meets its stop; forwards about the front contacts, backwards about the rear.

    Parameters
    ----------
    wheelbase : array, shape (...) [m]
    track_front : array, shape (...) [m]
    track_rear : array, shape (...) [m]
    pivot_height : array, shape (...) [m]
        Of the front axle's pivot above the ground.

    Returns
    -------
    axes : tuple of TipAxis, shape (...) [m]

    Range of validity: as `rigid_axes`. The stop of the axle is not counted on: once the machine
    rolls, it meets the stop with a jerk.
    Source: statics; ISO 16231-1 and tractor overturning texts take the same lines (from memory).

    Examples
    --------
    >>> pivoting_axes(1.25, 0.9, 0.9, 0.25)[0].end
    (1.25, 0.0, 0.25)
    """
    half_rear = 0.5 * track_rear
    pivot = (wheelbase, 0.0, pivot_height)
    _, front, _, rear = rigid_axes(wheelbase, track_front, track_rear)
    return (
        TipAxis((0.0, -half_rear, 0.0), pivot),
        front,
        TipAxis(pivot, (0.0, half_rear, 0.0)),
        rear,
    )


def tip_slope(axis: TipAxis, balance: Balance, downhill: ArrayLike) -> Array:
    """Answer the slope on which the machine begins to fall about one line.

    With u along the line, r from it to the centre of gravity and d the level direction in which
    the slope falls: tan θ = −u·(r × k) / u·(r × d), k straight up

    Parameters
    ----------
    axis : TipAxis, shape (...) [m]
    balance : Balance, shape (...) [kg, m]
    downhill : array, shape (...) [rad]
        Where downhill lies, from straight ahead, counter-clockwise from above.

    Returns
    -------
    slope : array, shape (...) [rad]
        Negative where the machine falls even on the level; a right angle where a slope that
        way cannot tip it about this line.

    Range of validity: standing or rolling slowly and evenly; no bump, no pull, no wheel in a hole.
    Source: moment about the tip axis equal to zero.

    Examples
    --------
    >>> weight = Balance(np.asarray(300.0), np.asarray(0.45), np.asarray(0.0), np.asarray(0.55))
    >>> right = pivoting_axes(1.25, 0.9, 0.9, 0.25)[0]
    >>> print(f"{np.degrees(tip_slope(right, weight, RIGHT)):.3f}")
    32.050
    """
    ux, uy, uz = (end - start for start, end in zip(axis.start, axis.end, strict=True))
    centre = (balance.x, balance.y, balance.z)
    rx, ry, rz = (place - start for place, start in zip(centre, axis.start, strict=True))
    level_x, level_y = np.cos(downhill), np.sin(downhill)
    keeping = ux * ry - uy * rx
    tipping = rz * (ux * level_y - uy * level_x) + uz * (ry * level_x - rx * level_y)
    slope = np.arctan2(keeping, -np.asarray(tipping))
    return np.asarray(np.minimum(slope, np.pi / 2.0))


def static_limit(axes: Sequence[TipAxis], balance: Balance, downhill: ArrayLike) -> Array:
    """Answer the slope on which the standing machine begins to tip, about whichever line.

    Parameters
    ----------
    axes : sequence of TipAxis, shape (...) [m]
        From `rigid_axes` or `pivoting_axes`.
    balance : Balance, shape (...) [kg, m]
    downhill : array, shape (...) [rad]
        `LEFT`, `RIGHT`, `FRONT` (nose down), `REAR` (nose up) or any angle between; an array of
        angles round the compass gives the tip polygon.

    Returns
    -------
    slope : array, shape (...) [rad]

    Range of validity: as `tip_slope`. A limit, not a slope to drive on: see `working_limit`.
    Source: the least of the tip lines' limits.

    Examples
    --------
    >>> weight = Balance(np.asarray(300.0), np.asarray(0.45), np.asarray(0.0), np.asarray(0.55))
    >>> axes = rigid_axes(1.25, 0.9, 0.9)
    >>> print(f"{np.degrees(static_limit(axes, weight, LEFT)):.3f}")
    39.289
    """
    least = tip_slope(axes[0], balance, downhill)
    for axis in axes[1:]:
        least = np.minimum(least, tip_slope(axis, balance, downhill))
    return least


def working_limit(
    static: ArrayLike, never_steeper: ArrayLike = NEVER_STEEPER, share: ArrayLike = WORKING_SHARE
) -> Array:
    """Answer the slope to stay under in use, well inside the static limit.

    θ_w = min(k θ_static, θ_never)

    Parameters
    ----------
    static : array, shape (...) [rad]
    never_steeper : array, shape (...) [rad]
        `NEVER_STEEPER`, or `NEVER_STEEPER_LOADED` with an attachment or trailer.
    share : array, shape (...) [1]

    Returns
    -------
    slope : array, shape (...) [rad]
        Zero where the machine does not stand even on the level.

    Range of validity: slow, up and down the slope, firm even ground, seated driver. Across the
    slope the makers' manuals allow none. Local rules go first.
    Source: share: common practice, no source; ceilings: ride-on makers' manuals, seen in print.

    Examples
    --------
    >>> print(f"{np.degrees(working_limit(np.radians(24.0))):.1f}")
    12.0
    """
    return np.asarray(np.clip(share * np.asarray(static), 0.0, never_steeper))
