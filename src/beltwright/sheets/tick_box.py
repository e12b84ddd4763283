"""Rows that begin with a box to tick, and blanks to write in."""

from collections.abc import Iterable, Sequence

from beltwright.drawing.ink import Ink, Stroke
from beltwright.drawing.line_kinds import LineKind
from beltwright.drawing.path import Path, Straight, rectangle
from beltwright.sheets.flow import BODY, Block, Cell, row

BOX_ROOM = 7.0
"""Room for the box before the text of its row [mm]."""

BLANK = "………………"
"""Where a reading is written by hand."""

_BOX = 3.2  # side of the box [mm]


def ticked(
    cells: Sequence[Cell], done: bool = False, with_next: bool = False, height: float = BODY
) -> Block:
    """A row with an empty box before it, or a crossed one where it is done."""
    content = row(cells, height)

    def draw(x: float, top: float) -> Iterable[Ink]:
        low = top - _BOX - 0.5
        yield Stroke(rectangle((x, low), _BOX, _BOX), LineKind.THIN)
        if done:
            for start, end in (((0.0, 0.0), (_BOX, _BOX)), ((0.0, _BOX), (_BOX, 0.0))):
                line = Straight((x + start[0], low + start[1]), (x + end[0], low + end[1]))
                yield Stroke(Path((line,)), LineKind.VISIBLE)
        yield from content.draw(x + BOX_ROOM, top)

    return Block(max(content.height, _BOX + 1.0) + 0.8, draw, with_next)
