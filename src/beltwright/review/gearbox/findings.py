"""What the review says about the gearbox: heat, oil, pressure, vent, seals."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.physics.gearbox.oil import ZERO_CELSIUS, kinematic_viscosity
from beltwright.quantity import Kind, unit_named
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.gearbox.at_work import LipSeal, LossParts, gearbox, oil_grade, seals
from beltwright.review.gearbox.heat import (
    OIL_MARGIN,
    correction,
    donor_steady,
    oil_limit,
    rows,
    steady,
    thermal,
    time_constant,
    working_gear,
)
from beltwright.review.gearbox.pressure import (
    NIGHT,
    closed_case,
    closed_gauge,
    least_bore,
    lip_limit,
    night_gauge,
    night_water,
    rubbing,
    seal_pressure,
    vent_size,
    vented_gauge,
    wet_gauge,
)
from beltwright.review.judging import TOLERATED_SHARE
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal
from beltwright.review.road_words import a_degree, distance_words, heat_units, warmer_by

THIN_OIL = 10e-6
"""Thinnest oil that splash-oiled gears are left to (common practice, no source) [m²/s]."""

TESTED_AT = (ZERO_CELSIUS + 40.0, ZERO_CELSIUS + 100.0)
"""Where the thickness of an oil is told [K]: ISO 3448 and its data sheets."""

BREATHES = 100.0
"""Pressure that nobody feels and no seal minds [Pa] (assumed)."""

A_DROP = 5.0e-5
"""Water in a drop [kg]: about twenty make a millilitre (common practice)."""

THINNER_AIR = 11.5
"""Pressure that the air loses a metre, over the first thousand of height [Pa/m]: ISO 2533."""

LIP_NEAR = 0.1
"""Share of a lip's speed limit within which it is watched [1]."""

MISFIT_WATCH = 4.0
"""Beyond this a warm-up and the plan disagree: twice what a cheap thermometer is out (common
practice, no source) [K]."""

NO_VENT_YET = (
    'Write vent = "none", "plug" or "hose" under gearbox: look for a small cap, a hole or a hose '
    "above the oil."
)
HOT_CAUTION = (
    "A case over 60 °C burns skin, and hot oil on a tyre or a brake takes its grip. Let it cool "
    "before you open a plug: it may be under pressure."
)
FIT_VENT = (
    "Fit a vent above the oil: a barb in the fill plug or in a tapped boss, and a hose of 4 mm "
    "bore or more up under the seat, its end turned down and stuffed with a scrap of foam."
)
HEAT_SOURCE = (
    "Churchill and Chu, Churchill and Bernstein (cooling); Changenet and Velex (churning); "
    "Palmgren (bearings); ISO/TR 14179 for the parts of the loss (from memory, not confirmed), "
    "hence the wide range"
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the gearbox's heat, oil and pressure."""
    if case.build.gearbox is None:
        return
    yield Ask("gearbox.oil_temperature", "Oil temperature, settled", partial(_oil, case))
    yield Ask("gearbox.warm_up", "Time to warm up", partial(_warm_up, case))
    yield Ask("gearbox.oil_thickness", "Thickness of the oil when hot", partial(_thickness, case))
    yield Ask("gearbox.case_pressure", "Pressure in the case", partial(_pressure, case))
    yield Ask("gearbox.vent", "Vent of the gearbox", partial(_vent, case))
    yield Ask("gearbox.water", "Water drawn in overnight", partial(_water, case))
    for index, seal in enumerate(case.build.gearbox.seals):
        yield Ask(
            f"gearbox.seal.{seal.where}",
            f"Shaft speed at the lip seal, {seal.where}",
            partial(_lip, case, index),
        )


def _place(case: Case) -> tuple[float, float, float] | None:
    shaft = next((s for s in case.build.shaft if s.name == gearbox(case).input), None)
    if shaft is None:
        return None
    x, y = (nominal(case.si(each)) for each in shaft.at)
    return (x, y, 0.0)


def _oil(case: Case) -> Draft:
    hot = steady(case)
    limit = oil_limit(case)
    box = rows(thermal(case), slice(0, 1))
    parts = box.parts(hot[:1]) if np.isfinite(hot[0]) else box.parts(np.array([limit]))
    show = case.units.show
    duty = nominal(box.power)
    return Draft(
        kind=Kind.TEMPERATURE,
        value=hot,
        at_most=limit,
        near=OIL_MARGIN / limit,
        worst=Verdict.STOP,
        meaning=f"In gear {working_gear(case).name}, governed, with {show(duty, Kind.POWER)} going "
        f"in, the oil settles here{_against_donor(case, nominal(hot))}." + _measured_words(case),
        remedy=_cool_down(case, hot, limit),
        formula="loss(T) = conductance(T) × (T − air)",
        working=_heat_working(case, parts, nominal(hot)),
        source=f"{HEAT_SOURCE}; limit: {limit - ZERO_CELSIUS:.0f} °C, the lower of 110 °C for "
        "mineral oil (ISO/TR 14179, usual range 90 to 110 °C) and what the seals' rubber stands "
        "(Tribology Handbook, section B23)",
        leaves_out="heat of a brake or an exhaust beside the case; mud that wraps it; oil level "
        "that is wrong",
        caution=HOT_CAUTION,
        place=_place(case),
    )


def _against_donor(case: Case, hot: float) -> str:
    try:
        donor = nominal(donor_steady(case))
    except NotKnownError:
        return ""
    change = hot - donor
    if not np.isfinite(change) or abs(change) < 0.5:
        return ""
    more = "hotter" if change > 0.0 else "cooler"
    return f", {warmer_by(case, abs(change))} {more} than at its donor's input speed"


def _measured_words(case: Case) -> str:
    """How well the plan meets a measured warm-up, once that has corrected it."""
    if gearbox(case).measured is None:
        return ""
    missed = nominal(correction(case).misfit)
    told = f" Your measured warm-up corrects it, and is then missed by {warmer_by(case, missed)}"
    if missed <= MISFIT_WATCH:
        return f"{told} on average."
    return f"{told} on average, more than a thermometer is out: check its gear, duty and readings."


def _heat_working(case: Case, parts: LossParts, hot: float) -> str:
    box = rows(thermal(case), slice(0, 1))
    _, flow = heat_units(case)
    unit = unit_named(flow, Kind.POWER)
    mesh, churning, drag, bearings, total = (
        float(unit.from_si(float(each[0])))
        for each in (parts.mesh, parts.churning, parts.seals, parts.bearings, parts.total)
    )
    listed = (
        f"mesh {mesh:.0f} + churning {churning:.0f} + seals {drag:.0f} + bearings "
        f"{bearings:.0f} = {total:.0f} {flow}"
    )
    if not np.isfinite(hot):
        return (
            f"{listed} at its limit, more than the case can give off at any temperature looked at"
        )
    given = box.conductance(np.array([hot]))
    kept, degree = a_degree(case, float(given[0]))
    show = case.units.show
    return (
        f"{listed}; {unit.from_si(kept):.2f} {flow} a {degree} × ({show(hot, Kind.TEMPERATURE)} − "
        f"{show(nominal(box.air), Kind.TEMPERATURE)}) = "
        f"{unit.from_si(float(given[0] * (hot - box.air[0]))):.0f} {flow}"
    )


MEASURE_A_RUN = (
    "Its range is wide: measure a warm-up. From cold, work it for an hour at a steady load, hold a "
    "thermometer to the case at oil height every 15 minutes, and write the readings as measured "
    'under gearbox: measured = { air = "18 °C", gear = 4, duty = "40 %", reading = [ { after = '
    '"30 min", oil = "52 °C" } ] }.'
)


def _cool_down(case: Case, hot: Array, limit: float) -> str:
    if not goes_over(hot, limit, OIL_MARGIN / limit):
        return ""
    if hot[0] <= limit - OIL_MARGIN and gearbox(case).measured is None:
        return MEASURE_A_RUN
    return (
        "Slow its input with a larger input pulley, use a lower gear for long pulls, keep the case "
        "bare and clean, set the oil level to its mark and no higher, and stop to cool once the "
        "case is too hot to touch."
    )


def _warm_up(case: Case) -> Draft:
    slow = time_constant(case)
    hot, air = steady(case), thermal(case).air
    held, degree = a_degree(case, float(thermal(case).capacity[0]))
    heat, flow = heat_units(case)
    stored = unit_named(heat, Kind.ENERGY).from_si(held)
    given = unit_named(flow, Kind.POWER).from_si(held / nominal(slow))
    show = case.units.show
    return Draft(
        kind=Kind.TIME,
        value=slow,
        unit="min",
        verdict=Verdict.SOUND,
        meaning="After this time of steady work it has made about two thirds of its rise: "
        f"{show(float(air[0] + 0.632 * (hot[0] - air[0])), Kind.TEMPERATURE)}; "
        "after three times as long it has settled."
        if np.isfinite(hot[0])
        else "It does not settle: the longer it works, the hotter it gets.",
        formula="time = heat capacity of case, gears and oil / conductance",
        working=f"{stored:.2f} {heat} a {degree} / {given:.2f} {flow} a {degree} = "
        f"{show(nominal(slow), Kind.TIME, 'min')}",
        source="lumped heat balance (Incropera and DeWitt, section 5.1)",
        leaves_out="that the oil runs ahead of the case in the first minutes",
    )


def _rounded(cold: float) -> str:
    """A thickness to two figures: the cold end of the line is far from where it was measured."""
    return f"{float(f'{cold:.2g}'):.0f}"


def _thickness(case: Case) -> Draft:
    grade = oil_grade(case)
    hot, box = steady(case), thermal(case)
    at_work = kinematic_viscosity(box.oil, np.minimum(hot, 450.0))
    cold = float(kinematic_viscosity(box.oil, np.array([ZERO_CELSIUS]))[0]) * 1e6
    thin = falls_short(at_work, THIN_OIL, 0.0)
    warmth = partial(case.units.show, kind=Kind.TEMPERATURE)
    return Draft(
        holds=at_work >= THIN_OIL,
        worst=Verdict.MARGINAL,
        says=f"{at_work[0] * 1e6:.0f} cSt",
        meaning=f"{grade.grade} is {at_work[0] * 1e6:.0f} cSt thick at work and about "
        f"{_rounded(cold)} cSt at freezing point; 10 cSt is the least that keeps gears apart.",
        remedy="Bring the heat down first; then ask for a thicker grade." if thin else "",
        formula="lg lg (ν + 0.7) = A − B lg T",
        working=f"A = {box.oil.a:.3f}, B = {box.oil.b:.3f} from {grade.at_40 * 1e6:.0f} cSt at "
        f"{warmth(TESTED_AT[0])} and {grade.at_100 * 1e6:.1f} cSt at {warmth(TESTED_AT[1])}",
        source=f"ASTM D341; {grade.source} ({grade.status}); 10 cSt (mm²/s) as the least is common "
        "practice, no source",
        leaves_out="old, watery or mixed oil",
    )


def _pressure(case: Case) -> Draft:
    box = gearbox(case)
    if box.vent is None:
        raise NotKnownError("gearbox.vent", NO_VENT_YET)
    limits = seal_pressure(case)
    closed = box.vent == "none"
    gauge = closed_gauge(case) if closed else vented_gauge(case)
    if closed and not np.isfinite(gauge[0]):
        return _burst(case)
    if not closed and float(np.nanmax(gauge)) < BREATHES:
        return _breathes(case)
    show = partial(case.units.show, kind=Kind.PRESSURE)
    near = 1.0 - limits.cautious / limits.handbook
    weeping = closed and goes_over(gauge, limits.handbook, near)
    return Draft(
        kind=Kind.PRESSURE,
        value=gauge,
        at_most=limits.handbook,
        near=near,
        worst=Verdict.STOP,
        meaning=_pressure_meaning(case, closed),
        remedy="Fit a vent, as told under the vent of the gearbox." if weeping else "",
        formula="p = dry air × (T/T0) × (V0/V) + water vapour"
        if closed
        else "Δp = 128 μ L Q / (π d⁴) + 1.5 × ½ ρ v²",
        working=_pressure_working(case, closed, nominal(gauge)),
        source="gas law with Dalton's law, IAPWS SR1-86(1992) for water vapour; "
        f"limit {show(limits.handbook)} by the Tribology Handbook, section B23, and "
        f"{show(limits.cautious)} at high speed by a second source",
        leaves_out="pressure that is let off past a lip, which then draws water back in; "
        f"{show(THINNER_AIR * 1000.0)} more for each {distance_words(case, 1000.0)} that it is "
        "driven above where it was closed",
        caution=HOT_CAUTION if closed else "",
        place=_place(case),
    )


def _pressure_meaning(case: Case, closed: bool) -> str:
    show = partial(case.units.show, kind=Kind.PRESSURE)
    if not closed:
        return "The vent lets the case breathe: nothing to speak of is left at its fastest warming."
    wet = nominal(wet_gauge(case))
    return (
        f"Without a vent the hot case is pressed from inside; with a spoonful of water in the oil "
        f"it would be {show(wet)}."
    )


def _pressure_working(case: Case, closed: bool, gauge: float) -> str:
    show = case.units.show
    if not closed:
        bore = nominal(vent_size(case))
        return f"bore {show(bore, Kind.LENGTH)}: {show(gauge, Kind.PRESSURE)}"
    cold = nominal(closed_case(case).temperature)
    return (
        f"closed at {show(cold, Kind.TEMPERATURE)}, "
        f"{show(nominal(steady(case)), Kind.TEMPERATURE)} hot: "
        f"{show(gauge, Kind.PRESSURE)} over the outside"
    )


def _breathes(case: Case) -> Draft:
    bore = case.units.show(nominal(vent_size(case)), Kind.LENGTH)
    return Draft(
        holds=np.array([True]),
        says="none to speak of",
        meaning=_pressure_meaning(case, closed=False),
        formula="Δp = 128 μ L Q / (π d⁴) + 1.5 × ½ ρ v²",
        working=f"bore {bore}: less than {case.units.show(BREATHES, Kind.PRESSURE)}",
        source="laminar flow through a bore with its inlet and outlet loss",
        place=_place(case),
    )


def _drawn_in(case: Case) -> str:
    """Water that comes in with the damp air of a night, in words."""
    litres = nominal(night_water(case))
    if litres < A_DROP:
        return "less than a drop a night"
    return f"{case.units.show(litres / 1000.0, Kind.VOLUME)} a night"


def _burst(case: Case) -> Draft:
    return Draft(
        holds=np.array([False]),
        worst=Verdict.STOP,
        says="no air left in the case",
        meaning="The hot oil fills the whole case or never settles: a seal is pushed out or the "
        "case cracks.",
        remedy=f"Drain the oil to its mark. {FIT_VENT}",
        formula="air left = air cold − oil × expansion × warming",
        working=f"settles at {case.units.show(nominal(steady(case)), Kind.TEMPERATURE)}"
        if np.isfinite(steady(case)[0])
        else "the oil does not settle",
        source="volume balance",
        caution=HOT_CAUTION,
        place=_place(case),
    )


def _vent(case: Case) -> Draft:
    box = gearbox(case)
    if box.vent is None:
        raise NotKnownError("gearbox.vent", NO_VENT_YET)
    needed = least_bore(case)
    show = partial(case.units.show, kind=Kind.LENGTH)
    fitted = box.vent != "none"
    if fitted:
        bore = vent_size(case)
        holds = bore >= needed if box.vent == "hose" else np.array([True])
    else:
        holds = np.atleast_1d(closed_gauge(case) <= seal_pressure(case).cautious)
    return Draft(
        holds=holds,
        worst=Verdict.MARGINAL,
        says=f"{box.vent}, {show(nominal(vent_size(case)))} bore" if fitted else "none",
        meaning=f"A hose of {show(nominal(needed))} bore or more is enough; a plain plug breathes "
        "too but lets dust and washing water in.",
        remedy=FIT_VENT if not holds[0] or np.mean(~holds) > TOLERATED_SHARE else "",
        formula="flow = (V/T + β × oil) × warming rate; bore = (128 μ L Q / (π Δp))^¼, at least "
        "3 mm so that dirt does not close it",
        working=f"least bore {show(nominal(needed))}",
        source="Hagen–Poiseuille (White, Fluid Mechanics, section 6.4); the least bore is common "
        "practice, no source",
        leaves_out="oil that stands in a low loop of the hose; a filter that is clogged",
    )


def _water(case: Case) -> Draft:
    if gearbox(case).vent is None:
        raise NotKnownError("gearbox.vent", NO_VENT_YET)
    if not np.isfinite(steady(case)[0]):
        raise NotKnownError(
            "gearbox.oil_temperature",
            "Bring the gearbox's heat down first.",
            "The oil of the gearbox never settles: it only gets hotter.",
        )
    closed = gearbox(case).vent == "none"
    suck = night_gauge(case)
    warmth = partial(case.units.show, kind=Kind.TEMPERATURE)
    show = partial(case.units.show, kind=Kind.PRESSURE)
    return Draft(
        holds=np.array([not closed]),
        worst=Verdict.MARGINAL,
        says=f"sucks {show(abs(nominal(suck)))} after a hot day" if closed else _drawn_in(case),
        meaning="A hot case that has let its pressure off sucks as it cools, past a lip that "
        "stands in water or mud."
        if closed
        else "It breathes in a little damp air each night; water comes in by the pint only if the "
        "end of the vent lies under it.",
        remedy="Fit a vent, as told under the vent of the gearbox. Wade or wash only once it has "
        "cooled."
        if closed
        else "",
        formula="p = p hot × (T cold / T hot) × (V hot / V cold)"
        if closed
        else "mass = vapour density × volume drawn in",
        working=f"from {warmth(nominal(steady(case)))} to {warmth(NIGHT)}",
        source="gas law; IAPWS SR1-86(1992); the cold night is assumed",
        leaves_out="water that is in the oil already: milky oil must be changed",
    )


def _lip(case: Case, index: int) -> Draft:
    seal: LipSeal = seals(case)[index]
    limit = lip_limit(seal)
    show = case.units.show
    fast = goes_over(seal.speed, limit, LIP_NEAR)
    rubs = show(nominal(rubbing(seal)), Kind.SPEED, case.units.rim())
    return Draft(
        kind=Kind.ROTATION,
        value=seal.speed,
        at_most=limit,
        near=LIP_NEAR,
        worst=Verdict.MARGINAL,
        meaning=f"The shaft rubs under the lip at {rubs}.",
        remedy="Slow the shaft, or fit a seal of fluoro rubber with a spring." if fast else "",
        formula="speed limit = allowed rubbing speed × 2 / diameter",
        working=f"{show(nominal(seal.diameter), Kind.LENGTH)} at "
        f"{show(nominal(seal.speed), Kind.ROTATION)}: {rubs}",
        source="Tribology Handbook, section B23: about 8000 rpm up to 35 mm, 4000 rpm at 75 mm, "
        "15 m/s above",
        leaves_out="a rough, rusty or grooved shaft, dirt, and a lip that has gone hard",
    )
