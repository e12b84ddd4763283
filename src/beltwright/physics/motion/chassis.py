"""What the forces on a machine depend on: its mass and where its weight and its hitch sit."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gravity import STANDARD_GRAVITY


class Chassis(NamedTuple):
    """A machine, seen from the side. Origin on the ground under the rear axle centre, x forward.

    Attributes
    ----------
    mass : array, shape (...) [kg]
        With driver and loads.
    wheelbase : array, shape (...) [m]
    ahead : array, shape (...) [m]
        How far the centre of gravity lies ahead of the rear axle.
    height : array, shape (...) [m]
        Height of the centre of gravity above the ground.
    hitch_height : array, shape (...) [m]
        Height of the drawbar above the ground.
    """

    mass: ArrayLike
    wheelbase: ArrayLike
    ahead: ArrayLike
    height: ArrayLike
    hitch_height: ArrayLike = 0.0

    @property
    def weight(self) -> Array:
        """Weight of the machine, shape (...) [N]."""
        return np.asarray(self.mass * STANDARD_GRAVITY)

    @property
    def behind(self) -> Array:
        """How far the centre of gravity lies behind the front axle, shape (...) [m]."""
        return np.asarray(self.wheelbase - self.ahead)


class AxleLoads(NamedTuple):
    """What presses on the ground under each axle.

    Attributes
    ----------
    front : array, shape (...) [N]
    rear : array, shape (...) [N]
    """

    front: Array
    rear: Array


def axle_loads(
    chassis: Chassis,
    slope: ArrayLike = 0.0,
    acceleration: ArrayLike = 0.0,
    drawbar_pull: ArrayLike = 0.0,
) -> AxleLoads:
    """Answer how the weight shares itself over the axles on a slope, speeding up, pulling.

    N_front L = m g (b cos θ − h sin θ) − m a h − P h_d;  N_front + N_rear = m g cos θ

    Parameters
    ----------
    chassis : Chassis, shape (...) [kg, m]
    slope : array, shape (...) [rad]
        Positive where the machine faces uphill.
    acceleration : array, shape (...) [m/s²]
        Forward; negative while braking.
    drawbar_pull : array, shape (...) [N]
        Pull on the hitch towards the rear, along the ground.

    Returns
    -------
    loads : AxleLoads, shape (...) [N]
        A negative load means that the axle has left the ground.

    Range of validity: rigid machine, no springs, rolling drag acting at ground level, slow
    enough for air drag to be left out.
    Source: moments about the rear contact; J. Y. Wong, Theory of Ground Vehicles, 3rd ed. 2001,
    section 3.1 (equations 3.3 and 3.4, from memory).

    Examples
    --------
    >>> loads = axle_loads(Chassis(mass=300.0, wheelbase=1.2, ahead=0.48, height=0.5))
    >>> round(float(loads.front), 2), round(float(loads.rear), 2)
    (1176.8, 1765.2)
    """
    across = chassis.weight * np.cos(slope)
    front = (
        across * chassis.ahead
        - chassis.height * (chassis.weight * np.sin(slope) + chassis.mass * acceleration)
        - drawbar_pull * chassis.hitch_height
    ) / chassis.wheelbase
    return AxleLoads(front=np.asarray(front), rear=np.asarray(across - front))
