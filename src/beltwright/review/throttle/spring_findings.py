"""What the review says about the throttle's springs: each alone, and what is left without one."""

from collections.abc import Iterator
from functools import partial
from itertools import combinations
from typing import NamedTuple

import numpy as np

from beltwright.build.fields import Point
from beltwright.build.throttle import ThrottleSpring
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal
from beltwright.review.throttle.levers import described
from beltwright.review.throttle.stroke import (
    closings,
    return_springs,
    stroke,
)

RESERVE = 2.0
"""Times the friction that the springs left should have: cold grease, mud and rust double it
(common practice, no source)."""

APART = 0.002
"""Hooks nearer than this share a hole [m]."""

TWO_SPRINGS = (
    "two sources of energy that each close the throttle by themselves: the principle of FMVSS No. "
    "124 for road vehicles (49 CFR 571.124), from memory; no such rule is known for a cart"
)
RETURN_CAUTION = (
    "Springs break and fall off. A throttle that then stays open drives the machine on without "
    "you: drive only when it closes with any one of them off, and with a stop switch in reach."
)
HOOK_CAUTION = "Wear eye protection when you hook a spring: it flies off with the force it holds."


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the return springs."""
    yield Ask(
        "throttle.return", "Closing torque with any one spring broken", partial(_return, case)
    )
    if len(return_springs(case, "arm")) > 1:
        yield Ask("throttle.hooks", "Hooks of the return springs", partial(_hooks, case))
    for spring in (s for at in ("arm", "pedal") for s in return_springs(case, at)):
        yield Ask(f"throttle.spring.{spring.name}", _title(spring), partial(_spring, case, spring))


def _title(spring: ThrottleSpring) -> str:
    return f"Torque of the {spring.name}"


def no_springs() -> NotKnownError:
    """Says how to measure the springs where none is described."""
    return NotKnownError(
        "throttle.spring",
        "Measure each spring of the throttle (rate, free length, both hooks) and write it as "
        '[[throttle.spring]] with at = "arm" or "pedal". The arm at the engine needs two that '
        "close it by themselves.",
    )


class Weakest(NamedTuple):
    """The place of the stroke, and the broken spring, at which least is left to close the arm.

    broken   in the build as written
    springs  what closes there, a sample each [N m]
    resists  what resists there [N m]
    opened   share of the stroke, in the build as written [1]
    """

    broken: str
    springs: Array
    resists: Array
    opened: float


def weakest(case: Case) -> Weakest:
    """Where the arm closes worst with any one return spring broken."""
    without = closings(case)[1:]
    closing = np.stack(np.broadcast_arrays(*(one.springs for one in without)), axis=1)
    resisting = np.stack(np.broadcast_arrays(*(one.resists for one in without)), axis=1)
    closing, resisting = np.broadcast_arrays(closing, resisting)
    samples, _, places = closing.shape
    flat, against = closing.reshape(samples, -1), resisting.reshape(samples, -1)
    worst = np.argmin(flat - RESERVE * against, axis=1)[:, np.newaxis]
    spring, place = divmod(int(worst[0, 0]), places)
    return Weakest(
        without[spring].broken,
        np.take_along_axis(flat, worst, axis=1)[:, 0],
        np.take_along_axis(against, worst, axis=1)[:, 0],
        place / (places - 1),
    )


def _return(case: Case) -> Draft:
    if not described(case).spring:
        raise no_springs()
    if len(return_springs(case, "arm")) < 2:
        return _one_spring(case)
    found = weakest(case)
    closing, resisting = nominal(found.springs), nominal(found.resists)
    show = partial(case.units.show, kind=Kind.TORQUE)
    where = f"{found.opened:.0%} open" if found.opened else "at the idle stop"
    weak = falls_short(found.springs, found.resists, RESERVE - 1.0)
    return Draft(
        kind=Kind.TORQUE,
        value=found.springs,
        below_zero="opens with",
        at_least=found.resists,
        near=RESERVE - 1.0,
        worst=Verdict.STOP,
        meaning=f"Without the {found.broken}, {where}, the springs at the arm "
        f"{'close' if closing > 0.0 else 'hold it open'} with {show(abs(closing))}; friction and "
        f"the drag of the pedal resist with {show(resisting)}.",
        remedy=_stronger(closing, resisting) if weak else "",
        formula="moment of the springs left at the arm, against friction of the arm + pull that "
        "brings the pedal back × wire's lever; the least over the stroke, each spring off in turn",
        working=f"without the {found.broken}, {where}: {show(closing)} against {show(resisting)}; "
        f"sound from {RESERVE:g} times as much",
        source=f"statics of a hooked spring; rope friction (Euler); {TWO_SPRINGS}",
        leaves_out="mud, ice, a frayed wire, weight of pedal and boot, play of worn pivots",
        caution=RETURN_CAUTION,
    )


def _stronger(closing: float, resisting: float) -> str:
    if closing <= 0.0:
        return (
            "Move the hooks so that every spring at the arm pulls it shut over the whole stroke, "
            "well clear of the line through the pivot."
        )
    return (
        f"Fit springs at the arm about {RESERVE * resisting / closing:.1f} times as strong, hook "
        "them that much farther from the pivot, or ease what resists: oil cable and pivots, take "
        "bends out, give the pedal springs of its own."
    )


def _one_spring(case: Case) -> Draft:
    """A sheathed wire cannot push: only springs at the arm close it."""
    at_arm, at_pedal = len(return_springs(case, "arm")), len(return_springs(case, "pedal"))
    count = {0: "no spring", 1: "a single spring"}[at_arm]
    pulls = " A spring at the pedal only slackens the wire: it never closes the arm."
    return Draft(
        holds=np.array([False]),
        worst=Verdict.STOP,
        says=f"{count} at the arm",
        meaning=f"With {count} at the arm, {'one' if at_arm else 'any'} broken hook leaves the "
        "throttle open." + (pulls if at_pedal else ""),
        remedy="Fit a second, independent spring at the arm, with hooks of its own at both ends."
        if at_arm
        else "Fit two independent springs at the arm, each with hooks of its own at both ends.",
        formula="return springs at the arm: at least two",
        working=f"{at_arm} at the arm, {at_pedal} at the pedal",
        source=TWO_SPRINGS,
        caution=RETURN_CAUTION,
    )


def _hooks(case: Case) -> Draft:
    springs = return_springs(case, "arm")
    shared = [
        (one.name, other.name, end)
        for one, other in combinations(springs, 2)
        for end, near in (
            ("the lever", _near(one.lever_hook, other.lever_hook)),
            ("the frame", _near(one.fixed_hook, other.fixed_hook)),
        )
        if near
    ]
    said = "; ".join(f"{one} and {other} on {end}" for one, other, end in shared)
    return Draft(
        holds=np.array([not shared]),
        worst=Verdict.MARGINAL,
        says="shared" if shared else "each its own",
        meaning=f"A hole or pin is shared: {said}. When it breaks out, both springs are lost."
        if shared
        else "Each spring hangs on holes of its own: one that breaks out takes no other with it.",
        remedy="Drill each spring a hole of its own, at the lever and on the frame."
        if shared
        else "",
        formula=f"hooks at least {case.units.show(APART, Kind.LENGTH)} apart at both ends",
        working=said or "every hook stands alone",
        source=TWO_SPRINGS,
    )


def _near(one: Point, other: Point) -> bool:
    (x, y), (u, v) = one, other
    return bool(np.hypot(x.value - u.value, y.value - v.value) < APART)


def _spring(case: Case, spring: ThrottleSpring) -> Draft:
    made, show = stroke(case), case.units.show
    drawn, moment = made.springs[spring.name], made.moments[spring.name]
    least = np.min(moment, axis=1)
    overdrawn = bool(np.any(drawn.overstretched[0]))
    closes = "closes" if spring.at == "arm" else "lifts the pedal"
    lengths = [show(float(end), Kind.LENGTH) for end in (drawn.length[0, 0], drawn.length[0, -1])]
    moments = [show(float(end), Kind.TORQUE) for end in (moment[0, 0], moment[0, -1])]
    holds = (least > 0.0) & ~np.any(drawn.overstretched, axis=1)
    return Draft(
        kind=Kind.TORQUE,
        value=least,
        below_zero="opens with",
        holds=np.atleast_1d(holds),
        worst=Verdict.STOP if spring.at == "arm" else Verdict.MARGINAL,
        meaning=_spring_words(spring, nominal(least), overdrawn, bool(drawn.slack[0, 0]), closes),
        remedy=_spring_remedy(nominal(least), overdrawn),
        formula="moment = pull × distance of its line from the pivot; the least over the stroke",
        working=f"{lengths[0]} long, {moments[0]} at the start; {lengths[1]} long, {moments[1]} at "
        "full",
        source="statics of a hooked spring; Shigley, Mechanical Engineering Design, 9th ed., "
        "section 10-11",
        leaves_out="rust, and a spring that has set",
        caution=HOOK_CAUTION,
    )


def _spring_words(
    spring: ThrottleSpring, least: float, overdrawn: bool, slack: bool, closes: str
) -> str:
    if overdrawn:
        return "It is drawn past its longest length and stays stretched: it will not close again."
    if least <= 0.0 and slack:
        return "It hangs loose at the start of the stroke: there it does nothing."
    if least <= 0.0:
        return "Its line goes over the pivot within the stroke: beyond, it holds the throttle open."
    where = "closed to open" if spring.at == "arm" else "let go to pressed"
    return f"It {closes} over the whole stroke, from {where}."


def _spring_remedy(least: float, overdrawn: bool) -> str:
    if overdrawn:
        return "Take a longer spring, or hook it nearer to the pivot."
    if least <= 0.0:
        return "Hook it farther off on the frame, or where its line keeps clear of the pivot."
    return ""
