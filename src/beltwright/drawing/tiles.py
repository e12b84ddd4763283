"""How sheets of paper lie over a drawing larger than one of them, at true size.

Neighbouring sheets overlap by the same amount everywhere; sheets are named by column and row.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from beltwright.drawing.path import Point
from beltwright.drawing.sheet import A4, Frame, Paper

UNPRINTABLE = 8.0
"""Edge of the sheet that a printer may leave blank [mm] (common practice, no source)."""

OVERLAP = 12.0
"""How far neighbouring sheets overlap [mm]."""

FOOT = 22.0
"""Height of the strip for name, map and rulers [mm]."""

_PAD = 3.0  # blank kept round the drawing


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet's part of the drawing."""

    column: int
    row: int
    """Counted from the top."""
    window: Frame
    """The part of the drawing that the sheet shows [mm of the drawing]."""

    @property
    def name(self) -> str:
        """Columns A, B, … and rows 1, 2, …"""
        return f"{_column_name(self.column)}{self.row + 1}"


@dataclass(frozen=True, slots=True)
class Tiling:
    """How the sheets lie over the drawing."""

    paper: Paper
    columns: int
    rows: int
    start: Point
    """Lower left corner of what the sheets cover [mm of the drawing]."""

    @property
    def tiles(self) -> list[Tile]:
        """All sheets, row by row from the top."""
        return [
            self.tile(column, row) for row in range(self.rows) for column in range(self.columns)
        ]

    def tile(self, column: int, row: int) -> Tile:
        """The sheet of a column and a row."""
        width, height = _window_size(self.paper)
        x = self.start[0] + column * (width - OVERLAP)
        y = self.start[1] + (self.rows - 1 - row) * (height - OVERLAP)
        return Tile(column, row, Frame(x, y, width, height))


def tiling(box: tuple[Point, Point], paper: Paper = A4) -> Tiling:
    """The fewest sheets, upright or on their side, that cover a box of the drawing [mm]."""
    return min(
        (_tiling(box, sheet) for sheet in (paper, paper.turned())),
        key=lambda laid: laid.columns * laid.rows,
    )


def _tiling(box: tuple[Point, Point], paper: Paper) -> Tiling:
    (x0, y0), (x1, y1) = box
    width, height = _window_size(paper)
    columns = _count(x1 - x0 + 2.0 * _PAD, width)
    rows = _count(y1 - y0 + 2.0 * _PAD, height)
    covered = (columns * (width - OVERLAP) + OVERLAP, rows * (height - OVERLAP) + OVERLAP)
    return Tiling(
        paper, columns, rows, ((x0 + x1 - covered[0]) / 2.0, (y0 + y1 - covered[1]) / 2.0)
    )


def _count(length: float, window: float) -> int:
    return max(1, ceil((length - OVERLAP) / (window - OVERLAP) - 1e-9))


def _window_size(paper: Paper) -> tuple[float, float]:
    return paper.width - 2.0 * UNPRINTABLE, paper.height - 2.0 * UNPRINTABLE - FOOT


def _column_name(column: int) -> str:
    """A to Z, then AA, AB, …"""
    name = ""
    rest = column + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        name = chr(ord("A") + letter) + name
    return name
