"""Findings on the gearbox's heat: oil temperature, warm-up, thickness of the oil."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.physics.gearbox.oil import ZERO_CELSIUS, kinematic_viscosity
from beltwright.quantity import Kind, unit_named
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.gearbox.at_work import LossParts, gearbox, gearbox_place, oil_grade
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
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal
from beltwright.review.road_words import a_degree, heat_units, warmer_by

THIN_OIL = 10e-6
"""Thinnest oil that splash-oiled gears are left to (common practice, no source) [m²/s]."""

TESTED_AT = (ZERO_CELSIUS + 40.0, ZERO_CELSIUS + 100.0)
"""Where the thickness of an oil is told [K]: ISO 3448 and its data sheets."""

MISFIT_WATCH = 4.0
"""Beyond this a warm-up and the plan disagree: twice what a cheap thermometer is out (common
practice, no source) [K]."""

HOT_CAUTION = (
    "A case over 60 °C burns skin, and hot oil on a tyre or a brake takes its grip. Let it cool "
    "before you open a plug: it may be under pressure."
)

HEAT_SOURCE = (
    "Churchill and Chu, Churchill and Bernstein (cooling); Changenet and Velex (churning); "
    "Palmgren (bearings); ISO/TR 14179 for the parts of the loss (from memory, not confirmed), "
    "hence the wide range"
)

MEASURE_A_RUN = (
    "Its range is wide: measure a warm-up. From cold, work it for an hour at a steady load, hold a "
    "thermometer to the case at oil height every 15 minutes, and write the readings as measured "
    'under gearbox: measured = { air = "18 °C", gear = 4, duty = "40 %", reading = [ { after = '
    '"30 min", oil = "52 °C" } ] }.'
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the gearbox's heat and its oil."""
    yield Ask("gearbox.oil_temperature", "Oil temperature, settled", partial(_oil, case))
    yield Ask("gearbox.warm_up", "Time to warm up", partial(_warm_up, case))
    yield Ask("gearbox.oil_thickness", "Thickness of the oil when hot", partial(_thickness, case))


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
        place=gearbox_place(case),
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
