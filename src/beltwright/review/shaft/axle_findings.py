"""What the review says about the axle, the last gears and the chain."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.driveline import Chain, Shaft
from beltwright.physics.shaft.chain import speed_swing
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.motion.ground import grippiest
from beltwright.review.nearness import goes_over
from beltwright.review.nominal import nominal
from beltwright.review.road_words import stress_words
from beltwright.review.shaft.axle import (
    chain_pull,
    chain_row,
    donor_torque,
    engine_puts,
    fastest_speed_of,
    halved,
    jerk_at,
    output_against_donor,
    torque_at,
    twist,
    twisted_shafts,
    wheel_grip,
)
from beltwright.review.shaft.steel import JERK, RESERVE
from beltwright.tables.chains import chains

TORQUE_LIMIT, TORQUE_WATCH = 2.5, 1.25
"""Torque over the donor's: stopped and watched from here (assumed, no source) [1]."""

STRETCHES, LASTS = 3.0, 7.0
"""Breaking load over pull: chains are proof-loaded to about a third of it (ISO 606, from memory)
and last at a seventh or less (common practice) [1]."""

FEW_TEETH = 11
"""Teeth under which a sprocket runs roughly (common practice)."""


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the axle and the chains behind the gearbox."""
    if case.build.gearbox is not None:
        yield Ask(
            "gearbox.axle_torque",
            "Torque on the last gears against the donor's",
            partial(_axle, case),
        )
    for shaft in twisted_shafts(case):
        yield Ask(
            f"shaft.{shaft.name}.twist",
            f"Strain on the shaft “{shaft.name}” in a jerk",
            partial(_twist, case, shaft),
        )
    for chain in case.build.chain:
        yield Ask(
            f"chain.{chain.name}.pull", f"Pull of the {chain.name}", partial(_chain, case, chain)
        )


def _axle(case: Case) -> Draft:
    box = case.build.gearbox
    assert box is not None
    ratio = output_against_donor(case)
    now, before = torque_at(case, box.output), donor_torque(case)
    show = partial(case.units.show, kind=Kind.TORQUE)
    over = nominal(ratio)
    return Draft(
        kind=Kind.RATIO,
        unit="%",
        value=ratio,
        at_most=TORQUE_LIMIT,
        near=1.0 - TORQUE_WATCH / TORQUE_LIMIT,
        worst=Verdict.STOP,
        meaning=f"The axle and the last gear pair carry {over:.2f} times what the donor could put "
        f"on them{_set_by(case)}.",
        remedy="Carry less over the drive wheels, use smaller or smoother tyres, start in a higher "
        "gear, and never jerk it loose."
        if goes_over(ratio, TORQUE_LIMIT, 1.0 - TORQUE_WATCH / TORQUE_LIMIT)
        else "",
        formula="torque = min(engine torque × ratio × efficiency, grip × load × radius), over the "
        "donor's",
        working=f"{show(nominal(now))} / {show(nominal(before))} = {over:.2f}, on "
        f"{grippiest(case).name}",
        source="mechanics; watched from 1.25 and stopped at 2.5 times the donor's: assumed, no "
        "source",
        leaves_out="shocks; the fatigue of gears that have worked for years already",
        caution="Wheels that spin and grip again, ballast and chains load it past this.",
    )


def _twist(case: Case, shaft: Shaft) -> Draft:
    found = twist(case, shaft)
    show = case.units.show
    used, half = nominal(found.used), halved(case, shaft)
    return Draft(
        kind=Kind.RATIO,
        unit="%",
        value=found.used,
        at_most=1.0,
        near=1.0 - 1.0 / RESERVE,
        worst=Verdict.STOP,
        meaning=f"A clutch let up at once strains {'each half of it' if half else 'it'} to "
        f"{used:.0%} of what twists it for good{_jerk_ends(case, shaft)}.",
        remedy="Fit a thicker shaft or one of better steel, carry less over the drive wheels, "
        "start in a higher gear, and let the clutch up slowly."
        if goes_over(found.used, 1.0, 1.0 - 1.0 / RESERVE)
        else "",
        formula=f"used = √3 × 16 T / (π d³) / Sy, T = min({JERK:g} × engine torque × ratio × "
        "efficiency, grip of dry asphalt × load × radius)",
        working=f"{show(nominal(found.torque), Kind.TORQUE)} on "
        f"{show(nominal(found.diameter), Kind.LENGTH, case.units.caliper())}"
        f"{', half of the axle’s torque on each half' if half else ''}; Sy "
        f"{stress_words(case, nominal(found.yields))}: {used:.1%}",
        source="Shigley, Mechanical Engineering Design, 8th edition, equations 7-15 and 7-16 "
        "(distortion energy), section 4-17 (a load that comes on at once strains twice as much); "
        "from memory",
        leaves_out="a wheel that strikes a kerb, and what wheel, chain and load bend it by: they "
        "come on top; keyways, circlip grooves and welds, where it tires and breaks first",
        caution="An axle that breaks takes a wheel off, and a brake that holds through it too.",
    )


def _jerk_ends(case: Case, shaft: Shaft) -> str:
    """What bounds a jerk."""
    engine = JERK * nominal(engine_puts(case, shaft.name))
    if nominal(jerk_at(case, shaft.name)) < engine:
        return ", on dry asphalt: the tyres spin first"
    return ": the engine gives no more"


def _set_by(case: Case) -> str:
    engine = nominal(engine_puts(case, case.build.wheels.shaft))
    grip = nominal(wheel_grip(case))
    return ": the tyres spin first" if grip < engine else ": the engine gives no more"


def _chain(case: Case, chain: Chain) -> Draft:
    row = chain_row(chain)
    pull = chain_pull(case, chain)
    factor = row.breaking_load / nominal(pull)
    show = case.units.show
    return Draft(
        kind=Kind.FORCE,
        value=pull,
        at_most=row.breaking_load / STRETCHES,
        near=1.0 - STRETCHES / LASTS,
        worst=Verdict.STOP,
        meaning=f"A new {chain.size} chain breaks at {factor:.1f} times this pull." + _rough(chain),
        remedy=_chain_remedy(case, chain)
        if goes_over(pull, row.breaking_load / STRETCHES, 1.0 - STRETCHES / LASTS)
        else "",
        formula="pull = 2 T / D + m v², D = p / sin(π/z); at most a third of the breaking load",
        working=f"2 × {show(nominal(torque_at(case, chain.driven.shaft)), Kind.TORQUE)} on "
        f"{chain.driven.teeth} teeth of {show(row.pitch, Kind.LENGTH)}: "
        f"{show(nominal(pull), Kind.FORCE)}; breaks at {show(row.breaking_load, Kind.FORCE)}; "
        f"{show(nominal(fastest_speed_of(case, chain)), Kind.SPEED, case.units.rim())} in top gear",
        source=f"{row.source} ({row.status}); a third as proof load (ISO 606, from memory), a "
        "seventh to last (common practice)",
        leaves_out="jerks, wear, rust, and a cranked link, which holds a fifth to a third less",
        caution="A chain that breaks whips. Guard it, and stand clear of its plane when you pull.",
    )


def _chain_remedy(case: Case, chain: Chain) -> str:
    """The next chain that lasts with as many teeth, and the teeth with which this one does."""
    row, pull = chain_row(chain), nominal(chain_pull(case, chain))
    # with as many teeth the pull falls as the pitch grows
    lasts = [
        other.size
        for other in sorted(chains(), key=lambda other: other.breaking_load)
        if other.breaking_load >= LASTS * pull * row.pitch / other.pitch
    ]
    share = LASTS * pull / row.breaking_load
    driver = int(np.ceil(share * chain.driver.teeth))
    driven = int(np.ceil(driver * chain.driven.teeth / chain.driver.teeth))
    larger = f"sprockets of {driver} and {driven} teeth"
    if not lasts:
        return f"Use {larger}, or two chains side by side."
    return f"Use a {lasts[0]} chain with as many teeth, or {larger}."


def _rough(chain: Chain) -> str:
    least = min(chain.driver.teeth, chain.driven.teeth)
    if least >= FEW_TEETH:
        return ""
    swing = float(speed_swing(least))
    return f" With only {least} teeth its speed swings by {swing:.0%} each tooth: it runs roughly."
