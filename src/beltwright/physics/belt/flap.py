"""How far a slack span bows out, and what it then comes near."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.band import Band
from beltwright.physics.outline import Outline

DRIVING_BOW_SHARE = 1.0 / 64.0
"""Bow allowed for the trembling of the slack side in drive, as a share of its span [1]: the same
share by which a belt is pressed in to set its tension (common practice, no source)."""


def free_bow(span_length: ArrayLike, excess: ArrayLike) -> Array:
    """Find how far a span with too much belt in it bows out at its middle.

    b = sqrt(3 l e / 8): the arc of the flat parabola y = 4 b s (l - s) / l^2 is longer than its
    chord by the integral of y'^2 / 2, which is 8 b^2 / (3 l).

    Parameters
    ----------
    span_length : array, shape (...) [m]
        l, distance between the tangent points.
    excess : array, shape (...) [m]
        e, belt in the span less its length; what is not above 0 gives no bow.

    Returns
    -------
    array, shape (...) [m]
        Bow at the middle of the span.

    Notes
    -----
    Range of validity: b up to 0.2 l, where the true parabola of that length bows 5 % more (1.2 % at
    0.1 l); a belt stiffer than a rope bows less.  All the slack is taken to gather in one span,
    which is the worst.

    Source: own derivation; the same first term as the sag of a flat catenary in handbooks.

    Examples
    --------
    >>> round(float(free_bow(0.4, 0.01)), 4)
    0.0387
    """
    length = np.asarray(span_length, dtype=np.float64)
    return np.sqrt(0.375 * length * np.maximum(excess, 0.0))


def driving_bow(span_length: ArrayLike) -> Array:
    """Say what bow to allow for on the slack side in drive.

    b = l / 64.

    Parameters
    ----------
    span_length : array, shape (...) [m]
        l, distance between the tangent points.

    Returns
    -------
    array, shape (...) [m]
        Bow at the middle of the span.

    Notes
    -----
    Range of validity: a rightly tensioned belt away from resonance.

    Source: common practice, no source.

    Examples
    --------
    >>> float(driving_bow(0.64))
    0.01
    """
    return np.asarray(DRIVING_BOW_SHARE * np.asarray(span_length, dtype=np.float64))


def flap_gap(band: Band, span: int, bow: ArrayLike, outline: Outline) -> Array:
    """Find what gap is left between a bowing span and a part, to whichever side it bows.

    At the place s along the span the belt reaches y(s) = 4 b s (l - s) / l^2 beyond its band.  For
    each side of the outline the least |w| - y is found exactly (w its distance from the span's
    line, which is linear in s, so that the difference has one lowest place).  Divided by
    sqrt(1 + (4 b / l)^2), the steepest slope, it is a lower bound of the true distance; half the
    band's width goes off.

    Parameters
    ----------
    band : Band [m]
        The belt.
    span : int [1]
        The span, by the pulley that it leaves.
    bow : array, shape (...) [m]
        b, bow at its middle.
    outline : Outline [m]
        The part, corners on the first axis.

    Returns
    -------
    array, shape (...) [m]
        Infinite where nothing of the part stands beside the span; negative where the belt would
        strike.

    Notes
    -----
    Range of validity: shallow bows as for `free_bow`; at a slope of 0.5 the bound is 11 % low.
    What faces the span's ends, or stands across the belt at rest, is left to `belt_clearance`.

    Source: own derivation.

    Examples
    --------
    >>> from beltwright.physics.belt.band import belt_band
    >>> from beltwright.physics.belt.path import belt_path
    >>> from beltwright.physics.belt.run import Run
    >>> band = belt_band(belt_path(Run([0.0, 1.0], [0.0, 0.0], [0.1, 0.1], [1, 1])), 0.0, 0.0)
    >>> plate = Outline(np.array([-1.0, 2.0, 0.5]), np.array([0.15, 0.15, 0.3]), 0.0, 1.0)
    >>> [round(float(flap_gap(band, 1, bow, plate)), 4) for bow in (0.0, 0.02)]
    [0.05, 0.0299]
    """
    line = band.middle.spans[span]
    part = outline.over(np.ndim(band.middle.length))
    reach = np.asarray(bow)
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        dx, dy = part.x - line.start_x, part.y - line.start_y
        place = dx * line.heading_x + dy * line.heading_y
        away = np.abs(dy * line.heading_x - dx * line.heading_y)
        slope = 4.0 * reach / line.length
        least = np.minimum(
            _least_over_sides(place, away, line.length, reach).min(axis=0),
            _beside_the_ends(place, away, line.length, slope).min(axis=0),
        )
        apart = np.where(least > 0.0, least / np.sqrt(1.0 + slope * slope), least)
    return np.asarray(apart - band.half)


def _beside_the_ends(place: Array, away: Array, length: Array, slope: Array) -> Array:
    """Return the distance of corners that stand beyond an end but face the bow's flank.

    The bow keeps within the wedge that its steepest slope makes at the end; a corner that faces the
    wedge's tip instead is as near to the belt at rest.
    """
    beyond = np.maximum(-place, place - length)
    faces = (beyond > 0.0) & (away * slope > beyond)
    return np.where(faces, away + slope * beyond, np.inf)


def _least_over_sides(place: Array, away: Array, length: Array, bow: Array) -> Array:
    """Return the least distance to the bowed line for each side of an outline."""
    next_place, next_away = _followers(place), _followers(away)
    first = np.minimum(np.maximum(np.minimum(place, next_place), 0.0), length)
    last = np.minimum(np.maximum(np.maximum(place, next_place), 0.0), length)
    slope = (next_away - away) / (next_place - place)
    lowest = 0.5 * length * (1.0 - slope * length / (4.0 * bow))
    beside = last > first
    least = np.full(beside.shape, np.inf)
    for at in (first, last, np.minimum(np.maximum(lowest, first), last)):
        gap = away + slope * (at - place) - 4.0 * bow * at * (length - at) / (length * length)
        least = np.fmin(least, gap)
    return np.where(beside, least, np.inf)


def _followers(values: Array) -> Array:
    return np.concatenate([values[1:], values[:1]])
