"""What the review says about tipping: slopes every way, turns at speed, sliding or tipping."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.stability.cornering import tightest_turn
from beltwright.physics.stability.slope import (
    FRONT,
    NEVER_STEEPER,
    REAR,
    WORKING_SHARE,
    working_limit,
)
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.driveline.speed import governed, speed_in, top_gear
from beltwright.review.finding import Verdict
from beltwright.review.motion.ground import grounds, steepest
from beltwright.review.nearness import falls_short
from beltwright.review.road_words import SLOPE_UNIT, distance_words, slope_words
from beltwright.review.stability.centre_of_gravity import bare, states
from beltwright.review.stability.tipping import (
    SlopeLimit,
    front_share,
    side_limit,
    sideways_hold,
    slope_limit,
    tipping_radius,
    tipping_speed,
    with_rear_track_wider,
    with_weight_lowered,
)
from beltwright.review.steering.turning import circle

TIPPING_CAUTION = (
    "A machine that tips can crush its driver. Go straight up and down, never across, and not at "
    "all where it is wet, rough or soft. Local rules and a roll bar's maker go first."
)
TURN_CAUTION = (
    "Slow down before the turn, not in it. A rut, a root or a load that shifts tips it sooner."
)
STATICS = (
    "moments about the tip line; half of the static limit: common practice, no source; never above "
    "15°: ride-on makers' manuals"
)
LEAST_ON_FRONT = 0.20
"""Share of the weight that the front wheels should carry to steer (common practice, no source)."""

SPEED_MARGIN = 0.25
"""Speed that should be left between top speed and tipping [1] (assumed, no source)."""

LITTLE = 0.1
"""Lowering or widening tried in the what-ifs [m]."""


def questions(case: Case) -> Iterator[Ask]:
    """The questions about tipping."""
    yield Ask(
        "stability.centre_of_gravity", "Where the weight sits", partial(_centre_of_gravity, case)
    )
    yield Ask("stability.side_slope", "Slope across", partial(_side_slope, case))
    yield Ask("stability.up_slope", "Slope, nose up", partial(_end_slope, case, REAR))
    yield Ask("stability.down_slope", "Slope, nose down", partial(_end_slope, case, FRONT))
    yield Ask("stability.front_share", "Weight on the front wheels", partial(_front_share, case))
    yield Ask("stability.turn", "Turning at top speed", partial(_turn, case))
    yield Ask("stability.slide_or_tip", "Slides before it tips", partial(_slide_or_tip, case))


def _place(case: Case) -> tuple[float, float, float]:
    balance = states(case)[-1].balance
    return (float(balance.x[0]), float(balance.y[0]), float(balance.z[0]))


def _centre_of_gravity(case: Case) -> Draft:
    machine = bare(case)
    length = partial(case.units.show, kind=Kind.LENGTH)
    told = "; ".join(
        f"{state.name}: {case.units.show(float(state.balance.mass[0]), Kind.MASS)}, "
        f"{length(float(state.balance.x[0]))} ahead of the rear axle, "
        f"{length(float(state.balance.z[0]))} up"
        for state in states(case)
    )
    return Draft(
        kind=Kind.LENGTH,
        value=np.atleast_1d(states(case)[-1].balance.z),
        verdict=Verdict.SOUND,
        meaning=f"Height of the weight. {told[0].upper()}{told[1:]}.",
        formula="ahead = wheelbase × front / (front + rear); height = axle height + (ahead × cos φ "
        "− front share × axle distance × cos α) / sin φ, one end raised",
        working=f"bare: {length(float(machine.x[0]))} ahead, {length(float(machine.z[0]))} up; "
        "then driver and loads by moments",
        source="moments about the rear axle; ISO 10392, axle lift method",
        leaves_out="springs, soft tyres, fuel that runs to one side",
        place=_place(case),
    )


def _working(limit: SlopeLimit) -> str:
    static = float(limit.static[0])
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
        says=f"stay under {slope_words(float(working[0]))}",
        meaning=meaning,
        remedy=remedy if falls_short(working, steepest(case)) else "",
        formula="tan tip angle = distance of the weight from the tip line / its height above it; "
        "working limit = half the tip angle, at most 15°",
        working=_working(limit),
        source=STATICS,
        leaves_out="bumps, soft ground, soft tyres, a swerve, a load that shifts",
        caution=TIPPING_CAUTION,
        place=_place(case),
    )


def _side_slope(case: Case) -> Draft:
    limit = side_limit(case)
    static = float(limit.static[0])
    lower = float(with_weight_lowered(case, LITTLE)[0]) - static
    wider = float(with_rear_track_wider(case, LITTLE)[0]) - static
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
    static = float(limit.static[0])
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
    level, up = front_share(case), np.atleast_1d(front_share(case, slope))
    show = partial(case.units.show, kind=Kind.RATIO)
    return Draft(
        kind=Kind.RATIO,
        value=up,
        at_least=LEAST_ON_FRONT,
        worst=Verdict.STOP if float(up[0]) <= 0.0 else Verdict.MARGINAL,
        stops=up <= 0.0,
        meaning=f"The front wheels carry {show(float(level[0]))} of the weight on the level and "
        f"{show(float(up[0]))} nose up on {slope_words(float(slope[0]))}, fully laden.",
        remedy="Move the load forward or hang weight on the front: light front wheels do not steer."
        if falls_short(up, LEAST_ON_FRONT)
        else "",
        formula="front share = (ahead − height × tan slope) / wheelbase",
        working=f"{show(float(level[0]))} level, {show(float(up[0]))} uphill",
        source="moments about the rear axle; a fifth on the front: common practice, no source",
        leaves_out="a trailer's pull, which takes more off the front",
        caution=TIPPING_CAUTION,
    )


def _turn(case: Case) -> Draft:
    speed = speed_in(case, top_gear(case), governed(case))
    usual = grounds(case)[0]
    tightest = np.atleast_1d(circle(case).rear_middle)
    tips, slides = tipping_radius(case, speed), tightest_turn(speed, usual.grip)
    at_lock = tipping_speed(case, tightest)
    slope = float(steepest(case)[0])
    on_slope = tipping_speed(case, tightest, slope)
    show_speed = partial(case.units.show, kind=Kind.SPEED)
    length = partial(distance_words, case)
    tips_first = float(sideways_hold(case)[0]) <= usual.row.grip_high
    return Draft(
        kind=Kind.SPEED,
        value=np.atleast_1d(at_lock),
        at_least=speed,
        near=SPEED_MARGIN,
        worst=Verdict.STOP if tips_first else Verdict.MARGINAL,
        stops=np.atleast_1d(sideways_hold(case) <= usual.row.grip_high),
        says=f"tips at {show_speed(float(at_lock[0]))} on full lock",
        meaning=f"At top speed, {show_speed(float(speed[0]))}, it tips in any turn tighter than "
        f"{length(float(tips[0]))} and slides on {usual.name} below {length(float(slides[0]))}; "
        f"full lock turns {length(float(tightest[0]))}. On full lock across "
        f"{slope_words(slope)} it tips at {show_speed(float(on_slope[0]))}.",
        remedy="Stop the steering from turning so far, gear it slower, set the wheels wider or "
        "carry the weight lower."
        if falls_short(np.atleast_1d(at_lock), speed, SPEED_MARGIN)
        else "",
        formula="tipping speed = √(g × radius × (k cos β − sin β)), k = tan of the side limit",
        working=f"√(9.807 m/s² × {float(tightest[0]):.2f} m × {float(sideways_hold(case)[0]):.3f}) "
        f"= {show_speed(float(at_lock[0]))}",
        source="circular motion; T. D. Gillespie, Fundamentals of Vehicle Dynamics, section 9, "
        "from memory; full lock at top speed as the worst case: assumed",
        leaves_out="how fast the wheel is turned, bumps, soft tyres",
        caution=TURN_CAUTION + " " + TIPPING_CAUTION,
        place=_place(case),
    )


def _slide_or_tip(case: Case) -> Draft:
    hold = np.atleast_1d(sideways_hold(case))
    most = max(grounds(case), key=lambda each: each.row.grip_high)
    tips = [each.name for each in grounds(case) if each.row.grip_high >= float(hold[0])]
    return Draft(
        kind=Kind.RATIO,
        value=hold,
        at_least=most.row.grip_high,
        near=0.0,
        worst=Verdict.MARGINAL,
        says="slides first" if not tips else "tips first",
        meaning=f"Where the grip is good it tips before it slides on {' and '.join(tips)}."
        if tips
        else "It slides before it tips on all the ground that you named, until a sliding tyre "
        "meets a rut, a root or a kerb.",
        remedy="Take turns slowly: the tyres will not warn you by sliding." if tips else "",
        formula="tips before it slides where grip ≥ tan of the side limit",
        working=f"side limit {slope_words(float(side_limit(case).static[0]))}, tan = "
        f"{float(hold[0]):.2f}; grip up to {most.row.grip_high:g} on {most.name}",
        source="statics; NHTSA's static stability factor is the same for rigid axles; grip: "
        f"{most.row.grip_source} ({most.row.grip_status})",
        caution=TURN_CAUTION,
    )
