"""How fast a gear case gives its heat to the air, standing still and moving."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gravity import STANDARD_GRAVITY

STEFAN_BOLTZMANN = 5.670374419e-8
"""Stefan–Boltzmann constant, CODATA 2018 [W/(m²·K⁴)]."""

AIR_CONSTANT = 287.05
"""Gas constant of dry air [J/(kg·K)]."""

AIR_HEAT_CAPACITY = 1006.0
"""Heat capacity of air near room temperature [J/(kg·K)]."""


class Air(NamedTuple):
    """What cooling asks of air at one temperature and pressure.

    Attributes
    ----------
    conductivity : array, shape (...) [W/(m·K)]
    kinematic_viscosity : array, shape (...) [m²/s]
    prandtl : array, shape (...) [1]
    """

    conductivity: Array
    kinematic_viscosity: Array
    prandtl: Array


class Case(NamedTuple):
    """The outside of a gear case, as cooling sees it.

    Attributes
    ----------
    area : array, shape (...) [m²]
        Outside surface that air can reach.
    height : array, shape (...) [m]
        Height of its side walls.
    width : array, shape (...) [m]
        Its size across the stream of air.
    emissivity : array, shape (...) [1]
        0.9 painted or dirty, 0.2 to 0.3 bare cast aluminium, 0.05 to 0.1 polished.
    """

    area: ArrayLike
    height: ArrayLike
    width: ArrayLike
    emissivity: ArrayLike = 0.9


def air(temperature: ArrayLike, pressure: ArrayLike = 101325.0) -> Air:
    """Answer how air conducts, flows and stores heat.

    μ = 1.458e-6 T^1.5 / (T + 110.4) (Sutherland);
    k = 2.64638e-3 T^1.5 / (T + 245.4 · 10^(−12/T)); ρ = p / (R T).

    Parameters
    ----------
    temperature : array, shape (...) [K]
        Mean of wall and air, the film temperature.
    pressure : array, shape (...) [Pa]

    Returns
    -------
    air : Air, shape (...) [1]

    Range of validity: dry air, 200 to 500 K, within 1 %.
    Source: U.S. Standard Atmosphere 1976, equations 51 (viscosity) and 53 (conductivity).

    Examples
    --------
    >>> round(float(air(300.0).prandtl), 3)
    0.707
    """
    kelvin = np.asarray(temperature, dtype=np.float64)
    viscosity = 1.458e-6 * kelvin**1.5 / (kelvin + 110.4)
    conductivity = 2.64638e-3 * kelvin**1.5 / (kelvin + 245.4 * 10.0 ** (-12.0 / kelvin))
    density = np.asarray(pressure) / (AIR_CONSTANT * kelvin)
    return Air(
        conductivity=conductivity,
        kinematic_viscosity=viscosity / density,
        prandtl=viscosity * AIR_HEAT_CAPACITY / conductivity,
    )


def natural_convection(
    wall_temperature: ArrayLike, air_temperature: ArrayLike, height: ArrayLike
) -> Array:
    """Answer how well still air cools an upright wall.

    Nu = (0.825 + 0.387 Ra^(1/6) / (1 + (0.492/Pr)^(9/16))^(8/27))², h = Nu k / H.

    Parameters
    ----------
    wall_temperature : array, shape (...) [K]
    air_temperature : array, shape (...) [K]
    height : array, shape (...) [m]

    Returns
    -------
    coefficient : array, shape (...) [W/(m²·K)]

    Range of validity: upright plates, Ra up to 1e12; a rounded case lies within about 20 %.
    Source: Churchill and Chu, International Journal of Heat and Mass Transfer 18 (1975), 1323;
    Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, equation 9.26.

    Examples
    --------
    >>> round(float(natural_convection(353.15, 293.15, 0.2)), 2)
    6.1
    """
    wall = np.asarray(wall_temperature, dtype=np.float64)
    film = 0.5 * (wall + air_temperature)
    gas = air(film)
    lift = STANDARD_GRAVITY * np.abs(wall - air_temperature) / film * np.asarray(height) ** 3
    rayleigh = lift / gas.kinematic_viscosity**2 * gas.prandtl
    shape = (1.0 + (0.492 / gas.prandtl) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    nusselt = (0.825 + 0.387 * rayleigh ** (1.0 / 6.0) / shape) ** 2
    return np.asarray(nusselt * gas.conductivity / height)


def forced_convection(
    wall_temperature: ArrayLike, air_temperature: ArrayLike, air_speed: ArrayLike, width: ArrayLike
) -> Array:
    """Answer how well a stream of air cools a rounded body across it.

    Nu = 0.3 + 0.62 Re^½ Pr^⅓ / (1 + (0.4/Pr)^⅔)^¼ · (1 + (Re/282000)^⅝)^⅘, h = Nu k / D.

    Parameters
    ----------
    wall_temperature : array, shape (...) [K]
    air_temperature : array, shape (...) [K]
    air_speed : array, shape (...) [m/s]
        At the case, not of the machine; see ``conductance``.
    width : array, shape (...) [m]
        Size of the body across the stream.

    Returns
    -------
    coefficient : array, shape (...) [W/(m²·K)]

    Range of validity: cylinders across the stream, Re Pr > 0.2; a boxy case lies within 25 %.
    Source: Churchill and Bernstein, Journal of Heat Transfer 99 (1977), 300; Incropera and DeWitt,
    Fundamentals of Heat and Mass Transfer, equation 7.54.

    Examples
    --------
    >>> round(float(forced_convection(353.15, 293.15, 3.0, 0.2)), 1)
    15.0
    """
    gas = air(0.5 * (np.asarray(wall_temperature, dtype=np.float64) + air_temperature))
    reynolds = np.asarray(air_speed, dtype=np.float64) * width / gas.kinematic_viscosity
    shape = (1.0 + (0.4 / gas.prandtl) ** (2.0 / 3.0)) ** 0.25
    front = 0.62 * np.sqrt(reynolds) * np.cbrt(gas.prandtl) / shape
    nusselt = 0.3 + front * (1.0 + (reynolds / 282000.0) ** 0.625) ** 0.8
    return np.asarray(nusselt * gas.conductivity / width)


def radiation(
    wall_temperature: ArrayLike, surroundings_temperature: ArrayLike, emissivity: ArrayLike = 0.9
) -> Array:
    """Answer how well a wall cools by radiating to its surroundings.

    h = ε σ (T1² + T2²) (T1 + T2).

    Parameters
    ----------
    wall_temperature : array, shape (...) [K]
    surroundings_temperature : array, shape (...) [K]
    emissivity : array, shape (...) [1]

    Returns
    -------
    coefficient : array, shape (...) [W/(m²·K)]

    Range of validity: a small grey body amid large surroundings.
    Source: Stefan–Boltzmann law.

    Examples
    --------
    >>> round(float(radiation(353.15, 293.15)), 3)
    6.948
    """
    wall = np.asarray(wall_temperature, dtype=np.float64)
    around = np.asarray(surroundings_temperature, dtype=np.float64)
    exchange = (wall**2 + around**2) * (wall + around)
    return np.asarray(np.asarray(emissivity) * STEFAN_BOLTZMANN * exchange)


def conductance(
    case: Case,
    wall_temperature: ArrayLike,
    air_temperature: ArrayLike,
    ground_speed: ArrayLike = 0.0,
    reached_share: ArrayLike = 0.5,
) -> Array:
    """Answer how many watts the case gives off for each kelvin above the air.

    G = A ((hn³ + hf³)^⅓ + hr): natural and forced convection blended, radiation added.

    Parameters
    ----------
    case : Case, shape (...) [m]
    wall_temperature : array, shape (...) [K]
    air_temperature : array, shape (...) [K]
    ground_speed : array, shape (...) [m/s]
    reached_share : array, shape (...) [1]
        Air speed at the case over ground speed: 0.2 to 0.8 under a machine (assumed).

    Returns
    -------
    conductance : array, shape (...) [W/K]

    Range of validity: a case that hangs free; mud and guards can halve it.
    Source: blending after Churchill, A.I.Ch.E. Journal 23 (1977), 10, with exponent 3.

    Examples
    --------
    >>> case = Case(area=0.18, height=0.2, width=0.2)
    >>> round(float(conductance(case, 353.15, 293.15)), 2)
    2.35
    """
    still = natural_convection(wall_temperature, air_temperature, case.height)
    speed = np.abs(np.asarray(ground_speed, dtype=np.float64)) * reached_share
    moving = forced_convection(wall_temperature, air_temperature, speed, case.width)
    glow = radiation(wall_temperature, air_temperature, case.emissivity)
    return np.asarray(np.asarray(case.area) * (np.cbrt(still**3 + moving**3) + glow))
