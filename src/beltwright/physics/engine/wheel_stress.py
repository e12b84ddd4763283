"""What turning does to a pulley or flywheel, and the speed at which it would fly apart.

A wheel that bursts cannot be contained by a hand-made guard. Never plan near these speeds.
"""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.customary import FOOT_PER_MINUTE

CAST_IRON_RIM_SPEED = 6000 * FOOT_PER_MINUTE
"""[m/s], the old shop rule for rims of grey cast iron (from memory, high)."""


def rim_speed(radius: ArrayLike, speed: ArrayLike) -> Array:
    """Answer how fast the rim of a wheel moves.

    v = r ω

    Parameters
    ----------
    radius : array, shape (...) [m]
    speed : array, shape (...) [rad/s]

    Returns
    -------
    rim_speed : array, shape (...) [m/s]

    Range of validity: any wheel.
    Source: kinematics.

    Examples
    --------
    >>> round(float(rim_speed(0.1, 3600 * np.pi / 30)), 2)
    37.7
    """
    return np.asarray(radius * np.asarray(speed))


def rim_stress(density: ArrayLike, mean_radius: ArrayLike, speed: ArrayLike) -> Array:
    """Answer the hoop stress in a thin rim that nothing holds but itself.

    σ = ρ r² ω²

    Parameters
    ----------
    density : array, shape (...) [kg/m3]
    mean_radius : array, shape (...) [m]
    speed : array, shape (...) [rad/s]

    Returns
    -------
    stress : array, shape (...) [Pa]

    Range of validity: a rim thin against its radius; arms bend it between them and add to it.
    Source: momentum; F. L. Singer, Strength of Materials, problem 140.

    Examples
    --------
    >>> round(float(rim_stress(7200.0, 0.1, 3600 * np.pi / 30)) / 1e6, 3)
    10.233
    """
    return np.asarray(density * np.square(rim_speed(mean_radius, speed)))


def bursting_speed(tensile_strength: ArrayLike, stress: ArrayLike, speed: ArrayLike) -> Array:
    """Answer at which speed a wheel's stress would reach the strength of its material.

    ω_b = ω √(S/σ)

    Parameters
    ----------
    tensile_strength : array, shape (...) [Pa]
    stress : array, shape (...) [Pa]
        At `speed`.
    speed : array, shape (...) [rad/s]

    Returns
    -------
    speed : array, shape (...) [rad/s]

    Range of validity: sound metal without cracks, welds or repairs: real wheels go well before.
    Source: stress grows with the square of the speed.

    Examples
    --------
    >>> float(bursting_speed(160e6, 10e6, 300.0))
    1200.0
    """
    return np.asarray(speed * np.sqrt(np.asarray(tensile_strength) / stress))
