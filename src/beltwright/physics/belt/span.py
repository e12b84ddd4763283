"""Common tangents: the spans between pulleys and the wraps that they leave on them.

A pulley inside the loop turns the belt one way, an idler on the belt's back the other way; with
the turning as the sign of the radius one formula covers every kind of tangent.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.run import Run, signed_radius

FULL_TURN = 2.0 * np.pi
"""One full turn [rad]."""

DEEPEST_MISS = 0.5 * np.pi
"""A wrap is read between minus this angle and a full turn less it [rad].

A heading change says a wrap only up to a full turn.  Round a real pulley no belt lies more than
270 degrees, so what would be more is a pulley that the belt misses.
"""


class Span(NamedTuple):
    """A straight part of the belt, from the pulley that it leaves to the next one.

    Attributes
    ----------
    length : array, shape (...) [m]
        Distance between the two tangent points; NaN where the pulleys have no such tangent.
    heading_x, heading_y : array, shape (...) [1]
        Unit vector along the belt, in the order of the run.
    start_x, start_y : array, shape (...) [m]
        Point where the belt leaves the first pulley.
    end_x, end_y : array, shape (...) [m]
        Point where the belt meets the next pulley.
    """

    length: Array
    heading_x: Array
    heading_y: Array
    start_x: Array
    start_y: Array
    end_x: Array
    end_y: Array


def common_tangent(dx: Array, dy: Array, rise: Array) -> tuple[Array, Array, Array]:
    """Find the span between two pitch circles.

    l = sqrt(D^2 - q^2), u = (l d + q J^T d) / D^2.

    Parameters
    ----------
    dx : array, shape (...) [m]
        From the first centre to the second.
    dy : array, shape (...) [m]
        From the first centre to the second.
    rise : array, shape (...) [m]
        q, signed radius of the second pulley less that of the first; counter-clockwise positive.

    Returns
    -------
    tuple of three arrays, shape (...) [m, 1, 1]
        Length of the span and its unit heading; NaN where there is no common tangent.

    Notes
    -----
    Range of validity: any two circles; callers silence the warning of the missing tangent.

    Source: plane geometry, exact.

    Examples
    --------
    >>> [round(float(v), 3) for v in common_tangent(np.float64(5), np.float64(0), np.float64(3))]
    [4.0, 0.8, -0.6]
    """
    square = dx * dx + dy * dy
    length = np.sqrt(square - rise * rise)
    along = length / square
    across = rise / square
    return length, along * dx + across * dy, along * dy - across * dx


def span_from(run: Run, pulley: int, sense: Array) -> Span:
    """Work out the span that leaves one pulley of a run.

    Tangent point: centre less the signed radius times the left-hand normal of the heading.

    Parameters
    ----------
    run : Run [m]
        The pulleys.
    pulley : int [1]
        Place in the run of the pulley that the span leaves.
    sense : array, shape (...) [1]
        +1 counter-clockwise, -1 clockwise.

    Returns
    -------
    Span [m]
        NaN where the two pulleys have no common tangent.

    Notes
    -----
    Range of validity: as for `belt_loop.path_in_sense`; callers silence the warning of a missing
    tangent.

    Source: plane geometry, exact.

    Examples
    --------
    >>> run = Run([0.0, 5.0], [0.0, 0.0], [1.0, 4.0], [1, 1])
    >>> float(span_from(run, 0, np.float64(1.0)).length)
    4.0
    """
    after = (pulley + 1) % len(run)
    x, y, first = run.x[pulley], run.y[pulley], signed_radius(run, pulley, sense)
    next_x, next_y, second = run.x[after], run.y[after], signed_radius(run, after, sense)
    length, ux, uy = common_tangent(
        np.subtract(next_x, x), np.subtract(next_y, y), np.subtract(second, first)
    )
    return Span(
        length=length,
        heading_x=ux,
        heading_y=uy,
        start_x=x + first * uy,
        start_y=y - first * ux,
        end_x=next_x + second * uy,
        end_y=next_y - second * ux,
    )


def wrap_on(run: Run, pulley: int, sense: Array, spans: Sequence[Span]) -> Array:
    """Work out the wrap on one pulley from the spans that meet and leave it.

    Wrap = the angle from the heading that meets the pulley to the one that leaves it, counted
    positive in the way the pulley turns the belt.

    Parameters
    ----------
    run : Run [m]
        The pulleys.
    pulley : int [1]
        Place in the run.
    sense : array, shape (...) [1]
        +1 counter-clockwise, -1 clockwise.
    spans : sequence of n Span [m]
        All spans of the run.

    Returns
    -------
    array, shape (...) [rad]
        Between -90 and +270 degrees; negative where the belt misses the pulley.

    Notes
    -----
    Range of validity: as for `belt_loop.path_in_sense`.

    Source: plane geometry, exact.

    Examples
    --------
    >>> run, sense = Run([0.0, 5.0], [0.0, 0.0], [1.0, 1.0], [1, 1]), np.float64(1.0)
    >>> spans = [span_from(run, i, sense) for i in range(2)]
    >>> round(float(wrap_on(run, 0, sense, spans)), 6)
    3.141593
    """
    meets, leaves = spans[pulley - 1], spans[pulley]
    return signed_wrap(
        sense * run.side[pulley],
        (meets.heading_x, meets.heading_y),
        (leaves.heading_x, leaves.heading_y),
    )


def signed_wrap(turning: Array, meets: tuple[Array, Array], leaves: tuple[Array, Array]) -> Array:
    """Read the wrap between two headings.

    Wrap = turning times atan2(u_in x u_out, u_in . u_out), a full turn added below -90 degrees.

    Parameters
    ----------
    turning : array, shape (...) [1]
        +1 where the pulley turns the belt counter-clockwise, -1 where clockwise.
    meets : pair of arrays, shape (...) [1]
        Unit heading of the span that meets the pulley.
    leaves : pair of arrays, shape (...) [1]
        Unit heading of the span that leaves it.

    Returns
    -------
    array, shape (...) [rad]
        Between -90 and +270 degrees.

    Notes
    -----
    Range of validity: any two headings.

    Source: plane geometry, exact.

    Examples
    --------
    >>> right, up = (np.float64(1), np.float64(0)), (np.float64(0), np.float64(1))
    >>> round(float(signed_wrap(np.float64(1), right, up)), 6)
    1.570796
    """
    cross = meets[0] * leaves[1] - meets[1] * leaves[0]
    dot = meets[0] * leaves[0] + meets[1] * leaves[1]
    wrap = np.arctan2(turning * cross, dot)
    return np.where(wrap < -DEEPEST_MISS, wrap + FULL_TURN, wrap)


def square_to_span(span: Span, x: ArrayLike, y: ArrayLike) -> Array:
    """Find the square of the distance from a point to a span.

    Parameters
    ----------
    span : Span [m]
        The span.
    x : array, shape (...) [m]
        The point.
    y : array, shape (...) [m]
        The point.

    Returns
    -------
    array, shape (...) [m²]
        Squared distance to the nearest point of the span.

    Notes
    -----
    Range of validity: any span; the square root is left to the caller, who compares many.

    Source: plane geometry, exact.

    Examples
    --------
    >>> run, sense = Run([0.0, 5.0], [0.0, 0.0], [1.0, 1.0], [1, 1]), np.float64(1.0)
    >>> float(square_to_span(span_from(run, 0, sense), 7.0, -2.0))
    5.0
    """
    dx, dy = x - span.start_x, y - span.start_y
    along = dx * span.heading_x + dy * span.heading_y
    across = dy * span.heading_x - dx * span.heading_y
    beyond = along - np.minimum(np.maximum(along, 0.0), span.length)
    return across * across + beyond * beyond


def crossing(one: Span, other: Span) -> NDArray[np.bool_]:
    """Say whether two spans cross.

    Each has the ends of the other on both sides of its line.

    Parameters
    ----------
    one : Span [m]
        A span.
    other : Span [m]
        Another.

    Returns
    -------
    array of bool, shape (...) [1]
        False where one only ends on the other.

    Notes
    -----
    Range of validity: any two spans.

    Source: plane geometry, exact.

    Examples
    --------
    >>> run, sense = Run([0.0, 5.0], [0.0, 0.0], [1.0, 1.0], [1, -1]), np.float64(1.0)
    >>> bool(crossing(span_from(run, 0, sense), span_from(run, 1, sense)))
    True
    """
    return _parted(one, other) & _parted(other, one)


def _parted(span: Span, other: Span) -> NDArray[np.bool_]:
    """Say whether the line of one span has the ends of another on both sides."""
    start = span.heading_x * (other.start_y - span.start_y) - span.heading_y * (
        other.start_x - span.start_x
    )
    end = span.heading_x * (other.end_y - span.start_y) - span.heading_y * (
        other.end_x - span.start_x
    )
    return np.asarray(start * end < 0.0)
