"""What the review says about tipping: slopes every way, turns at speed, sliding or tipping."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.stability.slope import (
    FRONT,
    NEVER_STEEPER,
    NEVER_STEEPER_LOADED,
    REAR,
    WORKING_SHARE,
    working_limit,
)
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.motion.ground import steepest
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal
from beltwright.review.road_words import SLOPE_UNIT, slope_words
from beltwright.review.stability import turn_findings
from beltwright.review.stability.cautions import TIPPING_CAUTION, weight_place
from beltwright.review.stability.centre_of_gravity import bare, states
from beltwright.review.stability.changes import Change, changes
from beltwright.review.stability.tipping import (
    SlopeLimit,
    front_share,
    lightest_front,
    side_limit,
    slope_limit,
    with_tracks_wider,
    with_weight_lowered,
)

STATICS = (
    "moments about the tip line; half of the static limit: common practice, no source; never above "
    "15°: ride-on makers' manuals"
)
LEAST_ON_FRONT = 0.20
"""Share of the weight that the front wheels should carry to steer (common practice, no source)."""

LITTLE = 0.1
"""Lowering or widening tried in the what-ifs [m]."""


def questions(case: Case) -> Iterator[Ask]:
    """The questions about tipping."""
    yield Ask(
        "stability.centre_of_gravity", "Height of the weight", partial(_centre_of_gravity, case)
    )
    yield Ask("stability.side_slope", "Slope across, at rest", partial(_side_slope, case))
    yield Ask("stability.up_slope", "Slope, nose up", partial(_end_slope, case, REAR))
    yield Ask("stability.down_slope", "Slope, nose down", partial(_end_slope, case, FRONT))
    yield Ask("stability.front_share", "Weight on the front wheels", partial(_front_share, case))
    yield from turn_findings.questions(case)
    yield Ask(
        "stability.changes", "A lift, wider wheels, a heavier driver", partial(_changes, case)
    )


def _centre_of_gravity(case: Case) -> Draft:
    machine = bare(case)
    length = partial(case.units.show, kind=Kind.LENGTH)
    told = "; ".join(
        f"{state.name}: {case.units.show(nominal(state.balance.mass), Kind.MASS)}, "
        f"{length(nominal(state.balance.x))} ahead of the rear axle, "
        f"{length(nominal(state.balance.z))} up"
        for state in states(case)
    )
    return Draft(
        kind=Kind.LENGTH,
        value=np.atleast_1d(states(case)[-1].balance.z),
        verdict=Verdict.SOUND,
        meaning=f"Height of the weight. {told[0].upper()}{told[1:]}.",
        formula="ahead = wheelbase × front / (front + rear); height = axle height + (ahead × cos φ "
        "− front share × axle distance × cos α) / sin φ, one end raised",
        working=f"bare: {length(nominal(machine.x))} ahead, {length(nominal(machine.z))} up; "
        "then driver and loads by moments",
        source="moments about the rear axle; ISO 10392, axle lift method",
        leaves_out="springs, soft tyres, fuel that runs to one side",
        place=weight_place(case),
    )


def _working(limit: SlopeLimit) -> str:
    static = nominal(limit.static)
    return (
        f"tips at {slope_words(static)} ({limit.state.name}); × {WORKING_SHARE:g}, never above "
        f"{np.degrees(NEVER_STEEPER):.0f}° = {slope_words(float(working_limit(static)))}"
    )


def _slope_draft(case: Case, limit: SlopeLimit, meaning: str, remedy: str) -> Draft:
    working = np.atleast_1d(working_limit(limit.static))
    return Draft(
        kind=Kind.ANGLE,
        value=working,
        at_least=steepest(case),
        worst=Verdict.STOP,
        unit=SLOPE_UNIT,
        says=f"stay under {slope_words(nominal(working))}",
        meaning=meaning,
        remedy=remedy if falls_short(working, steepest(case)) else "",
        formula="tan tip angle = distance of the weight from the tip line / its height above it; "
        "working limit = half the tip angle, at most 15°",
        working=_working(limit),
        source=STATICS,
        leaves_out="bumps, soft ground, soft tyres, a swerve, a load that shifts; with an "
        f"attachment or a trailer makers' manuals stop at {np.degrees(NEVER_STEEPER_LOADED):.0f}°",
        caution=TIPPING_CAUTION,
        place=weight_place(case),
    )


def _side_slope(case: Case) -> Draft:
    limit = side_limit(case)
    static = nominal(limit.static)
    lower = nominal(with_weight_lowered(case, LITTLE)) - static
    wider = nominal(with_tracks_wider(case, LITTLE)) - static
    show = case.units.show(LITTLE, Kind.LENGTH)
    pivots = case.build.wheels.front_axle == "pivoting"
    return _slope_draft(
        case,
        limit,
        f"Standing across the slope it tips at {slope_words(static)}, {limit.state.name}"
        + (", about the line from a rear tyre to the front pivot." if pivots else ".")
        + " Never drive across a slope; this is for the moment when you must turn on one.",
        f"Weight {show} lower gives {np.degrees(lower):.1f}° more, tracks {show} wider "
        f"{np.degrees(wider):.1f}° more; else keep off slopes above the working limit.",
    )


def _end_slope(case: Case, downhill: float) -> Draft:
    limit = slope_limit(case, downhill)
    static = nominal(limit.static)
    backwards = downhill == REAR
    meaning = (
        f"Nose up it falls over backwards at {slope_words(static)}, {limit.state.name}; a jerk of "
        "the clutch does it far sooner."
        if backwards
        else f"Nose down it pitches over at {slope_words(static)}, {limit.state.name}; hard "
        "braking does it sooner."
    )
    remedy = (
        "Carry the load further forward or lower, or hang weight on the front."
        if backwards
        else "Carry the load further back or lower."
    )
    return _slope_draft(case, limit, meaning, remedy)


def _front_share(case: Case) -> Draft:
    slope = steepest(case)
    state = lightest_front(case)
    level, up = front_share(state), np.atleast_1d(front_share(state, slope))
    show = partial(case.units.show, kind=Kind.RATIO)
    return Draft(
        kind=Kind.RATIO,
        value=up,
        at_least=LEAST_ON_FRONT,
        worst=Verdict.STOP if nominal(up) <= 0.0 else Verdict.MARGINAL,
        stops=up <= 0.0,
        meaning=f"The front wheels carry {show(nominal(level))} of the weight on the level and "
        f"{show(nominal(up))} nose up on {slope_words(nominal(slope))}, {state.name}.",
        remedy="Move the load forward or hang weight on the front: light front wheels do not steer."
        if falls_short(up, LEAST_ON_FRONT)
        else "",
        formula="front share = (ahead − height × tan slope) / wheelbase",
        working=f"{show(nominal(level))} level, {show(nominal(up))} uphill",
        source="moments about the rear axle; a fifth on the front: common practice, no source",
        leaves_out="a trailer's pull, which takes more off the front",
        caution=TIPPING_CAUTION,
    )


def _changes(case: Case) -> Draft:
    limit = side_limit(case)
    told = changes(case)
    return Draft(
        kind=Kind.ANGLE,
        value=limit.static,
        verdict=Verdict.SOUND,
        unit=SLOPE_UNIT,
        says=f"tips across at {slope_words(nominal(limit.static))}",
        meaning=f"{'; '.join(f'{each.words}: {_by(each, limit)}' for each in told)}.",
        formula="the side limit worked out again with one thing changed",
        working="; ".join(f"{each.words}: tips at {slope_words(each.static)}" for each in told),
        source="moments about the tip line",
        leaves_out="brake, axle and tyres, which each change loads too; taller tyres, which lift "
        "the machine and quicken it as well",
        caution=TIPPING_CAUTION,
        place=weight_place(case),
    )


def _by(change: Change, limit: SlopeLimit) -> str:
    more = np.degrees(change.static - nominal(limit.static))
    if abs(more) < 0.05:
        return "next to no change"
    return f"{abs(more):.1f}° {'more' if more > 0.0 else 'less'}"
