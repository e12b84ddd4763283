"""Gear oil: how thin it gets when hot, how much it swells and how much heat it takes up."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike

CENTISTOKES = 1e-6
"""One centistoke (mm²/s) in m²/s."""

ZERO_CELSIUS = 273.15
"""0 °C in kelvin."""

WALTHER_OFFSET = 0.7
"""Constant of ASTM D341 added to the viscosity in cSt, good above 2 cSt [1]."""

EXPANSION = 7.0e-4
"""Usual volume expansion of mineral oil [1/K]; 6.4e-4 to 8e-4 in handbooks (from memory)."""


class WaltherLine(NamedTuple):
    """The straight line that an oil makes on the viscosity–temperature chart of ASTM D341.

    Attributes
    ----------
    a : array, shape (...) [1]
        Height of the line, log10 log10 (ν/cSt + 0.7) at log10 (T/K) = 0.
    b : array, shape (...) [1]
        Fall of the line for each unit of log10 (T/K).
    """

    a: Array
    b: Array


def walther_line(
    cooler_viscosity: ArrayLike,
    cooler_temperature: ArrayLike,
    hotter_viscosity: ArrayLike,
    hotter_temperature: ArrayLike,
) -> WaltherLine:
    """Answer which viscosity–temperature line runs through two measured points.

    log10 log10 (ν + 0.7) = A − B log10 T, with ν in cSt and T in kelvin.

    Parameters
    ----------
    cooler_viscosity : array, shape (...) [m²/s]
        Kinematic viscosity at the cooler point, usually that at 40 °C.
    cooler_temperature : array, shape (...) [K]
    hotter_viscosity : array, shape (...) [m²/s]
        Kinematic viscosity at the hotter point, usually that at 100 °C.
    hotter_temperature : array, shape (...) [K]

    Returns
    -------
    line : WaltherLine, shape (...) [1]

    Raises
    ------
    ValueError
        If an oil gets thicker with heat, or is thinner than the chart covers (2 cSt).

    Range of validity: mineral and most synthetic oils, 2 to 2e7 cSt, above the cloud point.
    Source: ASTM D341, annex A1 (the shortened form for 2 cSt and more).

    Examples
    --------
    >>> line = walther_line(150e-6, 313.15, 14.5e-6, 373.15)
    >>> round(float(line.b), 4)
    3.4877
    """
    cooler, hotter = np.asarray(cooler_viscosity), np.asarray(hotter_viscosity)
    if np.any(hotter >= cooler) or np.any(hotter < 2.0 * CENTISTOKES):
        raise ValueError("the oil must be thinner when hot, and no thinner than 2 cSt")
    cooler_log = np.log10(np.asarray(cooler_temperature, dtype=np.float64))
    hotter_log = np.log10(np.asarray(hotter_temperature, dtype=np.float64))
    cooler_height = _chart_height(cooler)
    slope = (cooler_height - _chart_height(hotter)) / (hotter_log - cooler_log)
    return WaltherLine(a=cooler_height + slope * cooler_log, b=slope)


def kinematic_viscosity(line: WaltherLine, temperature: ArrayLike) -> Array:
    """Answer how thick the oil is at a temperature.

    ν = 10^10^(A − B log10 T) − 0.7 cSt.

    Parameters
    ----------
    line : WaltherLine, shape (...) [1]
    temperature : array, shape (...) [K]

    Returns
    -------
    viscosity : array, shape (...) [m²/s]

    Range of validity: 2 to 2e7 cSt; far below 0 °C wax makes a mineral oil thicker than this.
    Source: ASTM D341, annex A1.

    Examples
    --------
    >>> line = walther_line(150e-6, 313.15, 14.5e-6, 373.15)
    >>> round(float(kinematic_viscosity(line, 343.15)) * 1e6, 2)
    37.59
    """
    height = line.a - line.b * np.log10(np.asarray(temperature, dtype=np.float64))
    return np.asarray((10.0 ** (10.0**height) - WALTHER_OFFSET) * CENTISTOKES)


def density(
    density_at_15: ArrayLike, temperature: ArrayLike, expansion: ArrayLike = EXPANSION
) -> Array:
    """Answer how dense the oil is when warm.

    ρ = ρ15 / (1 + β (T − 288.15 K)).

    Parameters
    ----------
    density_at_15 : array, shape (...) [kg/m³]
        Density at 15 °C, as data sheets print it.
    temperature : array, shape (...) [K]
    expansion : array, shape (...) [1/K]
        Volume expansion coefficient.

    Returns
    -------
    density : array, shape (...) [kg/m³]

    Range of validity: −20 to 150 °C, constant expansion coefficient.
    Source: definition of the mean volume expansion coefficient; the 15 °C reference is that of
    ISO 12185 and ASTM D1250.

    Examples
    --------
    >>> round(float(density(890.0, 373.15)), 1)
    840.0
    """
    return np.asarray(density_at_15 / swelling(288.15, temperature, expansion))


def swelling(
    start_temperature: ArrayLike, temperature: ArrayLike, expansion: ArrayLike = EXPANSION
) -> Array:
    """Answer how many times its first volume the oil fills once warm.

    V / V0 = 1 + β (T − T0).

    Parameters
    ----------
    start_temperature : array, shape (...) [K]
    temperature : array, shape (...) [K]
    expansion : array, shape (...) [1/K]
        Volume expansion coefficient.

    Returns
    -------
    ratio : array, shape (...) [1]

    Range of validity: −20 to 150 °C, constant expansion coefficient.
    Source: definition of the mean volume expansion coefficient.

    Examples
    --------
    >>> round(float(swelling(293.15, 353.15)), 3)
    1.042
    """
    rise = np.asarray(temperature, dtype=np.float64) - start_temperature
    return np.asarray(1.0 + np.asarray(expansion) * rise)


def heat_capacity(density_at_15: ArrayLike, temperature: ArrayLike) -> Array:
    """Answer how much heat a kilogram of mineral oil takes up for each kelvin.

    c = (1685 + 3.39 t) / √s, with t in °C and s the relative density at 15.6 °C.

    Parameters
    ----------
    density_at_15 : array, shape (...) [kg/m³]
    temperature : array, shape (...) [K]

    Returns
    -------
    heat_capacity : array, shape (...) [J/(kg·K)]

    Range of validity: petroleum oils, relative density 0.75 to 0.96, 0 to 200 °C, within 4 %.
    Source: Cragoe, Thermal Properties of Petroleum Products, Miscellaneous Publication 97,
    National Bureau of Standards, 1929 (from memory, high confidence).

    Examples
    --------
    >>> round(float(heat_capacity(890.0, 353.15)))
    2073
    """
    celsius = np.asarray(temperature, dtype=np.float64) - ZERO_CELSIUS
    relative_density = np.asarray(density_at_15, dtype=np.float64) / 999.0
    return np.asarray((1685.0 + 3.39 * celsius) / np.sqrt(relative_density))


def _chart_height(viscosity: Array) -> Array:
    return np.asarray(np.log10(np.log10(viscosity / CENTISTOKES + WALTHER_OFFSET)))
