"""What the review says about a belt's run: whether it goes round, fits, lets go and lasts."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.driveline import Belt, Idler
from beltwright.physics.arrays import Array
from beltwright.physics.belt.arm import FITTING_SHARE, TravelEnd
from beltwright.physics.belt.fault import PathFault
from beltwright.physics.belt.fit import Fit
from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout, belt_layout, belt_run, loose_belt
from beltwright.review.belt.length import (
    STRETCHED_ON,
    Lengths,
    belt_take_up,
    growth,
    lengths_taken,
    slot_travel,
    sold_as,
    sold_between,
)
from beltwright.review.belt.other_belts import (
    FAULT_REMEDY,
    LIFT,
    another_belt,
    fitting_belts,
    longer_belt,
    shortest,
)
from beltwright.review.belt.wheel_findings import questions as wheel_questions
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.guard.keepers import keeper_words
from beltwright.review.judging import HIGH_PERCENT, percentiles, too_often
from beltwright.review.nearness import NEAR, falls_short, goes_over
from beltwright.review.nominal import nominal

RUN = "Run of the"
"""How the finding of a belt's run is called, before its name."""

GEOMETRY = "plane geometry of common tangents, exact"
CLUTCH_CAUTION = (
    "A clutch that drags moves the machine when nobody expects it. Try it with the driven wheels "
    "off the ground, out of gear, before every first drive."
)
FAULT_WORDS = {
    PathFault.NO_TANGENT: "two pulleys that follow each other stand one inside the other",
    PathFault.MISSES_PULLEY: "the belt does not touch a pulley of its run",
    PathFault.PULLEYS_OVERLAP: "two pulleys stand in the same place",
    PathFault.RUNS_INTO_PULLEY: "the belt would run through a pulley that it should pass",
    PathFault.CROSSES_ITSELF: "the belt crosses itself",
    PathFault.NOT_ONE_TURN: "the belt does not make one plain loop",
}
MEASURE_BELT = (
    "Measure the belt itself, a tape round its back, and the places of its pulleys, and write both "
    "with ±: no belt is exactly as long as the figure printed on it."
)
NO_PATH = "no path leads round these pulleys"


def questions(case: Case) -> Iterator[Ask]:
    """The questions about how every belt runs."""
    for belt in case.build.belt:
        head = f"belt.{belt.name}"
        yield Ask(f"{head}.run", f"{RUN} {belt.name}", partial(_run, case, belt))
        yield Ask(f"{head}.length", f"Length of the {belt.name}", partial(_length, case, belt))
        if _arm_idler(case, belt) is not None:
            yield Ask(f"{head}.arm", f"Clutch arm angle, {belt.name}", partial(_arm, case, belt))
            yield Ask(
                f"{head}.slack",
                f"Slack of the {belt.name}, clutch down",
                partial(_slack, case, belt),
            )
        elif _slides(case, belt):
            yield Ask(
                f"{head}.slot", f"Slack to lay on the {belt.name}", partial(_slot, case, belt)
            )
        yield Ask(
            f"{head}.take_up", f"Take-up left for the {belt.name}", partial(_take_up, case, belt)
        )
        yield from wheel_questions(case, belt)


def _arm_idler(case: Case, belt: Belt) -> Idler | None:
    named = {idler.name: idler for idler in case.build.idler}
    found = (named[name] for name in belt.run if name in named)
    return next((idler for idler in found if idler.arm is not None), None)


def _slides(case: Case, belt: Belt) -> bool:
    slotted = {shaft.name for shaft in case.build.shaft if shaft.slot_to is not None}
    return any(p.name in belt.run and p.shaft in slotted for p in case.build.pulley)


def _middle(layout: Layout) -> tuple[float, float, float]:
    """A spot on the belt: the middle of its longest span, clutch up."""
    span = max(layout.path.spans, key=lambda one: nominal(one.length))
    return layout.on_machine(
        0.5 * (nominal(span.start_x) + nominal(span.end_x)),
        0.5 * (nominal(span.start_y) + nominal(span.end_y)),
        layout.wheels[0].height,
    )


def _mover_place(layout: Layout) -> tuple[float, float, float]:
    assert layout.mover is not None
    return layout.stands(layout.mover.place)


def _run(case: Case, belt: Belt) -> Draft:
    layout = belt_run(case, belt)
    return Draft(
        holds=layout.usable,
        says="goes round" if layout.usable[0] else "does not go round",
        meaning=_run_meaning(case, layout),
        remedy=_run_remedy(case, layout),
        formula="headings turn through one full turn; every wrap above 0; no pulley in the way",
        working=_wraps_in_words(case, layout) or NO_PATH,
        source=f"{GEOMETRY}; theorem of turning tangents",
        leaves_out="sag, bending stiffness; how the belt is laid over the rims",
        caution="A belt that does not fit can jump off and wind itself round a shaft. Never run it "
        "without its guards.",
        place=_middle(layout) if layout.usable[0] else None,
    )


def _run_meaning(case: Case, layout: Layout) -> str:
    if layout.usable[0]:
        share = float(np.mean(layout.usable))
        if share < 1.0:
            return f"Goes round as written, but only in {share:.0%} of what the tolerances allow."
        return "The belt goes round all its pulleys and idlers, clutch up."
    fit = Fit(int(np.atleast_1d(layout.fit)[0]))
    if fit == Fit.TOO_SHORT:
        short = -_short_by(case, layout)
        return f"The belt is {case.units.show(short, Kind.LENGTH)} too short to go round at all."
    if fit == Fit.TOO_LONG:
        return "The belt stays loose over the whole travel of what should tighten it."
    faults = PathFault(int(np.atleast_1d(layout.faults)[0]))
    return f"As written, {'; '.join(FAULT_WORDS[fault] for fault in faults)}."


def _short_by(case: Case, layout: Layout) -> float:
    """Belt length less the shortest that goes on [m], below 0 where it is too short."""
    return nominal(layout.pitch_length) - nominal(lengths_taken(case, layout.belt).shortest)


def _run_remedy(case: Case, layout: Layout) -> str:
    if layout.usable[0]:
        return MEASURE_BELT if too_often(~layout.usable) else ""
    return FAULT_REMEDY if _misplaced(layout) else another_belt(case, layout.belt)


def _misplaced(layout: Layout) -> bool:
    """Whether the belt does not go round because of where its wheels stand, at any length."""
    fit = Fit(int(np.atleast_1d(layout.fit)[0]))
    return not layout.usable[0] and fit not in (Fit.TOO_SHORT, Fit.TOO_LONG)


def _wraps_in_words(case: Case, layout: Layout) -> str:
    show = partial(case.units.show, kind=Kind.ANGLE)
    wraps = zip(layout.wheels, layout.path.wrap, strict=True)
    return "; ".join(
        f"{wheel.name} {show(nominal(wrap))}" for wheel, wrap in wraps if np.isfinite(nominal(wrap))
    )


def _length(case: Case, belt: Belt) -> Draft:
    layout, taken = belt_run(case, belt), lengths_taken(case, belt)
    length = layout.pitch_length
    show = partial(case.units.show, kind=Kind.LENGTH)
    shortest, longest = nominal(taken.shortest), nominal(taken.longest)
    swapped = taken.shortest > taken.longest
    still = layout.mover is None or layout.mover.fixed
    return Draft(
        kind=Kind.LENGTH,
        value=length,
        at_least=np.where(swapped, np.inf, taken.shortest),
        at_most=np.where(swapped, np.inf, taken.longest),
        near=0.0,
        meaning=f"{_sold_in_words(case, belt)} {_length_in_words(case, belt)}",
        remedy=_length_remedy(case, belt, taken),
        formula="path ≤ pitch length ≤ path × (1 + 0.5 %)"
        if still
        else "path with the clutch down ≤ pitch length ≤ path at the stop",
        working=f"{show(shortest)} ≤ {show(nominal(length))} ≤ {show(longest)}"
        if np.isfinite(shortest)
        else NO_PATH,
        source=f"{GEOMETRY}; lengths: ANSI/RMA IP-20, IP-23"
        + (f"; {STRETCHED_ON:.1%} of stretch on fixed centres: common practice" if still else ""),
        leaves_out="belts side by side, which must be matched; stretch and wear of an old one, "
        "unless its length was measured",
        caution="A belt too short for the clutch drags all the time; one too long slips and burns.",
        place=_middle(layout) if layout.usable[0] else None,
    )


def _length_remedy(case: Case, belt: Belt, taken: Lengths) -> str:
    length = belt_run(case, belt).pitch_length
    shortest, longest = nominal(taken.shortest), nominal(taken.longest)
    if _misplaced(belt_run(case, belt)):
        return FAULT_REMEDY
    if not shortest <= nominal(length) <= longest:
        return another_belt(case, belt)
    return (
        MEASURE_BELT if too_often(~((taken.shortest <= length) & (length <= taken.longest))) else ""
    )


def _sold_in_words(case: Case, belt: Belt) -> str:
    sold = sold_as(case, belt)
    if sold is None:
        return "Not a length that this section is usually sold in."
    return f"Sold as {sold.size}."


def _length_in_words(case: Case, belt: Belt) -> str:
    layout, taken = belt_run(case, belt), lengths_taken(case, belt)
    if np.isnan(nominal(taken.shortest)):
        return "No belt goes round these pulleys."
    if nominal(taken.shortest) > nominal(taken.longest):
        return "The arm tightens the belt with the clutch down and slackens it in drive."
    if _misplaced(layout):
        return f"Its length counts once the belt goes round: see “{RUN} {belt.name}”."
    length, shortest, longest = (
        nominal(value) for value in (layout.pitch_length, taken.shortest, taken.longest)
    )
    show = partial(case.units.show, kind=Kind.LENGTH)
    if length < shortest:
        return f"It is {show(shortest - length)} too short."
    if length > longest:
        return f"It is {show(length - longest)} too long."
    return fitting_belts(case, belt) or "It fits."


def _arm(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    mover = layout.mover
    assert mover is not None
    low, high = np.minimum(mover.loose, mover.tight), np.maximum(mover.loose, mover.tight)
    show = partial(case.units.show, kind=Kind.ANGLE)
    swing = nominal(layout.position - mover.loose)
    angle = layout.where_it_runs(layout.arm_angle)
    return Draft(
        kind=Kind.ANGLE,
        value=angle,
        at_least=low,
        at_most=high,
        near=0.0,
        meaning=f"The arm swings {show(abs(swing))} from released to drive; "
        f"{show(abs(nominal(mover.tight - layout.position)))} are left to its stop.",
        remedy="" if _well_within(angle, low, high) else fitting_belts(case, belt),
        formula="path(arm angle) = pitch length of the belt",
        working=f"released {show(nominal(mover.loose))}, drive {show(nominal(layout.position))}, "
        f"stop {show(nominal(mover.tight))}",
        source=f"{GEOMETRY}; solved on the branch that grows from the released end",
        leaves_out="stretch of the belt under load; play of the pivot",
        place=_mover_place(layout),
    )


def _well_within(angle: Array, low: Array, high: Array) -> bool:
    return not (falls_short(angle, low, 0.0) or goes_over(angle, high, 0.0))


def _slack(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    loose = loose_belt(case, belt).belt
    show = partial(case.units.show, kind=Kind.LENGTH)
    slack, gap = layout.where_it_runs(loose.slack), nominal(loose.mean_gap)
    wanted = layout.where_it_runs(LIFT * loose.slack / loose.mean_gap)
    touches = " and still touches the idler" if np.atleast_1d(loose.touches)[0] else ""
    short = falls_short(slack, wanted)
    return Draft(
        kind=Kind.LENGTH,
        value=slack,
        below_zero="too short by",
        at_least=wanted,
        meaning="With the clutch down the belt is still tight: it never lets go."
        if nominal(slack) <= 0.0
        else f"With the clutch down the belt is {show(nominal(slack))} too long for its run"
        f"{touches}: spread evenly it stands {show(gap)} off its pulleys."
        + keeper_words(case, belt, slack),
        remedy=f"Let the arm swing further back{longer_belt(case, belt, nominal(wanted - slack))}."
        if short and nominal(wanted - slack) > 0.0
        else "Let the arm swing further back, so that the belt surely lets go."
        if short
        else "",
        formula="slack = pitch length − path; mean gap = slack / sum of wraps ≥ 1 mm",
        working=f"{show(nominal(slack))} / {nominal(slack) / gap if gap else np.nan:.3g} rad = "
        f"{show(gap)}",
        source="derivative of the path by the pulley radius, exact; 1 mm: assumed, no source",
        leaves_out="guides and keepers, without which a slack belt still rubs in its groove",
        caution=CLUTCH_CAUTION,
        place=_mover_place(layout),
    )


def _take_up(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    left, wanted = belt_take_up(case, belt), np.atleast_1d(growth(case, belt))
    stretch = layout.where_it_runs(left.stretch)
    show = partial(case.units.show, kind=Kind.LENGTH)
    ends = TravelEnd(int(np.atleast_1d(left.ends_by)[0]))
    end = {
        TravelEnd.STOP: "the end of the travel",
        TravelEnd.TOP_OF_SWING: "the top of the arm's swing, past which it runs on by itself",
        TravelEnd.FAULT: "the idler or the belt meets something of its own run",
    }.get(ends, "the end of the travel")
    return Draft(
        kind=Kind.LENGTH,
        value=stretch,
        below_zero="past its end by",
        at_least=wanted,
        worst=Verdict.MARGINAL,
        meaning=f"{show(max(nominal(stretch), 0.0))} of stretch can still be taken up before "
        f"{end}.",
        remedy=_take_up_remedy(case, belt, wanted - stretch, ends)
        if falls_short(stretch, wanted)
        else "",
        formula="take-up = path at the end of the travel − pitch length ≥ growth of the belt",
        working=f"{show(nominal(stretch))} against {show(nominal(wanted))} "
        f"({nominal(wanted) / nominal(layout.pitch_length):.1%} of "
        f"{show(nominal(layout.pitch_length))})",
        source=f"{GEOMETRY}; growth: common practice. For centres that slide DIN 7753-2 asks 3 % "
        "of the length as travel (from memory)",
        place=_mover_place(layout),
    )


def _take_up_remedy(case: Case, belt: Belt, missing: Array, ends: TravelEnd) -> str:
    (often,) = percentiles(missing, HIGH_PERCENT)
    more = max(often, nominal(missing), 0.0)
    more += NEAR * nominal(growth(case, belt))
    show = partial(case.units.show, kind=Kind.LENGTH)
    room = {
        TravelEnd.TOP_OF_SWING: "Use a longer arm or another place for its pivot",
        TravelEnd.FAULT: "Set the idler's pivot, or what it meets, farther off",
    }.get(ends, "Move the end of the travel on")
    told = f"{room}, so that the belt can grow {show(more)} more"
    length = nominal(belt_layout(case, belt).pitch_length)
    shorter = sold_between(belt, shortest(case, belt), length - more)
    if not shorter:
        return f"{told}. No shorter belt that is sold fits and lets go."
    return f"{told}, or use {shorter[-1].size}."


def _slot(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    travel = layout.where_it_runs(slot_travel(case, belt))
    wanted = FITTING_SHARE * layout.pitch_length
    show = partial(case.units.show, kind=Kind.LENGTH)
    assert layout.mover is not None
    run, mover = layout.path.run, layout.mover.place
    at = [nominal(np.asarray(value[mover])) for value in (run.x, run.y)]
    return Draft(
        kind=Kind.LENGTH,
        value=travel,
        below_zero="short by",
        at_least=wanted,
        worst=Verdict.MARGINAL,
        meaning=f"The belt is tight with the shaft at {show(at[0])}, {show(at[1])}; from there it "
        f"comes in by {show(nominal(travel))} to lay the belt on.",
        remedy=f"Lengthen the slot inwards by {show(nominal(wanted - travel))}, or take a longer "
        "belt."
        if nominal(wanted - travel) > 0.0
        else "",
        formula="travel inwards ≥ 1.5 % of the pitch length",
        working=f"{show(nominal(travel))} against {show(nominal(wanted))}",
        source=f"{GEOMETRY}; DIN 7753-2 as makers' manuals repeat it, from memory",
        leaves_out="belts that are rolled on over an open rim",
        place=layout.stands(mover),
    )
