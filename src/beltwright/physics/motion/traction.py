"""What the tyres can pass to the ground before they spin or the front wheels lift."""

from typing import Literal, NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.motion.chassis import Chassis

Driven = Literal["rear", "front", "all"]
"""The driven axles. With "all" both axles are geared together, so each takes what it can."""


def thrust(
    torque: ArrayLike, ratio: ArrayLike, efficiency: ArrayLike, rolling_radius: ArrayLike
) -> Array:
    """Answer how hard the driven tyres push at the ground for a torque on the engine shaft.

    F = T i η / r

    Parameters
    ----------
    torque : array, shape (...) [N m]
    ratio : array, shape (...) [1]
        Turns of the engine for one turn of the driven wheels.
    efficiency : array, shape (...) [1]
        From engine shaft to wheel.
    rolling_radius : array, shape (...) [m]
        Roll-out of a driven wheel over 2π.

    Returns
    -------
    thrust : array, shape (...) [N]

    Range of validity: steady running; what spins up the engine is not taken off.
    Source: statics; J. Y. Wong, Theory of Ground Vehicles, section 3.4 (from memory).

    Examples
    --------
    >>> round(float(thrust(16.0, 60.0, 0.95 * 0.85, 0.24)), 0)
    3230.0
    """
    return np.asarray(torque * ratio * efficiency / rolling_radius)


class ThrustLimits(NamedTuple):
    """The thrust at which the ground or the balance of the machine gives up.

    Attributes
    ----------
    slip : array, shape (...) [N]
        The driven tyres spin; infinite where the front lifts whatever the grip.
    lift : array, shape (...) [N]
        The front wheels leave the ground; infinite where the rear wheels are not driven.
    """

    slip: Array
    lift: Array

    @property
    def usable(self) -> Array:
        """The lower of the two, shape (...) [N]."""
        return np.minimum(self.slip, self.lift)


def thrust_limits(
    chassis: Chassis,
    grip: ArrayLike,
    driven: Driven = "rear",
    slope: ArrayLike = 0.0,
    rolling_resistance: ArrayLike = 0.0,
    drawbar_pull: ArrayLike = 0.0,
) -> ThrustLimits:
    """Answer how much thrust the ground takes, load transfer by that very thrust included.

    The machine speeds up with what is left over, so the thrust T itself moves load from the
    front to the rear axle: N_front = (F₀ − h T) / L with
    F₀ = m g b cos θ + h R + P (h − h_d) and R = f m g cos θ. Setting T = μ N of the driven axle:

    rear: T = μ (m g L cos θ − F₀) / (L − μ h);  front: T = μ F₀ / (L + μ h);
    all: T = μ m g cos θ;  front lifts at T = F₀ / h

    Parameters
    ----------
    chassis : Chassis, shape (...) [kg, m]
    grip : array, shape (...) [1]
        Thrust at the tyre over load on it, at its best.
    driven : "rear", "front" or "all" [1]
    slope : array, shape (...) [rad]
        Positive where the machine faces uphill.
    rolling_resistance : array, shape (...) [1]
    drawbar_pull : array, shape (...) [N]

    Returns
    -------
    limits : ThrustLimits, shape (...) [N]

    Range of validity: as `axle_loads`; both driven wheels of an axle on like ground and evenly
    loaded, or locked together.
    Source: moments about the rear contact; J. Y. Wong, Theory of Ground Vehicles, 3rd ed. 2001,
    section 3.1 (equations 3.7 to 3.9, from memory).

    Examples
    --------
    >>> machine = Chassis(mass=300.0, wheelbase=1.25, ahead=0.45, height=0.55)
    >>> limits = thrust_limits(machine, grip=0.6)
    >>> round(float(limits.slip), 1), round(float(limits.lift), 1)
    (1535.0, 2407.1)
    """
    across = chassis.weight * np.cos(slope)
    front_moment = (
        across * (chassis.ahead + rolling_resistance * chassis.height)
        + (chassis.height - chassis.hitch_height) * drawbar_pull
    )
    lift = np.asarray(np.maximum(front_moment, 0.0) / chassis.height)
    never = np.full(np.shape(lift), np.inf)
    if driven == "front":
        slip = grip * np.maximum(front_moment, 0.0) / (chassis.wheelbase + grip * chassis.height)
        return ThrustLimits(slip=np.asarray(slip), lift=never)
    if driven == "all":
        return ThrustLimits(slip=np.asarray(grip * across), lift=lift)
    reach = np.asarray(chassis.wheelbase - grip * chassis.height)
    rear_moment = grip * (across * chassis.wheelbase - front_moment)
    slip = np.where(reach > 0.0, rear_moment / np.where(reach > 0.0, reach, 1.0), np.inf)
    return ThrustLimits(slip=slip, lift=lift)
