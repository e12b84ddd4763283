"""What the belt layout holds, on paper and on a screen: the drive, dimensions, balloons and names,
and the room that they take."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from types import MappingProxyType
from typing import NamedTuple

from beltwright.build.model import Build
from beltwright.drawing.balloons import balloon_pitch
from beltwright.drawing.free_place import Occupied
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.path import Point
from beltwright.drawing.shapes import Scene, Together
from beltwright.drawing.view import View
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import Review
from beltwright.views.layout.balloons import finding_balloons, numbered
from beltwright.views.layout.dimensions import FIRST, NEXT, centre_dimensions, fixed_centres
from beltwright.views.layout.drawn_layout import DrawnLayout
from beltwright.views.layout.names import Places, layout_names
from beltwright.views.layout.shapes import layout_shapes

TITLE = "Belt layout"

Box = tuple[Point, Point]
"""Lower left and upper right corner on the machine [m]."""

OPEN = (Verdict.STOP, Verdict.MARGINAL, Verdict.NOT_KNOWN)
"""The findings that have balloons; what is sound stands in the list alone."""

_RIM = balloon_pitch(FINE_PEN) / 2.0
_NAMES = 26.0  # room for names and balloons where there are no dimensions
_LETTERS = 4.0  # room for lettering beside the last dimension line


class Room(NamedTuple):
    """Paper kept free on each side of the drive for dimensions, names and balloons [mm]."""

    left: float
    right: float
    top: float
    bottom: float
    dimensioned: bool


def room_for(layout: DrawnLayout, dimensioned: bool) -> Room:
    """The room that a drive needs, with or without dimensions of its centres."""
    if not dimensioned:
        return Room(_NAMES, _NAMES, _NAMES, _NAMES, dimensioned=False)
    lines = max(0, len(fixed_centres(layout)) - 1)
    deep = FIRST + max(0, lines - 1) * NEXT + _LETTERS + 2.0 * _RIM
    return Room(left=_NAMES, right=deep, top=_NAMES, bottom=deep, dimensioned=True)


def bounds(layout: DrawnLayout) -> Box:
    """The box round the drive."""
    return Scene(tuple(layout_shapes(layout)), TITLE).bounds()


def unnamed(
    layout: DrawnLayout, review: Review, box: Box, view: View, room: Room
) -> list[Together]:
    """The drive from the bottom up, its dimensions and balloons: all but the names."""
    mm = 1.0 / view.mm_per_metre
    dimensions = centre_dimensions(layout, review.units, box) if room.dimensioned else []
    (x0, y0), (x1, y1) = box
    ring = (
        (x0 - (room.left - _RIM) * mm, y0 - (room.bottom - _RIM) * mm),
        (x1 + (room.right - _RIM) * mm, y1 + (room.top - _RIM) * mm),
    )
    return [
        *layout_shapes(layout),
        Together(dimensions, id="dimensions"),
        Together(finding_balloons(_placed(layout, review), ring, mm), id="balloons"),
    ]


def names(
    layout: DrawnLayout,
    view: View,
    occupied: Callable[[], Occupied],
    held: Places = MappingProxyType({}),
) -> tuple[Together, Places]:
    """The names, which go where there is room left, and the places that they take."""
    named, places = layout_names(layout, view, occupied, held)
    return Together(named, id="names"), places


def description(layout: DrawnLayout) -> str:
    """What is drawn, in words."""
    belts = ", ".join(belt.title for belt in layout.belts)
    wheels = ", ".join(f"{wheel.name} {wheel.size}" for wheel in layout.wheels)
    return f"Seen from {layout.seen_from}, forward to the right. {belts}. {wheels}."


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
