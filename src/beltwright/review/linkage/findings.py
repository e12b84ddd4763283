"""What the review says about every rod: its length, the travel it gives, the lever's positions."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.linkage import Linkage
from beltwright.physics.arrays import Array
from beltwright.physics.linkage.link import rod_angles
from beltwright.physics.linkage.rod import hole_for_rod
from beltwright.physics.linkage.train import follow
from beltwright.quantity import Kind
from beltwright.review.angle_words import DEGREES, degrees
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.linkage import clash_findings, drive_findings, force_findings
from beltwright.review.linkage.cures import cure
from beltwright.review.linkage.motion import (
    Reach,
    chain,
    drives_another,
    hand_neutral,
    hand_travel,
    handle_radius,
    leeway,
    link_of,
    moved_to,
    reach,
    rod_range,
    train_of,
)
from beltwright.review.linkage.words import (
    GEOMETRY,
    caution,
    hurts,
    middle,
)
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal

LEAST_STEP = 0.02
"""Least way of the knob between two positions that a hand tells apart [m] (assumed, no source)."""


def questions(case: Case) -> Iterator[Ask]:
    """The questions about every linkage."""
    for linkage in case.build.linkage:
        name, head = linkage.name, f"linkage.{linkage.name}"
        yield Ask(f"{head}.rod", f"Rod length of the {name}", partial(_rod, case, linkage))
        if linkage.arm.position or not drives_another(case, linkage):
            yield Ask(
                f"{head}.travel", f"Lever travel to spare, {name}", partial(_travel, case, linkage)
            )
        if len(linkage.arm.position) > 1:
            title = f"Smallest step of the lever, {name}"
            yield Ask(f"{head}.positions", title, partial(_positions, case, linkage))
        yield from force_findings.questions(case, linkage)
        yield from clash_findings.questions(case, linkage)
        yield from drive_findings.questions(case, linkage)


def _rod(case: Case, linkage: Linkage) -> Draft:
    link = link_of(case, linkage)
    low, high = rod_range(case, linkage)
    spare, made = _spare(case, linkage), linkage.rod.length is not None
    show = partial(case.units.show, kind=Kind.LENGTH)
    needed = np.atleast_1d(link.needed)
    misses = made and not nominal(low - spare) <= nominal(needed) <= nominal(high + spare)
    return Draft(
        kind=Kind.LENGTH,
        value=needed,
        at_least=low - spare if made else None,
        at_most=high + spare if made else None,
        near=0.0,
        worst=Verdict.MARGINAL,
        verdict=None if made else Verdict.SOUND,
        meaning=_rod_meaning(case, linkage, misses),
        remedy=_rod_remedy(case, linkage) if misses else "",
        formula="length = distance of the lever's hole from the arm's hole, both in neutral",
        working=f"lever at {degrees(nominal(link.neutral))}, arm at "
        f"{degrees(nominal(link.arm_neutral))}: {show(nominal(needed))} between the eyes"
        + (
            f"; the rod gives {show(nominal(low))} to {show(nominal(high))}, and its arm may be "
            f"off by {show(nominal(spare))} of rod"
            if made
            else ""
        ),
        source=GEOMETRY,
        leaves_out="play in joints and pivots",
        caution=caution(linkage),
        place=middle(case, linkage),
    )


def _rod_meaning(case: Case, linkage: Linkage, misses: bool) -> str:
    if linkage.rod.length is None:
        return "Make it this long between the middles of both eyes: neutral then meets neutral."
    if not misses:
        return "The rod that is there can be set so that neutral meets neutral."
    link = link_of(case, linkage)
    off = nominal(link.needed) - nominal(link.length)
    by = case.units.show(abs(off), Kind.LENGTH)
    screwed = ""
    if linkage.rod.adjusts is not None:
        screwed = f" even with its ends screwed {'out' if off > 0.0 else 'in'}"
    stands = nominal(moved_to(case, linkage, hand_neutral(case, linkage)[:1]))
    error = abs(stands - nominal(link.arm_neutral))
    effect = (
        f"the arm then stands {degrees(error)} off its neutral."
        if np.isfinite(error)
        else "lever and arm cannot both stand in neutral."
    )
    return (
        f"The rod that is there is {by} too {'short' if off > 0.0 else 'long'}{screwed}: {effect}"
    )


def _spare(case: Case, linkage: Linkage) -> Array:
    """Length of rod that brings the arm as far off its neutral as it may be [m]."""
    link, positions = link_of(case, linkage), linkage.arm.position
    within = leeway(case, linkage, positions[0] if positions else None)
    square = np.sin(rod_angles(link, link.neutral, link.arm_neutral).at_arm)
    return np.atleast_1d(np.abs(link.arm.radius * square * within))


def _rod_remedy(case: Case, linkage: Linkage) -> str:
    """The right length, or the holes that would suit the rod that is there."""
    link = link_of(case, linkage)
    show = partial(case.units.show, kind=Kind.LENGTH)
    ends = {
        "arm": (link.lever, link.neutral, link.arm, link.arm_neutral),
        "lever": (link.arm, link.arm_neutral, link.lever, link.neutral),
    }
    holes = [
        f"the {end}'s hole at {show(radius)}"
        for end, parts in ends.items()
        if np.isfinite(radius := nominal(hole_for_rod(*parts, link.length)))
        and 0.5 <= radius / nominal(parts[2].radius) <= 2.0
    ]
    drilled = f", or drill {' or '.join(holes)} and look at its travel again" if holes else ""
    return f"Make the rod {show(nominal(link.needed))} eye to eye{drilled}."


def _travel(case: Case, linkage: Linkage) -> Draft:
    found, (low, high) = reach(case, linkage), hand_travel(case, linkage)
    inside = np.min(found.inside, axis=0)
    worst = int(np.argmin(np.nan_to_num(found.inside[:, 0], nan=-np.inf)))
    position = linkage.arm.position[worst]
    short = falls_short(inside, 0.0)
    return Draft(
        kind=Kind.ANGLE,
        unit=DEGREES,
        value=inside,
        below_zero="past its end by",
        at_least=0.0,
        worst=Verdict.STOP if hurts(linkage) else Verdict.MARGINAL,
        says="" if np.isfinite(inside[0]) else "out of reach",
        meaning=_travel_meaning(case, linkage, found, worst),
        remedy=_farther(case, linkage, found) if short else "",
        formula="the lever's angle for each position of the arm, less what the arm may be off, "
        "against the ends of the lever's travel",
        working=f"{position.name}: arm at {degrees(nominal(found.wanted[worst]))} ± "
        f"{degrees(nominal(found.within[worst]))}, lever at "
        f"{_angle_words(nominal(found.hand[worst]))}; the lever travels "
        f"{degrees(nominal(low))} to {degrees(nominal(high))}",
        source=GEOMETRY,
        leaves_out="play in joints and pivots; a rod or a bracket that springs",
        caution=caution(linkage),
        place=middle(case, linkage),
    )


def _angle_words(angle: float) -> str:
    return degrees(angle) if np.isfinite(angle) else "no angle"


def _travel_meaning(case: Case, linkage: Linkage, found: Reach, worst: int) -> str:
    position, inside = linkage.arm.position[worst], nominal(found.inside[worst])
    if not np.isfinite(inside):
        return (
            f"No angle of the lever brings the arm to {position.name}: rod and lever, or rod and "
            "arm, come in line before."
        )
    way = _at_handle(case, linkage, abs(inside))
    if inside >= 0.0:
        count = len(linkage.arm.position)
        all_of = "The arm's position lies" if count == 1 else f"All {count} positions lie"
        return (
            f"{all_of} within the lever's travel; nearest to its end is {position.name}, "
            f"{degrees(inside)}{way} before it."
        )
    missed = [
        each.name
        for each, row in zip(linkage.arm.position, found.inside, strict=True)
        if not nominal(row) >= 0.0
    ]
    return (
        f"The lever comes to its end {degrees(-inside)}{way} before the arm is at {position.name}."
        + (f" Not reached: {', '.join(missed)}." if len(missed) > 1 else "")
    )


def _at_handle(case: Case, linkage: Linkage, angle: float) -> str:
    """An angle of the hand lever as the way of its knob, where its length is known."""
    handle = chain(case, linkage)[0].lever.handle
    if handle is None:
        return ""
    return f", {case.units.show(angle * nominal(case.si(handle)), Kind.LENGTH)} at the handle,"


def _farther(case: Case, linkage: Linkage, found: Reach) -> str:
    """What brings the arm to all of its positions."""
    if np.all(found.inside[:, 0] >= 0.0):
        return (
            "Only its tolerances fall short: measure its angles and pivots better, or let the "
            "lever travel a little farther."
        )
    return cure(case, linkage) or _longer_travel(case, linkage, found)


def _longer_travel(case: Case, linkage: Linkage, found: Reach) -> str:
    """What is left where no single hole does it."""
    hand, (low, high) = found.hand[:, 0], hand_travel(case, linkage)
    neutral = nominal(hand_neutral(case, linkage))
    worst = hand[int(np.argmin(np.nan_to_num(found.inside[:, 0], nan=-np.inf)))]
    if (worst - neutral) * (0.5 * (nominal(low) + nominal(high)) - neutral) < 0.0:
        return (
            "The lever would have to turn the other way: put the rod's hole on the other side of "
            "the pivot, in the lever or in the arm, and measure its neutral angle again."
        )
    if np.all(np.isfinite(hand)):
        ends = min(float(hand.min()), nominal(low)), max(float(hand.max()), nominal(high))
        return (
            "No single hole on these arms does it: let the lever travel from "
            f"{degrees(ends[0])} to {degrees(ends[1])}, lengthening its slot or moving its stop."
        )
    return (
        "No single hole on these arms does it: set lever and arm so that the rod stands square to "
        "both in the middle of the travel, or move one of the pivots."
    )


def _positions(case: Case, linkage: Linkage) -> Draft:
    if any(position.notch is not None for position in linkage.arm.position):
        return _notches(case, linkage)
    found = reach(case, linkage)
    handle = handle_radius(case, linkage)
    order = np.argsort(found.wanted[:, 0])
    hand = found.hand[order]
    apart = np.abs(np.diff(hand, axis=0)) * handle
    closest = int(np.argmin(np.nan_to_num(apart[:, 0], nan=-1.0)))
    names = [linkage.arm.position[place].name for place in order]
    show = partial(case.units.show, kind=Kind.LENGTH)
    least = np.min(apart, axis=0)
    reached = bool(np.isfinite(least[0]))
    listed = ", ".join(
        f"{name} {_angle_words(nominal(angle))}" for name, angle in zip(names, hand, strict=True)
    )
    return Draft(
        kind=Kind.LENGTH,
        value=least,
        at_least=LEAST_STEP,
        worst=Verdict.MARGINAL,
        says="" if reached else "not all reached",
        meaning=f"The knob moves {show(nominal(apart[closest]))} from {names[closest]} to "
        f"{names[closest + 1]}, its smallest step; the largest is "
        f"{show(float(np.max(apart[:, 0])))}. The positions follow one another in the arm's order."
        if reached
        else "The lever cannot come to every position, so their order cannot be felt.",
        remedy=_wider_steps(nominal(least)) if falls_short(least, LEAST_STEP) else "",
        formula="step = difference of the lever's angles × its length to the handle",
        working=f"lever at: {listed}; × {show(nominal(handle))}",
        source=f"{GEOMETRY}; least step: assumed, no source",
        leaves_out="a gate that leads the lever; play, which makes near positions hard to find",
        caution=caution(linkage),
        place=middle(case, linkage),
    )


def _wider_steps(least: float) -> str:
    if not np.isfinite(least):
        return "Put its travel right first."
    by = LEAST_STEP / least
    return (
        f"Make the handle {by:.2g} times as long, or drill the lever's hole nearer to its pivot by "
        f"a factor of {by:.2g}, as far as its travel allows; or give the lever a gate."
    )


def _notches(case: Case, linkage: Linkage) -> Draft:
    """How far off the arm stands with the lever in the notches of its gate."""
    found = reach(case, linkage)
    gated = [
        (place, position, case.si(position.notch))
        for place, position in enumerate(linkage.arm.position)
        if position.notch is not None
    ]
    train = train_of(case, linkage)
    errors = [
        np.abs(follow(train, notch)[1] - found.wanted[place]) - found.within[place]
        for place, _, notch in gated
    ]
    over = np.max(np.broadcast_arrays(*errors), axis=0)
    worst = int(np.argmax([np.nan_to_num(nominal(error), nan=np.inf) for error in errors]))
    place, position, notch = gated[worst]
    stands = nominal(moved_to(case, linkage, notch[:1]))
    off = abs(stands - nominal(found.wanted[place]))
    right = ", ".join(f"{p.name} {_angle_words(nominal(found.hand[at]))}" for at, p, _ in gated)
    bad = goes_over(over + found.within[place], found.within[place])
    return Draft(
        kind=Kind.ANGLE,
        unit=DEGREES,
        value=np.atleast_1d(over + found.within[place]),
        at_most=found.within[place],
        worst=Verdict.MARGINAL,
        says="" if np.isfinite(off) else "out of reach",
        meaning=f"Lever in the notch for {position.name}, the arm stands {degrees(off)} off."
        if np.isfinite(off)
        else f"The lever cannot be brought to the notch for {position.name}.",
        remedy=f"File the notches to: {right}." if bad else "",
        formula="error = angle of the arm for the lever in its notch − angle of the position",
        working=f"{position.name}: lever at {degrees(nominal(notch))}, arm at "
        f"{_angle_words(stands)}, wanted {degrees(nominal(found.wanted[place]))}",
        source=GEOMETRY,
        leaves_out="play in joints, pivots and notches",
        caution=caution(linkage),
        place=middle(case, linkage),
    )
