"""Setting up every rod between a lever and an arm: lengths, angles, and arms at true size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from math import atan2

import numpy as np

from beltwright.build.linkage import DrivenArm, Linkage, LinkageLever
from beltwright.drawing.extent import bounds
from beltwright.drawing.ink import Page
from beltwright.drawing.line_kinds import FINE_PEN, LineKind
from beltwright.drawing.path import Point
from beltwright.drawing.shapes import CentreMark, Circle, Line, Polyline, Scene, Shape, Text
from beltwright.drawing.sheet import A4, Paper
from beltwright.drawing.tile_pages import true_size_pages
from beltwright.drawing.view import MM, View, polar
from beltwright.quantity import Kind
from beltwright.review.angle_words import degrees
from beltwright.review.case import Case, NotKnownError
from beltwright.review.linkage.motion import (
    chain,
    hand_neutral,
    hand_travel,
    link_of,
    reach,
)
from beltwright.review.linkage.words import caution
from beltwright.review.nominal import nominal
from beltwright.review.review import Review
from beltwright.sheets.flow import Block, Cell, heading, paragraph, row, rule, space
from beltwright.sheets.in_the_way import before_you_begin
from beltwright.sheets.paper_sheet import text_frame, text_sheets
from beltwright.sheets.steps import numbered_steps
from beltwright.views.linkage_drawing import LinkageView, linkage_views
from beltwright.views.linkage_page import linkage_pages

TITLE = "Set up the linkages"
PURPOSE = (
    "Make each rod, hang it in with lever and arm in neutral, and see that every position is "
    "reached and that nothing binds, before anyone relies on it."
)
TOOLS = (
    "Steel rule, tape, a phone's level, scriber, centre punch, drills, file, two spanners, "
    "fish scale, split pins and lock nuts, safety glasses."
)
STEPS = (
    (
        "Engine off and cold, the lead off the spark plug, wheels chocked on level ground.",
        "A machine whose brake rod is off has no brake: chock both sides of a wheel.",
    ),
    (
        "Measure pivots, hole radii and angles below on the machine. Where they differ, correct "
        "the build file and print again.",
        "",
    ),
    (
        "Set neutral first: put lever and arm at their neutral angles and clamp them there.",
        "",
    ),
    (
        "Make or screw the rod to the length below, from middle to middle of its eyes. Leave "
        "at least as much thread in each end as the thread is thick.",
        "A rod end that hangs on three turns of thread pulls out.",
    ),
    (
        "Hang the rod in. It must slip on without moving lever or arm. Take the clamps off.",
        "",
    ),
    (
        "Move the lever slowly by hand from stop to stop. Nothing may rub, no joint may bind, and "
        "the rod may not come in line with lever or arm.",
        "Keep fingers out from between rod and frame.",
    ),
    (
        "Go through the positions below with the level on the lever, and see that the arm stands "
        "as it should in each.",
        "",
    ),
    (
        "Tighten lock nuts, spread split pins, pull hard on every joint, and go through it again.",
        "Try a new brake at walking pace on level ground first, with a clear run-out. Local codes "
        "and licensed practice come first.",
    ),
)

LONGEST = 0.4
"""Levers and arms longer than this are not printed at true size [m]."""

_RING = 0.002  # ring round a place to punch [m]
_BENEATH, _BELOW = 0.008, 0.012  # room above the name of a part, and below it [m]
_OVERRUN = 0.012  # how far the line of a position runs past its hole [m]


def linkage_sheets(case: Case, review: Review, made_on: str, paper: Paper = A4) -> list[Page]:
    """What to do and the numbers of every linkage, then its drawing, then its arms at 1:1."""
    width = text_frame(paper).width
    blocks = [
        heading(TITLE),
        paragraph(PURPOSE, width),
        paragraph(f"Tools: {TOOLS}", width),
        *before_you_begin(review, "linkages", "linkage.", width),
        heading("What to do, in this order"),
        *numbered_steps(STEPS, width),
        *(block for each in case.build.linkage for block in _numbers(case, each, width)),
    ]
    return [
        *text_sheets(review, TITLE, made_on, blocks, paper),
        *(
            page
            for each in case.build.linkage
            for page in _drawings(case, each, review, made_on, paper)
        ),
    ]


def _drawings(
    case: Case, linkage: Linkage, review: Review, made_on: str, paper: Paper
) -> list[Page]:
    """The views of a linkage and its arms at true size; none while something is not measured."""
    try:
        pages = linkage_pages(case, linkage, review, made_on, paper)
    except NotKnownError:
        return []
    return [*pages, *(true_size_pages(_arms(case, linkage), paper) if _fits(case, linkage) else ())]


def _fits(case: Case, linkage: Linkage) -> bool:
    """Whether lever and arm are no longer than is worth printing at true size."""
    link = link_of(case, linkage)
    return max(nominal(link.lever.radius), nominal(link.arm.radius)) <= LONGEST


def _numbers(case: Case, linkage: Linkage, width: float) -> Iterator[Block]:
    """What to make and to set for one linkage."""
    show = partial(case.units.show, kind=Kind.LENGTH)
    yield heading(f"{linkage.name[0].upper()}{linkage.name[1:]}")
    yield rule(width)
    try:
        link = link_of(case, linkage)
    except NotKnownError as missing:
        yield paragraph(f"Not known yet. {missing}", width)
        return
    for name, value in (
        ("Rod, middle to middle of its eyes", show(nominal(link.length))),
        ("Hole in the lever, from its pivot", show(nominal(link.lever.radius))),
        ("Hole in the arm, from its pivot", show(nominal(link.arm.radius))),
        ("Lever in neutral", _angle(linkage.lever.axis, nominal(link.neutral))),
        ("Arm in neutral", _angle(linkage.arm.axis, nominal(link.arm_neutral))),
        ("Travel of the hand lever", _travel(case, linkage)),
    ):
        yield row([Cell(name, 0.5 * width), Cell(value, 0.5 * width)], with_next=True)
    yield from _positions(case, linkage, width)
    if not _fits(case, linkage):
        told = (
            "Not printed at true size: lever or arm is too long for it. Look at its radius again."
        )
        yield paragraph(told, width, with_next=True)
    yield paragraph(f"Caution: {caution(linkage)}", width, bold=True)


_COUNTED = {
    "cross": "from straight ahead, seen from the right",
    "upright": "from straight ahead, seen from above",
    "along": "from straight to the right, seen from behind",
}


def _angle(axis: str, angle: float) -> str:
    return f"{degrees(angle)} counter-clockwise {_COUNTED[axis]}"


def _travel(case: Case, linkage: Linkage) -> str:
    try:
        low, high = hand_travel(case, linkage)
    except NotKnownError:
        return "not measured yet"
    return f"{degrees(nominal(low))} to {degrees(nominal(high))}"


def _positions(case: Case, linkage: Linkage, width: float) -> Iterator[Block]:
    """Every position: the arm's angle, the lever's, and the way of the knob from neutral."""
    try:
        found = reach(case, linkage)
    except NotKnownError:
        return
    hand = chain(case, linkage)[0]
    shares = (0.34, 0.22, 0.22, 0.22)
    yield space(1.0)
    yield _line(("Position", "Arm", "Hand lever", "Knob from neutral"), shares, width)
    for position, arm, lever in zip(linkage.arm.position, found.wanted, found.hand, strict=True):
        angle, way = nominal(lever), "not measured"
        if hand.lever.handle is not None:
            swung = angle - nominal(hand_neutral(case, linkage))
            by = swung * nominal(case.si(hand.lever.handle))
            way = case.units.show(abs(by), Kind.LENGTH)
        reached = np.isfinite(angle)
        texts = (
            position.name,
            degrees(nominal(arm)),
            degrees(angle) if reached else "not reached",
            way if reached else "",
        )
        yield _line(texts, shares, width)
    yield space(1.0)


def _line(texts: tuple[str, ...], shares: tuple[float, ...], width: float) -> Block:
    cells = [
        Cell(text, share * width, right=number > 0)
        for number, (text, share) in enumerate(zip(texts, shares, strict=True))
    ]
    return row(cells, with_next=True)


def _arms(case: Case, linkage: Linkage) -> Scene:
    """Lever and arm, one below the other, each as it is seen along its own pivot, at true size."""
    views = {view.axis: view for view in linkage_views(case, linkage)}
    link = link_of(case, linkage)
    parts: tuple[tuple[str, LinkageLever | DrivenArm], ...] = (
        ("lever", linkage.lever),
        ("arm", linkage.arm),
    )
    shapes: list[Shape] = []
    top = 0.0
    for end, (name, part) in enumerate(parts):
        seen = views[part.axis]
        _, (_, high) = _box(list(_template(seen, end, (0.0, 0.0))))
        drawn = list(_template(seen, end, (0.0, top - high)))
        (left, low), _ = _box(drawn)
        hole = case.units.show(nominal((link.lever, link.arm)[end].radius), Kind.LENGTH)
        words = f"{name} of the {linkage.name}, hole at {hole}"
        shapes += [*drawn, Text((left, low - _BENEATH), words, "start")]
        top = low - _BENEATH - _BELOW
    title = f"{linkage.name[0].upper()}{linkage.name[1:]}: lever and arm, true size"
    return Scene(tuple(shapes), title, f"{title}, each seen along its pivot")


def _box(shapes: Sequence[Shape]) -> tuple[Point, Point]:
    """The box round shapes with their lettering at true size [m]."""
    (x0, y0), (x1, y1) = bounds([shape.inked(View(1.0), FINE_PEN) for shape in shapes])
    return (x0 / MM, y0 / MM), (x1 / MM, y1 / MM)


def _template(seen: LinkageView, end: int, pivot: Point) -> Iterator[Shape]:
    """Pivot and hole to punch, the arc of the hole, and a line for every position."""
    move = partial(_moved, seen.pivots[end], pivot)
    hole = move(seen.neutral[end])
    for at in (pivot, hole):
        yield Circle(at, _RING, kind=LineKind.THIN)
        yield CentreMark(at, _RING)
    yield Line(pivot, hole)
    if len(seen.travel) > 1:
        yield Polyline([move(each[end]) for each in seen.travel], kind=LineKind.THIN)
    for name, each in seen.places:
        yield from _ray(pivot, move(each[end]), name)


def _ray(pivot: Point, hole: Point, name: str) -> Iterator[Shape]:
    heading = atan2(hole[1] - pivot[1], hole[0] - pivot[0])
    out = polar(hole, _OVERRUN, heading)
    yield Line(pivot, out, kind=LineKind.CENTRE)
    upright = out[0] >= pivot[0]
    beyond = polar(out, 0.0015, heading)
    angle = heading if upright else heading + np.pi
    yield Text(beyond, name, "start" if upright else "end", angle=angle)


def _moved(start: Point, to: Point, at: Point) -> Point:
    return at[0] - start[0] + to[0], at[1] - start[1] + to[1]
