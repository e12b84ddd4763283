"""Plates and brackets: what to cut and drill, and a template of each at true size."""

from __future__ import annotations

from collections.abc import Iterator

from beltwright.build.plate import Plate
from beltwright.drawing.ink import Page
from beltwright.drawing.sheet import A4, Paper
from beltwright.drawing.tile_pages import HOW_TO_JOIN, HOW_TO_PRINT, true_size_pages
from beltwright.review.case import Case, NotKnownError
from beltwright.review.plate.plates import drilled
from beltwright.review.review import Review
from beltwright.sheets.flow import Block, Cell, heading, paragraph, row, rule, space
from beltwright.sheets.in_the_way import in_the_way
from beltwright.sheets.paper_sheet import text_frame, text_sheets
from beltwright.sheets.steps import cautions, numbered_steps
from beltwright.sheets.tick_box import BOX_ROOM, ticked
from beltwright.views.hole_words import marked
from beltwright.views.part_words import named_words
from beltwright.views.plate_drawing import hole_letters, hole_place, hole_size, plate_scene

TITLE = "Plates and brackets, true size"
PURPOSE = (
    "Cut and drill the plates and brackets of this build. Stick each drawing on its sheet and "
    "punch the crosses through the paper."
)
TOOLS = (
    "Steel rule, scriber, centre punch, hammer, hacksaw or grinder, file, drills, taps, glue "
    "stick, square, clamps, goggles, gloves for sharp sheet (never at the drill)."
)
STEPS = (
    HOW_TO_PRINT,
    f"Where a plate takes several sheets: {HOW_TO_JOIN}",
    "Glue the drawing on the sheet. Punch every cross lightly, look, then punch again.",
    "Drill a small hole first, then the size beside it; drill both ends of a slot and file out "
    "what stands between. Saw outside of the line and file to it.",
    "Break every edge and corner with a file. Lay the plate on the frame, hold what it carries in "
    "its hole and look at the belt before you drill the frame.",
)
CAUTIONS = (
    "Take the lead off the spark plug before a hand goes near belt or pulleys.",
    "Clamp the plate to drill it: a drill that grabs turns it into a blade. Wear goggles.",
    "Weld nothing near fuel, and no zinc-plated plate: its smoke is poison. Take the tank off.",
    "A bracket that carries an idler, a brake or a shaft can hurt someone when it breaks. Local "
    "codes and licensed practice come first.",
)

_SHARES = (0.08, 0.30, 0.36, 0.13, 0.13)  # letter, name, size, right, up


def plate_pages(case: Case, review: Review, made_on: str, paper: Paper = A4) -> list[Page]:
    """What to do, then every plate at 1:1 over as many sheets as it needs."""
    width = text_frame(paper).width
    blocks = [
        heading(TITLE),
        paragraph(PURPOSE, width),
        space(1.0),
        paragraph(f"Tools: {TOOLS}", width),
        heading("What to do"),
        *numbered_steps(((step, "") for step in STEPS), width),
        *cautions(CAUTIONS, width),
        *(block for plate in case.build.plate for block in _plate(case, review, plate, width)),
    ]
    return [
        *text_sheets(review, TITLE, made_on, blocks, paper),
        *(page for plate in case.build.plate for page in _template(case, plate, paper)),
    ]


def _template(case: Case, plate: Plate, paper: Paper) -> list[Page]:
    """A plate at 1:1, nothing where one of its holes is not known."""
    try:
        return true_size_pages(plate_scene(case, plate), paper)
    except NotKnownError:
        return []


def _plate(case: Case, review: Review, plate: Plate, width: float) -> Iterator[Block]:
    yield heading(f"{plate.name}: {named_words(case, plate.name)}")
    yield from in_the_way(review, plate.name, f"plate.{plate.name}.", width)
    yield from _holes(case, plate, width)


def _holes(case: Case, plate: Plate, width: float) -> Iterator[Block]:
    """Every hole with its letter, its size and its place from the lower left corner."""
    try:
        holes = drilled(case, plate)
    except NotKnownError as missing:
        yield paragraph(f"Not drawn yet. {missing}", width, bold=True)
        return
    room = width - BOX_ROOM
    yield rule(width)
    titles = _cells(("", "Hole", "Size", "To the right", "Up"), room, bold=True)
    yield row([Cell("", BOX_ROOM), *titles], with_next=True)
    for letter, each in zip(hole_letters(len(holes)), holes, strict=True):
        name = f"{each.hole.name}, carries the {each.hole.carries}"
        x, y = (marked(case, along) for along in hole_place(each))
        texts = (
            letter,
            name if each.hole.carries else each.hole.name,
            hole_size(case, each),
            x,
            y,
        )
        yield ticked(_cells(texts, room))
    yield paragraph("Places count from the lower left corner of the drawing.", width)


def _cells(texts: tuple[str, ...], width: float, bold: bool = False) -> list[Cell]:
    return [
        Cell(text, share * width, bold=bold or number == 0, right=number > 2)
        for number, (text, share) in enumerate(zip(texts, _SHARES, strict=True))
    ]
