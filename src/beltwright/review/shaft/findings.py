"""What the review says about pulleys on their shafts."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.driveline import Pulley
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.judging import TOLERATED_SHARE
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal
from beltwright.review.road_words import stress_words
from beltwright.review.shaft.hub import (
    KEYWAY,
    Fit,
    Notch,
    bending,
    bore,
    diameter,
    fit,
    hub_of,
    hub_wall,
    key_holds,
    overhung,
    screw_holds,
    screw_of,
    torque_on,
    usual_key,
)
from beltwright.review.shaft.steel import JERK, RESERVE

SLIP_FIT = 0.1e-3
"""Gap up to which a keyed pulley runs true enough (common practice, no source) [m]."""

LOOSE_FIT = 0.25e-3
"""Gap from which it hammers its key out (common practice, no source) [m]."""

FIT_NEAR = 1.0 - SLIP_FIT / LOOSE_FIT

BUSH_FROM = 2e-3
"""Gap from which a bush can be turned for it (common practice) [m]."""

BUSH_ROOM = 5e-3
"""By how much a bore is opened for a bush (common practice) [m]."""

SLIDING_FIT = 0.02e-3, 0.05e-3
"""Gap to which a tight bore is opened (common practice, no source) [m]."""

TIGHT_FIT = -0.02e-3
"""Interference up to which a bore still goes on with a mallet and oil (common practice) [m]."""

KEY_LEAST, KEY_GOOD = 1.2, 2.0
"""Torque at which a key yields over the engine's best: stopped below the first, watched below the
second (common practice, no source) [1]."""

SCREW_LEAST, SCREW_GOOD = 1.5, 4.0
"""The same for a set screw alone: Shigley counts 1.5 to 2 for steady and 4 to 8 for shock loads."""

MOMENT_LIMIT, MOMENT_WATCH = 2.0, 1.0
"""Bending at the bearing over the donor's: stopped and watched from here (assumed) [1]."""

OFF_CAUTION = (
    "A pulley that comes off at speed flies. Guard it, and check its screws after an hour."
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about every pulley whose hub is described."""
    for pulley in case.build.pulley:
        if pulley.hub is not None:
            yield from _about(case, pulley)


def _about(case: Case, pulley: Pulley) -> Iterator[Ask]:
    hub = hub_of(pulley)
    name = f"shaft.{pulley.name}"
    yield Ask(f"{name}.fit", f"Play of the {pulley.name} on its shaft", partial(_fit, case, pulley))
    if hub.key is not None:
        yield Ask(
            f"{name}.key", f"Torque that the key holds, {pulley.name}", partial(_key, case, pulley)
        )
    else:
        yield Ask(
            f"{name}.set_screw",
            f"Torque that the set screw holds, {pulley.name}",
            partial(_screw, case, pulley),
        )
    if hub.length is not None:
        yield Ask(f"{name}.hub", f"Hub length of the {pulley.name}", partial(_hub, case, pulley))
    if hub.outside is not None:
        yield Ask(
            f"{name}.wall", f"Hub wall thickness of the {pulley.name}", partial(_wall, case, pulley)
        )
    if hub.overhang is not None:
        yield Ask(
            f"{name}.bending",
            f"Strain on the shaft of the {pulley.name}",
            partial(_bending, case, pulley),
        )
    if hub.donor_overhang is not None:
        yield Ask(
            f"{name}.overhang",
            f"Bending by the {pulley.name} against the donor's",
            partial(_overhang, case, pulley),
        )


def _fit(case: Case, pulley: Pulley) -> Draft:
    found = fit(case, pulley)
    fine = partial(case.units.show, kind=Kind.LENGTH, unit=case.units.caliper())
    gap = nominal(found.gap)
    wobble = ""
    if found.wobble is not None and gap > 0.0:
        wobble = f" Its rim can wobble {fine(nominal(found.wobble))} before it is clamped."
    return Draft(
        kind=Kind.LENGTH,
        unit=case.units.caliper(),
        value=found.gap,
        below_zero="too tight by",
        at_least=TIGHT_FIT,
        at_most=LOOSE_FIT,
        near=FIT_NEAR,
        worst=Verdict.STOP,
        meaning=f"{_fit_words(gap)}{wobble}",
        remedy=_fit_remedy(case, found),
        formula="gap = bore − shaft",
        working=f"{fine(nominal(found.bore))} − {fine(nominal(found.shaft))} = {fine(gap)}",
        source=f"ISO 286-1 for the terms; {fine(SLIP_FIT)} and {fine(LOOSE_FIT)} are common "
        "practice, no source",
        leaves_out="a worn, oval or tapered bore; a shaft that runs out",
        caution=OFF_CAUTION if gap > LOOSE_FIT else "",
    )


def _fit_words(gap: float) -> str:
    if gap < TIGHT_FIT:
        return "The bore is smaller than the shaft: it will not go on."
    if gap > LOOSE_FIT:
        return "So loose it hammers its key and runs out of true."
    if gap > SLIP_FIT:
        return "Loose: it will work under load."
    return "A good sliding fit."


def _fit_remedy(case: Case, found: Fit) -> str:
    gap, shaft = nominal(found.gap), nominal(found.shaft)
    fine = partial(case.units.show, kind=Kind.LENGTH, unit=case.units.caliper())
    if gap < TIGHT_FIT:
        play = case.units.show_range(*SLIDING_FIT, Kind.LENGTH, case.units.caliper())
        return f"Ream or bore it to {fine(shaft)} plus {play}."
    if gap > BUSH_FROM:
        return f"Turn a bush with a wall of {fine(0.5 * gap)}, pressed into the pulley."
    if gap > SLIP_FIT:
        return (
            f"Shim it with foil of {fine(0.5 * gap)} all round, or bore it out by "
            f"{case.units.show(BUSH_ROOM, Kind.LENGTH)} and press in a bush."
        )
    if goes_over(found.gap, LOOSE_FIT, FIT_NEAR) or falls_short(found.gap, TIGHT_FIT, FIT_NEAR):
        return f"Measure bore and shaft again with a micrometer, to {fine(abs(TIGHT_FIT))}."
    return ""


def _key(case: Case, pulley: Pulley) -> Draft:
    holds, torque = key_holds(case, pulley), torque_on(case, pulley)
    key = hub_of(pulley).key
    assert key is not None
    show = case.units.show
    weak = falls_short(holds, KEY_LEAST * torque, KEY_GOOD / KEY_LEAST - 1.0)
    return Draft(
        kind=Kind.TORQUE,
        value=holds,
        at_least=KEY_LEAST * torque,
        near=KEY_GOOD / KEY_LEAST - 1.0,
        worst=Verdict.STOP,
        meaning=f"The key yields at {float(holds[0] / torque[0]):.1f} times the engine's best "
        f"torque there.{_key_size(case, pulley)}",
        remedy="Use a longer key that bears over the whole hub, or a tapered bush." if weak else "",
        formula="T = d L × min(0.577 Sy w / 2, Sy h / 4)",
        working=f"{show(nominal(diameter(case, pulley)), Kind.LENGTH, case.units.caliper())} × "
        f"{show(nominal(case.si(key.length)), Kind.LENGTH)} long, "
        f"{show(nominal(case.si(key.width)), Kind.LENGTH)} wide, "
        f"{show(nominal(case.si(key.height)), Kind.LENGTH)} high: "
        f"{show(nominal(holds), Kind.TORQUE)} against {show(nominal(torque), Kind.TORQUE)}",
        source="Shigley, Mechanical Engineering Design, 8th edition, section 7-7; 1.2 times "
        "the torque at least, twice to be sound: common practice, no source",
        leaves_out="shocks of a dropped clutch; a key that rocks in a worn keyway",
        caution=OFF_CAUTION if weak else "",
    )


def _key_size(case: Case, pulley: Pulley) -> str:
    usual = usual_key(case, pulley)
    key = hub_of(pulley).key
    assert key is not None
    if usual is None or abs(usual.width - nominal(case.si(key.width))) < 0.1e-3:
        return ""
    show = partial(case.units.show, kind=Kind.LENGTH)
    return f" The standard key of this shaft is {show(usual.width)} by {show(usual.height)}."


def _screw(case: Case, pulley: Pulley) -> Draft:
    holds, torque = screw_holds(case, pulley), torque_on(case, pulley)
    row = screw_of(pulley)
    show = case.units.show
    slips = falls_short(holds, SCREW_LEAST * torque, SCREW_GOOD / SCREW_LEAST - 1.0)
    return Draft(
        kind=Kind.TORQUE,
        value=holds,
        at_least=SCREW_LEAST * torque,
        near=SCREW_GOOD / SCREW_LEAST - 1.0,
        worst=Verdict.STOP,
        meaning=f"Without a key the set screw alone holds {float(holds[0] / torque[0]):.1f} times "
        "the engine's best torque there, tightened to "
        f"{show(row.seating_torque, Kind.TORQUE)}.",
        remedy="Fit a key: a set screw keeps a pulley in its place, it does not drive it."
        if slips
        else "",
        formula="T = holding force × d / 2",
        working=f"{show(row.holding_force, Kind.FORCE)} × "
        f"{show(nominal(diameter(case, pulley)), Kind.LENGTH, case.units.caliper())} / 2 = "
        f"{show(nominal(holds), Kind.TORQUE)} against {show(nominal(torque), Kind.TORQUE)}",
        source=f"{row.source} ({row.status})",
        leaves_out="a hard or oily shaft, and a screw that was not tightened fully",
        caution=OFF_CAUTION,
    )


def _hub(case: Case, pulley: Pulley) -> Draft:
    hub = hub_of(pulley)
    assert hub.length is not None
    length, wide = case.si(hub.length), bore(case, pulley)
    show = partial(case.units.show, kind=Kind.LENGTH)
    short = falls_short(length, wide, 0.0)
    return Draft(
        kind=Kind.LENGTH,
        value=length,
        at_least=wide,
        near=0.0,
        worst=Verdict.MARGINAL,
        meaning=f"The hub is {float(length[0] / wide[0]):.2f} bores long.",
        remedy="Clamp it endwise against a shoulder with a washer and bolt, or weld on a longer "
        "hub."
        if short
        else "",
        formula="a hub at least as long as its bore does not rock",
        working=f"{show(nominal(length))} / {show(nominal(wide))} = "
        f"{float(length[0] / wide[0]):.2f}",
        source="common practice, no source",
    )


def _wall(case: Case, pulley: Pulley) -> Draft:
    wall, wide = hub_wall(case, pulley), bore(case, pulley)
    show = partial(case.units.show, kind=Kind.LENGTH)
    thin = falls_short(wall, 0.25 * wide, 0.0)
    return Draft(
        kind=Kind.LENGTH,
        value=np.atleast_1d(wall),
        below_zero="short by",
        at_least=0.25 * wide,
        near=0.0,
        worst=Verdict.MARGINAL,
        meaning="Thin above the keyway: it may split."
        if thin
        else "Metal enough for key and bore.",
        remedy="Keep the bore, and turn the shaft down or use a smaller bush instead."
        if thin
        else "",
        formula="wall = (outside − bore) / 2 − half the key's height, at least a quarter of the "
        "bore",
        working=f"{show(nominal(wall))} against {show(0.25 * nominal(wide))}",
        source="common practice, no source",
        leaves_out="cracks: look at the corners of the keyway",
    )


def _bending(case: Case, pulley: Pulley) -> Draft:
    found = bending(case, pulley)
    show, notch = case.units.show, found.notch
    used, jerked = nominal(found.used), nominal(found.jerked)
    worse = np.maximum(found.used, found.jerked)
    return Draft(
        kind=Kind.RATIO,
        unit="%",
        value=worse,
        at_most=1.0,
        near=1.0 - 1.0 / RESERVE,
        worst=Verdict.STOP,
        meaning=f"At the engine's best torque the shaft bears {used:.0%} of what it stands turn "
        f"after turn, and a clutch let up at once strains it to {jerked:.0%} of what bends it for "
        f"good; the pulley leans over by {np.degrees(nominal(found.lean)):.2f}°.",
        remedy=_bending_remedy(worse),
        formula="the larger of: turn after turn, 16/(π d³) × (2 Kf M / Se + √3 Kfs T / Sut), M = "
        f"pull × overhang; once, {JERK:g} × 16/(π d³) × √(4 M² + 3 T²) / Sy",
        working=f"pull {show(nominal(found.load), Kind.FORCE)}, bending "
        f"{show(nominal(found.moment), Kind.TORQUE)}, twist "
        f"{show(nominal(found.torque), Kind.TORQUE)} on "
        f"{show(nominal(diameter(case, pulley)), Kind.LENGTH, case.units.caliper())}; "
        f"Kf {notch.bending:g}, Kfs {notch.twisting:g} ({notch.what}), Se "
        f"{stress_words(case, nominal(found.stands))}, Sut "
        f"{stress_words(case, nominal(found.steel))}: {used:.1%}; Sy "
        f"{stress_words(case, nominal(found.yields))}: {jerked:.1%}",
        source="Shigley, Mechanical Engineering Design, 8th edition, equations 7-8 (Goodman), 7-15 "
        "and 7-16 (distortion energy), tables 7-1 and A-9, section 4-17 (a load that comes on at "
        "once strains twice as much); from memory",
        leaves_out=f"{_keyway_words(notch)}circlip grooves, rust pits and earlier bends, which "
        "break shafts first; a belt that slips before the jerk is over, which spares it; work "
        "below the engine's best torque, which strains it less",
        caution="A shaft that breaks lets its pulley fly. Guard it.",
    )


def _keyway_words(notch: Notch) -> str:
    if notch is KEYWAY:
        return "a keyway that ends short of the bearing, where the shaft is bent less; "
    return "a keyway, where the shaft has one: write the hub's key; "


def _bending_remedy(worse: Array) -> str:
    if goes_over(worse, 1.0, 1.0 - 1.0 / RESERVE):
        return (
            "Move the groove closer to the bearing, use larger pulleys, which pull less, or hold "
            "the shaft's end in an outboard bearing."
        )
    if np.mean(~np.isfinite(worse)) > TOLERATED_SHARE:
        return "Settle the belt's own findings first: in part of its tolerances it does not run."
    return ""


def _overhang(case: Case, pulley: Pulley) -> Draft:
    found = overhung(case, pulley)
    moment = nominal(found.moment)
    return Draft(
        kind=Kind.RATIO,
        unit="%",
        value=found.moment,
        at_most=MOMENT_LIMIT,
        near=1.0 - MOMENT_WATCH / MOMENT_LIMIT,
        worst=Verdict.STOP,
        meaning=f"The belt bends the shaft {moment:.2f} times as hard as in the donor; its bearing "
        f"lasts about {nominal(found.life):.0%} as long."
        if moment > MOMENT_WATCH
        else f"The belt bends the shaft no harder than in the donor ({moment:.2f} times).",
        remedy="Move the groove closer to the bearing, use a larger pulley, or hold the shaft's "
        "end in an outboard bearing."
        if goes_over(found.moment, MOMENT_LIMIT, 1.0 - MOMENT_WATCH / MOMENT_LIMIT)
        else "",
        formula="bending = (torque / diameter × overhang) / (the donor's); life = 1 / bending³ / "
        "speed",
        working=f"pull {nominal(found.pull):.2f} × overhang "
        f"{moment / nominal(found.pull):.2f} = {moment:.2f}",
        source="statics; ISO 281 for the bearing; watched from the donor's own and stopped at "
        "twice that: assumed, no source",
        leaves_out="a belt that is set tighter than the donor's; other loads on the same shaft",
    )
