"""Findings on the pressure in the gearbox's case: seals, vent, water drawn in."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.gearbox.at_work import gearbox, gearbox_place
from beltwright.review.gearbox.heat import (
    steady,
)
from beltwright.review.gearbox.heat_findings import HOT_CAUTION
from beltwright.review.gearbox.pressure import (
    NIGHT,
    closed_case,
    closed_gauge,
    least_bore,
    night_gauge,
    night_water,
    seal_pressure,
    vent_size,
    vented_gauge,
    wet_gauge,
)
from beltwright.review.judging import TOLERATED_SHARE
from beltwright.review.nearness import goes_over
from beltwright.review.nominal import nominal
from beltwright.review.road_words import distance_words

BREATHES = 100.0
"""Pressure that nobody feels and no seal minds [Pa] (assumed)."""

A_DROP = 5.0e-5
"""Water in a drop [kg]: about twenty make a millilitre (common practice)."""

THINNER_AIR = 11.5
"""Pressure that the air loses a metre, over the first thousand of height [Pa/m]: ISO 2533."""

NO_VENT_YET = (
    'Write vent = "none", "plug" or "hose" under gearbox: look for a small cap, a hole or a hose '
    "above the oil."
)

FIT_VENT = (
    "Fit a vent above the oil: a barb in the fill plug or in a tapped boss, and a hose of 4 mm "
    "bore or more up under the seat, its end turned down and stuffed with a scrap of foam."
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the pressure in the case, its vent, and what is drawn in."""
    yield Ask("gearbox.case_pressure", "Pressure in the case", partial(_pressure, case))
    yield Ask("gearbox.vent", "Vent of the gearbox", partial(_vent, case))
    yield Ask("gearbox.water", "Water drawn in overnight", partial(_water, case))


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
        place=gearbox_place(case),
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
        place=gearbox_place(case),
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
        place=gearbox_place(case),
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
