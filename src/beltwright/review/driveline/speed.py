"""Speeds in every gear, goals met or missed, overspeed of the gearbox, idlers and bearings."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.physics.gearing import ground_speed, overspeed
from beltwright.quantity import Goal, Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.driveline.pulleys import roll_out
from beltwright.review.driveline.routes import Gear, gears, route_to, routes
from beltwright.review.engine.torque import no_load
from beltwright.review.finding import Verdict
from beltwright.review.nominal import nominal

KINEMATICS = "kinematics: one turn of the wheel rolls its circumference"
FAST_CAUTION = (
    "Faster than its donor was made for: brakes, steering and frame were not. First drive on level "
    "ground, at walking pace, with a stop switch that works."
)
OVERSPEED_LIMIT = 0.6
"""Above this share over its donor's speed a gearbox is held to be wrecked (assumed, no source)."""

OVERSPEED_NEAR = 0.6
"""Share of the limit from which it is watched: about a quarter over the donor's speed."""


def questions(case: Case) -> Iterator[Ask]:
    """The questions about speed."""
    for gear in gears(case):
        yield Ask(f"speed.gear.{gear.name}", _gear_title(gear), partial(_gear_speed, case, gear))
    yield Ask("speed.top", "Top speed, governed", partial(_top_speed, case))
    yield Ask("speed.crawl", "Crawling speed at idle", partial(_crawl_speed, case))
    if case.build.gearbox:
        yield Ask(
            "gearbox.overspeed",
            "Gearbox input over its donor's speed",
            partial(_gearbox_overspeed, case),
        )
    for shaft in case.build.shaft:
        if shaft.bearing_limit is not None and shaft.name in routes(case):
            yield Ask(
                f"speed.shaft.{shaft.name}",
                f"Bearing speed, {shaft.name} shaft",
                partial(_shaft_speed, case, shaft.name),
            )


def governed(case: Case) -> Array:
    """Engine speed at which the machine runs fastest: governed, with next to no load [rad/s]."""
    return no_load(case)


def idle(case: Case) -> Array:
    """Idle engine speed [rad/s]."""
    return case.need(
        case.build.engine.idle,
        "engine.idle",
        "Hold a cheap inductive rev counter to the spark lead at idle, and write it, for example "
        'idle = "1600 rpm".',
    )


def speed_in(case: Case, gear: Gear, rotation: Array) -> Array:
    """Ground speed [m/s] in a gear at an engine speed [rad/s]."""
    route = route_to(case, case.build.wheels.shaft)
    return ground_speed(rotation, route.total_ratio(gear), roll_out(case))


def top_gear(case: Case) -> Gear:
    """The fastest forward gear."""
    return min((g for g in gears(case) if g.forward), key=lambda g: g.ratio)


def low_gear(case: Case) -> Gear:
    """The slowest forward gear."""
    return max((g for g in gears(case) if g.forward), key=lambda g: g.ratio)


def _gear_title(gear: Gear) -> str:
    return f"Speed in gear {gear.name}" if gear.forward else f"Speed in reverse {gear.name[1:]}"


def _working(case: Case, gear: Gear, rotation: Array, speed: Array) -> str:
    show = case.units.show
    ratio = route_to(case, case.build.wheels.shaft).total_ratio(gear)
    return (
        f"{show(nominal(rotation), Kind.ROTATION)} / {ratio[0]:.4g} × "
        f"{show(nominal(roll_out(case)), Kind.LENGTH)} = {show(nominal(speed), Kind.SPEED)}"
    )


def _gear_speed(case: Case, gear: Gear) -> Draft:
    fast = speed_in(case, gear, governed(case))
    slow = ""
    if case.build.engine.idle is not None:
        crawl = speed_in(case, gear, idle(case))
        slow = f", {case.units.show(nominal(crawl), Kind.SPEED)} at idle"
    return Draft(
        kind=Kind.SPEED,
        value=fast,
        verdict=Verdict.SOUND,
        meaning=f"{case.units.show(nominal(fast), Kind.SPEED)} governed{slow}.",
        formula="speed = engine speed / total ratio × roll-out",
        working=_working(case, gear, governed(case), fast),
        source=KINEMATICS,
        leaves_out="tyre slip; the drop of engine speed under load",
    )


def _against(case: Case, speed: float, goal: Goal | None, what: str) -> str:
    if goal is None:
        return f"No goal is set for {what}."
    show = partial(case.units.show, kind=Kind.SPEED)
    if goal.high is not None and speed > goal.high:
        return f"{show(speed - goal.high)} faster than the goal of {goal.text}."
    if goal.low is not None and speed < goal.low:
        return f"{show(goal.low - speed)} slower than the goal of {goal.text}."
    return f"Meets the goal of {goal.text}."


def _top_speed(case: Case) -> Draft:
    goal = case.build.goals.top_speed
    draft = _goal_speed(case, top_gear(case), governed(case), goal, "top speed")
    return replace(
        draft,
        remedy=draft.remedy + _left_to_the_tyres(case, draft),
        formula="speed = governed engine speed / total ratio in the fastest gear × roll-out",
        leaves_out="tyre slip; whether the engine can hold that speed on soft ground",
        caution=FAST_CAUTION,
    )


def _crawl_speed(case: Case) -> Draft:
    return replace(
        _goal_speed(case, low_gear(case), idle(case), case.build.goals.crawl_speed, "crawling"),
        formula="speed = idle speed / total ratio in the slowest gear × roll-out",
        leaves_out="clutch slip, with which it can go slower for a moment",
    )


def _goal_speed(case: Case, gear: Gear, rotation: Array, goal: Goal | None, what: str) -> Draft:
    speed = speed_in(case, gear, rotation)
    low, high = (None, None) if goal is None else (goal.low, goal.high)
    return Draft(
        kind=Kind.SPEED,
        value=speed,
        at_least=low,
        at_most=high,
        near=0.0,
        worst=Verdict.MARGINAL,
        verdict=Verdict.SOUND if goal is None else None,
        meaning=_against(case, nominal(speed), goal, what),
        remedy=_speed_remedy(nominal(speed), low, high),
        formula="speed = engine speed / total ratio × roll-out",
        working=_working(case, gear, rotation, speed),
        source=KINEMATICS,
    )


def _speed_remedy(speed: float, low: float | None, high: float | None) -> str:
    if high is not None and speed > high:
        share = 1.0 - high / speed
        return (
            f"Slow the driveline by {share:.0%}: a smaller engine pulley, a larger input pulley or "
            "smaller tyres."
        )
    if low is not None and speed < low:
        share = low / speed - 1.0
        return (
            f"Quicken the driveline by {share:.0%}: a larger engine pulley, a smaller input pulley "
            "or larger tyres; check the gearbox's overspeed, the brake and the belt again."
        )
    return ""


def _left_to_the_tyres(case: Case, slow: Draft) -> str:
    """What of a goal the pulleys cannot give, because the gearbox would turn too fast."""
    box, low = case.build.gearbox, slow.at_least
    if box is None or box.stock_input is None or slow.value is None or low is None:
        return ""
    over = nominal(overspeed(gearbox_input_speed(case), case.si(box.stock_input)))
    faster = nominal(low) / nominal(slow.value)
    if faster <= 1.0 or (1.0 + over) * faster <= 1.0 + OVERSPEED_LIMIT:
        return ""
    room = (1.0 + OVERSPEED_LIMIT) / (1.0 + over) - 1.0
    if room < 0.01:
        return (
            " Not by pulleys: the gearbox turns as fast as it may. Larger tyres, or a lower goal."
        )
    return (
        f" By pulleys at most {room:.0%}, else the gearbox turns too fast: the rest is left to "
        "larger tyres, or to a lower goal."
    )


def gearbox_input_speed(case: Case) -> Array:
    """Speed of the gearbox input with the engine governed [rad/s]."""
    assert case.build.gearbox is not None
    return governed(case) / route_to(case, case.build.gearbox.input).ratio


def _gearbox_overspeed(case: Case) -> Draft:
    box = case.build.gearbox
    assert box is not None
    stock = case.need(
        box.stock_input,
        "gearbox.stock_input",
        "Take the donor's governed engine speed times its pulley ratio, measured over the rims, "
        'and write it, for example stock_input = "1240 ± 40 rpm".',
    )
    turns = gearbox_input_speed(case)
    over = np.atleast_1d(overspeed(turns, stock))
    show = case.units.show
    return Draft(
        kind=Kind.RATIO,
        value=over,
        below_zero="slower by",
        at_most=OVERSPEED_LIMIT,
        near=OVERSPEED_NEAR,
        worst=Verdict.STOP,
        meaning=_overspeed_meaning(nominal(over)),
        remedy=_overspeed_remedy(nominal(over)),
        formula="overspeed = input speed / donor's input speed − 1",
        working=f"{show(nominal(turns), Kind.ROTATION)} / {show(nominal(stock), Kind.ROTATION)}"
        f" − 1 = {over[0]:.1%}",
        source="kinematics; watched from about a quarter over the donor's speed and stopped at "
        "0.6 over it: assumed, no source",
        leaves_out="heat, seals and oil, which are judged by findings of their own",
        caution="Never look for a speed that fits by opening the governor: an engine or flywheel "
        "that is over-revved can burst.",
    )


def _overspeed_remedy(over: float) -> str:
    watched = OVERSPEED_LIMIT * (1.0 - OVERSPEED_NEAR)
    if over <= watched:
        return ""
    better, least = (
        np.ceil(100.0 * (1.0 - (1.0 + most) / (1.0 + over))) for most in (watched, OVERSPEED_LIMIT)
    )
    share = (
        f"{least:.0f} % at least, better by {better:.0f} %," if least > 0.0 else f"{better:.0f} %"
    )
    return (
        f"Slow the input by {share} with a smaller engine pulley or a larger input pulley, and "
        "gain speed with larger tyres instead."
    )


def _overspeed_meaning(over: float) -> str:
    if over <= 0.0:
        return f"The gearbox turns {-over:.0%} slower than in its donor."
    return (
        f"The gearbox turns {over:.0%} faster than in its donor: more churning heat, faster seals, "
        "louder gears."
    )


def _shaft_speed(case: Case, name: str) -> Draft:
    shaft = next(s for s in case.build.shaft if s.name == name)
    assert shaft.bearing_limit is not None
    route = route_to(case, name)
    turns = governed(case) / route.total_ratio(top_gear(case))
    limit = case.si(shaft.bearing_limit)
    return Draft(
        kind=Kind.ROTATION,
        value=turns,
        at_most=limit,
        meaning=f"The {name} shaft turns at {turns[0] / limit[0]:.0%} of what its bearings allow.",
        remedy="Use bearings made for that speed, or slow this shaft."
        if turns[0] > limit[0]
        else "",
        formula="shaft speed = governed engine speed / ratio",
        working=f"{case.units.show(nominal(governed(case)), Kind.ROTATION)} / "
        f"{route.total_ratio(top_gear(case))[0]:.4g} = "
        f"{case.units.show(nominal(turns), Kind.ROTATION)}",
        source="kinematics; limit as the builder read it off the bearing",
    )
