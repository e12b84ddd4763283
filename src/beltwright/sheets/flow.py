"""Blocks of text and pictures set one below another over as many sheets as they need [mm]."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from beltwright.drawing.ink import Colour, Ink, Letters, Picture, Stroke
from beltwright.drawing.lettering import LINE_PITCH, wrap
from beltwright.drawing.line_kinds import LineKind
from beltwright.drawing.path import Path, Straight
from beltwright.drawing.sheet import Frame

BODY = 2.3
"""Height of capitals in running text."""

SMALL = 1.9
HEADING = 3.5

FEW_LINES = 25.0
"""Less than this on a sheet is easily overlooked, or read as belonging to nothing [mm]."""

Draw = Callable[[float, float], Iterable[Ink]]
"""Draws a block from its left edge and its top."""


@dataclass(frozen=True, slots=True)
class Block:
    """Something that stays in one piece on one sheet."""

    height: float
    draw: Draw
    with_next: bool = False
    """Whether it may not be the last on its sheet."""
    begins_part: bool = False
    """Whether a part of the text begins with it."""


Group = Sequence[Block]
"""Blocks that stay together."""


def flow(blocks: Sequence[Block], frame: Frame) -> list[tuple[Ink, ...]]:
    """The ink of each sheet, blocks from the top of the frame down.

    A block higher than the frame runs over its lower edge, so that nothing is left out.
    """
    sheets = _whole_parts(_filled(_groups(blocks), frame.height), frame.height)
    return [tuple(_drawn(groups, frame)) for groups in sheets]


def _drawn(groups: Sequence[Group], frame: Frame) -> Iterator[Ink]:
    top = frame.y + frame.height
    for group in groups:
        for block in group:
            yield from block.draw(frame.x, top)
            top -= block.height


def _filled(groups: Sequence[Group], height: float) -> list[list[Group]]:
    """Each sheet with as much as goes on it."""
    sheets: list[list[Group]] = [[]]
    for group in groups:
        if sheets[-1] and _height([*sheets[-1], group]) > height:
            sheets.append([])
        sheets[-1].append(group)
    return sheets


def _whole_parts(sheets: list[list[Group]], height: float) -> list[list[Group]]:
    """A last sheet with a few lines alone gets the whole part to which they belong."""
    if len(sheets) < 2 or _height(sheets[-1]) > FEW_LINES:
        return sheets
    *others, full, last = sheets
    begin = max((i for i, group in enumerate(full) if group[0].begins_part), default=0)
    if begin == 0 or _height([*full[begin:], *last]) > height:
        return sheets
    return [*others, full[:begin], [*full[begin:], *last]]


def _height(groups: Sequence[Group]) -> float:
    return sum(block.height for group in groups for block in group)


def _groups(blocks: Sequence[Block]) -> list[Group]:
    groups: list[list[Block]] = [[]]
    for block in blocks:
        groups[-1].append(block)
        if not block.with_next:
            groups.append([])
    return [group for group in groups if group]


def space(height: float) -> Block:
    """Empty room."""
    return Block(height, lambda _x, _top: ())


def heading(text: str) -> Block:
    """The heading of a part of the sheet, on a thin line."""

    def draw(x: float, top: float) -> Iterable[Ink]:
        yield Letters(text, (x, top - 4.0 - HEADING), HEADING, bold=True)

    return Block(4.0 + HEADING + 2.5, draw, with_next=True, begins_part=True)


def rule(width: float) -> Block:
    """A thin line across."""

    def draw(x: float, top: float) -> Iterable[Ink]:
        line = Path((Straight((x, top - 0.5), (x + width, top - 0.5)),))
        yield Stroke(line, LineKind.THIN, Colour.QUIET)

    return Block(1.5, draw, with_next=True)


def paragraph(
    text: str,
    width: float,
    *,
    height: float = BODY,
    bold: bool = False,
    colour: Colour = Colour.INK,
    indent: float = 0.0,
    with_next: bool = False,
) -> Block:
    """Running text."""
    lines = wrap(text, width - indent, height, bold)
    pitch = LINE_PITCH * height

    def draw(x: float, top: float) -> Iterable[Ink]:
        for number, line in enumerate(lines, start=1):
            at = (x + indent, top - number * pitch + (pitch - height) / 2.0)
            yield Letters(line, at, height, bold=bold, colour=colour)

    return Block(len(lines) * pitch, draw, with_next)


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of a row: its text and its width."""

    text: str
    width: float
    bold: bool = False
    colour: Colour = Colour.INK
    right: bool = False
    """Figures stand at the right of their cell."""


CELL_GAP = 2.0
"""Room between two cells of a row."""


def row(cells: Sequence[Cell], height: float = BODY, with_next: bool = False) -> Block:
    """Cells beside one another, each as many lines as it needs."""
    wrapped = [wrap(cell.text, cell.width - CELL_GAP, height, cell.bold) for cell in cells]
    pitch = LINE_PITCH * height
    count = max(map(len, wrapped), default=0)

    def draw(x: float, top: float) -> Iterable[Ink]:
        left = x
        for cell, lines in zip(cells, wrapped, strict=True):
            for number, line in enumerate(lines, start=1):
                edge = left + cell.width - CELL_GAP if cell.right else left
                yield Letters(
                    line,
                    (edge, top - number * pitch + (pitch - height) / 2.0),
                    height,
                    "end" if cell.right else "start",
                    bold=cell.bold,
                    colour=cell.colour,
                )
            left += cell.width

    return Block(count * pitch, draw, with_next)


def picture(placed: Picture) -> Block:
    """A picture, wherever its own corner was."""

    def draw(x: float, top: float) -> Iterable[Ink]:
        yield Picture(
            placed.png, (x, top - placed.height), placed.width, placed.height, placed.title
        )

    return Block(placed.height + 4.0, draw)
