"""What the review says about the pulls in a belt: grip, spring, tension, shaft loads."""

from collections.abc import Iterator
from functools import partial

import numpy as np
from numpy.typing import NDArray

from beltwright.build.driveline import Belt, Pulley
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.quantity.showing import STEPS
from beltwright.review.belt.force import (
    HOLD,
    Pulls,
    press_test,
    pulls,
    shaft_loads,
    static_pull,
)
from beltwright.review.belt.layout import belt_layout
from beltwright.review.belt.power_findings import questions as power_questions
from beltwright.review.belt.spring import ArmSpring, arm_spring, sprung_idler
from beltwright.review.belt.task import wheel_named
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.engine.torque import peak_torque, rating
from beltwright.review.finding import Verdict
from beltwright.review.judging import HIGH_PERCENT, percentiles, too_often
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal

LEAST_RAISE = 0.05
"""Least share of what is needed by which it is worth raising a belt's pull."""

NEAR = 0.1
"""Share of the engine's best torque within which the grip is marginal."""

CAPSTAN = "Euler's capstan equation; Shigley, Mechanical Engineering Design, section 17-3"
NIP_CAUTION = (
    "Fingers and sleeves are drawn in where a belt meets a pulley. Stop the engine and take off "
    "the spark lead before touching belt, spring or arm, and drive only with the guards on."
)
SPRING_CAUTION = (
    "A stretched spring flies off with the force that it holds. Wear eye protection, hook it with "
    "a spring hook or a loop of cord, and keep your face out of its line."
)
SPRING_REMEDY = (
    "Move a hook or take another spring, so that it is stretched in drive and shorter than its "
    "longest length in both positions."
)
OVER_REMEDY = (
    "Move a hook so that the spring's line keeps to one side of the arm's pivot from drive to "
    "released, or put a stop in the way of the arm before it gets there."
)
SLIP_CAUTION = (
    "A slipping belt gets hot, burns and lets go on the very slope that it is needed on. The brake "
    "must hold the machine without it."
)

ONE_MORE = "Choose looks where one more idler would give it that."


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the force in every belt."""
    for belt in case.build.belt:
        head = f"belt.{belt.name}"
        yield Ask(
            f"{head}.grip", f"Engine torque held by the {belt.name}", partial(_grip, case, belt)
        )
        if sprung_idler(case, belt) is not None:
            yield Ask(
                f"{head}.spring", f"Pull of the spring, {belt.name}", partial(_spring, case, belt)
            )
        yield Ask(
            f"{head}.static_tension", f"Tension of the {belt.name}", partial(_tension, case, belt)
        )
        yield Ask(f"{head}.press_test", f"Press test, {belt.name}", partial(_press, case, belt))
        yield from power_questions(case, belt)
        for shaft in _shafts(case, belt):
            yield Ask(
                f"{head}.shaft_load.{shaft}",
                f"Pull of the {belt.name} on the {shaft} shaft",
                partial(_shaft_load, case, belt, shaft),
            )


def _shafts(case: Case, belt: Belt) -> tuple[str, ...]:
    wheels = (wheel_named(case, name) for name in belt.run)
    return tuple(wheel.shaft for wheel in wheels if isinstance(wheel, Pulley))


def _grip(case: Case, belt: Belt) -> Draft:
    found, peak = pulls(case, belt), peak_torque(case)
    grip = belt_layout(case, belt).where_it_runs(found.grip)
    show = partial(case.units.show, kind=Kind.TORQUE)
    slips, name = nominal(found.grip), belt.run[int(np.atleast_1d(found.first.pulley)[0])]
    holds = not falls_short(grip, peak, NEAR)
    return Draft(
        kind=Kind.TORQUE,
        value=grip,
        at_least=peak,
        near=NEAR,
        worst=Verdict.MARGINAL if slips >= nominal(rating(case).torque) else Verdict.STOP,
        stops=np.atleast_1d(~(grip >= rating(case).torque)),
        meaning=f"The {name} slips first, at {show(slips)} of engine torque; the engine gives "
        f"{show(nominal(peak))} at its best.",
        remedy="" if holds else _grip_remedy(case, belt, found),
        formula="slip where (tight − Fc) = e^(f θ / sin(β/2)) × (slack − Fc)",
        working=_grip_working(case, found),
        source=CAPSTAN,
        leaves_out="water and oil in the groove, glaze, and jerks of the clutch",
        caution=SLIP_CAUTION,
        place=_place(case, belt, name),
    )


def _grip_remedy(case: Case, belt: Belt, found: Pulls) -> str:
    show = partial(case.units.show, kind=Kind.FORCE)
    has, needs = nominal(found.static), nominal(found.needed)
    if has >= needs:
        return (
            f"Give the pulley that slips more wrap, and keep its groove clean and dry. {ONE_MORE}"
        )
    how = (
        "by sliding a shaft or an idler until the press test shows it"
        if sprung_idler(case, belt) is None
        else "with a stronger spring or with hooks farther from the pivot"
    )
    return (
        f"Bring the belt pull at rest from {show(has)} to {show(needs)} {how}, or give the pulley "
        f"that slips more wrap. {ONE_MORE}"
    )


def _grip_working(case: Case, found: Pulls) -> str:
    slack = nominal(found.static)
    ratio = nominal(found.capstan[int(np.atleast_1d(found.first.pulley)[0])])
    return (
        f"pull at rest {case.units.show(slack, Kind.FORCE)}, pull ratio at slip {ratio:.2f}; "
        f"{case.units.show(nominal(found.first.torque), Kind.TORQUE)} on the driver of "
        f"{case.units.show(nominal(found.task.radius), Kind.LENGTH)} pitch radius"
    )


def _spring(case: Case, belt: Belt) -> Draft:
    spring = arm_spring(case, belt)
    show = case.units.show
    driving, released = spring.driving, spring.released
    over = released.moment * driving.moment < 0.0
    upset = driving.slack | driving.overstretched | released.overstretched | over
    layout = belt_layout(case, belt)
    holds = np.atleast_1d(~upset) | ~layout.usable
    lengths = (
        f"{show(nominal(driving.length), Kind.LENGTH)} long in drive and pulls "
        f"{show(nominal(driving.pull), Kind.FORCE)}; released it is "
        f"{show(nominal(released.length), Kind.LENGTH)} long and pulls "
        f"{show(nominal(released.pull), Kind.FORCE)}"
    )
    return Draft(
        kind=Kind.FORCE,
        value=layout.where_it_runs(driving.pull),
        holds=holds,
        worst=Verdict.STOP,
        meaning=_spring_state(
            bool(driving.slack.flat[0]), bool(np.ravel(over)[0]), not bool(holds[0])
        )
        + _spring_reach(case, belt, spring),
        remedy=_spring_remedy(np.ravel(over), holds),
        formula="pull = initial pull + rate × (length between the hooks − free length)",
        working=lengths,
        source="statics; Shigley, Mechanical Engineering Design, section 10-11",
        leaves_out="friction in the pivot, rust and set of an old spring",
        caution=SPRING_CAUTION,
        place=_place(case, belt, spring.idler),
    )


def _spring_remedy(over: NDArray[np.bool_], holds: NDArray[np.bool_]) -> str:
    if holds[0] and not too_often(~holds):
        return ""
    return OVER_REMEDY if over[0] or too_often(over) else SPRING_REMEDY


def _spring_state(slack: bool, over: bool, broken: bool) -> str:
    if slack:
        return "The spring hangs loose in drive: nothing tightens the belt."
    if over:
        return (
            "With the clutch down the spring's line has gone over the pivot: it holds the arm off "
            "the belt, and a knock lets it snap back in and drive off."
        )
    if broken:
        return "The spring is drawn past its longest length and will stay stretched."
    return "The spring is stretched in drive and stays within its length in both positions."


def _spring_reach(case: Case, belt: Belt, spring: ArmSpring) -> str:
    """How long the spring gets, and how long it may get."""
    idler = sprung_idler(case, belt)
    longest = idler.arm.spring.longest if idler and idler.arm and idler.arm.spring else None
    if longest is None:
        return ""
    show = partial(case.units.show, kind=Kind.LENGTH)
    most = max(nominal(spring.driving.length), nominal(spring.released.length))
    return f" It gets {show(most)} long, and may get {show(longest.value)}."


def _tension(case: Case, belt: Belt) -> Draft:
    found, runs = pulls(case, belt), belt_layout(case, belt).where_it_runs
    static, needed = runs(found.static), runs(found.needed)
    show = partial(case.units.show, kind=Kind.FORCE)
    has, needs = nominal(static), nominal(needed)
    given = "press test" if belt.tension is not None else "spring"
    return Draft(
        kind=Kind.FORCE,
        value=static,
        at_least=needed,
        near=0.0,
        worst=Verdict.MARGINAL,
        meaning=f"The {given} gives {show(has)}; {show(needs)} would hold {HOLD:g} times the "
        "engine's best torque.",
        remedy=_tension_remedy(case, belt, static, needed),
        formula=_tension_formula(belt),
        working=_tension_working(case, belt, found),
        source=f"statics; {CAPSTAN}; {HOLD:g} times is common practice, no source",
        leaves_out="stretch of the belt as it wears in: look again after the first hour",
        caution=NIP_CAUTION,
    )


def _tension_remedy(case: Case, belt: Belt, static: Array, needed: Array) -> str:
    if not falls_short(static, needed, 0.0):
        return ""
    (short,) = percentiles(needed - static, HIGH_PERCENT)
    more = max(short, LEAST_RAISE * nominal(needed))
    how = (
        "slide a shaft or an idler further out"
        if belt.tension is not None
        else "take a stronger spring, or hook it farther from the arm's pivot"
    )
    return f"Raise the pull by {case.units.show(more, Kind.FORCE, step=more / STEPS)}: {how}."


def _tension_formula(belt: Belt) -> str:
    if belt.tension is not None:
        return "mean pull of the spans = pull at rest; needed: the largest of the pulleys' needs"
    return "belt pull = moment of the spring / lever of the belt about the arm's pivot"


def _tension_working(case: Case, belt: Belt, found: Pulls) -> str:
    show = partial(case.units.show, kind=Kind.FORCE)
    at_peak = [nominal(pull) for pull in found.at_peak()]
    loop = f"at best torque {show(max(at_peak))} tight, {show(min(at_peak))} slack"
    if belt.tension is not None:
        return loop
    spring = arm_spring(case, belt)
    moment = nominal(spring.driving.moment)
    lever = -moment / nominal(spring.pull) if nominal(spring.pull) else 0.0
    return (
        f"{case.units.show(abs(moment), Kind.TORQUE)} / "
        f"{case.units.show(abs(lever), Kind.LENGTH)} = {show(nominal(spring.pull))}; {loop}"
    )


def _press(case: Case, belt: Belt) -> Draft:
    test = press_test(case, belt)
    show = case.units.show
    ends = belt.run[test.span], belt.run[(test.span + 1) % len(belt.run)]
    force = show(nominal(test.force), Kind.FORCE)
    moved = show(nominal(test.deflection), Kind.LENGTH)
    return Draft(
        kind=Kind.FORCE,
        value=belt_layout(case, belt).where_it_runs(test.force),
        verdict=Verdict.SOUND,
        says=f"{force} moves it {moved}",
        meaning=f"Engine stopped, clutch up: press the middle of the span from {ends[0]} to "
        f"{ends[1]} with {force}; it should move {moved}. Less means a tighter belt.",
        formula="force = 2 × pull × sin(arctan(2 × deflection / span)), deflection = span / 64",
        working=f"span {show(nominal(test.length), Kind.LENGTH)}, pull "
        f"{show(nominal(static_pull(case, belt)) / belt.count, Kind.FORCE)} in each belt",
        source="statics; deflection of 1/64 of the span as belt makers' manuals have it (from "
        "memory)",
        leaves_out="the belt's own stiffness, which makes it feel tighter",
        caution=NIP_CAUTION,
    )


def _shaft_load(case: Case, belt: Belt, shaft: str) -> Draft:
    load = shaft_loads(case, belt)[shaft]
    show = partial(case.units.show, kind=Kind.FORCE)
    angle = np.degrees(np.arctan2(nominal(load.y), nominal(load.x)))
    return Draft(
        kind=Kind.FORCE,
        value=belt_layout(case, belt).where_it_runs(load.size),
        verdict=Verdict.SOUND,
        meaning=f"The belt pulls this shaft with {show(nominal(load.size))}, "
        f"{_way(angle, belt_layout(case, belt).plane)}, engine at its best.",
        formula="load = (pull − Fc) along the leaving span − (pull − Fc) along the arriving span",
        working=f"{show(nominal(load.x))} in x, {show(nominal(load.y))} in y",
        source="statics",
        leaves_out="jerks, and a pulley that runs out of true",
    )


def _way(angle: float, plane: str) -> str:
    """Give a direction in the belt's plane in words; 0 is straight ahead."""
    side = (
        ("left" if angle > 0 else "right")
        if plane == "upright"
        else ("up" if angle > 0 else "down")
    )
    from_end, end = (abs(angle), "ahead") if abs(angle) <= 90 else (180 - abs(angle), "back")
    if from_end < 0.5:
        return f"straight {end}"
    return f"{from_end:.0f}° {side} of straight {end}"


def _place(case: Case, belt: Belt, name: str) -> tuple[float, float, float]:
    """Where a pulley or idler of the belt stands in drive, for the drawing."""
    return belt_layout(case, belt).stands(belt.run.index(name))
