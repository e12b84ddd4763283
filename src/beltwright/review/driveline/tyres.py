"""What the review says about the tyres: the speed that they are made for, and what they carry."""

from collections.abc import Iterator
from functools import partial

from beltwright.physics.gravity import STANDARD_GRAVITY
from beltwright.physics.motion.chassis import axle_loads
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.driveline.speed import governed, speed_in, top_gear
from beltwright.review.finding import Verdict
from beltwright.review.motion.ground import steepest
from beltwright.review.nearness import goes_over
from beltwright.review.nominal import nominal
from beltwright.review.stability.centre_of_gravity import states

TURF_SPEED = "10 mph"
TURF_WHY = (
    "tyres of ride-on machines are made for about that and say so, or say nothing (Tire and Rim "
    "Association yearbook, lawn and garden tyres, from memory, medium)"
)
NEAR = 0.05
"""Share of the tyres' speed within which they are watched [1]."""

SYMBOLS = (
    "a letter and a figure after the load index are its speed: A1 to A8 stand for 5 to 40 km/h in "
    "steps of five"
)
TYRE_CAUTION = (
    "A tyre that is worked too fast, too heavily or too soft heats up and comes off its rim or "
    "bursts. Never pump one past what stands on its side, not even to seat it on its rim: small "
    "rims fly apart. Stand aside, with a clip-on chuck and a long hose."
)


def questions(case: Case) -> Iterator[Ask]:
    """The question about the tyres."""
    yield Ask("speed.tyres", "Top speed against the tyres", partial(_tyres, case))


def _tyres(case: Case) -> Draft:
    speed = speed_in(case, top_gear(case), governed(case))
    written = case.build.wheels.tyre_speed
    made_for = case.suppose(written, "wheels.tyre_speed", TURF_SPEED, Kind.SPEED, TURF_WHY)
    show = partial(case.units.show, kind=Kind.SPEED)
    over = nominal(speed) / nominal(made_for) - 1.0
    return Draft(
        kind=Kind.SPEED,
        value=speed,
        at_most=made_for,
        near=NEAR,
        # nobody is stopped by a guess: a written speed comes from the tyre itself
        worst=Verdict.MARGINAL if written is None else Verdict.STOP,
        meaning=f"{f'{over:.0%} faster' if over > 0.0 else f'{-over:.0%} slower'} than "
        f"{'such tyres usually are' if written is None else 'they are'} made for."
        f"{_goal_beyond(case, nominal(made_for))}{_carried(case)}",
        remedy=_remedy(case) if goes_over(speed, made_for, NEAR) else "",
        formula="governed speed in the fastest gear against the speed on the tyre's side",
        working=f"{show(nominal(speed))} against {show(nominal(made_for))}",
        source="the tyre's side or its maker's data"
        if written is not None
        else f"{TURF_WHY}; {SYMBOLS} (UNECE Regulation 106, from memory, high)",
        leaves_out="rolling downhill with the clutch down, which goes faster; old, cracked or "
        "plugged tyres; the load that each may carry, which falls with speed",
        caution=TYRE_CAUTION,
    )


def _remedy(case: Case) -> str:
    if case.build.wheels.tyre_speed is None:
        return (
            f"Read the side of every tyre: {SYMBOLS}; or ask its maker. Write the lowest, for "
            'example tyre_speed = "20 km/h" under wheels; if it is too low, gear slower or fit '
            "tyres that are made for more."
        )
    return "Gear it slower, or fit tyres and rims that are made for more."


def _goal_beyond(case: Case, made_for: float) -> str:
    """What is said where even the goal asks for more than the tyres are made for."""
    goal = case.build.goals.top_speed
    if goal is None or goal.low is None or goal.low <= made_for:
        return ""
    return f" The goal of {goal.text} asks for faster tyres, or for a lower goal."


def _carried(case: Case) -> str:
    """What each tyre carries at its worst, in words; nothing where the weight is not known."""
    slope = steepest(case)
    try:
        loads = [
            axle_loads(state.chassis, way * slope) for state in states(case) for way in (1.0, -1.0)
        ]
    except NotKnownError:
        return ""
    front, rear = (
        case.units.show(max(nominal(load) for load in end) / STANDARD_GRAVITY / 2.0, Kind.MASS)
        for end in ([each.front for each in loads], [each.rear for each in loads])
    )
    return (
        f" On your steepest slope each front tyre carries up to {front} and each rear tyre {rear}: "
        "see that their sides allow it."
    )
