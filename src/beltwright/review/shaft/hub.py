"""Pulleys on their shafts: fit, key, set screw, overhang, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Hub, Pulley, Shaft
from beltwright.physics.arrays import Array
from beltwright.physics.customary import INCH
from beltwright.physics.shaft.fit import (
    bush_wall,
    fit_gap,
    key_torque,
    rim_wobble,
    set_screw_torque,
)
from beltwright.physics.shaft.overhung import (
    Overhang,
    bearing_life_ratio,
    bearing_moment,
    endurance_limit,
    fatigue_factor,
    lean,
    yield_factor,
)
from beltwright.quantity import Kind
from beltwright.review.belt.force import shaft_loads
from beltwright.review.belt.layout import belt_layout
from beltwright.review.case import Case, NotKnownError, unlisted
from beltwright.review.driveline.routes import gears, route_to
from beltwright.review.driveline.speed import gearbox_input_speed
from beltwright.review.engine.torque import peak_torque, rating
from beltwright.review.nominal import nominal
from beltwright.review.shaft.steel import JERK, tensile_strength, yield_strength
from beltwright.tables.loading import UnlistedError
from beltwright.tables.shaft_fastenings import KeySize, SetScrew, set_screw, standard_key

KEY_STEEL = "300 ± 60 MPa"
KEY_WHY = (
    "the softest of key, shaft and hub is taken as mild steel or iron with a yield strength of 240 "
    "to 360 MPa (assumed)"
)

SPAN_WHY = "distance of the two bearings of the shaft (assumed)"


class Notch(NamedTuple):
    """What sharpens the stress in a shaft where it is bent most [1]."""

    what: str
    bending: float
    twisting: float


SHOULDER = Notch("a rounded shoulder", 1.7, 1.5)
KEYWAY = Notch("an end-milled keyway", 2.14, 3.0)
"""Shigley, Mechanical Engineering Design, 8th edition, table 7-1 (a shoulder rounded to a tenth of
the diameter, a keyway to a fiftieth; after Peterson's Stress Concentration Factors): from memory,
high."""


class Fit(NamedTuple):
    """A pulley's bore on its shaft: gap and side wobble of the rim [m], shape (...)."""

    shaft: Array
    bore: Array
    gap: Array
    wobble: Array | None


class Overhung(NamedTuple):
    """A pulley past its bearing against the one that the donor had there, shape (...) [1].

    pull     pull of the belt over the donor's
    moment   bending at the first bearing over the donor's
    life     what is left of the bearing's hours
    """

    pull: Array
    moment: Array
    life: Array


class Bending(NamedTuple):
    """How a pulley's shaft is bent and twisted at its first bearing, shape (...).

    load     pull of the belts on the pulley [N]
    moment   bending at the bearing [N·m]
    torque   twist [N·m]
    steel    tensile strength of the shaft [Pa]
    stands   bending stress that it stands for ever, notch not counted [Pa]
    notch    what sharpens the stress
    yields   stress at which the shaft stays bent [Pa]
    used     share of what the shaft stands for ever [1]
    jerked   share of what it stands once, in a jerk of the clutch [1]
    lean     how far the pulley leans over [rad]
    """

    load: Array
    moment: Array
    torque: Array
    steel: Array
    stands: Array
    notch: Notch
    yields: Array
    used: Array
    jerked: Array
    lean: Array


def hub_of(pulley: Pulley) -> Hub:
    """The hub of a pulley that has one described."""
    assert pulley.hub is not None
    return pulley.hub


def shaft_of(case: Case, pulley: Pulley) -> Shaft:
    """The shaft that a pulley sits on."""
    for shaft in case.build.shaft:
        if shaft.name == pulley.shaft:
            return shaft
    raise NotKnownError(
        f"shaft.{pulley.shaft}",
        f"Describe the shaft “{pulley.shaft}” with its diameter where the {pulley.name} sits.",
    )


def diameter(case: Case, pulley: Pulley) -> Array:
    """Diameter of the shaft where the pulley sits [m]."""
    shaft = shaft_of(case, pulley)
    return case.need(
        shaft.diameter,
        f"shaft.{shaft.name}.diameter",
        "Close a caliper on the shaft where the hub sits, in two directions, and write it, for "
        'example diameter = "25.40 ± 0.02 mm".',
    )


def bore(case: Case, pulley: Pulley) -> Array:
    """Bore of the pulley [m]."""
    return case.need(
        hub_of(pulley).bore,
        f"pulley.{pulley.name}.hub.bore",
        "Measure the bore with the caliper's inside jaws, in two directions, and write it, for "
        'example bore = "25.45 ± 0.03 mm".',
    )


def fit(case: Case, pulley: Pulley) -> Fit:
    """How loose the pulley sits on its shaft."""
    wide, thick = bore(case, pulley), diameter(case, pulley)
    gap = fit_gap(wide, thick)
    length, rim = hub_of(pulley).length, pulley.outside or pulley.pitch
    wobble = None
    if length is not None and rim is not None:
        wobble = rim_wobble(gap, case.si(length), case.si(rim))
    return Fit(thick, wide, gap, wobble)


def torque_on(case: Case, pulley: Pulley) -> Array:
    """The most torque that the engine puts through the pulley's hub, lowest gear [N·m]."""
    route = route_to(case, pulley.shaft)
    lowest = max(gears(case), key=lambda gear: gear.ratio)
    return peak_torque(case) * route.total_ratio(lowest) * route.efficiency


def key_holds(case: Case, pulley: Pulley) -> Array:
    """Torque at which the pulley's key yields [N·m]."""
    key = hub_of(pulley).key
    if key is None:
        raise NotKnownError(
            f"pulley.{pulley.name}.hub.key",
            'Measure the key and write it, for example key = { width = "6.35 mm", height = '
            '"6.35 mm", length = "32 mm" }.',
        )
    strength = case.suppose(None, "hub.yield_strength", KEY_STEEL, Kind.PRESSURE, KEY_WHY)
    width, height, length = (case.si(side) for side in (key.width, key.height, key.length))
    return key_torque(strength, diameter(case, pulley), width, height, length)


def usual_key(case: Case, pulley: Pulley) -> KeySize | None:
    """The standard key of the shaft, in inches or millimetres as the shaft itself is."""
    thick = nominal(diameter(case, pulley))
    inches = thick / INCH * 16.0
    metric = abs(inches - round(inches)) > 0.03
    try:
        return standard_key(thick, metric)
    except KeyError:
        return None


def screw_of(pulley: Pulley) -> SetScrew:
    """The set screw of a hub."""
    size = hub_of(pulley).set_screw
    if size is None:
        raise NotKnownError(
            f"pulley.{pulley.name}.hub.set_screw", 'Write its thread, for example set_screw = "M8".'
        )
    try:
        return set_screw(size)
    except UnlistedError as unknown:
        key = f"pulley.{pulley.name}.hub.set_screw"
        raise unlisted(key, f"set screw {size}", unknown) from None


def screw_holds(case: Case, pulley: Pulley) -> Array:
    """Torque that the set screw alone holds [N·m]."""
    return set_screw_torque(screw_of(pulley).holding_force, diameter(case, pulley))


def hub_wall(case: Case, pulley: Pulley) -> Array:
    """Metal left in the hub above the keyway, or all round where there is no key [m]."""
    hub = hub_of(pulley)
    outside = case.need(
        hub.outside,
        f"pulley.{pulley.name}.hub.outside",
        'Measure the outside of the hub and write it, for example outside = "50 mm".',
    )
    keyway = 0.0 if hub.key is None else 0.5 * case.si(hub.key.height)
    return bush_wall(outside, bore(case, pulley)) - keyway


def overhung(case: Case, pulley: Pulley) -> Overhung:
    """The pulley's overhang and pull against what the donor's bearing bore."""
    hub = hub_of(pulley)
    name = f"pulley.{pulley.name}.hub"
    now = case.need(
        hub.overhang,
        f"{name}.overhang",
        "Measure from the middle of the groove to the nearest bearing, and write it, for example "
        'overhang = "42 mm".',
    )
    before = case.need(
        hub.donor_overhang,
        f"{name}.donor_overhang",
        "Measure the same with the donor's pulley on the shaft, or from its wear marks, and write "
        'it, for example donor_overhang = "42 mm".',
    )
    rim = case.need(
        hub.donor_outside,
        f"{name}.donor_outside",
        'Measure over the donor\'s pulley and write it, for example donor_outside = "95 mm".',
    )
    rim_now = pulley.outside or pulley.pitch
    assert rim_now is not None
    pull = torque_ratio(case, pulley) * rim / case.si(rim_now)
    moment = bearing_moment(pull, now) / bearing_moment(1.0, before)
    return Overhung(pull, moment, bearing_life_ratio(moment, speed_ratio(case, pulley)))


def bending(case: Case, pulley: Pulley) -> Bending:
    """How the belts bend the shaft at its first bearing, engine at its best torque."""
    over = case.need(
        hub_of(pulley).overhang,
        f"pulley.{pulley.name}.hub.overhang",
        "Measure from the middle of the groove to the nearest bearing, and write it, for example "
        'overhang = "42 mm".',
    )
    thick, torque = diameter(case, pulley), torque_on(case, pulley)
    steel, yields = (of(case, pulley.shaft) for of in (tensile_strength, yield_strength))
    span = case.suppose(None, "shaft.bearing_span", "80 ± 30 mm", Kind.LENGTH, SPAN_WHY)
    load = _belt_pull(case, pulley)
    moment = bearing_moment(load, over)
    stands = endurance_limit(steel, thick)
    notch = notch_of(pulley)
    times = fatigue_factor(thick, moment, torque, stands, steel, notch.bending, notch.twisting)
    once = yield_factor(thick, JERK * moment, JERK * torque, yields)
    leans = lean(Overhang(thick, span, over), load)
    return Bending(
        load, moment, torque, steel, stands, notch, yields, 1.0 / times, 1.0 / once, leans
    )


def notch_of(pulley: Pulley) -> Notch:
    """What sharpens the stress at the first bearing: a keyway is taken to run up to it."""
    return SHOULDER if hub_of(pulley).key is None else KEYWAY


def _belt_pull(case: Case, pulley: Pulley) -> Array:
    """Pull of every belt that runs on a pulley, as one force [N]."""
    belts = [belt for belt in case.build.belt if pulley.name in belt.run]
    if not belts:
        raise NotKnownError(
            f"pulley.{pulley.name}",
            "Name this pulley in the run of the belt that it carries.",
            f"No belt of the build goes round the {pulley.name}.",
        )
    along, across = np.zeros(1), np.zeros(1)
    for belt in belts:
        load, runs = shaft_loads(case, belt)[pulley.shaft], belt_layout(case, belt).where_it_runs
        along, across = along + runs(load.x), across + runs(load.y)
    return np.hypot(along, across)


def torque_ratio(case: Case, pulley: Pulley) -> Array:
    """Torque through the pulley over what the donor put there, both at rated power [1]."""
    return _power_ratio(case, pulley) / speed_ratio(case, pulley)


def speed_ratio(case: Case, pulley: Pulley) -> Array:
    """Speed of the pulley's shaft over what it was in its donor [1]."""
    box = case.build.gearbox
    if pulley.shaft == case.build.engine.shaft:
        return np.ones(1)
    if box is None or pulley.shaft != box.input:
        raise _no_donor(pulley)
    stock = case.need(
        box.stock_input,
        "gearbox.stock_input",
        "Take the donor's governed engine speed times its pulley ratio, measured over the rims, "
        'and write it, for example stock_input = "1240 ± 40 rpm".',
    )
    return gearbox_input_speed(case) / stock


def _power_ratio(case: Case, pulley: Pulley) -> Array:
    box = case.build.gearbox
    if pulley.shaft == case.build.engine.shaft:
        return np.ones(1)
    if box is None or pulley.shaft != box.input:
        raise _no_donor(pulley)
    donor = case.need(
        None if box.donor is None else box.donor.power,
        "gearbox.donor.power",
        "Read the power off the engine of the machine that the gearbox came from, and write donor "
        '= { power = "8.2 kW" }.',
    )
    return rating(case).power / donor


def _no_donor(pulley: Pulley) -> NotKnownError:
    return NotKnownError(
        f"shaft.{pulley.shaft}",
        "Put a bearing close behind the pulley, on its far side too where you can.",
        "This shaft stood in no donor, so there is nothing to compare it with.",
    )
