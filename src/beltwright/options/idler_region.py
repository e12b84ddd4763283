"""The outline of an allowed region, traced by asking point after point whether it is allowed.

A grid finds the region, halving moves every vertex of its outline on to the border, and the sides
are halved until they follow the border.  Nothing but the answers is used, so that the region can't
disagree with what answers.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import cast

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array

Allowed = Callable[[Array, Array], NDArray[np.bool_]]
"""Says for each point (x, y) [m] whether it is allowed."""

Ring = NDArray[np.float64]
"""Corners of a closed outline, shape (n, 2) [m]; the first is not repeated."""

Pieces = tuple[list[Ring], list[NDArray[np.uint32]]]
"""Corners of each piece, and where each of its rings begins and ends."""

PARTS = 8
"""Parts into which the way to the border is cut at a time: many points asked about together cost
little more than few."""

CLOSE = 1e-6
"""How well a vertex is set on the border [m]."""

ROUNDS = 6
"""Times that the sides of the outline are halved."""

FLAT = 2e-5
"""A side that strays no further from the border than this is not halved again [m]."""


@dataclass(frozen=True)
class Area:
    """One piece of a region: its outline and the holes in it."""

    outline: Ring
    holes: tuple[Ring, ...]


@dataclass(frozen=True)
class Grid:
    """Points at equal steps, shape (len(y), len(x)) [m]."""

    x: Array
    y: Array

    @property
    def step(self) -> float:
        """Distance of two neighbours [m]."""
        return float(self.x[1] - self.x[0])


def grid_over(low: tuple[float, float], high: tuple[float, float], step: float) -> Grid:
    """A grid that covers a rectangle [m]."""
    axes = [np.arange(a, b + step, step) for a, b in zip(low, high, strict=True)]
    return Grid(axes[0], axes[1])


def traced(grid: Grid, allowed: Allowed) -> tuple[Area, ...]:
    """The pieces of the allowed region that the grid meets, largest first.

    A piece that slips between the points of the grid is missed: it is narrower than a step.
    """
    x, y = np.meshgrid(grid.x, grid.y)
    inside = allowed(x.ravel(), y.ravel()).reshape(x.shape)
    pieces = _stepped(inside)
    rings = _followed([ring for piece in pieces for ring in piece], grid, allowed)
    areas = [Area(outline, tuple(holes)) for outline, *holes in _grouped(rings, pieces)]
    return tuple(sorted(areas, key=lambda area: -abs(_signed_area(area.outline))))


def stepped(grid: Grid, inside: NDArray[np.bool_]) -> tuple[Area, ...]:
    """The pieces of a region as the grid alone shows them, largest first: true to half a step."""
    corner = np.array([grid.x[0], grid.y[0]])
    pieces = [[corner + ring * grid.step for ring in piece] for piece in _stepped(inside)]
    areas = [Area(outline, tuple(holes)) for outline, *holes in pieces]
    return tuple(sorted(areas, key=lambda area: -abs(_signed_area(area.outline))))


def _grouped(rings: Sequence[Ring], like: Sequence[Sequence[Ring]]) -> list[list[Ring]]:
    """The rings parted as the pieces are that they were made of."""
    left = iter(rings)
    return [[next(left) for _ in piece] for piece in like]


def _stepped(inside: NDArray[np.bool_]) -> list[list[Ring]]:
    """Outlines with their vertices half-way between points of the grid, in steps of the grid."""
    from contourpy import FillType, contour_generator

    # a rim that is not allowed closes every outline
    field = np.pad(inside.astype(float), 1)
    generator = contour_generator(z=field, fill_type=FillType.OuterOffset)
    pieces = cast("Pieces", generator.filled(0.5, np.inf))
    return [
        [ring[start : stop - 1] - 1.0 for start, stop in pairwise(cut)]
        for ring, cut in zip(*pieces, strict=True)
    ]


def _followed(rings: Sequence[Ring], grid: Grid, allowed: Allowed) -> list[Ring]:
    """Stepped outlines moved on to the border, their sides halved until they follow it."""
    if not rings:
        return []
    cuts = np.cumsum([len(ring) for ring in rings])[:-1]
    stepped = np.concatenate(rings)
    first, second = _at(grid, np.floor(stepped)), _at(grid, np.ceil(stepped))
    keeps = allowed(first[:, 0], first[:, 1])[:, np.newaxis]
    within, without = np.where(keeps, first, second), np.where(keeps, second, first)
    followed = np.split(_border(within, without, allowed), cuts)
    for _ in range(ROUNDS):
        followed, strays = _halved(followed, grid.step, allowed)
        if not strays:
            break
    return followed


def _at(grid: Grid, places: Ring) -> Ring:
    corner = np.array([grid.x[0], grid.y[0]])
    return np.asarray(corner + places * grid.step)


def _border(within: Ring, without: Ring, allowed: Allowed) -> Ring:
    """The last allowed points on the way from allowed points to ones that are not."""
    shares = np.arange(1, PARTS)[:, np.newaxis, np.newaxis] / PARTS
    while np.abs(without - within).max(initial=0.0) > CLOSE:
        way = without - within
        points = within + shares * way
        keeps = allowed(points[..., 0].ravel(), points[..., 1].ravel()).reshape(points.shape[:2])
        steps = np.logical_and.accumulate(keeps, axis=0).sum(axis=0)[:, np.newaxis]
        without = within + (steps + 1) / PARTS * way
        within = within + steps / PARTS * way
    return within


def _halved(rings: Sequence[Ring], step: float, allowed: Allowed) -> tuple[list[Ring], bool]:
    """The outlines with a vertex on the border beside every side that strays from it."""
    cuts = np.cumsum([len(ring) for ring in rings])[:-1]
    start = np.concatenate(rings)
    along = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings]) - start
    length = np.hypot(along[:, 0], along[:, 1])
    long_ = np.flatnonzero(length > FLAT)
    middle, size = (start + 0.5 * along)[long_], length[long_, np.newaxis]
    across = np.stack((-along[long_, 1], along[long_, 0]), axis=1) / size
    keeps = allowed(middle[:, 0], middle[:, 1])
    towards, found = _way_to_border(middle, np.minimum(size, step) * across, keeps, allowed)
    far, stays = middle + towards, keeps[:, np.newaxis]
    new = middle.copy()
    new[found] = _border(
        np.where(stays, middle, far)[found], np.where(stays, far, middle)[found], allowed
    )
    strays = np.full(len(start), False)
    strays[long_] = np.hypot(*(new - middle).T) > FLAT
    added = np.zeros_like(start)
    added[long_] = new
    halved = [
        np.insert(ring, np.flatnonzero(mask) + 1, more[mask], axis=0)
        for ring, mask, more in zip(
            rings, np.split(strays, cuts), np.split(added, cuts), strict=True
        )
    ]
    return halved, bool(strays.any())


def _way_to_border(
    middle: Ring, reach: Ring, keeps: NDArray[np.bool_], allowed: Allowed
) -> tuple[Ring, NDArray[np.bool_]]:
    """The way from each middle to the nearer side on which the answer changes."""
    towards = np.zeros_like(middle)
    found = np.zeros(len(middle), dtype=bool)
    for share in (0.05, 0.25, 1.0):
        open_ = np.flatnonzero(~found)
        if not open_.size:
            break
        ways = np.stack((share * reach[open_], -share * reach[open_]))
        far = middle[open_] + ways
        answers = allowed(far[..., 0].ravel(), far[..., 1].ravel()).reshape(2, -1)
        changes = answers != keeps[open_]
        towards[open_] = np.where(changes[0][:, np.newaxis], ways[0], ways[1])
        found[open_] = changes.any(axis=0)
    return towards, found


def _signed_area(ring: Ring) -> float:
    after = np.roll(ring, -1, axis=0)
    return float(0.5 * np.sum(ring[:, 0] * after[:, 1] - after[:, 0] * ring[:, 1]))
