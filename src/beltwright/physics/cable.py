"""A sheathed cable that pulls: what its bends leave of the pull, and how much travel it eats."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike

SMALL_FALL = 1e-7
"""Below this the series of (e^f − 1)/f is exact to the last digit."""


def cable_efficiency(friction: ArrayLike, bends: ArrayLike) -> Array:
    """Answer what share of the pull comes out of a sheathed cable.

    η = e^(−μ φ)

    Parameters
    ----------
    friction : array, shape (...) [1]
        Of wire in sheath: 0.1 lined to 0.2 dry (common practice, no source).
    bends : array, shape (...) [rad]
        All bends of the sheath added up, whatever their radius.

    Returns
    -------
    efficiency : array, shape (...) [1]

    Range of validity: clean cable, no kinks.
    Source: rope friction (Euler, Eytelwein).

    Examples
    --------
    >>> print(f"{cable_efficiency(0.15, np.pi):.3f}")
    0.624
    """
    return np.asarray(np.exp(-np.asarray(friction) * bends))


def cable_stretch(
    pull: ArrayLike,
    efficiency: ArrayLike,
    length: ArrayLike,
    stiffness: ArrayLike,
) -> Array:
    """Answer how much longer a wire gets that is pulled through bends spread along its sheath.

    The pull falls from T/η at the pulling end to T at the far one as e^(−μ φ x/l), so
    Δl = T l / (E A) × (1/η − 1) / ln(1/η).

    Parameters
    ----------
    pull : array, shape (...) [N]
        At the far end.
    efficiency : array, shape (...) [1]
        As from `cable_efficiency`; 1 for a straight wire.
    length : array, shape (...) [m]
        Of the wire.
    stiffness : array, shape (...) [N]
        E A of the wire, as from `strand_stiffness`.

    Returns
    -------
    stretch : array, shape (...) [m]

    Range of validity: elastic wire, bends spread evenly; a sheath that gives under the same pull
    adds to it.
    Source: Hooke's law and rope friction (Euler), integrated along the wire.

    Examples
    --------
    >>> print(f"{float(cable_stretch(50.0, 1.0, 1.5, 100e3)) * 1e3:.3f} mm")
    0.750 mm
    """
    fall = -np.log(np.asarray(efficiency, dtype=float))
    straight = fall < SMALL_FALL
    kept = np.where(straight, 1.0, fall)
    # (e^f − 1)/f; 1 + f/2 where the quotient would lose its digits
    mean = np.where(straight, 1.0 + fall / 2.0, np.expm1(kept) / kept)
    return np.asarray(np.asarray(pull) * length / stiffness * mean)


def strand_stiffness(wire: ArrayLike, modulus: ArrayLike, fill: ArrayLike) -> Array:
    """Answer how stiff a twisted wire is along its length.

    E A = E f π d² / 4

    Parameters
    ----------
    wire : array, shape (...) [m]
        Diameter over the strands.
    modulus : array, shape (...) [Pa]
        Of the strand, below that of its steel: the wires lie down as it is pulled.
    fill : array, shape (...) [1]
        Share of the circle that is metal.

    Returns
    -------
    stiffness : array, shape (...) [N]

    Range of validity: a strand that has been pulled before; a new one settles.
    Source: Hooke's law; Shigley, Mechanical Engineering Design, 9th ed., section 17-6 (wire rope:
    metal area and modulus of the rope instead of the wire's).

    Examples
    --------
    >>> print(f"{float(strand_stiffness(0.0015, 110e9, 0.75)) / 1e3:.1f} kN")
    145.8 kN
    """
    return np.asarray(np.asarray(modulus) * fill * np.pi / 4.0 * np.square(wire))


def play_in_bends(bends: ArrayLike, clearance: ArrayLike) -> Array:
    """Answer how much travel is lost while the wire crosses its sheath in the bends.

    Slack, it lies on the outside of each bend; pulled, on the inside: s = φ c

    Parameters
    ----------
    bends : array, shape (...) [rad]
        All bends added up.
    clearance : array, shape (...) [m]
        Bore of the sheath less diameter of the wire.

    Returns
    -------
    play : array, shape (...) [m]

    Range of validity: round bore, bends that stay as they are. It is the most that can be lost: a
    wire that is kept taut has crossed already.
    Source: geometry of two arcs over the same angle.

    Examples
    --------
    >>> print(f"{float(play_in_bends(np.pi, 0.0005)) * 1e3:.2f} mm")
    1.57 mm
    """
    return np.asarray(np.asarray(bends) * clearance)
