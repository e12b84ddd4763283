"""Holes and hubs: what to do with every measured hole, and what to check on every hub."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from beltwright.build.driveline import Pulley
from beltwright.build.shop import Hole
from beltwright.drawing.ink import Page
from beltwright.drawing.sheet import A4, Paper
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal
from beltwright.review.review import Review
from beltwright.review.shaft.findings import LOOSE_FIT, SLIP_FIT, TIGHT_FIT
from beltwright.review.shaft.hub import diameter, usual_key
from beltwright.review.thread.findings import THREAD_CAUTION, WRENCH_TURNS
from beltwright.review.thread.holes import (
    GOOD_SHARE,
    LEAST_SHARE,
    Remake,
    insert_for,
    is_pipe,
    larger_threads,
    pipe_remakes,
    seat,
    share,
    strength,
    tap_hole,
    taper_drill,
)
from beltwright.sheets.flow import Block, Cell, heading, paragraph, row, rule, space
from beltwright.sheets.in_the_way import not_sound
from beltwright.sheets.paper_sheet import text_frame, text_sheets
from beltwright.sheets.review_sheet import finding_blocks
from beltwright.sheets.steps import cautions
from beltwright.sheets.tick_box import BLANK, BOX_ROOM, ticked
from beltwright.tables.drills import nearest_drill
from beltwright.views.hole_words import caliper, marked

TITLE = "Holes and hubs"
PURPOSE = (
    "What to do with every measured hole before a bolt goes in, and what to read with a caliper "
    "before a pulley goes on its shaft."
)
TOOLS = (
    "Caliper, drills, taps and their handle, cutting oil, centre punch, square, deburring tool, "
    "torque wrench, goggles."
)
CAUTIONS = (
    THREAD_CAUTION,
    "Never weld a case that held oil or fuel before it is empty, clean and aired, and weld nothing "
    "near the tank.",
    "Clamp the work: a drill that grabs turns it. Start the tap by hand and square, turn back half "
    "a turn for each turn on, and stop when it binds.",
    "What a wheel, a brake, a steering part or a person hangs on is for a sound thread or a bolt "
    "right through. Local codes and licensed practice come first.",
)

_SHOWN_SIZES = 2
_LABEL, _VALUE = 0.42, 0.58


def hole_pages(case: Case, review: Review, made_on: str, paper: Paper = A4) -> list[Page]:
    """The sheets for holes and hubs."""
    width = text_frame(paper).width
    blocks = [
        heading(TITLE),
        paragraph(PURPOSE, width),
        space(1.0),
        paragraph(f"Tools: {TOOLS}", width),
        *cautions(CAUTIONS, width),
        *(block for hole in case.build.hole for block in _hole(case, review, hole, width)),
        *(block for pulley in _hubs(case) for block in _hub(case, review, pulley, width)),
    ]
    return text_sheets(review, TITLE, made_on, blocks, paper)


def _hubs(case: Case) -> list[Pulley]:
    return [pulley for pulley in case.build.pulley if pulley.hub is not None]


def _hole(case: Case, review: Review, hole: Hole, width: float) -> Iterator[Block]:
    yield heading(f"{hole.name}: {hole.thread}")
    yield rule(width)
    steps = _pipe_steps(case, hole) if is_pipe(hole) else _straight_steps(case, hole)
    yield row(_pair("Measured", f"⌀{_bore(case, hole)}, {_place(case, hole)}", width))
    try:
        for title, text in steps:
            yield ticked(_pair(title, text, width - BOX_ROOM))
    except NotKnownError as missing:
        yield paragraph(f"Measure first. {missing}", width)
    yield from finding_blocks(not_sound(review, f"thread.{hole.name}."), width)


def _pair(title: str, text: str, width: float) -> list[Cell]:
    return [Cell(title, _LABEL * width, bold=True), Cell(text, _VALUE * width)]


def _bore(case: Case, hole: Hole) -> str:
    return caliper(case, nominal(case.si(hole.diameter)))


def _place(case: Case, hole: Hole) -> str:
    depth = "" if hole.depth is None else f" {caliper(case, nominal(case.si(hole.depth)))} deep"
    return f"in {hole.material or 'metal of unknown kind'}{depth}"


def _straight_steps(case: Case, hole: Hole) -> Iterator[tuple[str, str]]:
    """What to do with a hole for a straight thread, by the share that it leaves."""
    left = nominal(share(case, hole))
    tap = tap_hole(hole)
    if left > GOOD_SHARE:
        ready = nominal(case.si(hole.diameter)) >= 0.98 * tap
        first = "Tap it as it is" if ready else f"Drill it to {_drill(case, tap)}, then tap it"
        yield f"Tap {hole.thread}", f"{first}: {left:.0%} of the thread in the hole as measured."
    else:
        yield from _instead(case, hole, left)
    if left >= LEAST_SHARE and hole.depth is not None and hole.material is not None:
        torque = case.units.show(nominal(strength(case, hole).torque), Kind.TORQUE)
        yield (
            "Tighten",
            f"to {torque} at most, oiled, screw marked {strength(case, hole).grade.grade}.",
        )


def _instead(case: Case, hole: Hole, left: float) -> Iterator[tuple[str, str]]:
    """A worn hole: leave it for light loads, an insert, a larger thread, or bolt right through."""
    if left >= LEAST_SHARE:
        yield "Leave it", f"{left:.0%} of the thread is enough for light loads only."
    else:
        yield f"Do not tap {hole.thread}", f"only {max(left, 0.0):.0%} of the thread would be left."
    found = False
    for remake in insert_for(case, hole):
        found = True
        yield "Insert", _make(case, remake)
    for remake in islice(larger_threads(case, hole), _SHOWN_SIZES):
        found = True
        yield f"Larger: {remake.name}", _make(case, remake)
    if not found:
        yield (
            "Bolt through",
            "the metal is too thin for an insert: weld or plug it, or bolt through.",
        )


def _make(case: Case, remake: Remake) -> str:
    return f"drill {_drill(case, remake.drill)} for {remake.name}."


def _pipe_steps(case: Case, hole: Hole) -> Iterator[tuple[str, str]]:
    """What to do with a hole for a taper thread, by the thread left past hand-tight."""
    found = seat(case, hole)
    hand = caliper(case, float(found.male.hand_length))
    if nominal(found.left) >= WRENCH_TURNS * float(found.male.pitch):
        drill = taper_drill(case, hole)
        first = f"Drill {_drill(case, drill)}, then run" if drill is not None else "Run"
        yield (
            f"Tap {hole.thread}",
            f"{first} the taper tap in until the fitting enters {hand} by hand.",
        )
        return
    yield f"Do not tap {hole.thread}", "the fitting would run out of thread before it binds."
    for remake in islice(pipe_remakes(case, hole), _SHOWN_SIZES):
        yield f"Larger: {remake.name}", _make(case, remake)
    yield "Or plug it", "close it with a plug for the old thread, and drill and tap a new place."


def _drill(case: Case, size: float) -> str:
    inches = case.units[Kind.LENGTH].symbol in ("in", "ft")
    return f"{caliper(case, size)} (nearest drill {nearest_drill(size, metric=not inches).name})"


def _hub(case: Case, review: Review, pulley: Pulley, width: float) -> Iterator[Block]:
    yield heading(f"Hub of the {pulley.name}")
    yield rule(width)
    room = width - BOX_ROOM
    for title, wanted in _readings(case, pulley):
        yield ticked(
            [
                Cell(title, 0.30 * room, bold=True),
                Cell(wanted, 0.50 * room),
                Cell(BLANK, 0.20 * room, right=True),
            ]
        )
    yield from finding_blocks(not_sound(review, f"shaft.{pulley.name}."), width)


def _readings(case: Case, pulley: Pulley) -> Iterator[tuple[str, str]]:
    """What to read, and what it has to be."""
    hub = pulley.hub
    assert hub is not None
    try:
        shaft = nominal(diameter(case, pulley))
    except NotKnownError as missing:
        yield "Shaft", str(missing)
        shaft = None
    if shaft is not None:
        yield "Shaft, twice, a quarter turn apart", caliper(case, shaft)
        yield (
            "Bore, twice",
            f"{caliper(case, shaft + TIGHT_FIT)} to {caliper(case, shaft + SLIP_FIT)}; from "
            f"{caliper(case, shaft + LOOSE_FIT)} it hammers its key out",
        )
    if hub.key is not None:
        sides = [marked(case, side.value) for side in (hub.key.width, hub.key.height)]
        length = marked(case, hub.key.length.value)
        yield "Key: width, height, length", f"{' × '.join(sides)} × {length}{_usual(case, pulley)}"
        yield "Keyway: corners", "square, no crack in the corners, the key goes in by hand"
    if hub.set_screw is not None:
        yield f"Set screw {hub.set_screw}", "thread whole; it bears on the key or on a flat"
    if hub.outside is not None:
        yield "Outside of the hub", caliper(case, hub.outside.value)


def _usual(case: Case, pulley: Pulley) -> str:
    try:
        usual = usual_key(case, pulley)
    except NotKnownError:
        return ""
    if usual is None:
        return ""
    return f" (standard: {marked(case, usual.width)} × {marked(case, usual.height)})"
