"""The belt layout on paper: the drive to scale with its findings, a sheet for each plane."""

from __future__ import annotations

from beltwright.drawing.extent import Box as Extent
from beltwright.drawing.free_place import Occupied
from beltwright.drawing.ink import Group, Page
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.sheet import (
    A4,
    TITLE_BLOCK_HEIGHT,
    Paper,
    border,
    drawing_frame,
    title_block,
)
from beltwright.drawing.view import View, fit, scale_text
from beltwright.options.idler_place import IdlerMap
from beltwright.review.case import Case
from beltwright.review.review import Review
from beltwright.views.layout.arrangement import (
    TITLE,
    Box,
    Room,
    bounds,
    description,
    names,
    room_for,
    unnamed,
)
from beltwright.views.layout.drawn_layout import DrawnLayout
from beltwright.views.layout.gathering import drawn_layouts
from beltwright.views.layout.idler_map import map_beside
from beltwright.views.plan_state import title_block_of


def belt_layout_pages(
    case: Case,
    review: Review,
    made_on: str,
    paper: Paper = A4,
    idler: IdlerMap | None = None,
) -> list[Page]:
    """A sheet for each plane in which belts run, lying or upright as the drive fits better.

    The map of an idler's places is laid underneath where it is handed in.
    """
    layouts = drawn_layouts(case)
    count = len(layouts)
    return [
        _page(layout, review, made_on, paper, f"{number} / {count}", idler)
        for number, layout in enumerate(layouts, start=1)
    ]


def _page(
    layout: DrawnLayout,
    review: Review,
    made_on: str,
    paper: Paper,
    sheet: str,
    idler: IdlerMap | None,
) -> Page:
    room, box = room_for(layout, dimensioned=True), bounds(layout)
    paper, view = max(
        ((turned, _view(box, turned, room)) for turned in (paper.turned(), paper)),
        key=lambda laid: laid[1].scale,
    )
    frame = drawing_frame(paper)
    inside: Extent = (
        (frame.x, frame.y + TITLE_BLOCK_HEIGHT),
        (frame.x + frame.width, frame.y + frame.height),
    )
    underneath = map_beside(idler, [wheel.name for wheel in layout.wheels], review.units)
    drive = [shape.inked(view, FINE_PEN) for shape in unnamed(layout, review, box, view, room)]
    lettering, _ = names(layout, view, lambda: Occupied(inside, drive))
    drawn = (
        *(shape.inked(view, FINE_PEN) for shape in underneath),
        *drive,
        lettering.inked(view, FINE_PEN),
    )
    title, said = f"{TITLE}, seen from {layout.seen_from}", description(layout)
    block = title_block_of(review, title, made_on, scale_text(view.scale), sheet)
    ink = (border(paper), Group(drawn, title=said), title_block(block, paper))
    return Page(paper.width, paper.height, ink, title, said)


def _view(box: Box, paper: Paper, room: Room) -> View:
    frame = drawing_frame(paper)
    return fit(
        box,
        (frame.x + room.left, frame.y + TITLE_BLOCK_HEIGHT + room.bottom),
        frame.width - room.left - room.right,
        frame.height - TITLE_BLOCK_HEIGHT - room.bottom - room.top,
    )
