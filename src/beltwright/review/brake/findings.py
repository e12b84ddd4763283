"""What the review says about the brake: torque, stopping, slopes, parking, its way."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.brake.stopping import stopping_distance
from beltwright.quantity import Kind
from beltwright.review.brake import heat_findings, lining_findings
from beltwright.review.brake.braking import (
    LEAST_DOWNHILL,
    Slowing,
    axle_torque,
    brake_force,
    brake_path,
    brake_torque,
    described,
    fastest,
    grip_force,
    one_wheel_slowing,
    pad_force,
    parking,
    pin_pull,
    slowing,
)
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.driveline.pulleys import roll_out
from beltwright.review.finding import Verdict
from beltwright.review.judging import HIGH_PERCENT, percentiles
from beltwright.review.motion.ground import HARD, Ground, ground, grounds, poorest, steepest
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal
from beltwright.review.road_words import (
    SLOPE_UNIT,
    distance_unit,
    distance_words,
    pace_words,
    slope_words,
)
from beltwright.review.stability.centre_of_gravity import laden

SECONDS_OF_SPEED = 0.19 * 3.6
"""Brake path over top speed that ride-on mowers are held to: 0.19 m for each km/h [s]."""

MOWER_SPEED = 16.0 / 3.6
"""About how fast the machines are that the rule was made for (from memory, low) [m/s]. Above it the
deceleration that it asks for there is asked for, and no more: tyres on hard ground give little
over it."""

FAR_TOO_LONG = 2.0
"""Brake path over that of the rule from which it stops (assumed) [1]. The rule itself, known from
memory alone, only warns."""

BRAKE_CAUTION = (
    "Try the brake at walking pace on level ground first, then from each higher speed. Keep a "
    "second way to stop: a stop switch in reach and a clear run-out. Rear wheels that lock let the "
    "tail swing round: ease the pedal until they turn again."
)
STOP_RULE = (
    "weak: 0.19 m of brake path for each km/h on level hard ground, as ISO 5395-3 asks of ride-on "
    "mowers up to about 16 km/h (from memory, not seen in print); stopped from twice that: "
    "assumed. Your own stop_within and local codes go before it"
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the brake; one alone where it is not described."""
    yield Ask(
        "brake.stopping_distance", "Stopping distance from top speed", partial(_stopping, case)
    )
    if case.build.brake is None:
        return
    yield Ask("brake.torque", "Brake torque at the wheels", partial(_torque, case))
    yield Ask("brake.deceleration", "Braking distance on hard ground", partial(_deceleration, case))
    yield Ask("brake.downhill", "Braking down the steepest slope", partial(_downhill, case))
    yield Ask("brake.parking", "Steepest slope that the brake holds", partial(_parking, case))
    yield Ask("brake.path", "Between brake and wheels", partial(_path, case))
    yield from lining_findings.questions(case)
    yield from heat_findings.questions(case)


def _stopping(case: Case) -> Draft:
    described(case)
    usual, speed = grounds(case)[0], fastest(case)
    reaction = case.suppose(
        case.build.brake.reaction if case.build.brake else None,
        "brake.reaction",
        "1 ± 0.3 s",
        Kind.TIME,
        "an alert driver's foot from seeing to braking (common practice, no source)",
    )
    slowed = slowing(case, usual)
    held = slowed.rate
    distance = np.atleast_1d(stopping_distance(speed, held, reaction))
    goal = case.build.goals.stop_within
    wanted = None if goal is None else goal.high
    show = case.units.show
    others = ", ".join(
        distance_words(case, nominal(stopping_distance(speed, slowing(case, each).rate, reaction)))
        + f" on {each.name}"
        for each in grounds(case)[1:]
    )
    over = wanted is not None and goes_over(distance, wanted)
    pace = pace_words(case, nominal(speed))
    return Draft(
        kind=Kind.LENGTH,
        unit=distance_unit(case),
        value=distance,
        at_most=wanted,
        worst=Verdict.MARGINAL,
        verdict=None if wanted is not None else Verdict.SOUND,
        meaning=f"From {show(nominal(speed), Kind.SPEED)} on {usual.name}, "
        f"{show(nominal(reaction), Kind.TIME)} of reaction included, at "
        f"{show(nominal(held), Kind.ACCELERATION)}; {_limited_by(slowed)}."
        + (f" Also {others}." if others else ""),
        remedy=_stopping_remedy(slowed) if over else "",
        formula="distance = speed × reaction + speed² / (2 × deceleration), braked wheels "
        "unloaded by the braking itself",
        working=f"{pace} × {show(nominal(reaction), Kind.TIME)} + "
        f"({pace})² / (2 × {show(nominal(held), Kind.ACCELERATION)}) = "
        f"{distance_words(case, nominal(distance))}",
        source="uniformly accelerated motion; load transfer: T. D. Gillespie, Fundamentals of "
        f"Vehicle Dynamics, chapter 3, from memory; grip: {usual.row.grip_source} "
        f"({usual.row.grip_status})",
        leaves_out="a wet or hot brake, a trailer that pushes, engine braking; an open "
        "differential with one wheel on poor ground",
        caution=BRAKE_CAUTION,
    )


def _limited_by(slowed: Slowing) -> str:
    return (
        f"{slowed.state.name}, the wheels lock, so the ground sets it"
        if slowed.locks
        else f"{slowed.state.name}, the brake sets it: the wheels do not lock"
    )


def _stopping_remedy(slowed: Slowing) -> str:
    if slowed.locks:
        return (
            "A stronger brake will not help: brake the other axle too, drive slower, or put more "
            "weight on the braked wheels."
        )
    return "More lever, a larger disc or drum, or a brake on the other axle too; or drive slower."


def _torque(case: Case) -> Draft:
    usual = grounds(case)[0]
    radius = roll_out(case) / (2.0 * np.pi)
    torque = np.atleast_1d(axle_torque(case).forwards)
    locking = np.atleast_1d(grip_force(case, laden(case), usual) * radius)
    show = partial(case.units.show, kind=Kind.TORQUE)
    grabs = not np.isfinite(torque[0])
    held = torque > 0.0
    times = np.where(held, locking / np.where(held, torque, 1.0), np.inf)
    (most,) = percentiles(times, HIGH_PERCENT)
    force = case.units.show(nominal(pad_force(case)), Kind.FORCE)
    return Draft(
        kind=Kind.TORQUE,
        value=torque,
        at_least=locking,
        near=0.0,
        worst=Verdict.STOP if grabs else Verdict.MARGINAL,
        stops=~np.isfinite(torque),
        says="the leading shoe grabs" if grabs else "",
        meaning="The leading shoe pulls itself on: a touch of the pedal locks the drum."
        if grabs
        else f"At the driven wheels; {show(nominal(locking))} lock them on {usual.name}, fully "
        f"laden.{_pin_words(case)}",
        remedy="Cut the lining's leading end back, or use a lining with less friction."
        if grabs
        else f"Raise the lever ratio or the radius by {most - 1.0:.0%}, or take a lining with more "
        "friction."
        if falls_short(torque, locking, 0.0)
        else "",
        formula={
            "disc": "torque = faces × friction × force × (outer + inner) / 2, pads bedded in",
            "drum": "torque = Σ friction × pressure × width × radius² × (cos θ₁ − cos θ₂) / "
            "sin θ_a over a leading and a trailing shoe",
            "band": "torque = pull × radius × (e^(friction × wrap) − 1), or × (1 − e^−…) where "
            "the drum turns against the pedal",
        }[described(case).kind],
        working=f"{force} at the lining gives {show(nominal(brake_torque(case).forwards))} on its "
        f"shaft × {nominal(brake_path(case).reduction):.3g} = {show(nominal(torque))}",
        source="Shigley's Mechanical Engineering Design, sections 16-2, 16-4 and 16-5",
        leaves_out="oil, water and heat, which can halve the friction; cable stretch",
        caution=BRAKE_CAUTION,
    )


def _pin_words(case: Case) -> str:
    """What the frame must hold where a band is pinned to it."""
    if described(case).kind != "band":
        return ""
    pull = case.units.show(nominal(pin_pull(case)), Kind.FORCE)
    return f" The pin of the band must hold {pull}."


def _deceleration(case: Case) -> Draft:
    hard, speed = ground(case, HARD), fastest(case)
    slowed = slowing(case, hard)
    held = slowed.rate
    needed = np.minimum(speed, MOWER_SPEED) / (2.0 * SECONDS_OF_SPEED)
    path = np.atleast_1d(stopping_distance(speed, held))
    allowed = speed * speed / (2.0 * needed)
    far_too_long = np.atleast_1d(path > FAR_TOO_LONG * allowed)
    show, pace = case.units.show, pace_words(case, nominal(speed))
    return Draft(
        kind=Kind.LENGTH,
        unit=distance_unit(case),
        value=path,
        at_most=allowed,
        worst=Verdict.STOP if far_too_long[0] else Verdict.MARGINAL,
        stops=far_too_long,
        meaning=f"From {show(nominal(speed), Kind.SPEED)} at "
        f"{show(nominal(held), Kind.ACCELERATION)} without reaction time; "
        "ride-on mowers are held to "
        f"{show(nominal(needed), Kind.ACCELERATION)}. On dry asphalt "
        f"{_limited_by(slowed)}.",
        remedy=_stopping_remedy(slowed) if goes_over(path, allowed) else "",
        formula="brake path = speed² / (2 × deceleration), held to what the source asks of mowers",
        working=f"({pace})² / (2 × {show(nominal(held), Kind.ACCELERATION)}) = "
        f"{distance_words(case, nominal(path))}",
        source=STOP_RULE,
        leaves_out="a wet or hot brake; wet ground",
        caution=BRAKE_CAUTION,
    )


def _downhill(case: Case) -> Draft:
    slope = steepest(case)
    worst = min(grounds(case), key=lambda each: nominal(slowing(case, each, -slope).rate))
    slowed = slowing(case, worst, -slope)
    held = slowed.rate
    show = partial(case.units.show, kind=Kind.ACCELERATION)
    each = ", ".join(
        f"{g.name} {show(nominal(slowing(case, g, -slope).rate))}" for g in grounds(case)
    )
    weak = falls_short(held, LEAST_DOWNHILL)
    return Draft(
        kind=Kind.ACCELERATION,
        value=held,
        below_zero="gains",
        at_least=LEAST_DOWNHILL,
        worst=Verdict.STOP,
        meaning=f"Down {slope_words(nominal(slope))} on {worst.name} "
        + (
            "the machine runs away, wheels braked."
            if nominal(held) <= 0.0
            else f"it slows at {show(nominal(held))}."
        )
        + f" All ground: {each}.",
        remedy=_downhill_remedy(worst, slowed) if weak else "",
        formula="deceleration = (brake force + m g (f cos θ − sin θ)) / m; wheels lock where the "
        "brake force is (grip − f) × their load, less by the braking itself",
        working=_downhill_working(case, worst, slowed),
        source="T. D. Gillespie, Fundamentals of Vehicle Dynamics, chapter 3, from memory; the "
        f"least of {show(LEAST_DOWNHILL)}: assumed, no source; grip: {worst.row.grip_source} "
        f"({worst.row.grip_status})",
        leaves_out="engine braking, a trailer that pushes, wet or hot brakes",
        caution=BRAKE_CAUTION,
    )


def _downhill_remedy(worst: Ground, slowed: Slowing) -> str:
    if slowed.locks:
        # the engine would hold the same wheels that slide already
        return (
            f"Keep off {worst.name} on that slope, brake the other axle too, or put weight on the "
            "braked wheels."
        )
    return (
        "More lever, a larger disc or drum, or a brake on the other axle too; until then keep off "
        "that slope: the slowest gear with the clutch up holds the machine back only while clutch, "
        "belt and gear hold."
    )


def _downhill_working(case: Case, worst: Ground, slowed: Slowing) -> str:
    slope, mass = -steepest(case), nominal(slowed.state.balance.mass)
    most = nominal(grip_force(case, slowed.state, worst, slope))
    force = min(most, nominal(brake_force(case)))
    pull = mass * nominal(slowed.rate) - force
    show = case.units.show
    return (
        f"grip {nominal(worst.grip):.2f}, f {nominal(worst.rolling):.3g}, {slowed.state.name}: "
        f"({show(force, Kind.FORCE)} {'−' if pull < 0.0 else '+'} {show(abs(pull), Kind.FORCE)}) / "
        f"{show(mass, Kind.MASS)} = {show(nominal(slowed.rate), Kind.ACCELERATION)}"
    )


def _parking(case: Case) -> Draft:
    usual, slope = grounds(case)[0], steepest(case)
    held = parking(case, usual)
    ways = {
        "the brake slips": held.brake,
        "the locked wheels slide, nose up": held.facing_up,
        "the locked wheels slide, nose down": held.facing_down,
    }
    ends = min(ways, key=lambda words: nominal(ways[words]))
    found = held.slope
    return Draft(
        kind=Kind.ANGLE,
        value=found,
        at_least=slope,
        worst=Verdict.STOP,
        unit=SLOPE_UNIT,
        says=slope_words(nominal(found)),
        meaning=f"Steeper than that {ends}, on {usual.name}, driver on or off, with the pedal held "
        "or latched as hard as in an emergency.",
        remedy="Chock the wheels whenever you leave the seat on a slope; a stronger latch or "
        "brake, or more weight on the braked wheels, holds more."
        if falls_short(found, slope)
        else "",
        formula="least of: sin θ = brake force / weight; tan θ = grip × (L − b) / (L ∓ grip × h) "
        "for rear wheels locked, nose up and nose down",
        working=", ".join(f"{words}: {slope_words(nominal(each))}" for words, each in ways.items()),
        source=f"statics; grip: {usual.row.grip_source} ({usual.row.grip_status})",
        leaves_out="a latch that gives, a cable that stretches, a brake that cools and loosens",
        caution="Never leave the machine on a slope on its brake alone: chock it, downhill side "
        "first.",
    )


def _path(case: Case) -> Draft:
    path = brake_path(case)
    kinds = {stage.kind for stage in path.stages}
    named = ", ".join(stage.name for stage in path.stages)
    lets_go = "belt" in kinds or path.gear is not None
    weak = bool(kinds)
    torque = case.units.show(nominal(axle_torque(case).forwards), Kind.TORQUE)
    return Draft(
        holds=np.array([not weak]),
        worst=Verdict.STOP if lets_go else Verdict.MARGINAL,
        says=named or "nothing in between",
        meaning=_path_meaning(kinds, named) + _differential_words(case),
        remedy="Move the brake to the axle or to a shaft that no belt and no neutral can part "
        "from the wheels."
        if lets_go
        else "Fit a second brake on the axle, or make sure that every part on the way holds "
        f"{torque} at the wheels."
        if weak
        else "",
        formula="what lies between brake and wheels must hold the whole brake torque",
        working=f"{torque} at the wheels, {nominal(path.reduction):.3g} turns of the brake's shaft "
        "for one of the wheels",
        source="common practice, no source",
        leaves_out="a half shaft or a hub that breaks",
        caution=BRAKE_CAUTION,
    )


def _differential_words(case: Case) -> str:
    """What one wheel on poor ground takes away: an open differential gives both the same torque."""
    if case.build.wheels.differential != "open":
        return ""
    usual, poor = grounds(case)[0], poorest(case)
    told = " It holds through the open differential: a braked wheel off the ground leaves nothing"
    if poor.name == usual.name:
        return told + "."
    show = partial(case.units.show, kind=Kind.ACCELERATION)
    left = show(nominal(one_wheel_slowing(case, usual, poor)))
    return f"{told}, one on {poor.name} {left} of {show(nominal(slowing(case, usual).rate))}."


def _path_meaning(kinds: set[str], named: str) -> str:
    if "belt" in kinds:
        return f"The brake acts through {named}: pressing the clutch or losing the belt lets go."
    if "gearbox" in kinds:
        return f"The brake acts through {named}: in neutral, or with a broken gear, it is gone."
    if kinds:
        return f"The brake acts through {named}: should it break, the brake is gone."
    return "The brake holds the wheels' own shaft: no belt, chain or gear can take it away."
