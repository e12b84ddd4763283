"""Where lettering may stand: the place among several that covers least of what is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from beltwright.drawing.extent import Box, lettering_box, paths
from beltwright.drawing.ink import Group, Ink, Letters
from beltwright.drawing.line_kinds import Pen
from beltwright.drawing.path import Arc, Straight
from beltwright.drawing.shapes import Shape
from beltwright.drawing.view import View

_STEP = 1.5  # distance of the points that stand for a line [mm]
_MARGIN = 0.6  # room kept round lettering [mm]
_OFF_THE_SHEET = 1000


class Occupied:
    """What is drawn already, as points along its lines [mm], inside the room that there is."""

    def __init__(self, room: Box, pieces: Iterable[Ink] = ()) -> None:
        self.room = room
        self._points: NDArray[np.float64] = np.empty((2, 0))
        self._unseen: list[Ink] = [*pieces]

    def add(self, pieces: Iterable[Ink]) -> None:
        """Take up the place of more ink."""
        self._unseen += pieces

    def covered(self, box: Box) -> int:
        """How much of what is drawn lies in a box; far more where the box leaves the room."""
        (x0, y0), (x1, y1) = box
        x, y = self._seen()
        inside = (x >= x0) & (x <= x1) & (y >= y0) & (y <= y1)
        count = int(np.count_nonzero(inside))
        (left, low), (right, high) = self.room
        leaves = x0 < left or y0 < low or x1 > right or y1 > high
        return count + (_OFF_THE_SHEET if leaves else 0)

    def _seen(self) -> NDArray[np.float64]:
        """The points of all ink, shape (2, points); worked out once somebody asks."""
        if self._unseen:
            self._points = np.concatenate([self._points, *_along(self._unseen)], axis=1)
            self._unseen = []
        return self._points


def freest(candidates: Sequence[Shape], view: View, pen: Pen, occupied: Occupied) -> Shape:
    """The shape whose lettering covers least, the first of equals; its place is then taken."""
    best = None
    for shape in candidates:
        ink = shape.inked(view, pen)
        covered = sum(occupied.covered(_with_margin(box)) for box in _lettered(ink))
        if best is None or covered < best[0]:
            best = covered, shape, ink
        if covered == 0:
            break
    assert best is not None, "there is a place to choose from"
    occupied.add([best[2]])
    return best[1]


def _lettered(group: Group) -> list[Box]:
    """The boxes round the lettering of a shape."""
    boxes: list[Box] = []
    for piece in group.pieces:
        if isinstance(piece, Letters):
            boxes.append(lettering_box(piece))
        elif isinstance(piece, Group):
            boxes += _lettered(piece)
    return boxes


def _with_margin(box: Box) -> Box:
    (x0, y0), (x1, y1) = box
    return (x0 - _MARGIN, y0 - _MARGIN), (x1 + _MARGIN, y1 + _MARGIN)


def _along(pieces: Iterable[Ink]) -> list[NDArray[np.float64]]:
    """Points along the lines and along the arcs of ink."""
    every = [piece for path in paths(pieces) for piece in path.pieces]
    arcs = [piece for piece in every if isinstance(piece, Arc)]
    lines = [(*piece.start, *piece.end) for piece in every if isinstance(piece, Straight)]
    return [_along_lines(lines), _along_arcs(arcs)]


def _along_lines(lines: Sequence[tuple[float, ...]]) -> NDArray[np.float64]:
    """Points on lines from x, y to x, y, no further apart than a step, shape (2, points)."""
    x0, y0, x1, y1 = np.reshape(lines, (-1, 4)).T
    line, share = _steps(np.hypot(x1 - x0, y1 - y0))
    x, y = x0[line] + share * (x1 - x0)[line], y0[line] + share * (y1 - y0)[line]
    return np.stack([x, y])


def _along_arcs(arcs: Sequence[Arc]) -> NDArray[np.float64]:
    """Points on arcs, no further apart than a step, shape (2, points)."""
    told = [(*arc.centre, arc.radius, arc.begin, arc.sweep) for arc in arcs]
    x, y, radius, begin, sweep = np.reshape(told, (-1, 5)).T
    arc, share = _steps(np.abs(radius * sweep))
    angle = begin[arc] + share * sweep[arc]
    x, y = x[arc] + radius[arc] * np.cos(angle), y[arc] + radius[arc] * np.sin(angle)
    return np.stack([x, y])


def _steps(lengths: NDArray[np.float64]) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """For pieces of some lengths: of which piece each point is, and how far along it."""
    counts = np.maximum(1, np.ceil(lengths / _STEP)).astype(np.intp)
    piece = np.repeat(np.arange(len(lengths)), counts)
    first = np.repeat(np.cumsum(counts) - counts, counts)
    return piece, (np.arange(len(piece)) - first) / counts[piece]
