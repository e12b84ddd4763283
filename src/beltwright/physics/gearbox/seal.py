"""Rotary lip seals: rubbing speed and the power that their lips eat."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gearbox.oil import CENTISTOKES, ZERO_CELSIUS


class SealLoss(NamedTuple):
    """What three published estimates give for the friction of one lip seal.

    Attributes
    ----------
    low : array, shape (...) [W]
        The lowest of the three estimates.
    usual : array, shape (...) [W]
        The middle one.
    high : array, shape (...) [W]
        The highest.
    """

    low: Array
    usual: Array
    high: Array


def lip_speed(shaft_diameter: ArrayLike, shaft_speed: ArrayLike) -> Array:
    """Answer how fast the shaft rubs under the lip of its seal.

    v = ω d / 2.

    Parameters
    ----------
    shaft_diameter : array, shape (...) [m]
    shaft_speed : array, shape (...) [rad/s]

    Returns
    -------
    speed : array, shape (...) [m/s]

    Range of validity: exact.
    Source: kinematics.

    Examples
    --------
    >>> round(float(lip_speed(0.025, 3600 * 2 * 3.141592653589793 / 60)), 4)
    4.7124
    """
    return np.asarray(np.asarray(shaft_diameter, dtype=np.float64) * shaft_speed / 2.0)


def seal_loss(
    shaft_diameter: ArrayLike,
    shaft_speed: ArrayLike,
    oil_temperature: ArrayLike,
    viscosity_at_40: ArrayLike,
) -> SealLoss:
    """Answer how much power one rubber lip seal turns into heat.

    Three estimates, put in order: P = 7.69e-6 d² n;
    P = (145 − 1.6 t + 350 lg lg (ν40 + 0.8)) 1e-7 d² n; T = 2.429e-3 d (nitrile rubber lip),
    with P in W, T in N·m, d in mm, n in rev/min, t in °C, ν40 in cSt.

    Parameters
    ----------
    shaft_diameter : array, shape (...) [m]
    shaft_speed : array, shape (...) [rad/s]
    oil_temperature : array, shape (...) [K]
    viscosity_at_40 : array, shape (...) [m²/s]
        Kinematic viscosity of the oil at 40 °C.

    Returns
    -------
    loss : SealLoss, shape (...) [W]

    Range of validity: sprung single lips on wet, ground shafts of 10 to 100 mm, oil 0 to 120 °C;
    a dry or pinched lip eats more.
    Source: ISO/TR 14179-2, seal losses (first and second), and ISO/TR 14179-1 (third); all from
    memory, medium confidence, not confirmed from print, hence the range.

    Examples
    --------
    >>> loss = seal_loss(0.025, 314.159, 353.15, 220e-6)
    >>> [round(float(part), 1) for part in (loss.low, loss.usual, loss.high)]
    [14.4, 19.1, 27.5]
    """
    diameter = np.asarray(shaft_diameter, dtype=np.float64) * 1e3
    speed = np.asarray(shaft_speed, dtype=np.float64)
    turns = speed * 30.0 / np.pi
    celsius = np.asarray(oil_temperature, dtype=np.float64) - ZERO_CELSIUS
    thickness = np.log10(np.log10(np.asarray(viscosity_at_40) / CENTISTOKES + 0.8))
    plain = 7.69e-6 * diameter**2 * turns
    with_oil = (145.0 - 1.6 * celsius + 350.0 * thickness) * 1e-7 * diameter**2 * turns
    nitrile = 2.429e-3 * diameter * speed
    less, more = np.minimum(plain, with_oil), np.maximum(plain, with_oil)
    return SealLoss(
        low=np.minimum(less, nitrile),
        usual=np.maximum(less, np.minimum(more, nitrile)),
        high=np.maximum(more, nitrile),
    )
