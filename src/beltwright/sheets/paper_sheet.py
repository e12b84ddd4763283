"""A sheet of paper with one job: border, title block, ruler, and what is set inside."""

from __future__ import annotations

from collections.abc import Sequence

from beltwright.drawing.ink import Colour, Ink, Letters, Page
from beltwright.drawing.rulers import RULER_HEIGHT, inch_ruler, metric_ruler
from beltwright.drawing.sheet import (
    TITLE_BLOCK_HEIGHT,
    Frame,
    Paper,
    border,
    drawing_frame,
    title_block,
)
from beltwright.quantity import Kind
from beltwright.review.review import Review
from beltwright.sheets.flow import SMALL, Block, flow
from beltwright.views.plan_state import NO_SCALE, title_block_of

INSET = 4.0
"""Room between the frame and what stands in it [mm]."""

_RULER_ROOM = RULER_HEIGHT + 4.0


def text_frame(paper: Paper) -> Frame:
    """Where text may stand on a sheet with title block and ruler."""
    frame = drawing_frame(paper)
    low = TITLE_BLOCK_HEIGHT + _RULER_ROOM
    return Frame(
        frame.x + INSET,
        frame.y + low,
        frame.width - 2.0 * INSET,
        frame.height - low - INSET,
    )


def text_sheets(
    review: Review, title: str, made_on: str, blocks: Sequence[Block], paper: Paper
) -> list[Page]:
    """Blocks over as many sheets as they need, each with border, title block and ruler."""
    sheets = flow(blocks, text_frame(paper))
    return [
        Page(
            paper.width,
            paper.height,
            (
                border(paper),
                *ink,
                *_ruler(review, paper),
                title_block(
                    title_block_of(review, title, made_on, NO_SCALE, f"{number} / {len(sheets)}"),
                    paper,
                ),
            ),
            f"{title}, sheet {number}",
            f"{title} of the build {review.build.name}",
        )
        for number, ink in enumerate(sheets, start=1)
    ]


def _ruler(review: Review, paper: Paper) -> list[Ink]:
    """A ruler in the builder's units that shows whether the sheet came out at its true size."""
    frame = drawing_frame(paper)
    at = (frame.x + INSET, frame.y + TITLE_BLOCK_HEIGHT + 2.0)
    inches = review.units[Kind.LENGTH].symbol in ("in", "ft")
    note = "True when printed at actual size."
    return [
        inch_ruler(at) if inches else metric_ruler(at),
        Letters(note, (at[0] + 108.0, at[1] + 1.0), SMALL, colour=Colour.QUIET),
    ]
