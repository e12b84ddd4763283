"""The belt layout: the drive to scale with its findings, for the screen and for paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from beltwright.build.model import Build
from beltwright.drawing.balloons import balloon_pitch
from beltwright.drawing.extent import Box as Extent
from beltwright.drawing.free_place import Occupied
from beltwright.drawing.ink import Group, Page
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.path import Point
from beltwright.drawing.shapes import Scene, Shape, Together
from beltwright.drawing.sheet import (
    A4,
    TITLE_BLOCK_HEIGHT,
    Paper,
    border,
    drawing_frame,
    title_block,
)
from beltwright.drawing.svg import svg
from beltwright.drawing.view import MM, View, fit, scale_text
from beltwright.options.idler_place import IdlerMap
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import Review
from beltwright.views.layout.balloons import finding_balloons, numbered
from beltwright.views.layout.dimensions import (
    FIRST,
    NEXT,
    centre_dimensions,
    fixed_centres,
)
from beltwright.views.layout.drawn_layout import DrawnLayout, DrawnPart, DrawnPlate
from beltwright.views.layout.gathering import drawn_layout, drawn_layouts
from beltwright.views.layout.idler_map import map_beside
from beltwright.views.layout.names import Places, layout_names
from beltwright.views.layout.planes import LayoutView, layout_views, view_named
from beltwright.views.layout.shapes import layout_shapes, part_handles
from beltwright.views.plan_state import title_block_of

TITLE = "Belt layout"
SCREEN_WIDTH = 280.0
"""Width of the paper that the screen shows; its lettering is that of paper this wide [mm]."""

NARROW_SCREEN = 200.0
"""Paper narrower than this, as for a phone, has no room for the dimensions of the centres [mm]."""

Box = tuple[Point, Point]
"""Lower left and upper right corner on the machine [m]."""

OPEN = (Verdict.STOP, Verdict.MARGINAL, Verdict.NOT_KNOWN)
"""The findings that have balloons; what is sound stands in the list alone."""

_RIM = balloon_pitch(FINE_PEN) / 2.0
_NAMES = 26.0  # room for names and balloons where there are no dimensions
_LETTERS = 4.0  # room for lettering beside the last dimension line


class ScreenLayout(NamedTuple):
    """The drawing as an element of a page, "" where there is no belt.

    bounds    of the machine, to which it was drawn to scale; None where there is no belt
    names_at  the places that its names took
    """

    svg: str
    bounds: Box | None
    names_at: Places


@dataclass(frozen=True)
class _Room:
    """Paper kept free on each side of the drive for dimensions, names and balloons [mm]."""

    left: float
    right: float
    top: float
    bottom: float
    dimensioned: bool


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


def belt_layout_svg(
    case: Case,
    review: Review,
    width: float = SCREEN_WIDTH,
    prefix: str = "",
    underneath: Sequence[Shape] = (),
    look: LayoutView | None = None,
    like: ScreenLayout | None = None,
) -> ScreenLayout:
    """The belt layout as an element of a web page that counts in millimetres of the machine.

    Pulleys, pivots and corners that can be dragged say which keys of the build file they are
    made of; findings that are not sound have balloons where they have a place. Shapes such as
    the places that an idler may have can be laid underneath. Of several planes of belts one is
    looked at, the first where none is named. Drawn `like` another, its scale and the places of its
    names are kept.
    """
    look = look or view_named(layout_views(case), "")
    if look is None:
        return ScreenLayout("", None, {})
    layout = drawn_layout(case, look.plane, look.layouts)
    room = _room(layout, width >= NARROW_SCREEN)
    like = like or ScreenLayout("", None, {})
    box = like.bounds or _bounds(layout)
    (x0, y0), (x1, y1) = box
    per_metre = (width - room.left - room.right) / (x1 - x0)
    view = View(per_metre / MM, (room.left - x0 * per_metre, room.bottom - y0 * per_metre))
    height = (y1 - y0) * per_metre + room.bottom + room.top
    paper: Extent = ((0.0, 0.0), (width, height))
    movable: tuple[DrawnPart | DrawnPlate, ...] = (*layout.parts, *layout.plates)
    handles = [handle for part in movable for handle in part_handles(part, 1.0 / per_metre)]
    drawn, names_at = _inked(layout, review, box, view, paper, room, like.names_at)
    ink = (
        *(shape.inked(view, FINE_PEN) for shape in underneath),
        *drawn,
        Together(handles, id="handles").inked(view, FINE_PEN),
    )
    said = _description(layout)
    title = f"{TITLE} of {case.build.name}"
    page = Page(width, height, (Group(ink, title=said),), title, said)
    return ScreenLayout(svg(page, prefix, styled=False, machine=view), box, names_at)


def _page(
    layout: DrawnLayout,
    review: Review,
    made_on: str,
    paper: Paper,
    sheet: str,
    idler: IdlerMap | None,
) -> Page:
    room, box = _room(layout, dimensioned=True), _bounds(layout)
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
    drawn = (
        *(shape.inked(view, FINE_PEN) for shape in underneath),
        *_inked(layout, review, box, view, inside, room)[0],
    )
    title, said = f"{TITLE}, seen from {layout.seen_from}", _description(layout)
    block = title_block_of(review, title, made_on, scale_text(view.scale), sheet)
    ink = (border(paper), Group(drawn, title=said), title_block(block, paper))
    return Page(paper.width, paper.height, ink, title, said)


def _inked(
    layout: DrawnLayout,
    review: Review,
    box: Box,
    view: View,
    paper: Extent,
    room: _Room,
    names_at: Places = MappingProxyType({}),
) -> tuple[list[Group], Places]:
    """Drive, dimensions, balloons, and last the names, which go where there is room left."""
    mm = 1.0 / view.mm_per_metre
    dimensions = centre_dimensions(layout, review.units, box) if room.dimensioned else []
    (x0, y0), (x1, y1) = box
    ring = (
        (x0 - (room.left - _RIM) * mm, y0 - (room.bottom - _RIM) * mm),
        (x1 + (room.right - _RIM) * mm, y1 + (room.top - _RIM) * mm),
    )
    drawn: list[Shape] = [
        *layout_shapes(layout),
        Together(dimensions, id="dimensions"),
        Together(finding_balloons(_placed(layout, review), ring, mm), id="balloons"),
    ]
    ink = [shape.inked(view, FINE_PEN) for shape in drawn]
    names, places = layout_names(layout, view, Occupied(paper, ink), names_at)
    return [*ink, Together(names, id="names").inked(view, FINE_PEN)], places


def _placed(layout: DrawnLayout, review: Review) -> list[tuple[int, Finding, Point]]:
    """The open findings that speak of a place, and where it lies in this plane.

    Findings of what is not drawn here are left to the drawing that shows it; seen from the side, so
    are places whose height is not known.
    """
    from_above = layout.seen_from == "above"
    elsewhere = tuple(_drawn_elsewhere(layout, review.build))
    return [
        (number, finding, (place[0], place[1] if from_above else place[2]))
        for number, finding in numbered(review)
        if (place := finding.place) is not None
        and finding.verdict in OPEN
        and not finding.id.startswith(elsewhere)
        and (from_above or place[2] > 0.0)
    ]


def _drawn_elsewhere(layout: DrawnLayout, build: Build) -> Iterator[str]:
    """How the findings begin that speak of belts, guards and plates of another drawing."""
    belts = {belt.name for belt in layout.belts}
    for belt in build.belt:
        if belt.name not in belts:
            yield from (f"belt.{belt.name}.", f"clearance.{belt.name}.")
    yield from (f"guard.{guard.name}." for guard in build.guard if guard.belt not in belts)
    plates = {plate.name for plate in layout.plates}
    yield from (f"plate.{plate.name}." for plate in build.plate if plate.name not in plates)


def _room(layout: DrawnLayout, dimensioned: bool) -> _Room:
    if not dimensioned:
        return _Room(_NAMES, _NAMES, _NAMES, _NAMES, dimensioned=False)
    lines = max(0, len(fixed_centres(layout)) - 1)
    deep = FIRST + max(0, lines - 1) * NEXT + _LETTERS + 2.0 * _RIM
    return _Room(left=_NAMES, right=deep, top=_NAMES, bottom=deep, dimensioned=True)


def _view(box: Box, paper: Paper, room: _Room) -> View:
    frame = drawing_frame(paper)
    return fit(
        box,
        (frame.x + room.left, frame.y + TITLE_BLOCK_HEIGHT + room.bottom),
        frame.width - room.left - room.right,
        frame.height - TITLE_BLOCK_HEIGHT - room.bottom - room.top,
    )


def _bounds(layout: DrawnLayout) -> Box:
    return Scene(tuple(layout_shapes(layout)), TITLE).bounds()


def _description(layout: DrawnLayout) -> str:
    belts = ", ".join(belt.title for belt in layout.belts)
    wheels = ", ".join(f"{wheel.name} {wheel.size}" for wheel in layout.wheels)
    return f"Seen from {layout.seen_from}, forward to the right. {belts}. {wheels}."
