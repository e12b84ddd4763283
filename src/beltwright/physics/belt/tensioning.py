"""Setting a belt's pull on the bench: what it should be and how a press shows it."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def press_force(
    pull: ArrayLike,
    deflection: ArrayLike,
    span: ArrayLike,
    stretch_rate: ArrayLike = 0.0,
    bending_stiffness: ArrayLike = 0.0,
) -> Array:
    """Answer how hard to press on the middle of a span to move it by a distance.

    tan α = 2 δ/l;  F = 2 (T + k l (1/cos α − 1)) sin α + 48 EI δ/l³

    Parameters
    ----------
    pull : array, shape (...) [N]
        In the span before it is pressed.
    deflection : array, shape (...) [m]
    span : array, shape (...) [m]
        Free length between the tangent points.
    stretch_rate : array, shape (...) [N/m]
        Pull gained for each metre by which the whole belt is stretched; 0 where a sprung idler
        gives way and keeps the pull.
    bending_stiffness : array, shape (...) [N m2]
        EI of the belt, as a beam on two supports; 0 for a limp belt.

    Returns
    -------
    force : array, shape (...) [N]

    Range of validity: a press on one point at mid-span, square to the span, belt not moving.
    Source: statics; the beam term from Shigley, Mechanical Engineering Design, 9th ed., Table
    A-9, case 5. Maker manuals use its small-angle form 4 T δ/l at δ = l/64.

    Examples
    --------
    >>> round(float(press_force(160.0, 0.008, 0.512)), 2)
    10.0
    """
    angle = np.arctan(2 * np.asarray(deflection) / span)
    pressed = pull + stretch_rate * span * (1 / np.cos(angle) - 1)
    return 2 * pressed * np.sin(angle) + _beam_force(deflection, span, bending_stiffness)


def _beam_force(deflection: ArrayLike, span: ArrayLike, bending_stiffness: ArrayLike) -> Array:
    return np.asarray(48 * np.asarray(bending_stiffness) * deflection / np.asarray(span) ** 3)
