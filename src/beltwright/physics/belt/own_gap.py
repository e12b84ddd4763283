"""Whether a belt comes near its own other runs, near pulleys that it passes, or off its line."""

from collections.abc import Sequence
from itertools import combinations
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.band import Band
from beltwright.physics.belt.run import Run
from beltwright.physics.belt.span import Span, crossing, square_to_span


class OwnGap(NamedTuple):
    """The gap between two parts of one belt drive.

    Attributes
    ----------
    first, second : int [1]
        Places in the run; a span counts by the pulley that it leaves.
    gap : array, shape (...) [m]
        Negative where they overlap.
    """

    first: int
    second: int
    gap: Array


def span_gaps(band: Band) -> tuple[OwnGap, ...]:
    """Find how near the belt's spans that do not share a pulley come to each other.

    Gap = distance of the two straight middle lines - the band's width.

    Parameters
    ----------
    band : Band [m]
        The belt.

    Returns
    -------
    tuple of OwnGap [m]
        One for each such pair of spans; empty for fewer than four pulleys.

    Notes
    -----
    Range of validity: taut spans; how far a slack one bows is the concern of `belt_flap`.

    Source: plane geometry, exact.

    Examples
    --------
    >>> from beltwright.physics.belt.band import belt_band
    >>> from beltwright.physics.belt.path import belt_path
    >>> square = Run([0.0, 1.0, 1.0, 0.0], [0.0, 0.0, 1.0, 1.0], [0.1] * 4, [1] * 4)
    >>> [round(float(gap.gap), 6) for gap in span_gaps(belt_band(belt_path(square), 0.0, 0.01))]
    [1.18, 1.18]
    """
    spans = band.middle.spans
    count = len(spans)
    apart = [(i, j) for i, j in combinations(range(count), 2) if 1 < j - i < count - 1]
    with np.errstate(invalid="ignore"):
        return tuple(
            OwnGap(i, j, np.asarray(_between(spans[i], spans[j]) - 2.0 * band.half))
            for i, j in apart
        )


def passing_gaps(band: Band, rim_radius: Sequence[ArrayLike]) -> tuple[OwnGap, ...]:
    """Find how near the belt's spans come to the pulleys that they pass.

    Gap = distance of the pulley's centre from the span's middle line - half the band's width - the
    larger of the rim's radius and the outer surface of the belt that lies on it.

    Parameters
    ----------
    band : Band [m]
        The belt.
    rim_radius : sequence of n arrays, shape (...) [m]
        Outside radius of each pulley's rim.

    Returns
    -------
    tuple of OwnGap [m]
        `first` is the span, `second` the pulley; empty for two pulleys.

    Notes
    -----
    Range of validity: counts the belt as lying all round the pulley, so it can be too cautious by
    the belt's height above the rim where a span passes the bare side.

    Source: plane geometry.

    Examples
    --------
    >>> from beltwright.physics.belt.band import belt_band
    >>> from beltwright.physics.belt.path import belt_path
    >>> corner = Run([0.0, 1.0, 1.0], [0.0, 0.0, 1.0], [0.1] * 3, [1] * 3)
    >>> gaps = passing_gaps(belt_band(belt_path(corner), 0.0, 0.0), [0.1] * 3)
    >>> round(float(gaps[0].gap), 6)
    1.0
    """
    run, spans = band.middle.run, band.middle.spans
    count = len(spans)
    with np.errstate(invalid="ignore"):
        return tuple(
            OwnGap(
                i,
                j,
                np.sqrt(square_to_span(spans[i], run.x[j], run.y[j]))
                - band.half
                - np.maximum(rim_radius[j], run.radius[j] + band.half),
            )
            for i in range(count)
            for j in range(count)
            if j not in (i, (i + 1) % count)
        )


def rim_gaps(run: Run, rim_radius: Sequence[ArrayLike]) -> tuple[OwnGap, ...]:
    """Find how near the rims of two pulleys stand.

    Gap = distance of the centres - both rim radii.

    Parameters
    ----------
    run : Run [m]
        The pulleys.
    rim_radius : sequence of n arrays, shape (...) [m]
        Outside radius of each pulley's rim.

    Returns
    -------
    tuple of OwnGap [m]
        One for each pair of pulleys.

    Notes
    -----
    Range of validity: rims at the same height.

    Source: plane geometry, exact.

    Examples
    --------
    >>> run = Run([0.0, 0.3], [0.0, 0.4], [0.1, 0.1], [1, 1])
    >>> round(float(rim_gaps(run, [0.11, 0.12])[0].gap), 6)
    0.27
    """
    gaps = []
    for i, j in combinations(range(len(run)), 2):
        dx, dy = np.subtract(run.x[i], run.x[j]), np.subtract(run.y[i], run.y[j])
        apart = np.sqrt(dx * dx + dy * dy) - rim_radius[i] - rim_radius[j]
        gaps.append(OwnGap(i, j, np.asarray(apart)))
    return tuple(gaps)


def fleet_angle(rise: ArrayLike, span_length: ArrayLike) -> Array:
    """Find the angle at which a span climbs between pulleys of different height.

    tan(angle) = rise / span.

    Parameters
    ----------
    rise : array, shape (...) [m]
        Height of one groove's middle over the other's.
    span_length : array, shape (...) [m]
        Length of the span between them, seen along the shafts.

    Returns
    -------
    array, shape (...) [rad]
        Without sign.

    Notes
    -----
    Range of validity: parallel shafts.  Classical V-belts are commonly held to about half a degree;
    belts on idlers of light machines are seen to live with more (common practice, no source).

    Source: plane geometry.

    Examples
    --------
    >>> round(float(np.degrees(fleet_angle(0.004, 0.35))), 3)
    0.655
    """
    return np.asarray(np.arctan2(np.abs(rise), span_length))


def _between(one: Span, other: Span) -> Array:
    """Return the distance of two spans: from an end of one to the other, or 0 where they cross."""
    square = np.minimum(
        np.minimum(
            square_to_span(one, other.start_x, other.start_y),
            square_to_span(one, other.end_x, other.end_y),
        ),
        np.minimum(
            square_to_span(other, one.start_x, one.start_y),
            square_to_span(other, one.end_x, one.end_y),
        ),
    )
    return np.where(crossing(one, other), 0.0, np.sqrt(square))
