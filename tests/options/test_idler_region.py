"""The outline of a region whose border is known."""

import numpy as np
import pytest
from numpy.typing import NDArray

from beltwright.options.idler_region import Area, grid_over, traced
from beltwright.physics.arrays import Array

GRID = grid_over((-0.1, -0.1), (0.1, 0.1), 0.004)


def _area(area: Area) -> float:
    from shapely import Polygon

    return float(Polygon(area.outline, area.holes).area)


def test_a_disc() -> None:
    def disc(x: Array, y: Array) -> NDArray[np.bool_]:
        return np.hypot(x - 0.003, y) <= 0.06

    (found,) = traced(GRID, disc)
    assert not found.holes
    # sides that stray less than FLAT (0.02 mm) from the circle: less than that much off its radius
    assert np.hypot(found.outline[:, 0] - 0.003, found.outline[:, 1]) == pytest.approx(
        0.06, abs=1e-6
    )
    assert _area(found) == pytest.approx(np.pi * 0.06**2, rel=1e-3)


def test_a_ring_and_an_island_in_it() -> None:
    def ring(x: Array, y: Array) -> NDArray[np.bool_]:
        far = np.hypot(x, y)
        return ((far <= 0.08) & (far >= 0.05)) | (far <= 0.02)

    ring_found, island = traced(GRID, ring)
    assert len(ring_found.holes) == 1
    assert _area(ring_found) == pytest.approx(np.pi * (0.08**2 - 0.05**2), rel=1e-3)
    assert _area(island) == pytest.approx(np.pi * 0.02**2, rel=2e-3)


def test_corners_are_found_to_less_than_a_tenth_of_a_millimetre() -> None:
    def square(x: Array, y: Array) -> NDArray[np.bool_]:
        return (np.abs(x - 0.0011) <= 0.05) & (np.abs(y) <= 0.0333)

    (found,) = traced(GRID, square)
    corners = np.array([(0.0511, 0.0333), (-0.0489, 0.0333), (-0.0489, -0.0333), (0.0511, -0.0333)])
    for corner in corners:
        assert np.hypot(*(found.outline - corner).T).min() < 1e-4


def test_nothing_allowed_is_no_region() -> None:
    assert traced(GRID, lambda x, _: np.zeros(len(x), dtype=bool)) == ()


def test_all_allowed_ends_at_the_rim_of_the_grid() -> None:
    (found,) = traced(GRID, lambda x, _: np.abs(x) <= 1.0)
    low, high = found.outline.min(axis=0), found.outline.max(axis=0)
    assert np.all(low < -0.1)
    assert np.all(high > 0.1)
