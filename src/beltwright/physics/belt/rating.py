"""What power the published formulas let one V-belt carry.

The two published ratings of the classical sections differ by about two on small sheaves. Neither
is wrong: the older one is kinder to the belt. Both are worked, and a verdict takes the lower.
"""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.customary import FOOT_PER_MINUTE, HORSEPOWER, INCH

THOUSAND_RPM = 1000 * np.pi / 30
"""[rad/s]"""


def industrial_power(
    pitch_diameter: ArrayLike,
    speed: ArrayLike,
    ratio_factor: ArrayLike,
    constants: tuple[float, float, float, float],
) -> Array:
    """Answer the power that the industrial rating lets one belt carry at half a turn of wrap.

    hp = d r [k1 − k2/d − k3 (d r)² − k4 log₁₀(d r)] + k2 r (1 − 1/K), d in inches, r in
    thousands of rpm

    Parameters
    ----------
    pitch_diameter : array, shape (...) [m]
        Of the smaller pulley.
    speed : array, shape (...) [rad/s]
        Of the smaller pulley.
    ratio_factor : array, shape (...) [1]
        K for the speed ratio.
    constants : k1, k2, k3, k4 of the section [hp, in, thousand rpm]

    Returns
    -------
    power : array, shape (...) [W]
        Not below 0.

    Range of validity: sheaves no smaller than recommended for the section, belt speed up to
    33 m/s (6500 ft/min).
    Source: ANSI/RMA IP-20-1988 as in Machinery's Handbook, 26th ed. (constants from memory,
    high); ISO 5292 has the same form.

    Examples
    --------
    >>> a_section = (1.004, 1.652, 1.547e-4, 0.2126)
    >>> power = industrial_power(3.0 * 0.0254, 1750 * np.pi / 30, 1.0, a_section)
    >>> round(float(power) / 745.7, 3)
    1.554
    """
    k1, k2, k3, k4 = constants
    diameter = np.asarray(pitch_diameter) / INCH
    turns = np.asarray(speed) / THOUSAND_RPM
    product = diameter * turns
    # at rest the product is 0, and so is the limit of x·log x
    logarithm = np.log10(np.maximum(product, np.finfo(np.float64).tiny))
    straight = product * (k1 - k3 * product**2 - k4 * logarithm) - k2 * turns
    return np.maximum(straight + k2 * turns * (1 - 1 / np.asarray(ratio_factor)), 0.0) * HORSEPOWER


def textbook_power(
    pitch_diameter: ArrayLike,
    belt_speed: ArrayLike,
    diameter_factor: ArrayLike,
    constants: tuple[float, float, float],
) -> Array:
    """Answer the power that the older textbook rating lets one belt carry at half a turn.

    hp = (V/1000) [a (1000/V)^0.09 − c/(K d) − e (V/1000)²], d in inches, V in ft/min

    Parameters
    ----------
    pitch_diameter : array, shape (...) [m]
        Of the smaller pulley.
    belt_speed : array, shape (...) [m/s]
    diameter_factor : array, shape (...) [1]
        K for the easier bend on the larger pulley; 1 where both are of one size.
    constants : a, c, e of the section [hp, in, 1000 ft/min]

    Returns
    -------
    power : array, shape (...) [W]
        Not below 0.

    Range of validity: sections A, B and C on sheaves no smaller than recommended.
    Source: V. M. Faires, Design of Machine Elements, 4th ed., ch. 17; behind Shigley, Mechanical
    Engineering Design, Table 17-12 (constants from memory, high).

    Examples
    --------
    >>> power = textbook_power(3.0 * 0.0254, 1000 * 0.00508, 1.0, (1.95, 3.80, 0.0136))
    >>> round(float(power) / 745.7, 2)
    0.67
    """
    a, c, e = constants
    # a pulley thinner than its belt has no speed at the cord, and carries nothing
    speed = np.maximum(belt_speed, 0.0) / (1000 * FOOT_PER_MINUTE)
    bend = c / (np.asarray(diameter_factor) * pitch_diameter / INCH)
    return np.maximum(a * speed**0.91 - bend * speed - e * speed**3, 0.0) * HORSEPOWER


def light_duty_power(
    pitch_diameter: ArrayLike, speed: ArrayLike, constants: tuple[float, float, float]
) -> Array:
    """Answer the power that the light-duty rating lets one 3L, 4L or 5L belt carry.

    hp = r (k1 d^0.91 − k2 − k3 r² d³), d in inches, r in thousands of rpm

    Parameters
    ----------
    pitch_diameter : array, shape (...) [m]
        Of the smaller pulley.
    speed : array, shape (...) [rad/s]
        Of the smaller pulley.
    constants : k1, k2, k3 of the section [hp, in, thousand rpm]

    Returns
    -------
    power : array, shape (...) [W]
        Not below 0.

    Range of validity: single belts of light duty. The constants are from memory and not
    confirmed: say so wherever the answer is shown.
    Source: RMA IP-23 as in Machinery's Handbook, 26th ed. (from memory, medium).

    Examples
    --------
    >>> power = light_duty_power(3.0 * 0.0254, 1750 * np.pi / 30, (0.4666, 0.7231, 0.0002286))
    >>> round(float(power) / 745.7, 3)
    0.921
    """
    k1, k2, k3 = constants
    diameter = np.asarray(pitch_diameter) / INCH
    turns = np.asarray(speed) / THOUSAND_RPM
    power = turns * (k1 * diameter**0.91 - k2 - k3 * turns**2 * diameter**3)
    return np.maximum(power, 0.0) * HORSEPOWER


def arc_factor(wrap: ArrayLike) -> Array:
    """Answer which share of its rating a V-belt keeps when it wraps less than half a turn.

    K = 1.25 (1 − 5^(−θ/π)), 1 at most

    Parameters
    ----------
    wrap : array, shape (...) [rad]
        On the smaller grooved pulley.

    Returns
    -------
    factor : array, shape (...) [1]

    Range of validity: both pulleys grooved, 90° to 180°.
    Source: ISO 5292 formula (from memory, high); RMA IP-20 prints the same as a table.

    Examples
    --------
    >>> round(float(arc_factor(np.radians(133.0))), 3)
    0.869
    """
    return np.clip(1.25 * (1 - 5.0 ** (-np.asarray(wrap) / np.pi)), 0.0, 1.0)


class PublishedRatings(NamedTuple):
    """The ratings that are published for one belt on one drive.

    Attributes
    ----------
    industrial : array, shape (...) [W]
    textbook : array, shape (...) [W]
    """

    industrial: Array
    textbook: Array

    @property
    def cautious(self) -> Array:
        """The lower of the two, shape (...) [W]."""
        return np.minimum(self.industrial, self.textbook)


def allowed_power(
    rated_power: ArrayLike,
    arc_factor: ArrayLike,
    length_factor: ArrayLike,
    service_factor: ArrayLike,
    belts: ArrayLike = 1,
) -> Array:
    """Answer how much power the drive may carry once wrap, length and duty are counted.

    P = n P_rated K_θ K_L / S

    Parameters
    ----------
    rated_power : array, shape (...) [W]
        Of one belt.
    arc_factor : array, shape (...) [1]
    length_factor : array, shape (...) [1]
    service_factor : array, shape (...) [1]
        With what idlers add to it.
    belts : array, shape (...) [1]
        Belts side by side.

    Returns
    -------
    power : array, shape (...) [W]

    Range of validity: as the rating.
    Source: ANSI/RMA IP-20-1988; Shigley, Mechanical Engineering Design, 9th ed., eq. 17-17.

    Examples
    --------
    >>> round(float(allowed_power(2000.0, 0.9, 0.98, 1.4)), 1)
    1260.0
    """
    return np.asarray(belts * np.asarray(rated_power) * arc_factor * length_factor / service_factor)
