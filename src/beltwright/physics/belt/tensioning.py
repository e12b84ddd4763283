"""Setting a belt's pull on the bench: what it should be and how a press shows it."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def static_pull_for_power(
    power: ArrayLike, belt_speed: ArrayLike, arc_factor: ArrayLike, linear_mass: ArrayLike
) -> Array:
    """Answer which pull at rest a V-belt with fixed centres is usually set to for a power.

    T = (2.5 − K)/(2 K) · P/v + m v²

    Parameters
    ----------
    power : array, shape (...) [W]
        One belt's share, service factor included.
    belt_speed : array, shape (...) [m/s]
    arc_factor : array, shape (...) [1]
        K of the smaller pulley, as from `belt_rating.arc_factor`.
    linear_mass : array, shape (...) [kg/m]

    Returns
    -------
    pull : array, shape (...) [N]

    Range of validity: V-belts in standard grooves; it takes a tight to slack ratio of 5 at half a
    turn. A clutch that lets go by a sprung idler is set by its spring instead.
    Source: the rule that belt makers' manuals repeat (from memory, medium to high).

    Examples
    --------
    >>> round(float(static_pull_for_power(4000.0, 15.0, 0.95, 0.19)), 1)
    260.3
    """
    share = (2.5 - np.asarray(arc_factor)) / (2 * np.asarray(arc_factor))
    return np.asarray(share * power / belt_speed + linear_mass * np.square(belt_speed))


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


def pull_from_press(
    force: ArrayLike,
    deflection: ArrayLike,
    span: ArrayLike,
    stretch_rate: ArrayLike = 0.0,
    bending_stiffness: ArrayLike = 0.0,
) -> Array:
    """Answer which pull a belt has from how far a known press moves the middle of a span.

    The inverse of `press_force`: T = (F − 48 EI δ/l³)/(2 sin α) − k l (1/cos α − 1).

    Parameters
    ----------
    force : array, shape (...) [N]
    deflection : array, shape (...) [m]
    span : array, shape (...) [m]
    stretch_rate : array, shape (...) [N/m]
        As in `press_force`.
    bending_stiffness : array, shape (...) [N m2]

    Returns
    -------
    pull : array, shape (...) [N]
        Negative where the press is less than the belt's own stiffness takes.

    Range of validity: as `press_force`; a belt's stiffness is seldom known and makes the pull
    read too high on short spans if it is left at 0.
    Source: as `press_force`.

    Examples
    --------
    >>> round(float(pull_from_press(10.0, 0.008, 0.512)), 1)
    160.1
    """
    angle = np.arctan(2 * np.asarray(deflection) / span)
    pressed = (force - _beam_force(deflection, span, bending_stiffness)) / (2 * np.sin(angle))
    return np.asarray(pressed - stretch_rate * span * (1 / np.cos(angle) - 1))


def _beam_force(deflection: ArrayLike, span: ArrayLike, bending_stiffness: ArrayLike) -> Array:
    return np.asarray(48 * np.asarray(bending_stiffness) * deflection / np.asarray(span) ** 3)
