"""Pressure in a closed gear case that warms up, what a vent must carry, and water drawn in."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.gearbox.oil import EXPANSION, swelling

GAS_CONSTANT = 8.314462618
"""Molar gas constant, exact since the SI of 2019 [J/(mol·K)]."""

WATER_MOLAR_MASS = 0.018015268
"""Molar mass of water [kg/mol]."""

CRITICAL_TEMPERATURE = 647.096
"""Critical temperature of water [K]."""

CRITICAL_PRESSURE = 22.064e6
"""Critical pressure of water [Pa]."""


class ClosedCase(NamedTuple):
    """What was shut into the case when it was closed.

    Attributes
    ----------
    air_volume : array, shape (...) [m³]
        Space above the oil.
    oil_volume : array, shape (...) [m³]
    temperature : array, shape (...) [K]
        When it was closed.
    pressure : array, shape (...) [Pa]
        Absolute, when it was closed.
    humidity : array, shape (...) [1]
        Relative humidity of the air that was shut in.
    free_water : array, shape (...) [kg]
        Liquid water in the oil or at the bottom.
    expansion : array, shape (...) [1/K]
        Volume expansion coefficient of the oil.
    """

    air_volume: ArrayLike
    oil_volume: ArrayLike
    temperature: ArrayLike = 293.15
    pressure: ArrayLike = 101325.0
    humidity: ArrayLike = 0.5
    free_water: ArrayLike = 0.0
    expansion: ArrayLike = EXPANSION


def saturation_pressure(temperature: ArrayLike) -> Array:
    """Answer at which pressure water boils, the most that its vapour can press.

    ln (p/pc) = Tc/T (a1 τ + a2 τ^1.5 + a3 τ³ + a4 τ^3.5 + a5 τ⁴ + a6 τ^7.5), τ = 1 − T/Tc.

    Parameters
    ----------
    temperature : array, shape (...) [K]

    Returns
    -------
    pressure : array, shape (...) [Pa]

    Range of validity: 273.16 to 647.096 K, within 0.1 %; used a little below freezing for want of
    ice tables, where the vapour's share is too small to matter.
    Source: IAPWS SR1-86(1992), Revised Supplementary Release on Saturation Properties of Ordinary
    Water Substance, equation 1; Wagner and Pruss, J. Phys. Chem. Ref. Data 22 (1993), 783.

    Examples
    --------
    >>> round(float(saturation_pressure(373.15)))
    101418
    """
    kelvin = np.asarray(temperature, dtype=np.float64)
    tau = np.maximum(1.0 - kelvin / CRITICAL_TEMPERATURE, 0.0)
    root = np.sqrt(tau)
    terms = (
        -7.85951783 * tau
        + 1.84408259 * tau * root
        - 11.7866497 * tau**3
        + 22.6807411 * tau**3 * root
        - 15.9618719 * tau**4
        + 1.80122502 * tau**7 * root
    )
    return np.asarray(CRITICAL_PRESSURE * np.exp(CRITICAL_TEMPERATURE / kelvin * terms))


def air_space(case: ClosedCase, temperature: ArrayLike) -> Array:
    """Answer how much space the swollen oil leaves to the air.

    V = V0 − Voil (V/V0 oil − 1).

    Parameters
    ----------
    case : ClosedCase, shape (...) [m³]
    temperature : array, shape (...) [K]

    Returns
    -------
    volume : array, shape (...) [m³]
        Not a number where the oil fills the whole case: it would burst or push a seal out.

    Range of validity: rigid case; its own swelling (under 0.5 %) is left out, on the safe side.
    Source: volume balance.

    Examples
    --------
    >>> case = ClosedCase(air_volume=0.0005, oil_volume=0.0015)
    >>> round(float(air_space(case, 353.15)) * 1e3, 4)
    0.437
    """
    growth = swelling(case.temperature, temperature, case.expansion) - 1.0
    volume = np.asarray(np.asarray(case.air_volume) - np.asarray(case.oil_volume) * growth)
    return np.where(volume > 0.0, volume, np.nan)


def closed_pressure(case: ClosedCase, temperature: ArrayLike) -> Array:
    """Answer how hard a case without a vent is pressed from inside once it is warm.

    p = (p0 − φ ps(T0)) (T/T0) (V0/V) + min(ps(T), n R T / V), n all the water in the case.

    Parameters
    ----------
    case : ClosedCase, shape (...) [m³]
    temperature : array, shape (...) [K]
        Of oil and air in the case; lower than at closing gives the vacuum of a cooled case.

    Returns
    -------
    pressure : array, shape (...) [Pa]
        Absolute. Take the outside pressure off for what a gauge or a seal feels.

    Range of validity: −20 to 150 °C; no leak, no gas dissolved in the oil.
    Source: ideal gas law, Dalton's law; water vapour by IAPWS SR1-86(1992).

    Examples
    --------
    >>> dry = ClosedCase(air_volume=0.001, oil_volume=0.0, humidity=0.0)
    >>> round(float(closed_pressure(dry, 363.15)) - 101325.0)
    24195
    """
    hot = np.asarray(temperature, dtype=np.float64)
    volume = air_space(case, hot)
    vapour = np.asarray(case.humidity) * saturation_pressure(case.temperature)
    squeeze = hot / case.temperature * case.air_volume / volume
    water = np.asarray(case.free_water) * GAS_CONSTANT * hot / WATER_MOLAR_MASS / volume
    steam = np.minimum(saturation_pressure(hot), vapour * squeeze + water)
    return np.asarray((case.pressure - vapour) * squeeze + steam)


def cooled_pressure(
    case: ClosedCase, hot_temperature: ArrayLike, cold_temperature: ArrayLike
) -> Array:
    """Answer how low a case is sucked that was closed, or whose vent stuck, while hot.

    p = (p0 − φ ps(T0)) s + min(ps(T cold), φ ps(T0) s), s = (T cold/T hot) (V hot/V cold).

    Parameters
    ----------
    case : ClosedCase, shape (...) [m³]
        Volumes as filled cold, at the case's own temperature; its pressure is that outside.
    hot_temperature : array, shape (...) [K]
        When it let its pressure off.
    cold_temperature : array, shape (...) [K]
        After a night.

    Returns
    -------
    pressure : array, shape (...) [Pa]
        Absolute; under the outside pressure, so that water can be drawn in past a wet lip.

    Range of validity: as ``closed_pressure``; no free water in the case.
    Source: ideal gas law, Dalton's law.

    Examples
    --------
    >>> case = ClosedCase(air_volume=0.001, oil_volume=0.0, humidity=0.0)
    >>> round(float(cooled_pressure(case, 363.15, 293.15)))
    81794
    """
    vapour = np.asarray(case.humidity) * saturation_pressure(case.temperature)
    hot = np.asarray(hot_temperature, dtype=np.float64)
    cold = np.asarray(cold_temperature, dtype=np.float64)
    volume_ratio = air_space(case, hot) / air_space(case, cold)
    squeeze = cold / hot * volume_ratio
    # letting pressure off takes air and vapour in the proportion in which they were shut in
    steam = np.minimum(saturation_pressure(cold), vapour * squeeze)
    return np.asarray((case.pressure - vapour) * squeeze + steam)


def water_drawn_in(
    case: ClosedCase,
    hot_temperature: ArrayLike,
    cold_temperature: ArrayLike,
    humidity: ArrayLike = 1.0,
) -> Array:
    """Answer how much water a vented case breathes in as vapour each time that it cools.

    m = φ ps(T) / (Rw T) · (V cold − V hot T cold / T hot), R over the molar mass of water.

    Parameters
    ----------
    case : ClosedCase, shape (...) [m³]
    hot_temperature : array, shape (...) [K]
    cold_temperature : array, shape (...) [K]
    humidity : array, shape (...) [1]
        Relative humidity of the outside air.

    Returns
    -------
    mass : array, shape (...) [kg]

    Range of validity: an open vent above water; a vent under water sucks liquid instead.
    Source: ideal gas law.

    Examples
    --------
    >>> case = ClosedCase(air_volume=0.001, oil_volume=0.0)
    >>> round(float(water_drawn_in(case, 363.15, 293.15)) * 1e6, 2)
    3.33
    """
    cold = np.asarray(cold_temperature, dtype=np.float64)
    hot = np.asarray(hot_temperature, dtype=np.float64)
    drawn = air_space(case, cold) - air_space(case, hot) * cold / hot
    vapour = np.asarray(humidity) * saturation_pressure(cold)
    return np.asarray(vapour * WATER_MOLAR_MASS / (GAS_CONSTANT * cold) * drawn)


def vent_flow(case: ClosedCase, temperature: ArrayLike, warming_rate: ArrayLike) -> Array:
    """Answer how fast a warming case must breathe out for its pressure to stay.

    Q = (V/T + β Voil) dT/dt.

    Parameters
    ----------
    case : ClosedCase, shape (...) [m³]
    temperature : array, shape (...) [K]
    warming_rate : array, shape (...) [K/s]

    Returns
    -------
    flow : array, shape (...) [m³/s]

    Range of validity: no free water; boiling water asks for far more, so change such oil.
    Source: ideal gas law, volume balance.

    Examples
    --------
    >>> case = ClosedCase(air_volume=0.0005, oil_volume=0.0015)
    >>> round(float(vent_flow(case, 333.15, 0.05)) * 1e9)
    121
    """
    air = air_space(case, temperature) / np.asarray(temperature)
    oil = np.asarray(case.expansion) * np.asarray(case.oil_volume)
    return np.asarray((air + oil) * np.asarray(warming_rate))


def vent_pressure(
    flow: ArrayLike,
    bore: ArrayLike,
    length: ArrayLike,
    air_viscosity: ArrayLike = 1.9e-5,
    air_density: ArrayLike = 1.1,
) -> Array:
    """Answer what pressure is left in a case that breathes through a hose.

    Δp = 128 μ L Q / (π d⁴) + 1.5 · ½ ρ v², the second term for going in and out.

    Parameters
    ----------
    flow : array, shape (...) [m³/s]
    bore : array, shape (...) [m]
    length : array, shape (...) [m]
    air_viscosity : array, shape (...) [Pa·s]
    air_density : array, shape (...) [kg/m³]

    Returns
    -------
    pressure : array, shape (...) [Pa]

    Range of validity: laminar flow, 4 ρ Q / (π d μ) up to 2300; a clean open hose. A
    filter, mud or oil standing in a low loop adds to it.
    Source: Hagen–Poiseuille; White, Fluid Mechanics, section 6.4 and its minor losses.

    Examples
    --------
    >>> round(float(vent_pressure(1e-6, 0.004, 0.5)), 2)
    1.52
    """
    diameter = np.asarray(bore, dtype=np.float64)
    volume_flow = np.asarray(flow, dtype=np.float64)
    rubbing = 128.0 * np.asarray(air_viscosity) * length * volume_flow / (np.pi * diameter**4)
    speed = 4.0 * volume_flow / (np.pi * diameter**2)
    return np.asarray(rubbing + 1.5 * 0.5 * np.asarray(air_density) * speed**2)


def vent_bore(
    flow: ArrayLike,
    length: ArrayLike,
    allowed_pressure: ArrayLike,
    air_viscosity: ArrayLike = 1.9e-5,
) -> Array:
    """Answer how wide a vent hose must be inside.

    d = (128 μ L Q / (π Δp))^¼.

    Parameters
    ----------
    flow : array, shape (...) [m³/s]
    length : array, shape (...) [m]
    allowed_pressure : array, shape (...) [Pa]
    air_viscosity : array, shape (...) [Pa·s]

    Returns
    -------
    bore : array, shape (...) [m]
        The least that breathes; take 4 mm or more all the same, so that dirt and oil do not close
        it (common practice).

    Range of validity: laminar flow, long hose (entry loss left out).
    Source: Hagen–Poiseuille.

    Examples
    --------
    >>> round(float(vent_bore(1e-6, 0.5, 1000.0)) * 1e3, 2)
    0.79
    """
    need = 128.0 * np.asarray(air_viscosity) * np.asarray(length, dtype=np.float64) * flow
    return np.asarray((need / (np.pi * np.asarray(allowed_pressure))) ** 0.25)
