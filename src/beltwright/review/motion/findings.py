"""What the review says about pulling: pull, climbs, a lifting front, soft ground, starts."""

from collections.abc import Iterator
from functools import partial

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array
from beltwright.quantity import Goal, Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.driveline.routes import Gear, gears
from beltwright.review.driveline.speed import low_gear, top_gear
from beltwright.review.engine.torque import peak_torque, rating
from beltwright.review.finding import Verdict
from beltwright.review.judging import HIGH_PERCENT, percentiles
from beltwright.review.motion.ground import (
    HARD,
    Ground,
    grippiest,
    ground,
    grounds,
    poorest,
    steepest,
)
from beltwright.review.motion.pull import (
    BELT_SHARE,
    NEARLY,
    climb,
    fastest_gear_on,
    front_ballast,
    lifts_first,
    limits,
    peak_thrust,
    run_up_on,
    start,
    top_speed_on,
)
from beltwright.review.nearness import NEAR, falls_short
from beltwright.review.nominal import nominal
from beltwright.review.road_words import SLOPE_UNIT, distance_words, slope_words, warmer_by
from beltwright.review.stability.centre_of_gravity import State, laden

DYNAMICS = "J. Y. Wong, Theory of Ground Vehicles, section 3, from memory"
BACKWARDS_CAUTION = (
    "A machine whose front lifts falls over backwards in less than a second. Let the clutch up "
    "gently, never jerk it uphill, and keep the load low and forward."
)
BELT_HEAT_RISE = 40.0
"""Warming of the belt in one start that it bears often [K] (assumed, no source)."""


def questions(case: Case) -> Iterator[Ask]:
    """The questions about pulling and climbing."""
    yield Ask("pull.low_gear", "Pull in the slowest gear", partial(_pull, case))
    for name in case.build.machine.ground:
        yield Ask(f"climb.{name}", f"Steepest climb on {name}", partial(_climb, case, name))
    yield Ask("climb.front_lift", "Pull that lifts the front wheels", partial(_lift, case))
    for name in case.build.machine.ground:
        yield Ask(f"pull.speed.{name}", f"Speed that {name} allows", partial(_speed, case, name))
    yield Ask("pull.run_up", "Time to get going in the fastest gear", partial(_run_up, case))
    yield Ask("pull.clutch_heat", "Heat in the belt, starting uphill", partial(_clutch, case))


def _named(case: Case, name: str) -> Ground:
    return next(each for each in grounds(case) if each.name == name)


def _grip_source(ground: Ground) -> str:
    return (
        f"grip: {ground.row.grip_source} ({ground.row.grip_status}); rolling drag: "
        f"{ground.row.rolling_source} ({ground.row.rolling_status})"
    )


def _pull(case: Case) -> Draft:
    usual, gear = grounds(case)[0], low_gear(case)
    most = limits(case, laden(case), usual, 0.0)
    push = peak_thrust(case, gear)
    usable = np.atleast_1d(np.minimum(push, most.usable))
    show = partial(case.units.show, kind=Kind.FORCE)
    each = ", ".join(
        f"{each.name}: {show(nominal(peak_thrust(case, each)))}"
        for each in gears(case)
        if each.forward
    )
    lift = nominal(most.lift)
    spins = nominal(push) > nominal(usable)
    return Draft(
        kind=Kind.FORCE,
        value=usable,
        verdict=Verdict.SOUND,
        meaning=f"The engine could push with {show(nominal(push))} in gear "
        f"{gear.name}; {usual.name} takes {show(nominal(most.slip))}"
        + (" before the tyres spin." if spins else ", so the tyres hold.")
        + _differential_words(case)
        + f" Gear by gear at best torque: {each}.",
        formula="push = torque × ratio × efficiency / rolling radius; grip limit with the load "
        "that the push itself moves to the rear",
        working=f"the lesser of {show(nominal(push))}, "
        f"{show(nominal(most.slip))} (spin)"
        + (f" and {show(lift)} (front lifts)" if np.isfinite(lift) else ""),
        source=f"{DYNAMICS}; {_grip_source(usual)}",
        leaves_out="belt slip, which is judged by a finding of its own",
        caution="What the tyres can push, belt, gears and axle must carry: see their findings.",
    )


def _differential_words(case: Case) -> str:
    """What one wheel on poor ground takes away: an open differential gives both the same torque."""
    poor = poorest(case)
    if case.build.wheels.differential != "open" or poor.name == grounds(case)[0].name:
        return ""
    left = min(
        nominal(limits(case, laden(case), each, 0.0).slip) for each in (poor, grounds(case)[0])
    )
    return (
        f" With one driven wheel on {poor.name} the open differential leaves "
        f"{case.units.show(left, Kind.FORCE)}."
    )


def _climb(case: Case, name: str) -> Draft:
    ground, gear = _named(case, name), low_gear(case)
    found = climb(case, ground, gear)
    goal = case.build.goals.climb
    slope = nominal(found.slope)
    wanted = None if goal is None else goal.low
    return Draft(
        kind=Kind.ANGLE,
        value=found.slope,
        at_least=wanted,
        worst=Verdict.MARGINAL,
        verdict=Verdict.SOUND if wanted is None else None,
        unit=SLOPE_UNIT,
        says=slope_words(slope) if slope > 0.0 else "not even level ground",
        meaning=(
            f"Steeper than that {found.ends_with}"
            if slope > 0.0
            else f"Even there {found.ends_with}"
        )
        + f", fully laden in gear {gear.name} at a crawl."
        + _goal_words(goal, slope),
        remedy=_climb_remedy(found.ends_with)
        if wanted is not None and falls_short(found.slope, wanted)
        else "",
        formula="least of: power, m g (sin θ + f cos θ) = push; grip, push = grip × load on the "
        "driven axle; lift, tan θ = ahead / height",
        working=", ".join(
            f"{words} {slope_words(nominal(each))}"
            for words, each in (
                ("power", found.power),
                ("grip", found.grip),
                ("front lifts", found.lift),
            )
        ),
        source=f"{DYNAMICS}; {_grip_source(ground)}",
        leaves_out="ruts, wet patches, a trailer, belt slip",
        caution="What it can climb is not what it may: the slope findings come first. "
        + BACKWARDS_CAUTION,
    )


def _goal_words(goal: Goal | None, slope: float) -> str:
    if goal is None or goal.low is None:
        return " No goal is set for climbing."
    return f" {'Meets' if slope >= goal.low else 'Misses'} the goal of {goal.text}."


def _climb_remedy(ends_with: str) -> str:
    if ends_with == "the engine has no more":
        return "Gear it lower, or carry less."
    if ends_with == "the tyres spin":
        return "Cleated tyres, chains, lower tyre pressure or more weight on the driven axle."
    return "Move the load forward and lower, or hang weight on the front."


def _lift(case: Case) -> Draft:
    slope, gear = steepest(case), low_gear(case)
    if case.build.wheels.driven == "front":
        return _front_driven()
    named, hard = grippiest(case), ground(case, HARD)
    # every machine meets a paved yard or a ramp, named or not
    most_grip = max(named, hard, key=lambda each: each.row.grip_usual)
    state = lifts_first(case, most_grip, slope)
    most = limits(case, state, most_grip, slope)
    push = np.atleast_1d(peak_thrust(case, gear))
    lift, spin = np.atleast_1d(most.lift), np.atleast_1d(most.slip)
    # a jerk of the clutch adds what the flywheel holds, so the tyres alone set the limit
    at_least = np.where(np.isfinite(spin), spin, push)
    stops = _lifts_on(case, state, named, push)
    show = partial(case.units.show, kind=Kind.FORCE)
    return Draft(
        kind=Kind.FORCE,
        value=lift,
        says="" if nominal(lift) > 0.0 else "the front does not stay down",
        at_least=at_least,
        worst=Verdict.STOP if stops[0] else Verdict.MARGINAL,
        stops=stops,
        meaning=f"Nose up on {slope_words(nominal(slope))} the front "
        + (f"lifts at {show(nominal(lift))}; " if nominal(lift) > 0.0 else "lifts by itself; ")
        + f"{_spin_words(case, state, {named.name: named, hard.name: hard})}.",
        remedy=_lift_remedy(case, state, most_grip) if falls_short(lift, at_least) else "",
        formula="push that lifts the front = m g cos θ (b + f h) / h; the tyres should spin first",
        working=f"lifts at {show(nominal(lift))}; engine at its best pushes "
        f"{show(nominal(push))} in gear {gear.name}, {state.name}",
        source=f"{DYNAMICS}; {_grip_source(most_grip)}",
        leaves_out="a root or a rut that holds the wheels; how hard the clutch jerks",
        caution=BACKWARDS_CAUTION,
    )


def _lift_remedy(case: Case, state: State, surface: Ground) -> str:
    # a little over what nearly all of the tolerances need
    (ballast,) = percentiles(front_ballast(state, surface, 1.0 + NEAR), HIGH_PERCENT)
    how_much = (
        f"hang {case.units.show(ballast, Kind.MASS)} over the front axle, "
        if np.isfinite(ballast) and ballast > 0.0
        else ""
    )
    return f"Move the load forward and lower, {how_much}or start uphill in a taller gear."


def _lifts_on(case: Case, state: State, named: Ground, push: Array) -> NDArray[np.bool_]:
    """Whether a steady pull of the engine lifts the front on ground that the builder named."""
    most = limits(case, state, named, steepest(case))
    return np.atleast_1d(most.lift < np.minimum(most.slip, push))


def _spin_words(case: Case, state: State, surfaces: dict[str, Ground]) -> str:
    told = []
    for name, surface in surfaces.items():
        spin = nominal(limits(case, state, surface, steepest(case)).slip)
        told.append(
            f"on {name} the tyres spin at {case.units.show(spin, Kind.FORCE)}"
            if np.isfinite(spin)
            else f"on {name} they never spin first"
        )
    return ", ".join(told)


def _front_driven() -> Draft:
    return Draft(
        holds=np.array([True]),
        says="the front does not lift",
        meaning="Front-wheel drive pulls the front down instead of lifting it.",
        formula="the thrust acts at the front tyres",
        working="front wheels driven",
        source=DYNAMICS,
    )


def _speed(case: Case, name: str) -> Draft:
    ground = _named(case, name)
    gear, top = fastest_gear_on(case, ground)
    goal = case.build.goals.top_speed
    speed = np.atleast_1d(top.speed)
    show = partial(case.units.show, kind=Kind.SPEED)
    wanted = None if goal is None else goal.low
    usual = name == case.build.machine.ground[0]
    held_by = "the governor" if bool(np.atleast_1d(top.governed)[0]) else "the drag"
    moves = bool(np.atleast_1d(top.moves)[0])
    return Draft(
        kind=Kind.SPEED,
        value=speed,
        at_least=wanted if usual else None,
        near=0.0,
        worst=Verdict.MARGINAL,
        verdict=None if usual and wanted is not None else _moving(moves),
        meaning=f"Gear {gear.name} is the fastest on {name}; {held_by} sets the speed."
        + (_uphill_words(case, ground, gear) if usual else "")
        if moves
        else f"It does not move on {name}.",
        remedy=_speed_remedy(speed, wanted if usual else None, held_by, moves=moves),
        formula="push(v) = m g (sin θ + f cos θ) + ½ ρ c A v², from the no-load speed downwards",
        working=f"rolling drag {nominal(ground.rolling):.3f}, "
        f"{case.units.show(nominal(laden(case).balance.mass), Kind.MASS)} laden: "
        f"{show(nominal(speed))}",
        source=f"{DYNAMICS}; {_grip_source(ground)}",
        leaves_out="tyre slip, wind, what a rough ground lets the driver bear",
    )


def _uphill_words(case: Case, ground: Ground, gear: Gear) -> str:
    climbing = nominal(top_speed_on(case, ground, gear, steepest(case)).speed)
    slope = slope_words(nominal(steepest(case)))
    if climbing <= 0.0:
        return f" Up {slope} it needs a slower gear."
    return f" It holds {case.units.show(climbing, Kind.SPEED)} up {slope}."


def _speed_remedy(speed: Array, wanted: float | None, held_by: str, *, moves: bool) -> str:
    if not moves:
        return "Gear it slower, carry less, or keep off that ground."
    if wanted is None or not falls_short(speed, wanted, 0.0):
        return ""
    if held_by == "the governor":
        return "The gearing sets it: see “Top speed, governed”."
    return "The engine has too little power for that speed there: aim lower, or carry less."


def _moving(moves: bool) -> Verdict:
    return Verdict.SOUND if moves else Verdict.MARGINAL


def _run_up(case: Case) -> Draft:
    usual, gear = grounds(case)[0], top_gear(case)
    target = NEARLY * np.atleast_1d(top_speed_on(case, usual, gear).speed)
    run = run_up_on(case, usual, gear, target)
    time, distance = np.atleast_1d(run.time), np.atleast_1d(run.distance)
    show = case.units.show
    starts = bool(np.isfinite(time[0])) and nominal(target) > 0.0
    return Draft(
        kind=Kind.TIME,
        value=time,
        verdict=_moving(starts),
        says="" if starts else "it does not pull away",
        meaning=f"It reaches {show(nominal(target), Kind.SPEED)} in gear {gear.name} after "
        f"{distance_words(case, nominal(distance))} on level {usual.name}, started in that gear."
        if starts
        else f"Gear {gear.name} is too tall to start in on {usual.name}.",
        remedy="" if starts else "Start in a slower gear.",
        formula="time = ∫ m dv / (push − drag), clutch slipping at governed speed until the wheels "
        f"catch up, to {NEARLY:.0%} of the top speed",
        working=f"{show(nominal(time), Kind.TIME)}, {distance_words(case, nominal(distance))}"
        if starts
        else "drag is more than the push",
        source=f"{DYNAMICS}; {_grip_source(usual)}",
        leaves_out="the driver's foot; inertia of the turning parts; gears are not shifted on the "
        "move (common practice with such boxes)",
    )


def _clutch(case: Case) -> Draft:
    usual, gear, slope = grounds(case)[0], low_gear(case), steepest(case)
    low, tall = (start(case, usual, each, slope) for each in (gear, top_gear(case)))
    show = case.units.show
    work = np.atleast_1d(low.clutch.work)
    catches = bool(np.atleast_1d(low.clutch.catches_up)[0])
    rise = (
        "" if low.rise is None else f", warming {low.belt} by {warmer_by(case, nominal(low.rise))}"
    )
    in_tall = (
        f"In gear {top_gear(case).name} it is {show(nominal(tall.clutch.work), Kind.ENERGY)}."
        if bool(np.atleast_1d(tall.clutch.catches_up)[0])
        else f"In gear {top_gear(case).name} the belt would slip on and burn: never start uphill "
        "in it."
    )
    hot = low.rise is not None and nominal(low.rise) > BELT_HEAT_RISE
    return Draft(
        kind=Kind.ENERGY,
        value=work,
        verdict=Verdict.SOUND if catches and not hot else Verdict.MARGINAL,
        says="" if catches else "the belt slips on without catching up",
        meaning=f"Starting in gear {gear.name} up {slope_words(nominal(slope))}, fully laden, the "
        f"belt slips for {show(nominal(low.clutch.slips), Kind.TIME)}{rise}. {in_tall}"
        if catches
        else f"Gear {gear.name} cannot start up {slope_words(nominal(slope))} fully laden.",
        remedy="Start in a slower gear, or carry less uphill." if hot or not catches else "",
        formula="heat = ½ torque × engine speed × time; time = engine speed × inertia / (torque "
        f"− load); {BELT_SHARE:.0%} of it stays in the belt",
        working=f"½ × {show(nominal(peak_torque(case)), Kind.TORQUE)} × "
        f"{show(nominal(rating(case).speed), Kind.ROTATION)} × "
        f"{show(nominal(low.clutch.slips), Kind.TIME)} = {show(nominal(work), Kind.ENERGY)}"
        if catches
        else "load is more than the engine's torque",
        source="Shigley's Mechanical Engineering Design, sections 16-9 and 16-10, from memory; "
        "share of the heat and what a belt bears: assumed, no source",
        leaves_out="letting the clutch up slowly, which makes more heat; belts burn from being "
        "held half up",
        caution="A belt that slips for long smokes and can catch fire near dry grass: let the "
        "clutch right up or right down.",
    )
