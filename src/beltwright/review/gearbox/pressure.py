"""Pressure in a build's gear case, what its vent must carry, and its seals, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.physics.gearbox.pressure import (
    ClosedCase,
    closed_pressure,
    cooled_pressure,
    vent_bore,
    vent_flow,
    vent_pressure,
    water_drawn_in,
)
from beltwright.physics.gearbox.seal import lip_speed
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.gearbox.at_work import LipSeal, gearbox, oil_volume, seals
from beltwright.review.gearbox.heat import rows, steady, thermal
from beltwright.review.nominal import nominal
from beltwright.tables.seals import seal_speeds

OUTSIDE = 101325.0
"""Pressure of the air outside [Pa]."""

NIGHT = 278.15
"""How far a case cools overnight, 5 °C (assumed) [K]."""

LEAST_VENT = 3e-3
"""Bore that dirt and oil do not close (common practice) [m]."""

EASY_BREATH = 1000.0
"""Pressure that a vent may leave in the case: a hundredth of an atmosphere (assumed) [Pa]."""


class SealLimits(NamedTuple):
    """What the lips of the gearbox stand: pressure [Pa], by a handbook and by a cautious source."""

    handbook: float
    cautious: float


def closed_case(case: Case) -> ClosedCase:
    """The gear case as it was closed."""
    box = gearbox(case)
    if box.vent in ("plug", "hose"):
        why = "the air space of a case that breathes hardly matters (assumed)"
        air = case.suppose(box.air_space, "gearbox.air_space", "0.5 ± 0.3 L", Kind.VOLUME, why)
        return _closed(case, air)
    air = case.need(
        box.air_space,
        "gearbox.air_space",
        "Fill the empty case to the brim from a measuring jug, take the oil's volume off, and "
        'write it, for example air_space = "0.5 ± 0.1 L".',
    )
    return _closed(case, air)


def _closed(case: Case, air: Array) -> ClosedCase:
    closed_at = case.suppose(
        None,
        "gearbox.closed_at",
        "15 ± 10 °C",
        Kind.TEMPERATURE,
        "the case was closed, or last let air in, on a cool day (assumed)",
    )
    damp = case.suppose(
        None, "gearbox.humidity", "70 % ± 25 %", Kind.RATIO, "outside air (assumed)"
    )
    return ClosedCase(air, oil_volume(case), closed_at, OUTSIDE, damp)


def closed_gauge(case: Case) -> Array:
    """Pressure over the outside in a case without a vent, once settled [Pa].

    Not a number where the oil would fill the case or run away.
    """
    return case.once("gearbox.closed_gauge", lambda: _gauge(case, closed_case(case)))


def wet_gauge(case: Case) -> Array:
    """The same with a spoonful of water in the oil [Pa]."""
    dry = closed_case(case)
    wet = ClosedCase(
        dry.air_volume, dry.oil_volume, dry.temperature, dry.pressure, dry.humidity, 5e-3
    )
    return _gauge(case, wet)


def vented_gauge(case: Case) -> Array:
    """Pressure over the outside that the vent leaves at the fastest warming [Pa]."""
    return vent_pressure(breath(case), vent_size(case), vent_length(case))


def breath(case: Case) -> Array:
    """Air that a cold start drives out of the case, at its fastest [m³/s]."""
    box = thermal(case)
    rate = box.loss(box.air) / box.capacity
    return vent_flow(closed_case(case), box.air, rate)


def vent_size(case: Case) -> Array:
    """Bore of the vent that is fitted [m]."""
    box = gearbox(case)
    if box.vent == "plug":
        why = "breather plugs have a hole of 1.5 to 2.5 mm (assumed)"
        return case.suppose(box.vent_bore, "gearbox.vent_bore", "2 ± 0.5 mm", Kind.LENGTH, why)
    return case.need(
        box.vent_bore,
        "gearbox.vent_bore",
        "Try drill shanks in the narrowest place of hose and fitting, and write the largest that "
        'goes in, for example vent_bore = "4 mm".',
    )


def vent_length(case: Case) -> Array:
    """Length of the vent hose, or of the hole in the plug [m]."""
    box = gearbox(case)
    if box.vent == "plug":
        why = "hole of a breather plug (assumed)"
        return case.suppose(box.vent_length, "gearbox.vent_length", "10 mm", Kind.LENGTH, why)
    why = "a hose from the case to under the seat (assumed)"
    return case.suppose(box.vent_length, "gearbox.vent_length", "0.6 ± 0.3 m", Kind.LENGTH, why)


def least_bore(case: Case) -> Array:
    """The bore that just lets the case breathe, never under what dirt would close [m]."""
    needed = vent_bore(np.maximum(breath(case), 0.0), vent_length(case), EASY_BREATH)
    return np.maximum(needed, LEAST_VENT)


def night_gauge(case: Case) -> Array:
    """Pressure over the outside after a night, if the hot case let its pressure off [Pa]."""
    return cooled_pressure(closed_case(case), steady(case), np.array([NIGHT])) - OUTSIDE


def night_water(case: Case) -> Array:
    """Water that a vented case breathes in as vapour in one night [kg]."""
    return water_drawn_in(closed_case(case), steady(case), np.array([NIGHT]))


def seal_pressure(case: Case) -> SealLimits:
    """The pressure that the largest lip of the gearbox stands, nominal."""
    diameters = [nominal(seal.diameter) for seal in rows(seals(case), slice(0, 1))]
    largest = max(diameters, default=0.025)
    table = seal_speeds().rows
    row = next((r for r in table if r.diameter >= largest), table[-1])
    return SealLimits(row.pressure, row.cautious_pressure)


def lip_limit(seal: LipSeal) -> Array:
    """Shaft speed at which a lip rubs as fast as it may [rad/s]."""
    table = seal_speeds().rows
    allowed = np.interp(seal.diameter, [r.diameter for r in table], [r.speed for r in table])
    return np.asarray(2.0 * allowed / seal.diameter)


def rubbing(seal: LipSeal) -> Array:
    """How fast the shaft rubs under the lip [m/s]."""
    return lip_speed(seal.diameter, seal.speed)


def _gauge(case: Case, closed: ClosedCase) -> Array:
    hot = steady(case)
    settled = np.isfinite(hot)
    pressure = closed_pressure(closed, np.where(settled, hot, NIGHT)) - OUTSIDE
    return np.where(settled, pressure, np.nan)
