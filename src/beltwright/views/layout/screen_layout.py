"""The belt layout on a screen: an element of a page that counts in the machine's millimetres."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from beltwright.drawing.free_place import Occupied
from beltwright.drawing.ink import Page
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.shapes import Shape, Together
from beltwright.drawing.svg import svg_group, svg_pieces, svg_round
from beltwright.drawing.view import MM, View
from beltwright.review.case import Case
from beltwright.review.review import Review
from beltwright.views.layout.arrangement import (
    TITLE,
    Box,
    bounds,
    description,
    names,
    room_for,
    unnamed,
)
from beltwright.views.layout.drawn_layout import DrawnLayout, DrawnPart, DrawnPlate
from beltwright.views.layout.gathering import drawn_layout
from beltwright.views.layout.names import Places
from beltwright.views.layout.planes import LayoutView, layout_views, view_named
from beltwright.views.layout.shapes import part_handles

SCREEN_WIDTH = 280.0
"""Width of the paper that the screen shows; its lettering is that of paper this wide [mm]."""

NARROW_SCREEN = 200.0
"""Paper narrower than this, as for a phone, has no room for the dimensions of the centres [mm]."""


class DrawnGroup(NamedTuple):
    """The shapes under one id, the SVG element of each, and of all of them."""

    shapes: Sequence[Shape]
    elements: Sequence[str]
    element: str


NOT_DRAWN = DrawnGroup((), (), "")


class ScreenLayout(NamedTuple):
    """The drawing as an element of a page.

    svg       "" where there is no belt
    view      the name of what is looked at
    bounds    of the machine, to which it was drawn to scale; None where there is no belt
    names_at  the places that its names took
    groups    what it is made of, by id
    """

    svg: str = ""
    view: str = ""
    bounds: Box | None = None
    names_at: Places = MappingProxyType({})
    groups: Mapping[str, DrawnGroup] = MappingProxyType({})

    def since(self, other: ScreenLayout) -> dict[str, str] | None:
        """The elements that differ from those of another, by id; None where the whole does."""
        if (self.view, self.bounds) != (other.view, other.bounds):
            return None
        return {
            name: group.element
            for name, group in self.groups.items()
            if group.element is not other.groups[name].element
        }


def screen_layout(
    case: Case,
    review: Review,
    width: float = SCREEN_WIDTH,
    look: LayoutView | None = None,
    underneath: Sequence[Together] = (),
    like: ScreenLayout | None = None,
) -> ScreenLayout:
    """The belt layout for a page.

    Pulleys, pivots and corners that can be dragged say which keys of the build file they are
    made of; findings that are not sound have balloons where they have a place. Shapes such as
    the places that an idler may have can be laid underneath. Of several planes of belts one is
    looked at, the first where none is named. Drawn `like` another of the same view, its scale and
    the places of its names are kept, and what does not differ is taken over.
    """
    look = look or view_named(layout_views(case), "")
    if look is None:
        return ScreenLayout()
    before = like if like is not None and like.view == look.name else ScreenLayout()
    layout = drawn_layout(case, look.plane, look.layouts)
    room = room_for(layout, width >= NARROW_SCREEN)
    box = before.bounds or bounds(layout)
    (x0, y0), (x1, y1) = box
    per_metre = (width - room.left - room.right) / (x1 - x0)
    view = View(per_metre / MM, (room.left - x0 * per_metre, room.bottom - y0 * per_metre))
    height = (y1 - y0) * per_metre + room.bottom + room.top

    drive = unnamed(layout, review, box, view, room)

    def occupied() -> Occupied:
        ink = (shapes.inked(view, FINE_PEN) for shapes in drive)
        return Occupied(((0.0, 0.0), (width, height)), ink)

    lettering, names_at = names(layout, view, occupied, before.names_at)
    handles = Together([*_handles(layout, 1.0 / per_metre)], id="handles")
    groups = {
        group.id: _drawn(group, view, height, before.groups.get(group.id, NOT_DRAWN))
        for group in (*drive, lettering, handles)
    }
    title = f"{TITLE} of {case.build.name}"
    page = Page(width, height, (), title, description(layout))
    beneath = [shapes.inked(view, FINE_PEN) for shapes in underneath]
    elements = [svg_pieces(beneath, height), *(group.element for group in groups.values())]
    svg = svg_round(page, "\n".join(elements), styled=False, machine=view)
    return ScreenLayout(svg, look.name, box, names_at, groups)


def _handles(layout: DrawnLayout, mm: float) -> Iterator[Shape]:
    """A small square at each corner by which a part or a plate is moved."""
    movable: tuple[DrawnPart | DrawnPlate, ...] = (*layout.parts, *layout.plates)
    for part in movable:
        yield from part_handles(part, mm)


def _drawn(group: Together, view: View, height: float, before: DrawnGroup) -> DrawnGroup:
    """The element of some shapes; what was drawn before is taken over where it is the same."""
    if before.element and before.shapes == group.shapes:
        return before
    elements = [
        before.elements[place]
        if place < len(before.shapes) and before.shapes[place] == shape
        else svg_pieces([shape.inked(view, FINE_PEN)], height)
        for place, shape in enumerate(group.shapes)
    ]
    return DrawnGroup(group.shapes, elements, svg_group(group.id, elements))
