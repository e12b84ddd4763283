"""What the review says about turns: at top speed, across a slope, sliding or tipping."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.physics.gravity import STANDARD_GRAVITY
from beltwright.physics.stability.cornering import sideways_limit, tightest_turn
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.driveline.speed import governed, speed_in, top_gear
from beltwright.review.finding import Verdict
from beltwright.review.motion.ground import grounds, steepest
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal
from beltwright.review.road_words import distance_words, slope_words
from beltwright.review.stability.cautions import TIPPING_CAUTION, TURN_CAUTION, weight_place
from beltwright.review.stability.tipping import (
    side_limit,
    sideways_hold,
    tipping_radius,
    tipping_speed,
    with_tracks_wider,
)
from beltwright.review.steering.turning import circle, lock_for

SPEED_MARGIN = 0.25
"""Speed that should be left between top speed and tipping [1] (assumed, no source)."""

TRIED, WIDEST = 0.1, 0.5
"""Widening tried, and the most that is worth telling [m]."""


def questions(case: Case) -> Iterator[Ask]:
    """The questions about turns."""
    yield Ask("stability.turn", "Turning at top speed", partial(_turn, case))
    yield Ask("stability.turn_on_slope", "Turning across a slope", partial(_turn_on_slope, case))
    yield Ask("stability.slide_or_tip", "Slides or tips first", partial(_slide_or_tip, case))


def _top_speed(case: Case) -> Array:
    return speed_in(case, top_gear(case), governed(case))


def _turn(case: Case) -> Draft:
    speed = _top_speed(case)
    usual = grounds(case)[0]
    tightest = np.atleast_1d(circle(case).rear_middle)
    tips, slides = tipping_radius(case, speed), tightest_turn(speed, usual.grip)
    at_lock = tipping_speed(case, tightest)
    show_speed = partial(case.units.show, kind=Kind.SPEED)
    length = partial(distance_words, case)
    tips_first = nominal(sideways_hold(case)) <= usual.row.grip_high
    return Draft(
        kind=Kind.SPEED,
        value=np.atleast_1d(at_lock),
        at_least=speed,
        near=SPEED_MARGIN,
        worst=Verdict.STOP if tips_first else Verdict.MARGINAL,
        stops=np.atleast_1d(sideways_hold(case) <= usual.row.grip_high),
        says=f"tips at {show_speed(nominal(at_lock))} on full lock",
        meaning=f"At top speed, {show_speed(nominal(speed))}, it tips in any turn tighter than "
        f"{length(nominal(tips))} and slides on {usual.name} below {length(nominal(slides))}; "
        f"full lock turns {length(nominal(tightest))}.",
        remedy=_turn_remedy(case)
        if falls_short(np.atleast_1d(at_lock), speed, SPEED_MARGIN)
        else "",
        formula="tipping speed = √(g × radius × k), k = tan of the side limit",
        working=f"√({_gravity(case)} × {length(nominal(tightest))} × "
        f"{nominal(sideways_hold(case)):.3f}) = {show_speed(nominal(at_lock))}",
        source="circular motion; T. D. Gillespie, Fundamentals of Vehicle Dynamics, section 9, "
        "from memory; full lock at top speed as the worst case: assumed",
        leaves_out="how fast the wheel is turned, bumps, soft tyres",
        caution=TURN_CAUTION + " " + TIPPING_CAUTION,
        place=weight_place(case),
    )


def _turn_remedy(case: Case) -> str:
    """Each way alone leaves the margin of speed."""
    wanted = (1.0 + SPEED_MARGIN) * nominal(_top_speed(case))
    tightest, hold = nominal(circle(case).rear_middle), nominal(sideways_hold(case))
    angle = lock_for(case, wanted**2 / (STANDARD_GRAVITY * hold))
    slower = nominal(tipping_speed(case, tightest)) / (1.0 + SPEED_MARGIN)
    # the hold grows in step with the tracks
    each = nominal(sideways_limit(with_tracks_wider(case, TRIED))) - hold
    wider = (wanted**2 / (STANDARD_GRAVITY * tightest) - hold) / each * TRIED
    show = case.units.show
    ways = [
        f"stop the inner wheel at {np.floor(np.degrees(angle)):.0f}° of lock",
        f"gear it to {show(slower, Kind.SPEED)}",
    ]
    if wider <= WIDEST:
        ways.append(f"set the wheels {show(wider, Kind.LENGTH)} wider apart")
    return f"{ways[0][0].upper()}{', '.join(ways)[1:]}, or carry the weight lower."


def _gravity(case: Case) -> str:
    return case.units.show(STANDARD_GRAVITY, Kind.ACCELERATION)


def _turn_on_slope(case: Case) -> Draft:
    slope, speed = steepest(case), _top_speed(case)
    tightest = np.atleast_1d(circle(case).rear_middle)
    tips = np.atleast_1d(tipping_speed(case, tightest, slope))
    show = partial(case.units.show, kind=Kind.SPEED)
    keep = show(nominal(tips) / (1.0 + SPEED_MARGIN))
    low = falls_short(tips, speed, SPEED_MARGIN)
    return Draft(
        kind=Kind.SPEED,
        value=tips,
        at_least=speed,
        near=SPEED_MARGIN,
        worst=Verdict.MARGINAL,
        says=f"tips at {show(nominal(tips))} on full lock",
        meaning=f"Turning on full lock where the ground falls {slope_words(nominal(slope))} "
        f"to the outside it tips at {show(nominal(tips))}; top speed is {show(nominal(speed))}.",
        remedy=f"Turn on such a slope only at less than {keep}, better on level ground."
        if low
        else "",
        formula="tipping speed = √(g × radius × (k cos β − sin β)), k = tan of the side limit",
        working=f"√({_gravity(case)} × {distance_words(case, nominal(tightest))} × "
        f"({nominal(sideways_hold(case)):.3f} × "
        f"{np.cos(nominal(slope)):.3f} − {np.sin(nominal(slope)):.3f})) = {show(nominal(tips))}",
        source="circular motion on a side slope; T. D. Gillespie, Fundamentals of Vehicle "
        "Dynamics, section 9, from memory",
        leaves_out="how fast the wheel is turned, bumps, soft tyres",
        caution=TURN_CAUTION + " " + TIPPING_CAUTION,
        place=weight_place(case),
    )


def _slide_or_tip(case: Case) -> Draft:
    hold = np.atleast_1d(sideways_hold(case))
    most = max(grounds(case), key=lambda each: each.row.grip_high)
    tips = [each.name for each in grounds(case) if each.row.grip_high >= nominal(hold)]
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
        working=f"side limit {slope_words(nominal(side_limit(case).static))}, tan = "
        f"{nominal(hold):.2f}; grip up to {most.row.grip_high:g} on {most.name}",
        source="statics; NHTSA's static stability factor is the same for rigid axles; grip: "
        f"{most.row.grip_source} ({most.row.grip_status})",
        caution=TURN_CAUTION,
    )
