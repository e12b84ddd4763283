"""What the review says of every linkage's force, of its dead points and of its ball joints."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.linkage import Linkage
from beltwright.physics.arrays import Array
from beltwright.physics.linkage.swing import along, axis_of, rod_end, way_between
from beltwright.physics.linkage.train import turning
from beltwright.quantity import Kind
from beltwright.review.angle_words import DEGREES, degrees
from beltwright.review.brake.braking import pedal_force
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.linkage.cures import FREE_ANGLE, cure
from beltwright.review.linkage.motion import (
    chain,
    drives_another,
    force_ratio,
    handle_radius,
    link_of,
    most_effort,
    moved,
    pull_needed,
    reach,
    turned_per_hand,
    working_angle,
    written_train,
)
from beltwright.review.linkage.words import (
    GEOMETRY,
    caution,
    hurts,
    middle,
)
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal

LOCKS = np.radians(10.0)
"""Nearer to the dead point than this, play and spring take a lever over it [rad] (assumed)."""

EFFORTS = {"brake": "400 N", "clutch": "300 N", "shift": "120 N", "throttle": "60 N"}
"""What hand or foot gives with ease (assumed, no source)."""

_BACK = {"cross": ("left", "right"), "upright": ("down", "up"), "along": ("forwards", "back")}
"""Which way a rod's end comes back that lies along the line about which angles grow, or against
it, for each way in which a pivot lies."""

_ASIDE = 0.001
"""An end that is less than this to one side is as good as straight [m]."""


def questions(case: Case, linkage: Linkage) -> Iterator[Ask]:
    """The questions about what a linkage passes on."""
    name, head = linkage.name, f"linkage.{linkage.name}"
    if _works_the_brake(case, linkage):
        yield Ask(
            f"{head}.force", f"Pull at the arm of the {name}", partial(_leverage, case, linkage)
        )
    elif linkage.arm.force is not None or not drives_another(case, linkage):
        yield Ask(
            f"{head}.force", f"Force on the lever of the {name}", partial(_effort, case, linkage)
        )
    yield Ask(
        f"{head}.toggle", f"Angle off its dead point, {name}", partial(_toggle, case, linkage)
    )
    yield Ask(
        f"{head}.ball_joint", f"Tilt of the ball joints, {name}", partial(_joint, case, linkage)
    )


def _works_the_brake(case: Case, linkage: Linkage) -> bool:
    return case.build.brake is not None and case.build.brake.linkage == linkage.name


def _leverage(case: Case, linkage: Linkage) -> Draft:
    ratio = np.atleast_1d(force_ratio(case, linkage))
    hand = nominal(working_angle(case, linkage))
    show = partial(case.units.show, kind=Kind.LENGTH)
    link, handle = link_of(case, linkage), nominal(handle_radius(case, linkage))
    turns = nominal(turned_per_hand(case, linkage, working_angle(case, linkage)))
    foot = pedal_force(case)
    pull = np.atleast_1d(foot * ratio)
    force = partial(case.units.show, kind=Kind.FORCE)
    return Draft(
        kind=Kind.FORCE,
        value=pull,
        verdict=Verdict.SOUND,
        meaning=f"Where the brake works, the arm's hole is pulled with {ratio[0]:.3g} times the "
        "force on the pedal; the findings about the brake are worked out with it.",
        formula="pull = force on the pedal × handle / (arm × turn of the arm a turn of the lever)",
        working=f"lever at {degrees(hand)}: {force(nominal(foot))} × {show(handle)} / "
        f"({show(nominal(link.arm.radius))} × {turns:.3g}) = {force(pull[0])}",
        source="principle of virtual work",
        leaves_out="friction, which the brake's efficiency takes off",
        caution=caution(linkage),
        place=middle(case, linkage),
    )


def _effort(case: Case, linkage: Linkage) -> Draft:
    if linkage.works == "brake" and linkage.arm.force is None:
        raise NotKnownError(
            "brake.linkage",
            f'Write linkage = "{linkage.name}" under [brake], so that its leverage counts there; '
            "or measure with a fish scale what its arm needs, and write it as force.",
            "The brake does not name this linkage, nor is it known what its arm needs.",
        )
    force, most = np.atleast_1d(most_effort(case, linkage)), _most(case, linkage)
    hand = reach(case, linkage).hand
    turns = np.abs(turning(written_train(case, linkage), hand[:, :1]))[:, 0]
    worst = int(np.argmax(np.nan_to_num(turns, nan=-1.0)))
    show = case.units.show
    pull, arm = nominal(pull_needed(case, linkage)), nominal(link_of(case, linkage).arm.radius)
    handle = nominal(handle_radius(case, linkage))
    return Draft(
        kind=Kind.FORCE,
        value=force,
        at_most=most,
        worst=Verdict.MARGINAL,
        meaning=f"The hand or foot needs it to bring the arm to "
        f"{linkage.arm.position[worst].name}, where it is hardest.",
        remedy=_lighter(case, linkage, force, most) if goes_over(force, most) else "",
        formula="effort = pull × arm × turn of the arm a turn of the lever / (handle × what the "
        "joints leave)",
        working=f"lever at {degrees(float(hand[worst, 0]))}: {show(pull, Kind.FORCE)} × "
        f"{show(arm, Kind.LENGTH)} × {turns[worst]:.3g} / ({show(handle, Kind.LENGTH)} × "
        f"{pull * arm * turns[worst] / (handle * force[0]):.2g}) = {show(force[0], Kind.FORCE)}",
        source="principle of virtual work; limit: "
        + ("the builder's own" if chain(case, linkage)[0].lever.effort else "assumed, no source"),
        leaves_out="a return spring that is not in the measured pull; play",
        caution=caution(linkage),
        place=middle(case, linkage),
    )


def _most(case: Case, linkage: Linkage) -> Array:
    hand = chain(case, linkage)[0]
    return case.suppose(
        hand.lever.effort,
        f"linkage.{hand.name}.lever.effort",
        EFFORTS.get(linkage.works, "150 N"),
        Kind.FORCE,
        "what hand or foot gives with ease (assumed, no source)",
    )


def _lighter(case: Case, linkage: Linkage, force: Array, most: Array) -> str:
    by = nominal(force) / nominal(most)
    longer = case.units.show(nominal(handle_radius(case, linkage)) * by, Kind.LENGTH)
    other = cure(case, linkage, 1.0 / by)
    return f"Make the handle {longer} long." + (f" Or: {other}" if other else "")


def _toggle(case: Case, linkage: Linkage) -> Draft:
    whole = moved(case, linkage)
    at_lever, at_arm = np.min(whole.rod.at_lever, axis=0), np.min(whole.rod.at_arm, axis=0)
    least = np.atleast_1d(np.minimum(at_lever, at_arm))
    jams = not np.isfinite(least[0])
    end = "lever" if jams or nominal(at_lever) <= nominal(at_arm) else "arm"
    margin = (whole.rod.at_lever if end == "lever" else whole.rod.at_arm)[:, 0]
    where = float(whole.hand[int(np.argmin(np.nan_to_num(margin, nan=-np.inf))), 0])
    locks = ~(least >= LOCKS)
    return Draft(
        kind=Kind.ANGLE,
        unit=DEGREES,
        value=least,
        at_least=FREE_ANGLE,
        near=0.0,
        worst=Verdict.STOP if hurts(linkage) and locks[0] else Verdict.MARGINAL,
        stops=locks if hurts(linkage) else np.zeros(least.shape, dtype=bool),
        says="jams" if jams else "goes over centre" if least[0] <= 0.0 else "",
        meaning=_toggle_meaning(least[0], end, where),
        remedy=_away_from_dead_point(case, linkage, least)
        if falls_short(least, FREE_ANGLE, 0.0)
        else "",
        formula="sin μ = share of the rod that points the way in which its pin moves; μ is 90° "
        "where the rod stands square, 0 where it is in line with lever or arm",
        working="the rod cannot follow over the whole of the lever's travel"
        if jams
        else f"over the lever's travel: at the lever {degrees(nominal(at_lever))}, at the arm "
        f"{degrees(nominal(at_arm))} at the least",
        source="transmission angle of 40° or more: R. L. Norton, Design of Machinery, section 3.3, "
        "from memory; 10° for what can lock: assumed, no source",
        leaves_out="play and spring in the parts, which carry a lever over its dead point",
        caution=caution(linkage),
        place=middle(case, linkage),
    )


def _toggle_meaning(least: float, end: str, where: float) -> str:
    if not np.isfinite(least):
        return (
            "The rod comes in line with the arm before the lever is at the end of its travel: there"
            " it jams, and may bend or lock."
        )
    if least <= 0.0:
        return (
            f"Within its travel the {end} passes the line of the rod: it goes over centre, the arm "
            "comes back, and the linkage can lock there."
        )
    told = f"With the lever at {degrees(where)} the rod stands {degrees(least)} off the line of the"
    if least < FREE_ANGLE:
        return f"{told} {end}: play and friction grow, and what it passes on changes fast."
    return f"{told} {end}, and farther off everywhere else."


def _away_from_dead_point(case: Case, linkage: Linkage, least: Array) -> str:
    if least[0] >= FREE_ANGLE:
        return "Only its tolerances reach below: measure the angles and the pivots better."
    found = cure(case, linkage) if linkage.arm.position else ""
    limits = _free_travel(case, linkage)
    stop = (
        f"et a stop that keeps the lever between {degrees(limits[0])} and {degrees(limits[1])}."
        if limits
        else "et lever and arm so that the rod stands square to both in mid-travel."
    )
    return f"{found} Or s{stop}" if found else f"S{stop}"


def _free_travel(case: Case, linkage: Linkage) -> tuple[float, float] | None:
    """The part of the travel round neutral with the rod well off every line; None where it leaves
    out a position of the arm."""
    whole = moved(case, linkage)
    least = np.minimum(whole.rod.at_lever, whole.rod.at_arm)[:, 0]
    free = np.nan_to_num(least, nan=-np.inf) >= FREE_ANGLE
    if not np.any(free):
        return None
    hand = whole.hand[free, 0]
    limits = float(hand.min()), float(hand.max())
    if not linkage.arm.position:
        return limits
    wanted = reach(case, linkage).hand[:, 0]
    kept = bool(np.all((wanted >= limits[0]) & (wanted <= limits[1])))
    return limits if kept else None


def _joint(case: Case, linkage: Linkage) -> Draft:
    whole, limit = moved(case, linkage), _joint_limit(case, linkage)
    at_lever, at_arm = _most_tilt(whole.rod.lever_tilt), _most_tilt(whole.rod.arm_tilt)
    most = np.atleast_1d(np.maximum(at_lever, at_arm))
    end = "lever" if nominal(at_lever) >= nominal(at_arm) else "arm"
    tilt = (whole.rod.lever_tilt if end == "lever" else whole.rod.arm_tilt)[:, 0]
    where = float(whole.hand[int(np.argmax(np.nan_to_num(tilt, nan=-1.0))), 0])
    binds = hurts(linkage)
    return Draft(
        kind=Kind.ANGLE,
        unit=DEGREES,
        value=most,
        at_most=limit,
        worst=Verdict.STOP if binds else Verdict.MARGINAL,
        meaning=f"With the lever at {degrees(where)} the joint at the {end} is tilted "
        f"{degrees(nominal(most))} to its stud"
        + ("; it binds and can break." if nominal(most) > nominal(limit) else "."),
        remedy=_straighter(case, linkage, end) if goes_over(most, limit) else "",
        formula="sin φ = share of the rod that points along the stud, the stud standing along the "
        "pivot",
        working=f"over the lever's travel at most {degrees(nominal(at_lever))} at the lever, "
        f"{degrees(nominal(at_arm))} at the arm",
        source=GEOMETRY
        + ("" if linkage.rod.joint_limit is not None else "; limit: common practice, no source"),
        leaves_out="studs that are not parallel to their pivot; a rod that turns about itself",
        caution=caution(linkage),
        place=middle(case, linkage),
    )


def _most_tilt(tilt: Array) -> Array:
    """The largest tilt over the travel as far as the rod follows; infinite where it never does."""
    most = np.max(np.where(np.isnan(tilt), -1.0, tilt), axis=0)
    return np.where(most < 0.0, np.inf, most)


def _joint_limit(case: Case, linkage: Linkage) -> Array:
    return case.suppose(
        linkage.rod.joint_limit,
        f"linkage.{linkage.name}.rod.joint_limit",
        "13 ± 3 deg",
        Kind.ANGLE,
        "ball joints and rod ends tilt 10 to 16° to each side (common practice, no source); a pin "
        "in a fork or a bent rod in a hole hardly 2°",
    )


def _straighter(case: Case, linkage: Linkage, end: str) -> str:
    """How far the other end of the rod must come along the stud, and whether that is enough."""
    link, whole = link_of(case, linkage), moved(case, linkage)
    at_lever, at_arm = rod_end(link.lever, whole.lever), rod_end(link.arm, whole.arm)
    away, axis = (
        (way_between(at_lever, at_arm), link.lever)
        if end == "lever"
        else (way_between(at_arm, at_lever), link.arm)
    )
    aside = np.atleast_2d(along(away, axis_of(axis)))[:, 0]
    aside = aside[np.isfinite(aside)]
    if not aside.size:
        return "Put its dead points right first."
    word = linkage.lever.axis if end == "lever" else linkage.arm.axis
    mean, half = 0.5 * (aside.max() + aside.min()), 0.5 * (aside.max() - aside.min())
    rest = "Take a longer rod, or joints that tilt farther."
    if abs(mean) < _ASIDE:
        return rest
    other = "arm" if end == "lever" else "lever"
    left = np.arcsin(min(1.0, half / nominal(link.length)))
    told = (
        f"Bring the rod's end at the {other} {case.units.show(abs(mean), Kind.LENGTH)} "
        f"{_BACK[word][0 if mean > 0.0 else 1]}, with a longer stud, a spacer or the other side of "
        f"its arm: that leaves {degrees(left)} of tilt."
    )
    return f"{told} {rest}" if left > nominal(_joint_limit(case, linkage)) else told
