"""A swinging lever on a sheathed cable: reach of the wire, its lever, and the radius that matches.

The pivot is the origin; angles are counter-clockwise from the x axis and point from the pivot to
the hole that the wire hooks into. The housing ends at a fixed point, from which the wire runs
straight to the hole.
"""

import numpy as np

from beltwright.physics.angle import within_half_turn
from beltwright.physics.arrays import Array, ArrayLike


def wire_reach(
    angle: ArrayLike, radius: ArrayLike, housing_end: tuple[ArrayLike, ArrayLike]
) -> Array:
    """Answer how much wire stands out between the end of the housing and the lever's hole.

    d = |e − r (cos a, sin a)|

    Parameters
    ----------
    angle : array, shape (...) [rad]
    radius : array, shape (...) [m]
        From the pivot to the hole.
    housing_end : pair of arrays, shape (...) [m]
        x, y from the pivot.

    Returns
    -------
    reach : array, shape (...) [m]

    Range of validity: a straight wire that nothing touches on its way.
    Source: plane geometry.

    Examples
    --------
    >>> float(wire_reach(np.pi / 2, 0.03, (0.04, 0.0)))
    0.05
    """
    across = housing_end[0] - radius * np.cos(angle)
    up = housing_end[1] - radius * np.sin(angle)
    return np.sqrt(across * across + up * up)


def wire_lever(
    angle: ArrayLike,
    radius: ArrayLike,
    housing_end: tuple[ArrayLike, ArrayLike],
    reach: ArrayLike,
) -> Array:
    """Answer which moment about the pivot each newton of pull in the wire puts on the lever.

    h = hole × (e − hole) / d, which is also minus the slope of the reach over the angle.

    Parameters
    ----------
    angle : array, shape (...) [rad]
    radius : array, shape (...) [m]
    housing_end : pair of arrays, shape (...) [m]
    reach : array, shape (...) [m]
        As from `wire_reach`.

    Returns
    -------
    lever : array, shape (...) [m]
        Counter-clockwise positive; 0 at dead centre.

    Range of validity: as `wire_reach`.
    Source: statics; virtual work.

    Examples
    --------
    >>> round(float(wire_lever(np.pi / 2, 0.03, (0.04, 0.0), 0.05)), 4)
    -0.024
    """
    across = radius * (np.cos(angle) * housing_end[1] - np.sin(angle) * housing_end[0])
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.where(np.asarray(reach) == 0.0, 0.0, across / np.asarray(reach))


def angle_at_reach(
    reach: ArrayLike,
    radius: ArrayLike,
    housing_end: tuple[ArrayLike, ArrayLike],
    start: ArrayLike,
    drawn_turns: ArrayLike,
) -> Array:
    """Answer where the lever stands when so much wire stands out.

    cos(φ − a) = (R² + r² − d²) / (2 R r), with the housing's end at R, φ from the pivot

    Parameters
    ----------
    reach : array, shape (...) [m]
    radius : array, shape (...) [m]
    housing_end : pair of arrays, shape (...) [m]
    start : array, shape (...) [rad]
        Any angle of the lever on the same side of dead centre; the answer is within half a turn.
    drawn_turns : array, shape (...) [1]
        +1 where drawing the wire in turns the lever counter-clockwise, −1 where clockwise.

    Returns
    -------
    angle : array, shape (...) [rad]
        At dead centre where the lever would have to go over it to reach so little or so much.

    Range of validity: as `wire_reach`.
    Source: law of cosines.

    Examples
    --------
    >>> at = angle_at_reach(0.05, 0.03, (0.04, 0.0), np.pi / 2, -1.0)
    >>> round(float(np.degrees(at)), 6)
    90.0
    """
    away = np.hypot(*housing_end)
    cosine = (np.square(away) + np.square(radius) - np.square(reach)) / (2.0 * away * radius)
    between = np.arccos(np.clip(cosine, -1.0, 1.0))
    angle = np.arctan2(housing_end[1], housing_end[0]) - drawn_turns * between
    return within_half_turn(angle, start)


def matching_radius(
    travel: ArrayLike,
    first: ArrayLike,
    last: ArrayLike,
    housing_end: tuple[ArrayLike, ArrayLike],
) -> Array:
    """Answer how far from the pivot the wire must hook for its travel to swing the lever fully.

    d₁ − d₂ = s with dᵢ² = R² + r² − 2 R r cᵢ and cᵢ = cos(φ − aᵢ), squared twice:
    r² (1 − R² k² / s²) − r R (c₁ + c₂) + R² − s² / 4 = 0, k = c₂ − c₁

    Parameters
    ----------
    travel : array, shape (...) [m]
        Wire that is drawn in from the first to the last position.
    first : array, shape (...) [rad]
    last : array, shape (...) [rad]
        Position to which the wire draws the lever.
    housing_end : pair of arrays, shape (...) [m]
        It stays where it is while the hole moves along the lever.

    Returns
    -------
    radius : array, shape (...) [m]
        The smallest that does; NaN where none does.

    Range of validity: as `wire_reach`; the wire on one side of dead centre over the whole swing.
    Source: law of cosines.

    Examples
    --------
    >>> far = (0.0, 100.0)  # nearly a straight pull: s = r (sin a2 - sin a1)
    >>> round(float(matching_radius(0.02, -0.4, 0.4, far)), 4)
    0.0257
    """
    away = np.hypot(*housing_end)
    heading = np.arctan2(housing_end[1], housing_end[0])
    cosines = np.cos(heading - first), np.cos(heading - last)
    gain = away * (cosines[1] - cosines[0]) / np.asarray(travel)
    square = 1.0 - np.square(gain)
    half = away * (cosines[0] + cosines[1]) / 2.0
    rest = np.square(away) - np.square(travel) / 4.0
    with np.errstate(invalid="ignore", divide="ignore"):
        root = np.sqrt(np.square(half) - square * rest)
        both = np.stack(np.broadcast_arrays((half - root) / square, (half + root) / square))
        # the reach at the end, d₂, comes out of the squares with either sign
        there = (both > 0.0) & (both * gain >= np.asarray(travel) / 2.0)
        radius = np.min(np.where(there, both, np.inf), axis=0)
    return np.where(np.isfinite(radius), radius, np.nan)
