"""The candidates for the nearest points of a belt and an outline.

A belt's middle line is a closed curve without kinks, so its nearest point to an outline lies where
a corner stands square off a span or an arc, or where a side runs past an arc as a tangent would;
or the two cross.  Each of these is offered with its squared distance, and with a way to work out
its points that only the winner needs.
"""

from collections.abc import Callable, Iterator
from functools import partial
from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array
from beltwright.physics.belt.band import Band, Bend
from beltwright.physics.belt.span import Span
from beltwright.physics.outline import Outline

Kind = TypeVar("Kind", bound=np.generic)

ARC_EDGE = 1e-9
"""How far beyond an arc's ends, in the cosine, a point still counts as beside it [1], so that
rounding leaves no hole where an arc joins its span."""


class Points(NamedTuple):
    """A point of the belt's middle line and one of the outline, shape (corners, ...) [m]."""

    belt_x: Array
    belt_y: Array
    part_x: Array
    part_y: Array


class Offer(NamedTuple):
    """Pairs of points that may be the nearest.

    Attributes
    ----------
    piece : int [1]
        Which part of the belt: spans are 0 to n - 1, the arc on pulley i is n + i.
    square : array, shape (corners, ...) [m²]
        Squared distance; infinite where the pair does not exist.
    points : callable
        Works out the points.
    """

    piece: int
    square: Array
    points: Callable[[], Points]


def offers(band: Band, outline: Outline) -> Iterator[Offer]:
    """Go through all candidates for the nearest points.

    Parameters
    ----------
    band : Band [m]
        The belt.
    outline : Outline [m]
        The part, made ready by `Outline.over`.

    Returns
    -------
    iterator of Offer [m²]
        Squared distances to the band's middle line.

    Notes
    -----
    Range of validity: paths without a fault; warnings of NaN are left to the caller.

    Source: plane geometry, exact.

    Examples
    --------
    >>> from beltwright.physics.belt.band import belt_band
    >>> from beltwright.physics.belt.path import belt_path
    >>> from beltwright.physics.belt.run import Run
    >>> band = belt_band(belt_path(Run([0.0, 4.0], [0.0, 0.0], [1.0, 1.0], [1, 1])), 0.0, 0.0)
    >>> corners = np.array([1.0, 3.0, 2.0]), np.array([3.0, 3.0, 2.0])
    >>> float(min(offer.square.min() for offer in offers(band, Outline(*corners, 0.0, 1.0))))
    1.0
    """
    spans = band.middle.spans
    for piece, span in enumerate(spans):
        yield from _beside_span(piece, span, outline)
    for piece, bend in enumerate(band.bends, start=len(spans)):
        yield from _beside_arc(piece, bend, outline)
    yield _within(spans[0], outline)


def _beside_span(piece: int, span: Span, outline: Outline) -> Iterator[Offer]:
    dx, dy = outline.x - span.start_x, outline.y - span.start_y
    along = dx * span.heading_x + dy * span.heading_y
    across = dy * span.heading_x - dx * span.heading_y
    foot = np.minimum(np.maximum(along, 0.0), span.length)
    beyond = along - foot
    yield Offer(
        piece,
        across * across + beyond * beyond,
        lambda: Points(*_on_span(span, foot), outline.x, outline.y),
    )
    next_across = _next(across)
    parted = across * next_across < 0.0
    if not np.any(parted):
        return
    share = across / (across - next_across)
    place = along + share * (_next(along) - along)
    crossed = parted & (place >= 0.0) & (place <= span.length)
    if np.any(crossed):
        at = _on_span(span, place)
        yield Offer(piece, np.where(crossed, 0.0, np.inf), partial(Points, *at, *at))


def _beside_arc(piece: int, bend: Bend, outline: Outline) -> Iterator[Offer]:
    dx, dy = outline.x - bend.x, outline.y - bend.y
    edge_x, edge_y = outline.edge_x, outline.edge_y
    away = np.sqrt(dx * dx + dy * dy)
    off = away - bend.radius
    yield Offer(
        piece,
        np.where(_faces(bend, dx, dy, away), off * off, np.inf),
        lambda: Points(*_on_arc(bend, dx, dy, away), outline.x, outline.y),
    )
    foot = -(dx * edge_x + dy * edge_y) / outline.edge_square
    share = np.minimum(np.maximum(foot, 0.0), 1.0)
    foot_x, foot_y = dx + share * edge_x, dy + share * edge_y
    near = np.sqrt(foot_x * foot_x + foot_y * foot_y)
    off_side = near - bend.radius
    outside = (off_side >= 0.0) & _faces(bend, foot_x, foot_y, near)
    yield Offer(
        piece,
        np.where(outside, off_side * off_side, np.inf),
        lambda: Points(*_on_arc(bend, foot_x, foot_y, near), bend.x + foot_x, bend.y + foot_y),
    )
    if np.any(off_side < 0.0):
        yield from _through_arc(piece, bend, outline, foot)


def _through_arc(piece: int, bend: Bend, outline: Outline, foot: Array) -> Iterator[Offer]:
    """Offer the points where sides go through an arc, either way from the foot on their line."""
    dx, dy = outline.x - bend.x, outline.y - bend.y
    foot_x, foot_y = dx + foot * outline.edge_x, dy + foot * outline.edge_y
    radius = np.asarray(bend.radius)
    chord = np.sqrt((radius * radius - foot_x * foot_x - foot_y * foot_y) / outline.edge_square)
    for share in (foot - chord, foot + chord):
        x, y = dx + share * outline.edge_x, dy + share * outline.edge_y
        crossed = (share >= 0.0) & (share <= 1.0) & _faces(bend, x, y, radius)
        at = bend.x + x, bend.y + y
        yield Offer(piece, np.where(crossed, 0.0, np.inf), partial(Points, *at, *at))


def _within(span: Span, outline: Outline) -> Offer:
    """Offer the first point of the belt where it lies inside the outline (counting crossings)."""
    x, y = span.start_x, span.start_y
    inside = outline.holds(x, y)[np.newaxis]
    at = np.asarray(x)[np.newaxis], np.asarray(y)[np.newaxis]
    return Offer(0, np.where(inside, 0.0, np.inf), partial(Points, *at, *at))


def _faces(bend: Bend, x: Array, y: Array, away: Array) -> NDArray[np.bool_]:
    """Say whether a direction from the pulley's centre points at its arc."""
    return np.asarray(bend.toward_x * x + bend.toward_y * y >= away * (bend.half_cosine - ARC_EDGE))


def _on_span(span: Span, place: Array) -> tuple[Array, Array]:
    return span.start_x + place * span.heading_x, span.start_y + place * span.heading_y


def _on_arc(bend: Bend, x: Array, y: Array, away: Array) -> tuple[Array, Array]:
    scale = bend.radius / away
    return bend.x + scale * x, bend.y + scale * y


def _next(values: NDArray[Kind]) -> NDArray[Kind]:
    """Bring each corner's follower to its place."""
    return np.concatenate([values[1:], values[:1]])
