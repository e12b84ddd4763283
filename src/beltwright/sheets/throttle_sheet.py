"""Setting the throttle in the shop: stops, slack, and every spring pulled off in turn."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.drawing.ink import Page
from beltwright.drawing.sheet import A4, Paper
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.engine.findings import GOVERNOR_CAUTION
from beltwright.review.nominal import nominal
from beltwright.review.review import Review
from beltwright.review.throttle.findings import LEAST_SLACK, STRAIN_CAUTION
from beltwright.review.throttle.levers import arm_lever, described, pedal_lever
from beltwright.review.throttle.spring_findings import HOOK_CAUTION
from beltwright.review.throttle.stroke import closings, foot_push, return_springs
from beltwright.sheets.flow import Block, Cell, heading, paragraph, row, rule
from beltwright.sheets.in_the_way import before_you_begin
from beltwright.sheets.paper_sheet import text_frame, text_sheets
from beltwright.sheets.steps import numbered_steps

TITLE = "Set the throttle"
PURPOSE = (
    "Set pedal, cable and arm so that the arm opens fully, is never strained, and closes by "
    "itself from anywhere with any one spring off. Again after every work on engine or pedal."
)
TOOLS = (
    "Steel rule, a phone's level, fish scale, pliers, two spanners, oil, spring hook, "
    "safety glasses."
)


def throttle_sheets(case: Case, review: Review, made_on: str, paper: Paper = A4) -> list[Page]:
    """The steps of setting it, with the numbers of this build."""
    width = text_frame(paper).width
    blocks = [
        heading(TITLE),
        paragraph(PURPOSE, width),
        paragraph(f"Tools: {TOOLS}", width),
        *before_you_begin(review, "throttle", "throttle.", width),
        heading("What to do, in this order"),
        *numbered_steps(_sayings(case), width),
        *_expected(case, width),
    ]
    return text_sheets(review, TITLE, made_on, blocks, paper)


def _sayings(case: Case) -> Iterator[tuple[str, str]]:
    """Each step, and the caution that belongs to it."""
    slack = case.units.show(LEAST_SLACK, Kind.LENGTH)
    yield (
        "Engine off and cold, the lead off the spark plug, wheels chocked on level ground.",
        "",
    )
    yield (
        "Follow the wire to the engine. It must pull the speed lever and nothing else; governor "
        "arm, its spring and the stop screws stay as their maker left them.",
        f"{GOVERNOR_CAUTION} Defer to the engine's maker and to local codes.",
    )
    yield (
        "Unhook the wire at the engine. Swing the arm by hand: it must fall back to its idle "
        "stop from anywhere, without sticking.",
        "",
    )
    yield (
        f"Hook the wire on. With the foot off and the arm on its idle stop, at least {slack} of "
        f"wire must be loose{_slack_written(case)}. Turn the adjuster, then rock engine and "
        "steering both ways and look again.",
        "",
    )
    yield (
        "Press the pedal fully and hold it. The pedal must meet its own stop just as the arm "
        f"reaches its own{_swings(case)}. Turn the pedal's stop screw until it does; the wire must "
        "not be taut beyond.",
        STRAIN_CAUTION,
    )
    yield (
        f"Pull one spring off at a time{_names(case)}. Press fully and let go, then half, then a "
        "little: the arm must come back to its idle stop each time. Hook it on before the next.",
        HOOK_CAUTION,
    )
    yield (
        "All springs on. Try it once more fully pressed with the steering on each lock.",
        "A throttle that stays open drives the machine on without you: keep a stop switch in "
        "reach that kills the engine when you fall off.",
    )
    yield (
        "Driven wheels on blocks, the others chocked. Lead on, engine running, gearbox in neutral, "
        "brake held: press the pedal a little, let go of it, and see that the engine falls to "
        "idle. Then try the stop switch.",
        "Outdoors only: exhaust kills in a closed room. Guards on first; keep hands, hair and "
        "sleeves away from belt and pulleys.",
    )


def _slack_written(case: Case) -> str:
    slack = described(case).cable.slack
    if slack is None:
        return ""
    return f"; the build file counts on {case.units.show(slack.value, Kind.LENGTH)}"


def _swings(case: Case) -> str:
    try:
        pedal, arm = (
            nominal(np.degrees(np.abs(lever.end - lever.start)))
            for lever in (pedal_lever(case), arm_lever(case))
        )
    except NotKnownError:
        return ""
    return f": {pedal:.0f}° of pedal, {arm:.0f}° of arm"


def _names(case: Case) -> str:
    springs = [f"the {s.name}" for at in ("arm", "pedal") for s in return_springs(case, at)]
    return f": {', '.join(springs)}" if springs else ""


def _expected(case: Case, width: float) -> Iterator[Block]:
    """What a fish scale should read at the arm and at the pedal."""
    if not described(case).spring:
        return
    try:
        radius = arm_lever(case).radius
        found = [(one.broken, one.springs, foot_push(case, one.broken)) for one in closings(case)]
    except NotKnownError:
        return
    show = partial(case.units.show, kind=Kind.FORCE)
    yield heading("What a fish scale should read")
    yield paragraph(
        "Pulled squarely: at the arm's hole, wire unhooked, to hold it off its idle stop; at the "
        "pedal, to begin to press. Far off? A hook or a spring is not as written: measure again.",
        width,
        with_next=True,
    )
    yield rule(width)
    shares = (0.5, 0.25, 0.25)
    labels = ("Springs", "At the arm", "At the pedal")
    yield _line(labels, shares, width)
    for broken, springs, push in found:
        at_arm = show(nominal(springs) / nominal(radius))
        name = f"without the {broken}" if broken else "all on"
        yield _line((name, at_arm, show(nominal(push))), shares, width)


def _line(texts: tuple[str, ...], shares: tuple[float, ...], width: float) -> Block:
    cells = [
        Cell(text, share * width, right=number > 0)
        for number, (text, share) in enumerate(zip(texts, shares, strict=True))
    ]
    return row(cells)
