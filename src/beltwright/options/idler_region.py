"""The outline of an allowed region, traced by asking point after point whether it is allowed.

A grid finds the region, halving moves every vertex of its outline on to the border, and the sides
are halved until they follow the border.  Nothing but the answers is used, so that the region can't
disagree with what answers.
"""

from collections.abc import Callable
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

HALVINGS = 16
"""Halvings of a grid step: a vertex is then known to a hundred-thousandth of it."""

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
    areas = [
        Area(
            _followed(rings[0], grid, allowed),
            tuple(_followed(r, grid, allowed) for r in rings[1:]),
        )
        for rings in _stepped(inside)
    ]
    return tuple(sorted(areas, key=lambda area: -abs(_signed_area(area.outline))))


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


def _followed(ring: Ring, grid: Grid, allowed: Allowed) -> Ring:
    """A stepped outline moved on to the border, its sides halved until they follow it."""
    ends = [np.floor(ring), np.ceil(ring)]
    first, second = (_at(grid, end) for end in ends)
    keeps = allowed(first[:, 0], first[:, 1])
    within = np.where(keeps[:, np.newaxis], first, second)
    without = np.where(keeps[:, np.newaxis], second, first)
    outline = _border(within, without, allowed)
    for _ in range(ROUNDS):
        outline, added = _halved(outline, grid.step, allowed)
        if not added:
            break
    return outline


def _at(grid: Grid, places: Ring) -> Ring:
    corner = np.array([grid.x[0], grid.y[0]])
    return np.asarray(corner + places * grid.step)


def _border(within: Ring, without: Ring, allowed: Allowed) -> Ring:
    """The last allowed points on the way from allowed points to ones that are not."""
    for _ in range(HALVINGS):
        middle = 0.5 * (within + without)
        keeps = allowed(middle[:, 0], middle[:, 1])[:, np.newaxis]
        within = np.where(keeps, middle, within)
        without = np.where(keeps, without, middle)
    return within


def _halved(ring: Ring, step: float, allowed: Allowed) -> tuple[Ring, bool]:
    """The outline with a vertex on the border beside every side that strays from it."""
    after = np.roll(ring, -1, axis=0)
    middle = 0.5 * (ring + after)
    along = after - ring
    length = np.hypot(along[:, 0], along[:, 1])
    with np.errstate(invalid="ignore", divide="ignore"):
        across = np.stack((-along[:, 1], along[:, 0]), axis=1) / length[:, np.newaxis]
    reach = np.minimum(length, step)[:, np.newaxis] * across
    keeps = allowed(middle[:, 0], middle[:, 1])
    towards, found = _way_to_border(middle, reach, keeps, allowed)
    use = np.flatnonzero(found & (length > FLAT))
    if not use.size:
        return ring, False
    at = middle[use]
    far = at + towards[use]
    stays = keeps[use][:, np.newaxis]
    new = _border(np.where(stays, at, far), np.where(stays, far, at), allowed)
    strays = np.hypot(*(new - at).T) > FLAT
    return np.insert(ring, use[strays] + 1, new[strays], axis=0), bool(strays.any())


def _way_to_border(
    middle: Ring, reach: Ring, keeps: NDArray[np.bool_], allowed: Allowed
) -> tuple[Ring, NDArray[np.bool_]]:
    """The way from each middle to the nearer side on which the answer changes."""
    towards = np.zeros_like(middle)
    found = np.zeros(len(middle), dtype=bool)
    for share in (0.05, -0.05, 0.25, -0.25, 1.0, -1.0):
        open_ = np.flatnonzero(~found & np.isfinite(reach[:, 0]))
        if not open_.size:
            break
        far = middle[open_] + share * reach[open_]
        changes = allowed(far[:, 0], far[:, 1]) != keeps[open_]
        towards[open_[changes]] = share * reach[open_[changes]]
        found[open_[changes]] = True
    return towards, found


def _signed_area(ring: Ring) -> float:
    after = np.roll(ring, -1, axis=0)
    return float(0.5 * np.sum(ring[:, 0] * after[:, 1] - after[:, 0] * ring[:, 1]))
