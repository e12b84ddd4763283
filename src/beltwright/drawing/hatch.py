"""Hatching: thin parallel lines that fill an outline, by the even-odd rule."""

from collections.abc import Sequence
from math import cos, pi, sin

import numpy as np
from numpy.typing import NDArray

from beltwright.drawing.path import Path, Point, Straight

HATCH_ANGLE = pi / 4.0
"""Slope of hatching [rad]. Source: ISO 128-3:2020, 45 degrees to the main outlines."""


def hatch(outlines: Sequence[Path], spacing: float, angle: float = HATCH_ANGLE) -> list[Straight]:
    """Lines of a hatched region; an outline inside another is a hole.

    Lines stand at whole multiples of the spacing from the origin, so that the hatching of
    neighbouring pieces runs through.
    """
    starts, ends = _edges(outlines, angle)
    low = np.ceil(min(starts[:, 1].min(), ends[:, 1].min()) / spacing)
    high = np.floor(max(starts[:, 1].max(), ends[:, 1].max()) / spacing)
    lines: list[Straight] = []
    for level in np.arange(low, high + 1.0) * spacing:
        # half-open: an edge counts its lower end only, so a corner is crossed once
        crossed = (starts[:, 1] <= level) != (ends[:, 1] <= level)
        (x0, y0), (x1, y1) = starts[crossed].T, ends[crossed].T
        xs = np.sort(x0 + (level - y0) / (y1 - y0) * (x1 - x0))
        lines += [
            Straight(_turn((a, level), angle), _turn((b, level), angle))
            for a, b in zip(xs[::2].tolist(), xs[1::2].tolist(), strict=True)
        ]
    return lines


def _edges(
    outlines: Sequence[Path], angle: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Starts and ends of all edges, turned so that the hatching lies level."""
    starts, ends = [], []
    for outline in outlines:
        points = np.array([_turn(point, -angle) for point in outline.sampled()])
        starts.append(points)
        ends.append(np.roll(points, -1, axis=0))
    return np.concatenate(starts), np.concatenate(ends)


def _turn(point: Point, angle: float) -> Point:
    x, y = point
    return (
        float(x * cos(angle) - y * sin(angle)),
        float(x * sin(angle) + y * cos(angle)),
    )
