"""The belt layout at true size: laid on the frame, it marks shaft centres and the idler's swing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from beltwright.drawing.extent import bounds
from beltwright.drawing.free_place import Occupied
from beltwright.drawing.ink import Page
from beltwright.drawing.line_kinds import FINE_PEN, LineKind
from beltwright.drawing.path import Point, distance
from beltwright.drawing.shapes import Circle, Scene, Shape, Together
from beltwright.drawing.sheet import A4, Paper
from beltwright.drawing.tile_pages import HOW_TO_JOIN, HOW_TO_PRINT, true_size_pages
from beltwright.drawing.view import View
from beltwright.options.idler_place import IdlerMap
from beltwright.quantity import Kind, Units
from beltwright.review.case import Case
from beltwright.review.review import Review
from beltwright.sheets.flow import Block, Cell, heading, paragraph, row, rule, space
from beltwright.sheets.in_the_way import before_you_begin
from beltwright.sheets.paper_sheet import text_frame, text_sheets
from beltwright.sheets.steps import cautions, numbered_steps
from beltwright.views.layout.drawn_layout import DrawnLayout
from beltwright.views.layout.gathering import drawn_layouts
from beltwright.views.layout.idler_map import best_words, map_beside
from beltwright.views.layout.names import layout_names
from beltwright.views.layout.shapes import layout_shapes

TITLE = "Belt layout, true size"
PURPOSE = (
    "Mark shaft centres, the pivot of the clutch arm and the swing of its idler on the frame, and "
    "see where the belt runs before anything is drilled or welded."
)
TOOLS = (
    "Steel rule, tape measure, scissors, clear tape, square, scriber, centre punch, hammer, chalk."
)
STEPS = (
    f"{HOW_TO_PRINT} {HOW_TO_JOIN}",
    "Measure the distances below on the joined drawing and on the machine. Where they differ, "
    "correct the build file and print again.",
    "Lay the drawing on the frame so that the centres of the shafts that are there already fall "
    "on their crosses. Punch the other centres through the paper, lightly first.",
    "Swing the arm by hand from one position of the idler to the other before you weld its pivot.",
)
CAUTIONS = (
    "Take the lead off the spark plug before a hand goes near belt or pulleys.",
    "Wear eye protection to punch, drill and cut. Clamp what you drill.",
    "Leave no belt without its guard and keepers. Local codes and licensed practice come first.",
)

BELONGING = ("belt.", "clearance.", "drive.")
"""Findings that speak of the belt layout, by the beginning of their id."""

MOST_SHEETS = 60
"""More sheets than this are no layout but a slip of the decimal point."""

_PUNCH_RING = 0.002  # ring round a place to punch [m]
_ROOM = 1.0  # names keep within this of the drive, which saves sheets [mm]


def belt_layout_sheets(
    case: Case,
    review: Review,
    made_on: str,
    paper: Paper = A4,
    idler: IdlerMap | None = None,
) -> list[Page]:
    """What to do, then the drive of every plane at 1:1 over as many sheets as it needs.

    The map of an idler's places is hatched on the drive where it is handed in.
    """
    layouts = drawn_layouts(case)
    width = text_frame(paper).width
    drawn = [page for layout in layouts for page in _true_size(layout, review, paper, idler)]
    too_many = len(drawn) > MOST_SHEETS
    blocks = [
        heading(TITLE),
        paragraph(PURPOSE, width),
        space(1.0),
        paragraph(f"Tools: {TOOLS}", width),
        *([paragraph(_too_large(len(drawn)), width, bold=True)] if too_many else []),
        *before_you_begin(review, "belts", BELONGING, width),
        heading("What to do"),
        *numbered_steps(((step, "") for step in STEPS), width),
        *cautions(CAUTIONS, width),
        *_idler_words(idler, review, width),
        *(block for layout in layouts for block in _distances(layout, review, width)),
    ]
    return [
        *text_sheets(review, TITLE, made_on, blocks, paper),
        *([] if too_many else drawn),
    ]


def true_size_scenes(case: Case, idler: IdlerMap | None = None) -> list[Scene]:
    """The drive of every plane as it is laid on the frame, with its names and punch marks."""
    return [_scene(layout, _beneath(layout, case.units, idler)) for layout in drawn_layouts(case)]


def _too_large(sheets: int) -> str:
    """Say why nothing is printed at true size."""
    return (
        f"Not printed at true size: the drawing would take {sheets} sheets. Look at the places of "
        "shafts, idlers and obstacles in the build file again: one of them stands far off."
    )


def _idler_words(idler: IdlerMap | None, review: Review, width: float) -> Iterator[Block]:
    if idler is None:
        return
    yield heading(f"Where the {idler.idler} may stand")
    yield paragraph(best_words(idler, review.units), width)
    yield paragraph(
        f"The hatched region holds every other {idler.moves} that keeps clear of all parts, grips "
        "and leaves the arm its travel. Check the build again with the place that you took.",
        width,
    )


def _distances(layout: DrawnLayout, review: Review, width: float) -> Iterator[Block]:
    """How far the centres stand from one another, to prove the print and the frame."""
    yield heading(f"Distances between centres, seen from {layout.seen_from}")
    yield rule(width)
    for (one, start), (other, end) in combinations(_named_centres(layout), 2):
        apart = review.units.show(distance(start, end), Kind.LENGTH)
        yield row([Cell(f"{one} to {other}", 0.7 * width), Cell(apart, 0.3 * width, right=True)])


def _named_centres(layout: DrawnLayout) -> list[tuple[str, Point]]:
    """The centres that do not move with the clutch."""
    moving = {arm.name for arm in layout.arms}
    fixed = [(wheel.name, wheel.at) for wheel in layout.wheels if wheel.name not in moving]
    return [*fixed, *((f"pivot of the {arm.name}", arm.pivot) for arm in layout.arms)]


def _true_size(
    layout: DrawnLayout, review: Review, paper: Paper, idler: IdlerMap | None
) -> list[Page]:
    beneath = _beneath(layout, review.units, idler)
    on_map = Scene(tuple(layout_shapes(layout)), TITLE, f"Seen from {layout.seen_from}")
    return true_size_pages(_scene(layout, beneath), paper, on_map=on_map)


def _beneath(layout: DrawnLayout, units: Units, idler: IdlerMap | None) -> Sequence[Shape]:
    """The map of an idler's places, where it is handed in."""
    return map_beside(idler, [wheel.name for wheel in layout.wheels], units)


def _scene(layout: DrawnLayout, beneath: Sequence[Shape]) -> Scene:
    """The drive with a ring round every place to punch, and the names."""
    view = View(1.0)
    drawn: list[Shape] = [
        *beneath,
        *layout_shapes(layout),
        Together([Circle(at, _PUNCH_RING, kind=LineKind.THIN) for _, at in _named_centres(layout)]),
    ]
    ink = [shape.inked(view, FINE_PEN) for shape in drawn]
    (x0, y0), (x1, y1) = bounds(ink)
    occupied = Occupied(((x0 - _ROOM, y0 - _ROOM), (x1 + _ROOM, y1 + _ROOM)), ink)
    names, _ = layout_names(layout, view, lambda: occupied)
    return Scene(
        (*drawn, *names),
        TITLE,
        f"Seen from {layout.seen_from}, forward to the right, one to one",
    )
