"""A pulley that hangs past the last bearing: fatigue, yield, lean and bearing life."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


class Overhang(NamedTuple):
    """A shaft in two bearings with a load past one of them.

    Attributes
    ----------
    diameter : array, shape (...) [m]
    bearing_span : array, shape (...) [m]
        Between the middles of the two bearings.
    overhang : array, shape (...) [m]
        From the middle of the nearer bearing to the middle of the groove.
    """

    diameter: ArrayLike
    bearing_span: ArrayLike
    overhang: ArrayLike


def bearing_moment(load: ArrayLike, overhang: ArrayLike) -> Array:
    """Answer how hard the load bends the shaft at its first bearing.

    M = F c.

    Parameters
    ----------
    load : array, shape (...) [N]
        Shaft load of the belt.
    overhang : array, shape (...) [m]

    Returns
    -------
    moment : array, shape (...) [N·m]

    Range of validity: exact statics. Against the donor's own moment it shows what has changed.
    Source: statics.

    Examples
    --------
    >>> float(bearing_moment(600.0, 0.05))
    30.0
    """
    return np.asarray(np.asarray(load, dtype=np.float64) * overhang)


def lean(shaft: Overhang, load: ArrayLike, stiffness: ArrayLike = 205e9) -> Array:
    """Answer how far a pulley leans over as its load bends the shaft.

    φ = F c (2 a + 3 c) / (6 E I).

    Parameters
    ----------
    shaft : Overhang, shape (...) [m]
    load : array, shape (...) [N]
    stiffness : array, shape (...) [Pa]
        Modulus of elasticity, 205 GPa for steel.

    Returns
    -------
    lean : array, shape (...) [rad]

    Range of validity: slender shaft of one diameter, small deflection; stiff bearings.
    Source: Shigley, Mechanical Engineering Design, 8th edition, table A-9, case 10 (simple
    supports, overhanging load).

    Examples
    --------
    >>> round(float(np.degrees(lean(Overhang(0.02, 0.08, 0.04), 600.0))), 4)
    0.0399
    """
    near, far = np.asarray(shaft.overhang, dtype=np.float64), np.asarray(shaft.bearing_span)
    inertia = np.pi / 64.0 * np.asarray(shaft.diameter, dtype=np.float64) ** 4
    turn = np.asarray(load) * near / (np.asarray(stiffness) * inertia)
    return np.asarray(turn * (2.0 * far + 3.0 * near) / 6.0)


def endurance_limit(tensile_strength: ArrayLike, diameter: ArrayLike) -> Array:
    """Answer which stress a turning steel shaft stands for ever.

    Se = ka kb · 0.5 Sut, ka = 4.51 Sut^−0.265 (MPa, machined), kb = 1.24 d^−0.107 (mm).

    Parameters
    ----------
    tensile_strength : array, shape (...) [Pa]
    diameter : array, shape (...) [m]

    Returns
    -------
    limit : array, shape (...) [Pa]

    Range of validity: steel up to 1400 MPa, machined or cold drawn, 2.79 to 51 mm.
    Source: Shigley, Mechanical Engineering Design, 8th edition, equations 6-8, 6-19, 6-20.

    Examples
    --------
    >>> round(float(endurance_limit(440e6, 0.02)) * 1e-6, 1)
    177.9
    """
    strength = np.asarray(tensile_strength, dtype=np.float64)
    surface = np.minimum(4.51 * (strength * 1e-6) ** -0.265, 1.0)
    size = 1.24 * (np.asarray(diameter, dtype=np.float64) * 1e3) ** -0.107
    return np.asarray(0.5 * surface * size * strength)


def fatigue_factor(
    diameter: ArrayLike,
    moment: ArrayLike,
    torque: ArrayLike,
    endurance: ArrayLike,
    tensile_strength: ArrayLike,
    bending_notch: ArrayLike = 2.0,
    twisting_notch: ArrayLike = 1.8,
) -> Array:
    """Answer how many times over a turning shaft stands its steady belt pull and torque.

    1/n = 16/(π d³) (2 Kf M / Se + √3 Kfs T / Sut).

    Parameters
    ----------
    diameter : array, shape (...) [m]
    moment : array, shape (...) [N·m]
        Bending that the turning shaft feels as it reverses each turn.
    torque : array, shape (...) [N·m]
        Steady.
    endurance : array, shape (...) [Pa]
    tensile_strength : array, shape (...) [Pa]
    bending_notch : array, shape (...) [1]
        Kf: about 2.1 at an end-milled keyway, 1.7 at a shoulder, 5 in a circlip groove.
    twisting_notch : array, shape (...) [1]
        Kfs: 3.0 at a keyway, 1.5 at a shoulder, 3 in a circlip groove.

    Returns
    -------
    factor : array, shape (...) [1]
        1.5 or more is usual where loads are well known.

    Range of validity: ductile steel, infinite life.
    Source: Shigley, Mechanical Engineering Design, 8th edition, equation 7-8 (distortion energy,
    Goodman) and table 7-1 (notches).

    Examples
    --------
    >>> round(float(fatigue_factor(0.02, 30.0, 20.0, 178e6, 440e6)), 2)
    1.93
    """
    bending = 2.0 * np.asarray(bending_notch) * np.asarray(moment) / np.asarray(endurance)
    twisting = np.sqrt(3.0) * np.asarray(twisting_notch) * torque / np.asarray(tensile_strength)
    cube = np.pi * np.asarray(diameter, dtype=np.float64) ** 3
    return np.asarray(cube / (16.0 * (bending + twisting)))


def yield_factor(
    diameter: ArrayLike, moment: ArrayLike, torque: ArrayLike, yield_strength: ArrayLike
) -> Array:
    """Answer how many times over a shaft stands one hard load before it stays bent or twisted.

    n = Sy / σ', σ' = √(σ² + 3 τ²) = 16/(π d³) √(4 M² + 3 T²).

    Parameters
    ----------
    diameter : array, shape (...) [m]
    moment : array, shape (...) [N·m]
    torque : array, shape (...) [N·m]
        Both as the hardest single load makes them.
    yield_strength : array, shape (...) [Pa]

    Returns
    -------
    factor : array, shape (...) [1]

    Range of validity: round solid shaft of ductile steel, which gives way a little at a notch and
    bears on; the book multiplies M and T by the notch factors where that is not to happen.
    Source: Shigley, Mechanical Engineering Design, 8th edition, section 7-4, equations 7-15 and
    7-16 (distortion energy).

    Examples
    --------
    >>> round(float(yield_factor(0.02, 30.0, 20.0, 300e6)), 2)
    6.8
    """
    cube = np.pi * np.asarray(diameter, dtype=np.float64) ** 3
    strain = np.sqrt(4.0 * np.square(moment) + 3.0 * np.square(torque))
    return np.asarray(cube * yield_strength / (16.0 * strain))


def bearing_life_ratio(
    load_ratio: ArrayLike, speed_ratio: ArrayLike, exponent: ArrayLike = 3.0
) -> Array:
    """Answer what is left of a bearing's hours once its load and speed have changed.

    L/L0 = (P0/P)^p · n0/n.

    Parameters
    ----------
    load_ratio : array, shape (...) [1]
        New load over the donor's.
    speed_ratio : array, shape (...) [1]
        New speed over the donor's.
    exponent : array, shape (...) [1]

    Returns
    -------
    ratio : array, shape (...) [1]

    Range of validity: a bearing that is clean, greased and held straight in both machines.
    Source: ISO 281, basic rating life.

    Examples
    --------
    >>> float(bearing_life_ratio(2.0, 1.25))
    0.1
    """
    load = np.asarray(load_ratio, dtype=np.float64) ** np.asarray(exponent)
    return np.asarray(1.0 / (load * np.asarray(speed_ratio)))
