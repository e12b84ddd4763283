"""What the review says about the engine: torque, revs, piston, governor, flywheel, rims."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.engine.torque import mean_piston_speed
from beltwright.physics.engine.wheel_stress import CAST_IRON_RIM_SPEED
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.engine.torque import (
    Rim,
    flywheel_rim,
    no_load,
    peak_torque,
    pulley_rims,
    rating,
)
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal
from beltwright.review.road_words import stress_words
from beltwright.tables.engines import piston_speeds

LEAST_MARGIN = 3.0
"""Bursting speed over no-load speed that a wheel should keep (common practice, no source): a
stress of a ninth of the strength, for keyways, flaws and cracks that nobody sees."""

NEAR = 0.1
"""Share of that margin within which a wheel is marginal."""

BURST_CAUTION = (
    "A flywheel or pulley that bursts goes through sheet metal and people. Fit none that is "
    "cracked, welded or repaired, keep its guard on, and stand out of its plane at full revs."
)
BRITTLE_CAUTION = (
    "Its metal is brittle and breaks without warning: hang it up and tap it; a cracked one sounds "
    "dull (common practice)."
)
GOVERNOR_CAUTION = (
    "Never alter, wire up or take off the governor to gain speed: an over-revved engine can throw "
    "its rod or burst its flywheel. Change pulleys instead."
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the engine."""
    yield Ask("engine.torque", "Best engine torque", partial(_torque, case))
    yield Ask("engine.speed", "Engine speed without load", partial(_speed, case))
    yield Ask("engine.governor", "Governor", partial(_governor, case))
    yield Ask("engine.piston_speed", "Mean piston speed", partial(_piston_speed, case))
    yield Ask("engine.flywheel", "Bursting speed of the flywheel", partial(_flywheel, case))
    if case.build.pulley:
        yield Ask("engine.pulley_rims", "Bursting speed of the pulleys", partial(_pulleys, case))


def _torque(case: Case) -> Draft:
    rated, peak = rating(case), peak_torque(case)
    show = case.units.show
    measured = len(case.build.engine.curve) > 1
    return Draft(
        kind=Kind.TORQUE,
        value=peak,
        verdict=Verdict.SOUND,
        meaning=f"{show(nominal(rated.torque), Kind.TORQUE)} at "
        f"{show(nominal(rated.speed), Kind.ROTATION)}, {show(nominal(peak), Kind.TORQUE)} at its "
        "best.",
        formula="the highest measured torque"
        if measured
        else "peak torque = (1 + rise) × power / speed",
        working=f"{show(float(peak[0] / rated.torque[0]) - 1, Kind.RATIO)} over "
        f"{show(nominal(rated.power), Kind.POWER)} / "
        f"{show(nominal(rated.speed), Kind.ROTATION)} = {show(nominal(peak), Kind.TORQUE)}",
        source="measured points"
        if measured
        else "mechanics for the rated torque; the shape of the curve is common practice, no source",
        leaves_out="what wear, heat, height above the sea and a gross power rating take away",
    )


def _speed(case: Case) -> Draft:
    made_for = case.suppose(
        case.build.engine.made_for,
        "engine.made_for",
        "3600 rpm",
        Kind.ROTATION,
        "most small upright-shaft engines are made for 3600 rpm at most (common practice, no "
        "source): read the label",
    )
    speed = no_load(case)
    show = case.units.show
    over = float(speed[0] / made_for[0]) - 1
    measured = case.build.engine.no_load is not None
    return Draft(
        kind=Kind.ROTATION,
        value=speed,
        at_most=made_for,
        near=0.0,
        worst=Verdict.STOP if measured else Verdict.MARGINAL,
        meaning=f"It {'runs' if measured else 'may run'} {over:.0%} faster than its maker allows."
        if over > 0
        else f"{-over:.0%} below what its maker allows.",
        remedy=_slower(measured) if goes_over(speed, made_for, 0.0) else "",
        formula="governed speed without load against the highest speed that the maker allows",
        working=f"{show(nominal(speed), Kind.ROTATION)} against "
        f"{show(nominal(made_for), Kind.ROTATION)}",
        source="the maker's limit; speed droop as ISO 8528-5 defines it",
        caution=GOVERNOR_CAUTION,
    )


def _slower(measured: bool) -> str:
    """What to do about an engine that runs too fast, or that only a guess makes run too fast."""
    if measured:
        return "Have the governor set back to its maker's speed and check it with a rev counter."
    return (
        "Nothing is measured yet: leave the governor alone. Hold a rev counter to the spark lead, "
        'clutch down, and write no_load, for example no_load = "3400 rpm"; read made_for off the '
        "label."
    )


def _governor(case: Case) -> Draft:
    state = case.build.engine.governor
    sound = state == "as made"
    return Draft(
        holds=np.array([sound]),
        worst=Verdict.STOP,
        says=state,
        meaning="The governor holds the engine at the speed that it was made for."
        if sound
        else f"The governor is {state}: nothing keeps the engine from over-revving when the load "
        "comes off.",
        remedy="" if sound else "Put the governor back as its maker made it before anything else.",
        formula="the governor must be as its maker made it",
        working=f"governor: {state}",
        source="common practice, no source",
        caution=GOVERNOR_CAUTION,
    )


def _piston_speed(case: Case) -> Draft:
    stroke = case.need(
        case.build.engine.stroke,
        "engine.stroke",
        "Look the stroke up by the engine's model number, or measure it through the plug hole with "
        'a dowel, and write it, for example stroke = "67 mm".',
    )
    limit = next(iter(piston_speeds()))
    near = 1 - limit.usual / limit.limit
    speed, turns = mean_piston_speed(stroke, no_load(case)), no_load(case)
    show = case.units.show
    return Draft(
        kind=Kind.SPEED,
        value=speed,
        at_most=limit.limit,
        near=near,
        worst=Verdict.STOP,
        unit=case.units.rim(),
        meaning=f"Small splash-oiled engines are built for about {_fast(case, limit.usual)} and "
        f"seldom stand more than {_fast(case, limit.limit)}.",
        remedy=_piston_remedy(case) if goes_over(speed, limit.limit, near) else "",
        formula="mean piston speed = 2 × stroke × speed",
        working=f"2 × {show(nominal(stroke), Kind.LENGTH)} × "
        f"{show(nominal(turns), Kind.ROTATION)} = {_fast(case, nominal(speed))}",
        source=f"kinematics; limit: {limit.source}",
        leaves_out="the weight of piston and rod, what the rod is made of, and the oil",
        caution="A rod that breaks comes through the crankcase.",
    )


def _piston_remedy(case: Case) -> str:
    slower = next(iter(piston_speeds())).usual
    stroke = case.build.engine.stroke
    assert stroke is not None
    turns = case.units.show(slower * np.pi / nominal(case.si(stroke)), Kind.ROTATION)
    return (
        f"{turns} keeps it to {_fast(case, slower)}: have the governed speed lowered to that as "
        "the engine's maker describes it, and gain speed with pulleys."
    )


def _fast(case: Case, speed: float) -> str:
    """The speed of a piston or a rim."""
    return case.units.show(speed, Kind.SPEED, case.units.rim())


def _rim_draft(case: Case, rim: Rim) -> Draft:
    show = case.units.show
    margin = float(rim.bursting[0] / rim.turns[0])
    stress = stress_words(case, nominal(rim.stress))
    return Draft(
        kind=Kind.ROTATION,
        value=rim.bursting,
        at_least=LEAST_MARGIN * rim.turns,
        near=NEAR,
        worst=Verdict.STOP,
        meaning=f"The {rim.name} would burst at {margin:.1f} times its speed, if it were sound."
        + _old_rule(case, rim),
        remedy=f"Use a smaller or stronger {rim.name}, or turn it slower."
        if falls_short(rim.bursting, LEAST_MARGIN * rim.turns, NEAR)
        else "",
        formula="bursting speed = speed × √(tensile strength / stress), stress = density × rim "
        "speed²; at least 3 times the speed",
        working=f"rim at {_fast(case, nominal(rim.speed))}, stress {stress}; "
        f"{show(nominal(rim.turns), Kind.ROTATION)} × √({stress_words(case, rim.strength)} / "
        f"{stress}) = {show(nominal(rim.bursting), Kind.ROTATION)}",
        source="thin-rim stress; strengths from Shigley, Mechanical Engineering Design (from "
        "memory); the margin of 3 is common practice, no source",
        leaves_out="keyways, arms, flaws and cracks, which take away more than half",
        caution=f"{BURST_CAUTION} {BRITTLE_CAUTION}" if rim.brittle else BURST_CAUTION,
    )


def _old_rule(case: Case, rim: Rim) -> str:
    if rim.material != "cast iron" or nominal(rim.speed) <= CAST_IRON_RIM_SPEED:
        return ""
    now, held = (_fast(case, each) for each in (nominal(rim.speed), CAST_IRON_RIM_SPEED))
    return f" Its rim runs at {now}; the old shop rule held plain cast-iron rims to {held}."


def _flywheel(case: Case) -> Draft:
    return _rim_draft(case, flywheel_rim(case))


def _pulleys(case: Case) -> Draft:
    rims = pulley_rims(case)
    if not rims:
        raise NotKnownError(
            "belt",
            "Describe the belt that runs on the engine's shaft, and its pulley there.",
            "No belt of the build runs on the engine's shaft.",
        )
    return _rim_draft(case, min(rims, key=lambda rim: float(rim.bursting[0] / rim.turns[0])))
