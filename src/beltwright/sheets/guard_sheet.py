"""Bending a guard or keeper: the marks on the flat strip, the bent form to hold it against."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import chain

import numpy as np

from beltwright.build.guards import Bending
from beltwright.drawing.ink import Page
from beltwright.drawing.shapes import Scene, Text
from beltwright.drawing.sheet import A4, Paper
from beltwright.drawing.tile_pages import HOW_TO_JOIN, HOW_TO_PRINT, true_size_pages
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.guard.bent import Bent, bent
from beltwright.review.guard.cautions import EDGE_CAUTION, KEEPER_CAUTION, guard_caution
from beltwright.review.guard.holes import holes
from beltwright.review.nominal import nominal
from beltwright.review.review import Review
from beltwright.sheets.flow import Block, Cell, heading, paragraph, row, rule, space
from beltwright.sheets.in_the_way import before_you_begin
from beltwright.sheets.paper_sheet import text_frame, text_sheets
from beltwright.sheets.steps import numbered_steps
from beltwright.views.guard_drawing import bent_scene, flat_scene, mark_places

TITLE = "Bend guards and keepers"
PURPOSE = (
    "Mark a flat strip, bend it round the belt at its marks, and hold it against the template "
    "after every bend. Every mark is measured from the same end, so that errors do not add up."
)
TOOLS = (
    "Marker pen, steel rule, square, hacksaw, file, pliers or vice, a spacer as thick as the gap, "
    "gloves, safety glasses."
)

TENTH = 4
"""Marks are told to a tenth of a millimetre: decimals of a metre."""

ON_ONE_SHEET = 30
"""As many marks are kept together on one sheet."""


_SHARES = (0.1, 0.2, 0.2, 0.18, 0.18, 0.14)
"""Widths of the columns of marks."""


def guard_sheets(case: Case, review: Review, made_on: str, paper: Paper = A4) -> list[Page]:
    """For every guard what to do, the flat strip and the bent form at 1:1.

    A guard that has no form yet is told in the words of its findings alone.
    """
    return list(
        chain.from_iterable(
            _sheets(case, review, guard.name, made_on, paper) for guard in case.build.guard
        )
    )


def _sheets(case: Case, review: Review, name: str, made_on: str, paper: Paper) -> Iterator[Page]:
    width = text_frame(paper).width
    shape = _shape(case, name)
    blocks = [
        heading(f"{TITLE}: {name}"),
        paragraph(PURPOSE, width),
        space(1.0),
        paragraph(f"Tools: {TOOLS}", width),
        *before_you_begin(review, name, f"guard.{name}.", width),
    ]
    if shape is not None:
        blocks += [
            heading("What to do, in this order"),
            *numbered_steps(_sayings(case, shape), width),
            *_marks(case, review, shape, width),
        ]
    yield from text_sheets(review, f"{TITLE}: {name}", made_on, blocks, paper)
    if shape is not None:
        for scene in (flat_scene(case, shape), bent_scene(case, shape)):
            yield from true_size_pages(scene, paper, on_map=_without_words(scene))


def _without_words(scene: Scene) -> Scene:
    """What a map shows, whose scale has no room for the lettering of 1:1."""
    drawn = tuple(shape for shape in scene.shapes if not isinstance(shape, Text))
    return Scene(drawn, scene.title, scene.description)


def _shape(case: Case, name: str) -> Bent | None:
    guard = next(guard for guard in case.build.guard if guard.name == name)
    try:
        return bent(case, guard)
    except NotKnownError:
        return None


def _sayings(case: Case, shape: Bent) -> Iterator[tuple[str, str]]:
    """Each step, and the caution that belongs to it."""
    show = partial(case.units.show, kind=Kind.LENGTH)
    guard, way = shape.guard, (shape.guard.bending or Bending()).method
    held = {"pliers": "pliers' jaws", "vice": "vice's jaws", "brake": "brake's bar"}[way]
    yield f"{HOW_TO_PRINT} {HOW_TO_JOIN}", ""
    yield (
        f"Lay the strip on the flat drawing: {_strip_words(case, shape)} File edges and corners "
        "round.",
        EDGE_CAUTION,
    )
    yield (
        "Mark every bend across the strip with a square, on the face that will look at the belt, "
        "each measured from the first end. Write the numbers beside the marks.",
        "",
    )
    yield (
        f"Begin with mark {shape.feet_before + 1} and go on round the curve. Set the edge of the "
        f"{held} a little before a mark, as the table says, so that the mark comes to lie in the "
        "middle of the bend. Bend a little too far, let go, and hold the strip against the "
        "template before the next one. How far a strip springs back is a guess: your first bend "
        "tells it.",
        "",
    )
    if guard.feet:
        yield "Bend the feet last: what the other bends took up shows there.", ""
    covered = guard_caution(case)
    yield (
        f"Screw it to the {guard.fixed_to} with two screws and lock nuts. Clutch up, lay a spacer "
        f"of {show(nominal(shape.gap))} between belt and strip, tighten, take the spacer out. "
        "Turn the pulley by hand, clutch up and clutch down, and look all round.",
        f"{KEEPER_CAUTION} {covered}" if guard.kind == "keeper" else covered,
    )


def _strip_words(case: Case, shape: Bent) -> str:
    """What is cut off, or what is lacking."""
    show = partial(case.units.show, kind=Kind.LENGTH)
    length, strip = nominal(shape.flat.length), shape.guard.strip
    at_hand = None if strip is None or strip.length is None else nominal(case.si(strip.length))
    needs = f"it must be {show(length)} long."
    if at_hand is None:
        return needs
    start = holes(case, shape).start
    begin = f" Begin {show(start)} in from its first end." if start > 0.0 else ""
    if at_hand < length:
        return (
            f"{needs} The one at hand lacks {show(length - at_hand)}: make its straight ends or "
            "feet that much shorter together in the build file, and print this again."
        )
    return f"{needs}{begin} Cut {show(at_hand - length - start)} off its last end."


def _marks(case: Case, review: Review, shape: Bent, width: float) -> Iterator[Block]:
    """Every mark from the first end, its angle and its direction."""
    low, high = shape.over_bend
    yield heading("Marks, all from the first end")
    columns = [share * width for share in _SHARES]
    heads = ("mark", "from the end", "jaws' edge at", "angle", "bend to", "goes")
    cells = zip(heads, columns, strict=True)
    yield row([Cell(head, wide, bold=True) for head, wide in cells], with_next=True)
    yield rule(width)
    show = partial(case.units.show, kind=Kind.LENGTH)
    together = len(shape.angles) <= ON_ONE_SHEET
    for number, (place, angle, allowance) in enumerate(mark_places(case, shape), start=1):
        turned = float(np.degrees(abs(angle)))
        told = (
            str(number),
            show(round(place, TENTH)),
            show(round(place - 0.5 * allowance, TENTH)),
            f"{turned:.1f}°",
            f"{low * turned:.1f} to {high * turned:.1f}°",
            "to the belt" if angle > 0.0 else "away",
        )
        cells = zip(told, columns, strict=True)
        yield row([Cell(text, wide) for text, wide in cells], with_next=together)
    yield rule(width)
    yield paragraph(
        "To the belt: the marked face comes to lie inside the bend. Away: it comes to lie outside.",
        width,
    )
    yield from _whole(review, shape, width)


def _whole(review: Review, shape: Bent, width: float) -> Iterator[Block]:
    """How long the whole strip is, and within what."""
    found = review.finding(f"guard.{shape.guard.name}.length")
    if found is None:
        return
    within = f"; as pulley, gap and bends may be off, {found.shown_range}" * bool(found.shown_range)
    yield paragraph(f"The whole strip is {found.shown} long{within}.", width)
