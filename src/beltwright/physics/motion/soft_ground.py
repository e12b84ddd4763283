"""Pull and rolling drag on soil, from its hardness and the tyre: the ASABE D497 estimate."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def mobility_number(
    cone_index: ArrayLike,
    tyre_width: ArrayLike,
    tyre_diameter: ArrayLike,
    deflection: ArrayLike,
    section_height: ArrayLike,
    load: ArrayLike,
) -> Array:
    """Answer how well a tyre gets on with a soil.

    Bn = (CI b d / W) (1 + 5 δ/h) / (1 + 3 b/d)

    Parameters
    ----------
    cone_index : array, shape (...) [Pa]
        What a cone penetrometer reads in the soil.
    tyre_width : array, shape (...) [m]
    tyre_diameter : array, shape (...) [m]
    deflection : array, shape (...) [m]
        How far the load presses the tyre in.
    section_height : array, shape (...) [m]
        From rim to tread.
    load : array, shape (...) [N]
        On that tyre.

    Returns
    -------
    mobility : array, shape (...) [1]

    Range of validity: bias-ply tyres on cohesive-frictional soil, b/d 0.1 to 0.7, δ/h 0.1 to 0.3.
    Source: ASABE D497, clause 3 (Brixius 1987), from memory.

    Examples
    --------
    >>> print(f"{mobility_number(600e3, 0.2, 0.5, 0.02, 0.15, 1200.0):.1f}")
    37.9
    """
    size = cone_index * tyre_width * tyre_diameter / load
    shape = (1.0 + 5.0 * deflection / section_height) / (1.0 + 3.0 * tyre_width / tyre_diameter)
    return np.asarray(size * shape)


def gross_traction_ratio(mobility: ArrayLike, slip: ArrayLike) -> Array:
    """Answer what share of its load a driven tyre turns into thrust at a slip.

    μ_g = 0.88 (1 − e^(−0.1 Bn)) (1 − e^(−7.5 s)) + 0.04

    Parameters
    ----------
    mobility : array, shape (...) [1]
        Mobility number Bn: about 80 hard, 55 firm, 40 tilled, 20 soft or sandy soil.
    slip : array, shape (...) [1]
        Share of its turning that the tyre loses.

    Returns
    -------
    ratio : array, shape (...) [1]

    Range of validity: bias-ply tyres on soil, Bn 10 to 80, slip 0 to 0.3.
    Source: ASABE D497, clause 3 (Brixius 1987), from memory.

    Examples
    --------
    >>> print(f"{gross_traction_ratio(55.0, 0.1):.4f}")
    0.5024
    """
    hold = -np.expm1(-0.1 * np.asarray(mobility))
    return np.asarray(0.88 * hold * -np.expm1(-7.5 * np.asarray(slip)) + 0.04)


def motion_resistance_ratio(mobility: ArrayLike, slip: ArrayLike = 0.0) -> Array:
    """Answer what share of its load a tyre loses to the soil that it works.

    ρ = 1/Bn + 0.04 + 0.5 s / √Bn

    Parameters
    ----------
    mobility : array, shape (...) [1]
    slip : array, shape (...) [1]
        0 for a wheel that is not driven.

    Returns
    -------
    ratio : array, shape (...) [1]

    Range of validity: as `gross_traction_ratio`.
    Source: ASABE D497, clause 3 (Brixius 1987), from memory.

    Examples
    --------
    >>> print(f"{motion_resistance_ratio(55.0, 0.1):.4f}")
    0.0649
    """
    number = np.asarray(mobility)
    return np.asarray(1.0 / number + 0.04 + 0.5 * slip / np.sqrt(number))


def net_traction_ratio(mobility: ArrayLike, slip: ArrayLike) -> Array:
    """Answer what share of its load a driven tyre has left for pulling.

    μ = μ_g − ρ

    Parameters
    ----------
    mobility : array, shape (...) [1]
    slip : array, shape (...) [1]

    Returns
    -------
    ratio : array, shape (...) [1]

    Range of validity: as `gross_traction_ratio`.
    Source: ASABE D497, clause 3 (Brixius 1987), from memory.

    Examples
    --------
    >>> print(f"{net_traction_ratio(55.0, 0.1):.4f}")
    0.4375
    """
    gross = gross_traction_ratio(mobility, slip)
    return np.asarray(gross - motion_resistance_ratio(mobility, slip))
