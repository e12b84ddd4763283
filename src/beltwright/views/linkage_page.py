"""The views of a linkage one below another, on a sheet of paper and for the page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from beltwright.build.linkage import Linkage
from beltwright.drawing.extent import bounds
from beltwright.drawing.ink import Group, Ink, Letters, Page
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.path import Point
from beltwright.drawing.shapes import Scene
from beltwright.drawing.sheet import (
    A4,
    TITLE_BLOCK_HEIGHT,
    Frame,
    Paper,
    border,
    drawing_frame,
    title_block,
)
from beltwright.drawing.svg import svg
from beltwright.drawing.view import MM, SCALES, View, scale_text
from beltwright.review.case import Case
from beltwright.review.review import Review
from beltwright.views.linkage_drawing import (
    SEEN_FROM,
    LinkageView,
    linkage_scene,
    linkage_shapes,
    linkage_views,
)
from beltwright.views.plan_state import title_block_of

EDGE = 5.0
"""Room round every view with its lettering [mm]."""

SCREEN_WIDTH = 110.0
"""Its lettering can then be read beside a list and on a phone [mm]."""

_LETTERING = 40.0  # how far round a view its names may stand [mm]
_CAPTION = 3.5


class _Drawn(NamedTuple):
    """A view at a scale: the box round its ink [mm], the machine's origin at 0, 0."""

    seen: LinkageView
    scale: float
    low: Point
    width: float
    height: float


def linkage_pages(
    case: Case, linkage: Linkage, review: Review, made_on: str, paper: Paper = A4
) -> list[Page]:
    """A sheet to scale for every view of a linkage, lying or upright as it fits better."""
    views = linkage_views(case, linkage)
    return [
        _page(case, linkage, seen, review, made_on, paper, f"{number} / {len(views)}")
        for number, seen in enumerate(views, start=1)
    ]


def _page(
    case: Case,
    linkage: Linkage,
    seen: LinkageView,
    review: Review,
    made_on: str,
    paper: Paper,
    sheet: str,
) -> Page:
    papers = paper.turned(), paper
    paper, scale = max(
        ((turned, _scale(case, linkage, seen, _room(turned))) for turned in papers),
        key=lambda laid: laid[1],
    )
    frame = _room(paper)
    title = f"{linkage.name[0].upper()}{linkage.name[1:]}, seen from {SEEN_FROM[seen.axis]}"
    block = title_block_of(review, title, made_on, scale_text(scale), sheet)
    drawn = _drawn(case, linkage, [seen], scale)
    corner = frame.x, frame.y + (frame.height + _height(drawn)) / 2.0
    ink = _laid(case, linkage, drawn, corner, frame.width)
    return Page(
        paper.width,
        paper.height,
        (border(paper), *ink, title_block(block, paper)),
        title,
        f"Lever, rod and arm of the {linkage.name}, neutral thick, ends of the travel thin.",
    )


def linkage_svg(case: Case, linkage: Linkage, width: float = SCREEN_WIDTH) -> str:
    """The views of a linkage for the screen, on paper of a width [mm]."""
    views = linkage_views(case, linkage)
    room = width - 2.0 * EDGE
    wide = max(_machine_width(view) for view in views) * MM
    first = _drawn(case, linkage, views, room / wide)
    lettering = max(each.width for each in first) - room
    drawn = _drawn(case, linkage, views, max(room - lettering, 0.3 * room) / wide)
    height = _height(drawn)
    ink = _laid(case, linkage, drawn, (0.0, height), width)
    title = f"The {linkage.name} in neutral and at both ends of its travel"
    return svg(Page(width, height, tuple(ink), title, title))


def _machine_width(seen: LinkageView) -> float:
    (left, _), (right, _) = Scene(tuple(linkage_shapes(seen)), "").bounds()
    return max(right - left, 1.0e-3)


def _room(paper: Paper) -> Frame:
    frame = drawing_frame(paper)
    return Frame(
        frame.x, frame.y + TITLE_BLOCK_HEIGHT, frame.width, frame.height - TITLE_BLOCK_HEIGHT
    )


def _scale(case: Case, linkage: Linkage, seen: LinkageView, frame: Frame) -> float:
    """The largest recommended scale that puts a view on a frame."""
    scales = [float(scale) for scale in SCALES if scale <= 1]
    for scale in scales:
        drawn = _drawn(case, linkage, [seen], scale)
        if drawn[0].width + 2.0 * EDGE <= frame.width and _height(drawn) <= frame.height:
            return scale
    return scales[-1]


def _drawn(
    case: Case, linkage: Linkage, views: Sequence[LinkageView], scale: float
) -> list[_Drawn]:
    found = []
    for seen in views:
        scene = linkage_scene(case, linkage, seen, View(scale), _LETTERING)
        low, high = bounds([scene.inked(View(scale), FINE_PEN)])
        found.append(_Drawn(seen, scale, low, high[0] - low[0], high[1] - low[1]))
    return found


def _height(drawn: Sequence[_Drawn]) -> float:
    return sum(each.height + 3.0 * EDGE + _CAPTION for each in drawn)


def _laid(
    case: Case, linkage: Linkage, drawn: Sequence[_Drawn], corner: Point, width: float
) -> list[Ink]:
    """The views from the upper left corner of a frame down, each under its caption."""
    ink: list[Ink] = []
    left, top = corner
    for each in drawn:
        caption = f"Seen from {SEEN_FROM[each.seen.axis]}"
        top -= EDGE + _CAPTION
        ink.append(Letters(caption, (left + EDGE, top), _CAPTION))
        top -= EDGE + each.height
        origin = left + (width - each.width) / 2.0 - each.low[0], top - each.low[1]
        view = View(each.scale, origin)
        scene = linkage_scene(case, linkage, each.seen, view, _LETTERING)
        ink.append(Group((scene.inked(view, FINE_PEN),), title=scene.title))
        top -= EDGE
    return ink
