"""The steepest slope that a machine climbs: by power, by grip, and before its front lifts."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.motion.chassis import Chassis
from beltwright.physics.motion.traction import Driven

VERTICAL = np.pi / 2.0
"""Stands for "no slope is too steep" [rad]."""


def _slope_where(sine: ArrayLike, cosine: ArrayLike, force: ArrayLike) -> Array:
    """The slope θ at which sine · sin θ + cosine · cos θ first reaches force, 0 to 90°.

    Negative where the force is already too small on the level; vertical where none is too steep.
    """
    sine, cosine = np.asarray(sine), np.asarray(cosine)
    size = np.hypot(sine, cosine)
    reached = np.abs(force) <= size
    angle = np.arcsin(np.where(reached, force / size, 0.0)) - np.arctan2(cosine, sine)
    too_weak = np.where(np.asarray(force) > 0.0, VERTICAL, -VERTICAL)
    return np.clip(np.where(reached, angle, too_weak), -VERTICAL, VERTICAL)


def climb_by_power(
    weight: ArrayLike,
    thrust: ArrayLike,
    rolling_resistance: ArrayLike = 0.0,
    drawbar_pull: ArrayLike = 0.0,
) -> Array:
    """Answer the slope on which a thrust just keeps the machine moving.

    m g (sin θ + f cos θ) = T − P

    Parameters
    ----------
    weight : array, shape (...) [N]
    thrust : array, shape (...) [N]
        At the driven tyres, in the gear asked about.
    rolling_resistance : array, shape (...) [1]
    drawbar_pull : array, shape (...) [N]

    Returns
    -------
    slope : array, shape (...) [rad]
        Negative where the machine only moves downhill.

    Range of validity: creeping speed; grip enough.
    Source: statics.

    Examples
    --------
    >>> print(f"{np.tan(climb_by_power(3138.1, 615.4)):.3f}")
    0.200
    """
    return _slope_where(1.0, rolling_resistance, (thrust - drawbar_pull) / weight)


def climb_by_grip(
    chassis: Chassis,
    grip: ArrayLike,
    driven: Driven = "rear",
    rolling_resistance: ArrayLike = 0.0,
    drawbar_pull: ArrayLike = 0.0,
) -> Array:
    """Answer the slope on which the driven tyres just begin to spin at a steady crawl.

    sin θ + f cos θ + p = μ N_driven / (m g), with p = P / (m g) and, moments about a contact,
    N_rear L / (m g) = (L − b) cos θ + h sin θ + p h_d;
    N_front L / (m g) = b cos θ − h sin θ − p h_d

    Parameters
    ----------
    chassis : Chassis, shape (...) [kg, m]
    grip : array, shape (...) [1]
    driven : "rear", "front" or "all" [1]
    rolling_resistance : array, shape (...) [1]
    drawbar_pull : array, shape (...) [N]

    Returns
    -------
    slope : array, shape (...) [rad]
        A right angle where the tyres hold on any slope (the front lifts first).

    Range of validity: as `axle_loads`, steady speed.
    Source: moments about the contacts; for f = p = 0 and rear drive the textbook form
    tan θ = μ (L − b) / (L − μ h).

    Examples
    --------
    >>> machine = Chassis(mass=300.0, wheelbase=1.25, ahead=0.45, height=0.55)
    >>> print(f"{np.degrees(climb_by_grip(machine, 0.6)):.3f}")
    27.553
    """
    pull = drawbar_pull / chassis.weight
    if driven == "all":
        return _slope_where(1.0, rolling_resistance - np.asarray(grip), -pull)
    per_wheelbase = grip / np.asarray(chassis.wheelbase)
    if driven == "front":
        return _slope_where(
            1.0 + per_wheelbase * chassis.height,
            rolling_resistance - per_wheelbase * chassis.ahead,
            -pull * (1.0 + per_wheelbase * chassis.hitch_height),
        )
    return _slope_where(
        1.0 - per_wheelbase * chassis.height,
        rolling_resistance - per_wheelbase * chassis.behind,
        -pull * (1.0 - per_wheelbase * chassis.hitch_height),
    )


def climb_before_lift(chassis: Chassis, drawbar_pull: ArrayLike = 0.0) -> Array:
    """Answer the slope on which the front wheels carry nothing at a steady crawl.

    h sin θ − b cos θ = −P h_d / (m g); without pull tan θ = b / h

    Parameters
    ----------
    chassis : Chassis, shape (...) [kg, m]
    drawbar_pull : array, shape (...) [N]

    Returns
    -------
    slope : array, shape (...) [rad]

    Range of validity: steady; a jerk of the clutch lifts the front far earlier
    (`thrust_limits`). This is the edge of falling over backwards, not a slope to drive on.
    Source: moments about the rear contact.

    Examples
    --------
    >>> machine = Chassis(mass=300.0, wheelbase=1.25, ahead=0.45, height=0.55)
    >>> print(f"{np.degrees(climb_before_lift(machine)):.3f}")
    39.289
    """
    moment = drawbar_pull * np.asarray(chassis.hitch_height) / chassis.weight
    return _slope_where(chassis.height, -np.asarray(chassis.ahead), -moment)
