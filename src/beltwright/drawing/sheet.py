"""Sheets of paper, their border and their title block.

Source: ISO 216 and ASME Y14.1 (sizes), ISO 5457:1999 (border 20 mm on the filing side and 10 mm
elsewhere, centring marks, fields of 50 mm), ISO 7200:2004 (title block up to 180 mm wide, in the
lower right corner); the last two from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from beltwright.drawing.ink import Area, Colour, Group, Ink, Letters, Stroke
from beltwright.drawing.lettering import shortened, text_width
from beltwright.drawing.line_kinds import FINE_PEN, LineKind, Pen
from beltwright.drawing.path import Path, Point, Straight, rectangle
from beltwright.drawing.verdict_mark import Verdict, verdict_mark


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, upright [mm]."""

    name: str
    width: float
    height: float

    def turned(self) -> Paper:
        """The same sheet lying on its side."""
        return Paper(self.name, self.height, self.width)


A4 = Paper("A4", 210.0, 297.0)
A3 = Paper("A3", 297.0, 420.0)
LETTER = Paper("Letter", 215.9, 279.4)
PAPERS = {paper.name: paper for paper in (A4, A3, LETTER)}

FILING_MARGIN = 20.0
MARGIN = 10.0
_FIELD = 50.0
_LETTER_HEIGHT = 2.5


@dataclass(frozen=True, slots=True)
class Frame:
    """A rectangle on the sheet [mm]."""

    x: float
    y: float
    width: float
    height: float


def drawing_frame(paper: Paper) -> Frame:
    """The frame inside the border."""
    return Frame(
        FILING_MARGIN,
        MARGIN,
        paper.width - FILING_MARGIN - MARGIN,
        paper.height - 2.0 * MARGIN,
    )


def border(paper: Paper, pen: Pen = FINE_PEN) -> Group:
    """Frame, centring marks, and letters and figures that name the fields of the sheet."""
    frame = drawing_frame(paper)
    outline = rectangle((frame.x, frame.y), frame.width, frame.height)
    return Group(
        (
            Stroke(outline, LineKind.VISIBLE, pen=pen),
            *_centring_marks(paper, frame, pen),
            *_field_names(paper, frame, pen),
        )
    )


def _centring_marks(paper: Paper, frame: Frame, pen: Pen) -> Iterator[Ink]:
    middle_x, middle_y, reach = paper.width / 2.0, paper.height / 2.0, MARGIN / 2.0
    right, top = frame.x + frame.width, frame.y + frame.height
    for start, end in (
        ((frame.x - reach, middle_y), (frame.x + reach, middle_y)),
        ((right + reach, middle_y), (right - reach, middle_y)),
        ((middle_x, frame.y - reach), (middle_x, frame.y + reach)),
        ((middle_x, top + reach), (middle_x, top - reach)),
    ):
        yield Stroke(Path((Straight(start, end),)), LineKind.VISIBLE, pen=pen)


def _field_names(paper: Paper, frame: Frame, pen: Pen) -> Iterator[Ink]:
    """Figures along the top and letters down the right, fields counted from the middle."""
    right, top = frame.x + frame.width, frame.y + frame.height
    columns = _fields(frame.x, right, paper.width / 2.0)
    for number, (low, high) in enumerate(columns, start=1):
        at = ((low + high) / 2.0, top + (MARGIN / 2.0 - _LETTER_HEIGHT) / 2.0)
        yield Letters(str(number), at, _LETTER_HEIGHT, "middle", colour=Colour.QUIET)
        if number > 1:
            yield _tick((low, top), (low, top + MARGIN / 2.0), pen)
    rows = _fields(frame.y, top, paper.height / 2.0)
    for number, (low, high) in enumerate(reversed(rows)):
        at = (right + MARGIN / 4.0, (low + high - _LETTER_HEIGHT) / 2.0)
        yield Letters(_FIELD_LETTERS[number], at, _LETTER_HEIGHT, "middle", colour=Colour.QUIET)
        if number > 0:
            yield _tick((right, high), (right + MARGIN / 2.0, high), pen)


_FIELD_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # no I and no O


def _fields(low: float, high: float, middle: float) -> list[tuple[float, float]]:
    edges = [middle]
    while edges[0] - _FIELD > low:
        edges.insert(0, edges[0] - _FIELD)
    while edges[-1] + _FIELD < high:
        edges.append(edges[-1] + _FIELD)
    edges[0], edges[-1] = low, high
    return list(pairwise(edges))


def _tick(start: Point, end: Point, pen: Pen) -> Stroke:
    return Stroke(Path((Straight(start, end),)), LineKind.THIN, pen=pen)


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What the title block of a sheet says."""

    title: str
    build: str
    date: str
    scale: str
    units: str
    sheet: str
    money: str
    state: tuple[tuple[Verdict, int], ...]
    """How many findings have each verdict, worst first."""


TITLE_BLOCK_WIDTH = 180.0
_ROW = 8.5
_TITLE_ROW = 11.0
TITLE_BLOCK_HEIGHT = _TITLE_ROW + 2.0 * _ROW
_LABEL = 1.8
_VALUE = 2.5
_TITLE = 3.5
_PAD = 1.6


def title_block(block: TitleBlock, paper: Paper, pen: Pen = FINE_PEN) -> Group:
    """The title block in the lower right corner of the frame."""
    frame = drawing_frame(paper)
    width = min(TITLE_BLOCK_WIDTH, frame.width)
    corner = (frame.x + frame.width - width, frame.y)
    outline = rectangle(corner, width, TITLE_BLOCK_HEIGHT)
    return Group(
        (
            Area((outline,), Colour.PAPER),
            *_cells(block, corner, width, pen),
            Stroke(outline, LineKind.VISIBLE, pen=pen),
        ),
        title=f"{block.title}, {block.build}",
    )


def _cells(block: TitleBlock, corner: Point, width: float, pen: Pen) -> Iterator[Ink]:
    """Three rows: title and sheet; build, date, scale and units; plan and money."""
    rows: tuple[tuple[float, tuple[tuple[str, str, float], ...]], ...] = (
        (_ROW, (("State of the plan", "", 0.64), ("Money", block.money, 0.36))),
        (
            _ROW,
            (
                ("Build", block.build, 0.46),
                ("Date", block.date, 0.18),
                ("Scale", block.scale, 0.18),
                ("Units", block.units, 0.18),
            ),
        ),
        (_TITLE_ROW, (("Title", block.title, 0.82), ("Sheet", block.sheet, 0.18))),
    )
    x, low = corner
    for height, cells in rows:
        left = x
        for label, value, share in cells:
            cell = Frame(left, low, share * width, height)
            yield from _cell(label, value, cell, pen)
            left += cell.width
        low += height
    yield from _state_line(block.state, (x + _PAD, corner[1] + _PAD), pen)


def _cell(label: str, value: str, cell: Frame, pen: Pen) -> Iterator[Ink]:
    """The name of a field, small, and what stands in it; the title is larger."""
    is_title = label == "Title"
    height = _TITLE if is_title else _VALUE
    yield Stroke(rectangle((cell.x, cell.y), cell.width, cell.height), LineKind.THIN, pen=pen)
    top = cell.y + cell.height - 1.2 - _LABEL
    yield Letters(label, (cell.x + _PAD, top), _LABEL, colour=Colour.QUIET)
    if value:
        text = shortened(value, cell.width - 2.0 * _PAD, height, is_title)
        yield Letters(text, (cell.x + _PAD, cell.y + _PAD), height, bold=is_title)


def _state_line(state: tuple[tuple[Verdict, int], ...], at: Point, pen: Pen) -> Iterator[Ink]:
    """The mark, number and word of each verdict that occurs."""
    x, y = at
    radius = _VALUE / 2.0
    for verdict, count in state:
        if not count:
            continue
        yield verdict_mark(verdict, (x + radius, y + radius), radius * 0.9, pen)
        text = f"{count} {verdict}"
        yield Letters(text, (x + 2.0 * radius + 1.2, y), _VALUE)
        x += 2.0 * radius + 1.2 + text_width(text, _VALUE) + 4.0
