"""How hard a machine slows down, how far it rolls until it stands, and what slope it holds."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gravity import STANDARD_GRAVITY
from beltwright.physics.motion.chassis import Chassis


class BrakeForceLimits(NamedTuple):
    """The brake force of all wheels together at which one axle gives up.

    Attributes
    ----------
    front : array, shape (...) [N]
        The front wheels lock; infinite where they never do.
    rear : array, shape (...) [N]
        The rear wheels lock, or leave the ground; infinite where they never do.
    """

    front: Array
    rear: Array

    @property
    def usable(self) -> Array:
        """The lower of the two, shape (...) [N]."""
        return np.minimum(self.front, self.rear)


def brake_force_limits(
    chassis: Chassis,
    grip: ArrayLike,
    front_share: ArrayLike = 0.0,
    slope: ArrayLike = 0.0,
    rolling_resistance: ArrayLike = 0.0,
) -> BrakeForceLimits:
    """Answer how hard the machine can be braked before wheels lock.

    Braking unloads the rear: N_rear L = m g (L − b) cos θ − h (R + B), R = f m g cos θ. Hence
    rear: B = μ (m g (L − b) cos θ − h R) / ((1 − φ) L + μ h);
    front: B = μ (m g b cos θ + h R) / (φ L − μ h).
    A brake on the rear axle alone (φ = 0) takes its own load away.

    Parameters
    ----------
    chassis : Chassis, shape (...) [kg, m]
    grip : array, shape (...) [1]
    front_share : array, shape (...) [1]
        Share of the brake force that the front axle makes, φ: 0 for brakes on the rear alone.
    slope : array, shape (...) [rad]
        Positive where the machine faces uphill.
    rolling_resistance : array, shape (...) [1]

    Returns
    -------
    limits : BrakeForceLimits, shape (...) [N]

    Range of validity: as `axle_loads`, no trailer (one that pushes from behind makes it worse).
    Source: moments about the contacts; T. D. Gillespie, Fundamentals of Vehicle Dynamics, 1992,
    chapter 3, brake proportioning, from memory.

    Examples
    --------
    >>> machine = Chassis(mass=300.0, wheelbase=1.25, ahead=0.45, height=0.55)
    >>> print(f"{brake_force_limits(machine, grip=0.5).usable:.1f}")
    771.7
    """
    across = chassis.weight * np.cos(slope)
    dragged = across * rolling_resistance * chassis.height
    share, turning = np.asarray(front_share), np.asarray(grip * np.asarray(chassis.height))
    rear = grip * np.maximum(across * chassis.behind - dragged, 0.0)
    front = grip * (across * chassis.ahead + dragged)
    return BrakeForceLimits(
        front=_locks_at(front, np.asarray(share * chassis.wheelbase - turning)),
        rear=_locks_at(rear, np.asarray((1.0 - share) * chassis.wheelbase + turning)),
    )


def _locks_at(moment: Array, arm: Array) -> Array:
    """Moment over arm [N]; infinite where the braking loads an axle faster than it asks of it."""
    return np.where(arm > 0.0, moment / np.where(arm > 0.0, arm, 1.0), np.inf)


def deceleration(
    mass: ArrayLike,
    brake_force: ArrayLike,
    force_limit: ArrayLike,
    slope: ArrayLike = 0.0,
    rolling_resistance: ArrayLike = 0.0,
    rotating_mass: ArrayLike = 0.0,
) -> Array:
    """Answer how hard the machine slows down, by its brake or by the grip of its tyres.

    a = min( (B + R_g) / (m + m_rot), (B_limit + R_g) / m ),  R_g = m g (sin θ + f cos θ)

    Parameters
    ----------
    mass : array, shape (...) [kg]
    brake_force : array, shape (...) [N]
        What the brake makes at the ground: torque at the axle over the rolling radius.
    force_limit : array, shape (...) [N]
        Where wheels lock.
    slope : array, shape (...) [rad]
        Negative downhill.
    rolling_resistance : array, shape (...) [1]
    rotating_mass : array, shape (...) [kg]
        What turning parts add to the mass.

    Returns
    -------
    deceleration : array, shape (...) [m/s²]
        Not positive where the machine does not slow down on that slope.

    Range of validity: no engine braking, no air drag, no trailer.
    Source: Newton's second law.

    Examples
    --------
    >>> print(f"{deceleration(300.0, 900.0, 771.7):.3f}")
    2.572
    """
    ground = mass * np.asarray(
        STANDARD_GRAVITY * (np.sin(slope) + rolling_resistance * np.cos(slope))
    )
    by_brake = (brake_force + ground) / (mass + np.asarray(rotating_mass))
    by_grip = (force_limit + ground) / np.asarray(mass)
    return np.asarray(np.minimum(by_brake, by_grip))


def stopping_distance(
    speed: ArrayLike, deceleration: ArrayLike, reaction_time: ArrayLike = 0.0
) -> Array:
    """Answer how far the machine rolls from the moment when the driver sees the need.

    s = v t_r + v² / (2 a)

    Parameters
    ----------
    speed : array, shape (...) [m/s]
    deceleration : array, shape (...) [m/s²]
    reaction_time : array, shape (...) [s]
        1 to 1.5 s for an alert driver with a foot to move (common practice, no source).

    Returns
    -------
    distance : array, shape (...) [m]
        Infinite where the machine does not slow down.

    Range of validity: speed held until the brake bites, then even braking.
    Source: uniformly accelerated motion.

    Examples
    --------
    >>> print(f"{stopping_distance(2.2, 3.0):.4f}")
    0.8067
    """
    slowing = np.asarray(deceleration)
    stops = slowing > 0.0
    rolled = np.where(stops, np.square(speed) / (2.0 * np.where(stops, slowing, 1.0)), np.inf)
    return np.asarray(speed * np.asarray(reaction_time) + rolled)


def slope_held_by_brake(weight: ArrayLike, brake_force: ArrayLike) -> Array:
    """Answer the slope on which the parking brake's torque just holds the machine.

    sin θ = B / (m g); rolling drag is not counted on

    Parameters
    ----------
    weight : array, shape (...) [N]
    brake_force : array, shape (...) [N]
        Brake torque at the axle over the rolling radius. A band or a leading shoe holds less
        one way than the other.

    Returns
    -------
    slope : array, shape (...) [rad]

    Range of validity: standing still, cold and dry brake.
    Source: statics.

    Examples
    --------
    >>> print(f"{np.degrees(slope_held_by_brake(3000.0, 1500.0)):.1f}")
    30.0
    """
    return np.asarray(np.arcsin(np.clip(np.asarray(brake_force) / weight, 0.0, 1.0)))


class SlopeHeld(NamedTuple):
    """The slope on which locked wheels begin to slide.

    Attributes
    ----------
    facing_up : array, shape (...) [rad]
    facing_down : array, shape (...) [rad]
    """

    facing_up: Array
    facing_down: Array


def slope_held_by_grip(chassis: Chassis, grip: ArrayLike) -> SlopeHeld:
    """Answer the slope on which a machine with its rear wheels locked begins to slide.

    facing up: tan θ = μ (L − b) / (L − μ h); facing down: tan θ = μ (L − b) / (L + μ h)

    Parameters
    ----------
    chassis : Chassis, shape (...) [kg, m]
    grip : array, shape (...) [1]

    Returns
    -------
    held : SlopeHeld, shape (...) [rad]

    Range of validity: standing, front wheels free; an open differential with its brake on one
    half shaft alone does not count as locked.
    Source: moments about the contacts.

    Examples
    --------
    >>> machine = Chassis(mass=300.0, wheelbase=1.25, ahead=0.45, height=0.55)
    >>> held = slope_held_by_grip(machine, 0.6)
    >>> print(f"{np.degrees(held.facing_up):.2f} {np.degrees(held.facing_down):.2f}")
    27.55 16.90
    """
    holding = grip * chassis.behind
    turning = grip * np.asarray(chassis.height)
    return SlopeHeld(
        facing_up=np.asarray(np.arctan2(holding, np.maximum(chassis.wheelbase - turning, 0.0))),
        facing_down=np.asarray(np.arctan2(holding, chassis.wheelbase + turning)),
    )
