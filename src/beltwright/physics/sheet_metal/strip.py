"""A strip bent several times: its flat length, the marks along it, and the form that it takes.

Everything is told along one face, the one that is measured on: legs run from corner to corner of
that face. A bend is positive where this face is on its inside (the strip turns to the left, with
the face on its left), negative where the face is on its outside.
"""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.sheet_metal.bend import bend_allowance, setback


class FlatStrip(NamedTuple):
    """A bent strip laid flat.

    Attributes
    ----------
    length : array, shape (...) [m]
        Of the whole strip.
    marks : array, shape (bends, ...) [m]
        The middle of every bend, from the first end.
    allowances : array, shape (bends, ...) [m]
        Length that goes into every bend, half to either side of its mark.
    flats : array, shape (bends + 1, ...) [m]
        Straight lengths between the bends; negative where two bends run into each other.
    """

    length: Array
    marks: Array
    allowances: Array
    flats: Array


class BentForm(NamedTuple):
    """Where the corners of a bent strip lie.

    Attributes
    ----------
    x, y : array, shape (bends + 2, ...) [m]
        First end, corners, last end of the face that is measured on.
    heading : array, shape (bends + 1, ...) [rad]
        Direction of every leg.
    """

    x: Array
    y: Array
    heading: Array


def flat_strip(
    legs: Array, angles: Array, radius: ArrayLike, thickness: ArrayLike, k_factor: ArrayLike
) -> FlatStrip:
    """Lay a bent strip flat: how long it must be, and where the middle of every bend lies.

    Flat = leg - setbacks of the bends at its ends; length = sum of flats + sum of allowances.

    Parameters
    ----------
    legs : array, shape (bends + 1, ...) [m]
        Along the face that is measured on, from corner to corner.
    angles : array, shape (bends, ...) [rad]
        Positive where that face is on the inside of the bend.
    radius : array, shape (...) [m]
        Inside radius of the bends.
    thickness : array, shape (...) [m]
        Of the strip.
    k_factor : array, shape (...) [1]
        Where the neutral line lies.

    Returns
    -------
    FlatStrip [m]
        Length, marks, allowances, flats.

    Notes
    -----
    Range of validity: angles below half a turn; flats that come out negative cannot be bent.

    Source: geometry of tangents and arcs, exact for the K that holds.

    Examples
    --------
    >>> legs = np.array([0.040, 0.060])
    >>> round(1e3 * float(flat_strip(legs, np.array([-np.pi / 2]), 0.002, 0.0015, 0.42).length), 4)
    97.1312
    """
    face = np.where(np.asarray(angles) > 0.0, radius, np.add(radius, thickness))
    back = setback(angles, face)
    allowance = bend_allowance(angles, radius, thickness, k_factor)
    legs, back, allowance = _alike(legs, back, allowance)
    none = np.zeros_like(legs[:1])
    flats = legs - np.concatenate([none, back]) - np.concatenate([back, none])
    ends = np.cumsum(flats[:-1] + allowance, axis=0)
    length = np.asarray(flats.sum(axis=0) + allowance.sum(axis=0))
    return FlatStrip(length, ends - 0.5 * allowance, allowance, flats)


def bent_form(
    legs: Array, angles: Array, start_x: ArrayLike, start_y: ArrayLike, heading: ArrayLike
) -> BentForm:
    """Follow a bent strip from its first end.

    Each leg turns by the bend before it; each corner is the last one plus leg times heading.

    Parameters
    ----------
    legs : array, shape (bends + 1, ...) [m]
        Along the face that is measured on, from corner to corner.
    angles : array, shape (bends, ...) [rad]
        By which every bend turns the strip to the left.
    start_x : array, shape (...) [m]
        First end of the face.
    start_y : array, shape (...) [m]
        First end of the face.
    heading : array, shape (...) [rad]
        Direction of the first leg.

    Returns
    -------
    BentForm [m, rad]
        Corners and headings.

    Notes
    -----
    Range of validity: exact for corners; bends round them off.

    Source: plane geometry, exact.

    Examples
    --------
    >>> form = bent_form(np.array([2.0, 1.0]), np.array([np.pi / 2]), 0.0, 0.0, 0.0)
    >>> form.x.round(6).tolist(), form.y.round(6).tolist()
    ([0.0, 2.0, 2.0], [0.0, 0.0, 1.0])
    """
    first = np.zeros_like(np.asarray(angles, dtype=np.float64)[:1])
    ways = np.cumsum(np.concatenate([first, angles]), axis=0) + heading
    (steps, ways) = _alike(legs, ways)
    x = np.cumsum(steps * np.cos(ways), axis=0)
    y = np.cumsum(steps * np.sin(ways), axis=0)
    origin = np.zeros_like(x[:1])
    return BentForm(
        np.concatenate([origin, x]) + start_x, np.concatenate([origin, y]) + start_y, ways
    )


def other_face(form: BentForm, thickness: ArrayLike) -> tuple[Array, Array]:
    """Find the corners of the strip's other face.

    At an end the face lies t to the right; at a corner on the bisector, t / cos(A / 2) away.

    Parameters
    ----------
    form : BentForm [m]
        The face that is measured on.
    thickness : array, shape (...) [m]
        t; the strip lies to the right of the measured face.

    Returns
    -------
    tuple of two arrays, shape (bends + 2, ...) [m]
        x and y, first end, corners, last end.

    Notes
    -----
    Range of validity: bends below half a turn.

    Source: plane geometry, exact.

    Examples
    --------
    >>> form = bent_form(np.array([2.0, 1.0]), np.array([np.pi / 2]), 0.0, 0.0, 0.0)
    >>> x, y = other_face(form, 0.1)
    >>> x.round(6).tolist(), y.round(6).tolist()
    ([0.0, 2.1, 2.1], [-0.1, -0.1, 1.0])
    """
    right_x, right_y = np.sin(form.heading), -np.cos(form.heading)
    sum_x = np.concatenate([right_x[:1], right_x[:-1] + right_x[1:], right_x[-1:]])
    sum_y = np.concatenate([right_y[:1], right_y[:-1] + right_y[1:], right_y[-1:]])
    # two unit vectors A apart sum to 2 cos(A / 2); the mitre is 1 / cos(A / 2) long
    stretch = sum_x * sum_x + sum_y * sum_y
    stretch = np.concatenate([stretch[:1], 0.5 * stretch[1:-1], stretch[-1:]])
    return form.x + thickness * sum_x / stretch, form.y + thickness * sum_y / stretch


def _alike(*arrays: ArrayLike) -> tuple[Array, ...]:
    """Bring arrays with a first axis of their own to the same other axes."""
    given = [np.asarray(array, dtype=np.float64) for array in arrays]
    axes = max(array.ndim for array in given)
    raised = [
        array.reshape(array.shape[:1] + (1,) * (axes - array.ndim) + array.shape[1:])
        for array in given
    ]
    other = np.broadcast_shapes(*(array.shape[1:] for array in raised))
    return tuple(np.broadcast_to(array, array.shape[:1] + other) for array in raised)
