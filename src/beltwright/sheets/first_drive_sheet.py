"""The first drive on paper: the steps in order, what to expect at each, boxes for what was read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from beltwright.drawing.ink import Colour, Ink, Page, Stroke
from beltwright.drawing.line_kinds import FINE_PEN, LineKind
from beltwright.drawing.path import rectangle
from beltwright.drawing.sheet import A4, Paper
from beltwright.drawing.verdict_mark import verdict_mark
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import Review
from beltwright.sheets.flow import (
    BODY,
    SMALL,
    Block,
    Cell,
    heading,
    paragraph,
    row,
    rule,
    space,
)
from beltwright.sheets.paper_sheet import text_frame, text_sheets
from beltwright.sheets.review_sheet import finding_blocks
from beltwright.views.first_drive import FIRST_DRIVE_CAUTION, STEPS, Step
from beltwright.views.layout.balloons import numbered
from beltwright.views.plan_state import MARKS

TITLE = "First drive"
PURPOSE = (
    "For the first drive of the finished machine, step by step. Write down what it does before you "
    "go on to the next step. Where it does something else than expected, stop, and find out why: "
    "the readings go into the build file, which then ranks the causes."
)
TOOLS = (
    "Blocks and chocks, chalk, tape, a watch, a rev counter, a fish scale, a thermometer, two "
    "marks 20 m or 60 ft apart, a phone's level; helmet, boots, gloves, a fire extinguisher, a "
    "second person at a distance."
)

_MARK_ROOM = 5.0
_BOX_HEIGHT = 7.0
_SHARES = (0.36, 0.38, 0.26)
"""Widths of what is read, what is expected, and the box to write in."""


def first_drive_pages(review: Review, made_on: str, paper: Paper = A4) -> list[Page]:
    """The sheets to take along."""
    width = text_frame(paper).width
    blocks = [
        heading(f"First drive of {review.build.name}"),
        paragraph(PURPOSE, width),
        space(1.0),
        paragraph(f"Tools: {TOOLS}", width),
        space(1.0),
        paragraph(f"Caution: {FIRST_DRIVE_CAUTION}", width, bold=True),
        *_blocking(review, width),
        *(
            block
            for number, step in enumerate(STEPS, 1)
            for block in _step(review, number, step, width)
        ),
        *_end(width),
    ]
    return text_sheets(review, TITLE, made_on, blocks, paper)


def _blocking(review: Review, width: float) -> Iterator[Block]:
    """What still stands in the way of driving it."""
    found = [(n, finding) for n, finding in numbered(review) if finding.verdict is Verdict.STOP]
    if not found:
        yield space(1.5)
        yield paragraph("No finding says stop. Marginal ones stand at their steps.", width)
        return
    yield heading("Do not drive yet")
    yield rule(width)
    yield from finding_blocks(found, width)


def _step(review: Review, number: int, step: Step, width: float) -> Iterator[Block]:
    yield heading(f"{number}. {step.title}")
    yield paragraph(step.what, width, with_next=True)
    yield paragraph(f"Caution: {step.caution}", width, bold=True, with_next=True)
    yield paragraph(step.look, width, with_next=True)
    yield _named(width)
    rows = [
        *(
            _expected(finding, width, boxed=step.reads(finding.id))
            for finding in review.findings
            if step.speaks(finding.id)
        ),
        *(_noted(note, width) for note in step.notes),
    ]
    yield from (replace(each, with_next=each is not rows[-1]) for each in rows)
    yield space(1.0)


def _noted(note: str, width: float) -> Block:
    """Something that the plan expects nothing of, and a box beside it."""
    return _boxed([Cell(note, _SHARES[0] * width), Cell("", _SHARES[1] * width)], width)


def _named(width: float) -> Block:
    """The names of the columns."""
    labels = ("What", "Expected", "Read")
    cells = [
        Cell(text, share * width, colour=Colour.QUIET)
        for text, share in zip(labels, _SHARES, strict=True)
    ]
    return row(cells, SMALL, with_next=True)


def _expected(finding: Finding, width: float, *, boxed: bool) -> Block:
    """What the plan expects, its range, and a box beside it for what is read."""
    ranged = f" ({finding.shown_range})" if finding.shown_range else ""
    cells = [
        Cell(finding.title, _SHARES[0] * width - _MARK_ROOM),
        Cell(f"{finding.shown}{ranged}", _SHARES[1] * width),
    ]
    content = _boxed(cells, width - _MARK_ROOM) if boxed else row(cells)

    def draw(x: float, top: float) -> Iterable[Ink]:
        centre = (x + BODY / 2.0, top - 1.05 * BODY)
        yield verdict_mark(MARKS[finding.verdict], centre, 0.55 * BODY, FINE_PEN)
        yield from content.draw(x + _MARK_ROOM, top)

    return Block(content.height, draw)


def _boxed(cells: list[Cell], width: float) -> Block:
    """A row with an empty box at its end."""
    content = row(cells)
    left = sum(cell.width for cell in cells)
    height = max(content.height, _BOX_HEIGHT)

    def draw(x: float, top: float) -> Iterable[Ink]:
        yield from content.draw(x, top)
        box = rectangle((x + left, top - _BOX_HEIGHT), width - left, _BOX_HEIGHT)
        yield Stroke(box, LineKind.THIN, Colour.QUIET)

    return Block(height + 1.0, draw)


def _end(width: float) -> Iterator[Block]:
    yield heading("Seen, heard or smelled")
    yield paragraph(
        "Squeals, smells, oil, a belt that jumped off, a clutch that creeps, a front that lifts: "
        "write down in which gear, on which ground, how laden, and stop there.",
        width,
        with_next=True,
    )
    for _ in range(3):
        yield _boxed([], width)
