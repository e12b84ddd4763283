"""What the review says about the throttle: what it works, travel, stop, slack, stretch, force."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.physics.throttle.lever import angle_at_reach, matching_radius, wire_reach
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.engine.findings import GOVERNOR_CAUTION
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal
from beltwright.review.throttle import spring_findings
from beltwright.review.throttle.levers import (
    arm_lever,
    cable,
    described,
    foot_arm,
    pedal_lever,
)
from beltwright.review.throttle.stroke import Travel, foot_push, stroke, travel, wrong_way

OPENS, STRAINS = 0.9, 1.05
"""Shares of the wire that the arm needs, between which an adjuster sets the rest (common practice,
no source)."""

LEAST_SLACK = 0.001
"""Wire that must be loose at the idle stop [m] (common practice, no source)."""

MOST_SLACK, MOST_EATEN = 0.2, 0.2
"""Shares of the pedal's travel that slack, or the cable itself, may eat (common practice, no
source)."""

FORCES = {"foot": (18.0, 90.0), "hand": (3.0, 40.0)}
"""Least push at the start and most at any place [N]."""

FORCE_SOURCES = {
    "foot": "18 to 90 N for a pedal on which the foot does not rest: MIL-STD-1472, pedals, from "
    "memory, medium",
    "hand": "3 to 40 N for a thumb or finger lever: common practice, no source",
}

CLOSING_CAUTION = (
    "A throttle that stays open drives the machine on without you. Engine off, press it fully, "
    "pull each spring off in turn and see that it still closes. Keep a stop switch in reach of the "
    "seat that kills the engine when you fall off."
)
STRAIN_CAUTION = (
    "A wire pulled on against the arm's stop bends arm and stop screw, and a bent stop lets the "
    "engine over-rev. A frayed wire can catch in its housing and hold the throttle open."
)
ARM_CAUTION = (
    f"{GOVERNOR_CAUTION} The engine's maker says which lever a cable may pull; what the maker and "
    "local codes say goes first."
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the throttle."""
    yield Ask("throttle.governor", "What the throttle cable pulls", partial(_governor, case))
    yield from spring_findings.questions(case)
    yield Ask("throttle.closes", "Slack wire at the idle stop", partial(_closes, case))
    yield Ask("throttle.travel", "Arm opening at full pedal", partial(_travel, case))
    yield Ask("throttle.stop", "Stop of the pedal", partial(_stop, case))
    yield Ask("throttle.slack", "Free travel of the pedal", partial(_slack, case))
    yield Ask("throttle.stretch", "Wire that bends and stretch take up", partial(_stretch, case))
    yield Ask("throttle.force", "Force on the pedal", partial(_force, case))


def _governor(case: Case) -> Draft:
    arm = described(case).arm
    if arm.works is None:
        raise NotKnownError(
            "throttle.arm.works",
            "Follow the wire to the engine. The speed lever pulls on the governor's spring and is "
            "the one to work; the arm on the governor's shaft and the butterfly are not. Write "
            'works = "speed lever" under [throttle.arm].',
        )
    right, as_made = arm.works == "speed lever", arm.stop_screw == "as made"
    return Draft(
        holds=np.array([right and as_made]),
        worst=Verdict.MARGINAL if right else Verdict.STOP,
        says=arm.works if as_made else f"{arm.works}, its stop screw moved",
        meaning=_worked(arm.works, as_made),
        remedy=_work_this(right, as_made),
        formula="the wire pulls the speed lever, which only asks the governor for a speed; the "
        "full-speed stop screw stands as its maker set it",
        working=f"pulls the {arm.works}; full-speed stop screw {arm.stop_screw}",
        source="how a governed engine is laid out: common practice, no source; the maker's manual "
        "goes first",
        caution=ARM_CAUTION,
    )


def _worked(works: str, as_made: bool) -> str:
    if works != "speed lever":
        return (
            f"Whoever presses it pulls the {works} and overrides the governor: when the load comes "
            "off, nothing holds the engine's speed."
        )
    if not as_made:
        return "The full-speed stop was moved: the governor may now allow more than the maker does."
    return "The wire asks the governor for a speed; the governor still holds the engine to it."


def _work_this(right: bool, as_made: bool) -> str:
    if not right:
        return (
            "Hook the wire to the speed lever that the fixed control worked, and to nothing else."
        )
    if not as_made:
        return "Have the stop set back, engine warm, with a rev counter on the spark lead."
    return ""


def _travel(case: Case) -> Draft:
    wrong = wrong_way(case)
    if wrong:
        return _pulls_wrongly(wrong)
    made, show = travel(case), case.units.show
    share = np.atleast_1d(made.brought / made.needed)
    over = nominal(share) > STRAINS
    length = partial(_length, case)
    return Draft(
        kind=Kind.RATIO,
        value=share,
        says="" if nominal(share) > 0.0 else "not at all",
        at_least=OPENS,
        at_most=STRAINS,
        near=0.0,
        worst=Verdict.STOP if over else Verdict.MARGINAL,
        stops=share > STRAINS,
        meaning=_travel_words(case, made),
        remedy=_travel_remedy(case, made)
        if falls_short(share, OPENS, 0.0) or goes_over(share, STRAINS, 0.0)
        else "",
        formula="(wire drawn by the pedal - slack - stretch) / wire that the arm needs, each from "
        "the distance between housing end and hole at both ends of the swing",
        working=f"({length(made.drawn)} - {length(cable(case).slack)} - {length(made.stretch)}) / "
        f"{length(made.needed)} = {show(nominal(share), Kind.RATIO)}",
        source=f"plane geometry of two levers; {OPENS:.0%} to {STRAINS:.0%} is common practice, "
        "no source",
        leaves_out="levers that bend, a housing that moves in its clamps",
        caution=STRAIN_CAUTION if over else CLOSING_CAUTION,
    )


def _pulls_wrongly(name: str) -> Draft:
    return Draft(
        holds=np.array([False]),
        says="wrong way",
        meaning=f"At an end of its swing the wire pulls the {name} the wrong way or stands at its "
        "dead centre: there it can stay where it is.",
        remedy=f"Look again at the angles and the housing_end of the {name}, and which way is up "
        "in your photo. If they are right, move the end of the housing so that the wire runs "
        "squarely to the line from pivot to hole in mid-swing.",
        formula="the wire's line passes the pivot on the side that opens, over the whole swing",
        working=f"the wire's lever about the {name}'s pivot changes its sign or is the wrong one",
        source="statics",
        caution=CLOSING_CAUTION,
    )


def _length(case: Case, value: Array) -> str:
    return case.units.show(nominal(value), Kind.LENGTH)


def _travel_words(case: Case, made: Travel) -> str:
    arm = arm_lever(case)
    left = nominal(made.brought - made.needed)
    swing = nominal((made.reached - arm.start) / (arm.end - arm.start))
    opened = f"Full pedal opens the arm to {swing:.0%} of its swing"
    if left <= 0.0:
        return f"{opened}: {_length(case, made.needed - made.brought)} of wire are missing."
    pull = case.units.show(left * nominal(_spring_of_cable(case)), Kind.FORCE)
    return (
        f"{opened}, with {_length(case, made.brought - made.needed)} of wire to spare: drawn on, "
        f"it would pull about {pull} more on the arm's stop."
    )


def _spring_of_cable(case: Case) -> Array:
    made = cable(case)
    return np.atleast_1d(made.stiffness / made.length)


def _travel_remedy(case: Case, made: Travel) -> str:
    """Where the wire must hook, or the pedal must stop, for the travels to match."""
    arm, pedal = arm_lever(case), pedal_lever(case)
    wanted = made.needed + cable(case).slack + made.stretch
    rest = wire_reach(pedal.start, pedal.radius, pedal.housing_end)
    stop = angle_at_reach(
        rest + wanted, pedal.radius, pedal.housing_end, pedal.start, -pedal.onward
    )
    ways = [
        f"hook the wire {_length(case, radius)} from the {name}'s pivot (now "
        f"{_length(case, lever.radius)})"
        for radius, name, lever in (
            (matching_radius(made.brought, arm.start, arm.end, arm.housing_end), "arm", arm),
            (matching_radius(wanted, pedal.end, pedal.start, pedal.housing_end), "pedal", pedal),
        )
        if np.isfinite(nominal(radius))
    ]
    if nominal(made.brought - made.needed) > 0.0:
        swing = nominal(abs(stop - pedal.start))
        ways.insert(0, f"set the pedal's stop to {_angle(case, swing)} of swing")
    if not ways:
        return "No hole matches the two: give the pedal a longer swing."
    first, *others = ways
    return "; or ".join([first[:1].upper() + first[1:], *others]) + "."


def _angle(case: Case, value: float) -> str:
    return case.units.show(value, Kind.ANGLE, "°")


def _stop(case: Case) -> Draft:
    stop = described(case).pedal.stop
    if stop is None:
        raise NotKnownError(
            "throttle.pedal.stop",
            "Press the pedal fully, engine off, and see what stops it: a stop of its own or the "
            'arm at the engine. Write stop = "screw", "fixed" or "none" under [throttle.pedal].',
        )
    kind = described(case).worked_by
    push = case.suppose(
        None,
        "throttle.hard_push",
        "300 ± 100 N" if kind == "foot" else "100 ± 30 N",
        Kind.FORCE,
        f"what a {kind} pushes in haste (common practice, no source)",
    )
    made = stroke(case)
    lever = made.pedal_wire[:, -1]
    lifts = lever > 0.0
    pull = np.where(
        lifts, push * foot_arm(case) / np.where(lifts, lever, 1.0) * cable(case).efficiency, np.nan
    )
    show = case.units.show
    strain = show(nominal(pull), Kind.FORCE)
    there = stop != "none"
    return Draft(
        holds=np.array([there]),
        worst=Verdict.STOP,
        says={"screw": "a stop screw", "fixed": "a fixed stop", "none": "none"}[stop],
        meaning="The pedal meets its own stop, so that the foot cannot strain wire and arm."
        if there
        else f"A hard push pulls {strain} on the arm at the engine and its stop.",
        remedy=""
        if there
        else "Weld or bolt a stop under the pedal, best with a screw, and set it to touch as the "
        "arm just reaches its own.",
        formula="push × foot arm / wire's lever × what the bends leave",
        working=f"{show(nominal(push), Kind.FORCE)} × {_length(case, foot_arm(case))} / "
        f"{_length(case, made.pedal_wire[0, -1:])} × "
        f"{show(nominal(cable(case).efficiency), Kind.RATIO)} = {strain}",
        source="law of the lever; rope friction (Euler)",
        caution=STRAIN_CAUTION,
    )


def _measured_slack(case: Case) -> Array:
    return case.need(
        described(case).cable.slack,
        "throttle.cable.slack",
        "Engine off, arm at its idle stop: draw the wire out of its housing at the pedal by hand "
        "until the arm just moves, measure how far, and write it under [throttle.cable], for "
        'example slack = "2.5 mm".',
    )


def _closes(case: Case) -> Draft:
    slack = np.atleast_1d(_measured_slack(case))
    tight = bool(slack[0] <= 0.0)
    least = case.units.show(LEAST_SLACK, Kind.LENGTH)
    return Draft(
        kind=Kind.LENGTH,
        value=slack,
        below_zero="too tight by",
        at_least=LEAST_SLACK,
        worst=Verdict.STOP if tight else Verdict.MARGINAL,
        stops=slack <= 0.0,
        meaning="The wire is taut before the arm is at its idle stop: the engine never idles, and "
        "every bend of the housing opens it further."
        if tight
        else "With the foot off the wire hangs loose, so that the arm reaches its idle stop.",
        remedy=f"Turn the adjuster in until {least} to twice as much of wire is loose, steering "
        "and engine rocked both ways."
        if falls_short(slack, LEAST_SLACK)
        else "",
        formula=f"slack with the foot off, at least {least}",
        working=f"slack {_length(case, slack)}",
        source="common practice, no source",
        leaves_out="a housing that moves with the steering or a rocking engine: try it",
        caution=CLOSING_CAUTION,
    )


def _slack(case: Case) -> Draft:
    slack, drawn = np.atleast_1d(_measured_slack(case)), pedal_lever(case).travel
    share = case.units.show(nominal(slack / drawn), Kind.RATIO)
    most = MOST_SLACK * drawn
    return Draft(
        kind=Kind.LENGTH,
        value=slack,
        at_most=most,
        worst=Verdict.MARGINAL,
        meaning=f"Free travel eats {share} of what the pedal draws before the arm moves.",
        remedy="Screw the adjuster out, but keep the wire loose at the idle stop."
        if goes_over(slack, most)
        else "",
        formula=f"slack, at most {MOST_SLACK:.0%} of the wire that the pedal draws",
        working=f"{_length(case, slack)} of {_length(case, drawn)}",
        source="common practice, no source",
    )


def _stretch(case: Case) -> Draft:
    made, wire = travel(case), cable(case)
    if wrong_way(case):
        stroke(case)  # says what has to be put right first
    eaten = np.atleast_1d(made.stretch + wire.play)
    most = MOST_EATEN * made.drawn
    bends = _angle(case, nominal(wire.bends))
    return Draft(
        kind=Kind.LENGTH,
        value=eaten,
        at_most=most,
        worst=Verdict.MARGINAL,
        meaning=f"Stretch takes {_length(case, made.stretch)}; crossing its housing in the bends "
        f"takes the wire up to {_length(case, wire.play)}, which a measured slack holds already.",
        remedy="Lay the housing with fewer and wider bends, clamp it at both ends and beside each "
        "bend, or take a thicker wire in a lined housing."
        if goes_over(eaten, most)
        else "",
        formula="stretch = pull × length / stiffness, the pull growing through the bends; play in "
        "the bends = bends × (bore - wire)",
        working=f"{_length(case, made.stretch)} + {_length(case, wire.play)} over {bends} of "
        f"bends = {_length(case, eaten)}",
        source="Hooke's law and rope friction (Euler); Shigley, Mechanical Engineering Design, "
        "9th ed., section 17-6 and table A-5; how much a housing gives is common practice, no "
        "source",
        leaves_out="a new wire that settles, a housing that is not clamped",
        caution=STRAIN_CAUTION,
    )


def _force(case: Case) -> Draft:
    throttle = described(case)
    if not throttle.spring:
        raise spring_findings.no_springs()
    push = foot_push(case)
    start, most = push[:, 0], np.max(push, axis=1)
    least, limit = FORCES[throttle.worked_by]
    heavy, light = goes_over(most, limit), falls_short(start, least)
    show = partial(case.units.show, kind=Kind.FORCE)
    full = show(float(push[0, -1]))
    return Draft(
        kind=Kind.FORCE,
        value=np.atleast_1d(most),
        holds=(most <= limit) & (start >= least),
        at_most=limit,
        worst=Verdict.MARGINAL,
        meaning=f"The {throttle.worked_by} feels {show(nominal(start))} as the arm begins to "
        f"move and {full} at full. "
        + ("That tires it." if heavy else "")
        + (f"On bumps, less than {show(least)} is pressed without being meant." if light else ""),
        remedy=_force_remedy(heavy, light),
        formula="(pull of the arm's springs and friction × e^(friction × bends) × wire's lever + "
        "springs and friction of the pedal) / foot arm",
        working=_force_working(case),
        source=f"law of the lever; rope friction (Euler); {FORCE_SOURCES[throttle.worked_by]}",
        leaves_out="the governor's spring where it is not described, the weight of pedal and boot",
        caution="Never make a throttle lighter by leaving a return spring off.",
    )


def _force_remedy(heavy: bool, light: bool) -> str:
    if heavy:
        return "Ease the bends of the housing, oil or line it, or make the foot's arm longer."
    return "Fit a stronger spring at the pedal." if light else ""


def _force_working(case: Case) -> str:
    made, show = stroke(case), case.units.show
    push, foot = foot_push(case), foot_arm(case)
    over = float(1.0 / cable(case).efficiency[0])
    lever = show(float(made.pedal_wire[0, -1]), Kind.LENGTH)
    return (
        f"at full: the bends make the pull {over:.3g} times as hard, the wire pulls {lever} from "
        f"the pedal's pivot, the foot {_length(case, foot)}: "
        f"{show(float(push[0, -1]), Kind.FORCE)}"
    )
