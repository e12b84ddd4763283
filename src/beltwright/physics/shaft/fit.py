"""How a pulley holds on its shaft: key, set screw, gap in the bore, bush and hub."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def torque_of_power(power: ArrayLike, speed: ArrayLike) -> Array:
    """Answer which torque a shaft carries at a power and speed.

    T = P / ω.

    Parameters
    ----------
    power : array, shape (...) [W]
    speed : array, shape (...) [rad/s]

    Returns
    -------
    torque : array, shape (...) [N·m]

    Range of validity: exact; speed other than zero.
    Source: mechanics.

    Examples
    --------
    >>> float(torque_of_power(3000.0, 300.0))
    10.0
    """
    return np.asarray(np.asarray(power, dtype=np.float64) / speed)


def key_torque(
    yield_strength: ArrayLike,
    shaft_diameter: ArrayLike,
    key_width: ArrayLike,
    key_height: ArrayLike,
    key_length: ArrayLike,
) -> Array:
    """Answer at which torque a key yields, in shear or on its side, whichever comes first.

    T = d L min(0.577 Sy w / 2, Sy h / 4).

    Parameters
    ----------
    yield_strength : array, shape (...) [Pa]
        Of the softest among key, shaft and hub.
    shaft_diameter : array, shape (...) [m]
    key_width : array, shape (...) [m]
    key_height : array, shape (...) [m]
    key_length : array, shape (...) [m]

    Returns
    -------
    torque : array, shape (...) [N·m]

    Range of validity: steady torque; divide by 1.5 or more for shocks.
    Source: Shigley, Mechanical Engineering Design, 8th edition, section 7-7 and example 7-6.

    Examples
    --------
    >>> round(float(key_torque(450e6, 0.025, 0.00635, 0.00635, 0.03)), 1)
    535.8
    """
    strength = np.asarray(yield_strength, dtype=np.float64)
    shear = strength / np.sqrt(3.0) * np.asarray(key_width) / 2.0
    side = strength * np.asarray(key_height) / 4.0
    lever = np.asarray(shaft_diameter) * np.asarray(key_length)
    return np.asarray(lever * np.minimum(shear, side))


def set_screw_torque(
    holding_force: ArrayLike, shaft_diameter: ArrayLike, screws: ArrayLike = 1.0
) -> Array:
    """Answer which torque set screws hold before the hub slips on the shaft.

    T = n F d / 2.

    Parameters
    ----------
    holding_force : array, shape (...) [N]
        Of one screw at its full seating torque, from a table by size.
    shaft_diameter : array, shape (...) [m]
    screws : array, shape (...) [1]

    Returns
    -------
    torque : array, shape (...) [N·m]

    Range of validity: cup points on a softer, clean shaft; safety factor 1.5 to 2 for steady and 4
    to 8 for shock loads.
    Source: Shigley, Mechanical Engineering Design, 8th edition, section 7-7 and table 7-4.

    Examples
    --------
    >>> round(float(set_screw_torque(4448.2, 0.025)), 1)
    55.6
    """
    arm = 0.5 * np.asarray(shaft_diameter, dtype=np.float64)
    return np.asarray(np.asarray(screws) * np.asarray(holding_force) * arm)


def fit_gap(bore: ArrayLike, shaft_diameter: ArrayLike) -> Array:
    """Answer how loose a pulley sits on its shaft.

    gap = bore − shaft; less than nothing is a press fit.

    Parameters
    ----------
    bore : array, shape (...) [m]
    shaft_diameter : array, shape (...) [m]

    Returns
    -------
    gap : array, shape (...) [m]

    Range of validity: exact.
    Source: ISO 286-1 (clearance and interference).

    Examples
    --------
    >>> round(float(fit_gap(0.02545, 0.0254)) * 1e6)
    50
    """
    return np.asarray(np.asarray(bore, dtype=np.float64) - shaft_diameter)


def rim_wobble(gap: ArrayLike, hub_length: ArrayLike, outside_diameter: ArrayLike) -> Array:
    """Answer how far the rim of a loose pulley can wobble sideways, side to side.

    w = gap / hub length · outside diameter.

    Parameters
    ----------
    gap : array, shape (...) [m]
    hub_length : array, shape (...) [m]
    outside_diameter : array, shape (...) [m]

    Returns
    -------
    wobble : array, shape (...) [m]

    Range of validity: the hub tilts until it touches at both ends; no clamp bolt on its face.
    Source: geometry.

    Examples
    --------
    >>> round(float(rim_wobble(50e-6, 0.025, 0.15)) * 1e3, 2)
    0.3
    """
    tilt = np.maximum(np.asarray(gap, dtype=np.float64), 0.0) / np.asarray(hub_length)
    return np.asarray(tilt * outside_diameter)


def bush_wall(outside_diameter: ArrayLike, bore: ArrayLike) -> Array:
    """Answer how thick the wall of a bush or hub is once it is bored or reamed out.

    t = (D − d) / 2.

    Parameters
    ----------
    outside_diameter : array, shape (...) [m]
    bore : array, shape (...) [m]
        After reaming.

    Returns
    -------
    wall : array, shape (...) [m]

    Range of validity: bore in the middle; take off how far it runs out.
    Source: geometry. Steel bushes with 1.5 mm, hubs with a keyway a quarter of the bore above the
    keyway (common practice, no source).

    Examples
    --------
    >>> round(float(bush_wall(0.0254, 0.01905)) * 1e3, 3)
    3.175
    """
    return np.asarray(0.5 * (np.asarray(outside_diameter, dtype=np.float64) - bore))
