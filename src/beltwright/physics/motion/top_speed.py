"""What holds a machine back, and the speed at which each gear has nothing left to push with."""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gravity import STANDARD_GRAVITY

AIR_DENSITY = 1.225
"""Of dry air at sea level and 15 °C [kg/m³]: ISO 2533, standard atmosphere."""

SPEEDS_TRIED = 12
"""Stretches of the engine's range in which the balance of forces is looked for."""

STRAIGHT_LINES = 9
"""Most steps of false position that then close in, sharp bends in the curve included."""

NOTHING_LEFT = 1e-12
"""Share of the first difference in force below which the forces count as balanced."""


class Resistance(NamedTuple):
    """What the driven tyres have to push against.

    Attributes
    ----------
    mass : array, shape (...) [kg]
    rolling_resistance : array, shape (...) [1]
    slope : array, shape (...) [rad]
        Positive uphill.
    drawbar_pull : array, shape (...) [N]
    drag_area : array, shape (...) [m²]
        Drag coefficient times frontal area; about 0.7 m² for a seated driver (common practice,
        no source).
    """

    mass: ArrayLike
    rolling_resistance: ArrayLike = 0.0
    slope: ArrayLike = 0.0
    drawbar_pull: ArrayLike = 0.0
    drag_area: ArrayLike = 0.0


def resisting_force(resistance: Resistance, speed: ArrayLike) -> Array:
    """Answer how hard slope, rolling drag, trailer and air hold the machine back.

    R = m g (sin θ + f cos θ) + P + ½ ρ c A v²

    Parameters
    ----------
    resistance : Resistance, shape (...) [kg, 1, rad, N, m²]
    speed : array, shape (...) [m/s]

    Returns
    -------
    force : array, shape (...) [N]

    Range of validity: forward motion in still air of 1.225 kg/m³.
    Source: J. Y. Wong, Theory of Ground Vehicles, 3rd ed. 2001, section 3.1, from memory.

    Examples
    --------
    >>> print(f"{resisting_force(Resistance(mass=320.0, slope=np.radians(15.0)), 1.0):.1f}")
    812.2
    """
    weight = resistance.mass * STANDARD_GRAVITY
    ground = weight * (
        np.sin(resistance.slope) + resistance.rolling_resistance * np.cos(resistance.slope)
    )
    air = 0.5 * AIR_DENSITY * resistance.drag_area * np.square(speed)
    return np.asarray(ground + resistance.drawbar_pull + air)


class Gear(NamedTuple):
    """One gear, from the engine shaft to the ground.

    Attributes
    ----------
    ratio : array, shape (...) [1]
        Turns of the engine for one turn of the driven wheels.
    efficiency : array, shape (...) [1]
    rolling_radius : array, shape (...) [m]
    rotating_mass : array, shape (...) [kg]
        What the turning parts add to the mass in this gear, Σ J i² / r².
    """

    ratio: ArrayLike
    efficiency: ArrayLike
    rolling_radius: ArrayLike
    rotating_mass: ArrayLike = 0.0

    def road_speed(self, engine_speed: ArrayLike) -> Array:
        """Speed over the ground [m/s] at an engine speed [rad/s]."""
        return np.asarray(engine_speed * self.rolling_radius / self.ratio)

    def engine_speed(self, road_speed: ArrayLike) -> Array:
        """Engine speed [rad/s] at a speed over the ground [m/s]."""
        return np.asarray(road_speed * self.ratio / self.rolling_radius)

    def thrust(self, torque: ArrayLike) -> Array:
        """Push at the ground [N] for a torque on the engine shaft [N m]."""
        return np.asarray(torque * self.ratio * self.efficiency / self.rolling_radius)


class EngineRange(NamedTuple):
    """The engine as the driveline feels it.

    Attributes
    ----------
    torque : function of an engine speed [rad/s], shape (...) giving the torque there [N m]
        Full load up to `governed`, then falling to nothing at `no_load`.
    slowest : array, shape (...) [rad/s]
        At or below which it stalls under load.
    governed : array, shape (...) [rad/s]
        Where the governor begins to close the throttle.
    no_load : array, shape (...) [rad/s]
    """

    torque: Callable[[Array], Array]
    slowest: ArrayLike
    governed: ArrayLike
    no_load: ArrayLike


class TopSpeed(NamedTuple):
    """The speed that a gear settles at.

    Attributes
    ----------
    speed : array, shape (...) [m/s]
        Zero where the gear cannot keep the machine moving.
    moves : array of booleans, shape (...) [1]
        The gear holds some speed within the engine's range.
    governed : array of booleans, shape (...) [1]
        The governor sets the speed; otherwise the drag does.
    """

    speed: Array
    moves: NDArray[np.bool_]
    governed: NDArray[np.bool_]


def top_speed(engine: EngineRange, gear: Gear, resistance: Resistance) -> TopSpeed:
    """Answer the fastest steady speed in a gear, with the throttle wide open.

    The highest v with F(v) = R(v), looked for from the no-load speed downwards.

    Parameters
    ----------
    engine : EngineRange, shape (...) [rad/s, N m]
    gear : Gear, shape (...) [1, m, kg]
    resistance : Resistance, shape (...) [kg, 1, rad, N, m²]

    Returns
    -------
    top : TopSpeed, shape (...) [m/s]

    Range of validity: no slip of belt or tyre; a torque curve without spikes narrower than a
    tenth of the engine's range.
    Source: J. Y. Wong, Theory of Ground Vehicles, 3rd ed. 2001, section 3.5, from memory.

    Examples
    --------
    >>> engine = EngineRange(lambda w: 20.0 * np.clip((377.0 - w) / 27.0, 0.0, 1.0),
    ...                      slowest=150.0, governed=350.0, no_load=377.0)
    >>> gear = Gear(ratio=20.0, efficiency=0.8, rolling_radius=0.25)
    >>> print(f"{top_speed(engine, gear, Resistance(mass=300.0)).speed:.4f}")
    4.7125
    """

    def surplus(engine_speed: Array) -> Array:
        push = gear.thrust(engine.torque(engine_speed))
        return np.asarray(push - resisting_force(resistance, gear.road_speed(engine_speed)))

    slow, fast, moves = _highest_balance(surplus, engine)
    settled = _closed_in(surplus, slow, fast)
    return TopSpeed(
        speed=np.where(moves, gear.road_speed(settled), 0.0),
        moves=moves,
        governed=np.asarray(moves & (settled >= engine.governed)),
    )


def _closed_in(surplus: Callable[[Array], Array], slow: Array, fast: Array) -> Array:
    """Where the surplus runs out between two engine speeds: false position, Illinois form."""
    over, short = surplus(slow), surplus(fast)
    settled, first = slow, over - short
    moved = np.zeros(np.shape(over))
    for _ in range(STRAIGHT_LINES):
        drop = over - short
        share = np.where(drop > 0.0, over / np.where(drop > 0.0, drop, 1.0), 0.0)
        settled = slow + np.clip(share, 0.0, 1.0) * (fast - slow)
        left = surplus(settled)
        if np.all(np.abs(left) <= NOTHING_LEFT * first, where=first > 0.0):
            break
        holds = left >= 0.0
        slow, fast = np.where(holds, settled, slow), np.where(holds, fast, settled)
        # an end that stays twice counts half, or a bent curve closes in from one side alone
        over = np.where(holds, left, np.where(moved < 0.0, 0.5 * over, over))
        short = np.where(holds, np.where(moved > 0.0, 0.5 * short, short), left)
        moved = np.where(holds, 1.0, -1.0)
    return settled


def _highest_balance(
    surplus: Callable[[Array], Array], engine: EngineRange
) -> tuple[Array, Array, NDArray[np.bool_]]:
    """The highest stretch of engine speed over which the surplus runs out, and whether any does."""
    fastest = np.asarray(engine.no_load)
    stretch = (fastest - engine.slowest) / SPEEDS_TRIED
    axes = np.ndim(surplus(fastest))
    steps = np.arange(SPEEDS_TRIED + 1.0).reshape(-1, *(1,) * axes)
    holds = surplus(fastest - steps * stretch) >= 0.0
    first = np.argmax(holds, axis=0)
    slow = fastest - first * stretch
    fast = fastest - np.maximum(first - 1, 0) * stretch
    return np.asarray(slow), np.asarray(fast), np.asarray(np.any(holds, axis=0))
