"""What the review says about the heat that the brake takes: one stop, the longest descent."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.physics.brake.heat import braking_power, heat_of_a_stop, rise_on_descent
from beltwright.physics.motion.clutch_start import heat_taken
from beltwright.quantity import Kind
from beltwright.review.brake.braking import LEAST_DOWNHILL, described, fastest, lining, slowing
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.motion.ground import freest, steepest
from beltwright.review.nearness import goes_over
from beltwright.review.nominal import nominal
from beltwright.review.road_words import (
    distance_words,
    slope_words,
    specific_heat_words,
    warmer_by,
)
from beltwright.review.stability.centre_of_gravity import laden
from beltwright.tables.brake_linings import CAUTION_OLD_LINING

STEEL_HEAT = 480.0
"""Specific heat of a steel disc or drum [J/(kg K)], usual handbook value, from memory."""

LINING_LIMIT = 473.15
"""What a lining of unknown kind bears for long [K]: 200 °C, Tribology Handbook B8, medium duty."""

FARTHEST = 1e5
"""No descent is longer [m]."""

HEAT_CAUTION = f"A hot brake fades, burns fingers and can light dry grass. {CAUTION_OLD_LINING}"


def questions(case: Case) -> Iterator[Ask]:
    """The questions about heat in the brake."""
    yield Ask("brake.stop_heat", "Brake temperature after one stop", partial(_stop_heat, case))
    if case.build.machine.descent is not None:
        yield Ask(
            "brake.descent_heat",
            "Brake temperature after the longest descent",
            partial(_descent, case),
        )


def _disc_mass(case: Case) -> Array:
    return case.need(
        described(case).mass,
        "brake.mass",
        "Weigh the disc or drum, or one like it, on a kitchen scale and write it, for example "
        'mass = "0.9 kg".',
    )


def _air(case: Case) -> Array:
    return case.suppose(
        case.build.machine.air,
        "machine.air",
        "30 °C",
        Kind.TEMPERATURE,
        "no hottest air is given: a summer's day is taken (assumed)",
    )


def _bears(case: Case) -> float:
    row = lining(case)
    return LINING_LIMIT if row is None else row.continuous


def _lining_source(case: Case) -> str:
    row = lining(case)
    return "Tribology Handbook B8, medium duty" if row is None else f"{row.source} ({row.status})"


def _stop_heat(case: Case) -> Draft:
    speed, slope = fastest(case), steepest(case)
    free, mass = freest(case), laden(case).balance.mass
    held = slowing(case, free, -slope).rate
    heat = heat_of_a_stop(mass, speed, np.maximum(held, LEAST_DOWNHILL), -slope, free.rolling)
    hot = np.atleast_1d(_air(case) + heat_taken(heat, 1.0, _disc_mass(case), STEEL_HEAT))
    show = case.units.show
    rise = nominal(hot) - nominal(_air(case))
    return Draft(
        kind=Kind.TEMPERATURE,
        value=hot,
        at_most=_bears(case),
        worst=Verdict.STOP,
        meaning=f"One stop from {show(nominal(speed), Kind.SPEED)} down "
        f"{slope_words(nominal(slope))} on {free.name}, fully laden, warms it by "
        f"{warmer_by(case, rise)}. "
        f"{max(int((_bears(case) - nominal(_air(case))) // max(rise, 1e-9)), 0)} such stops in a "
        "row, without cooling, bring it to what the lining bears for long.",
        remedy="A heavier disc or drum, or a slower machine."
        if goes_over(hot, _bears(case))
        else "",
        formula="heat = ½ m v² + m g sin θ × brake path − rolling drag; rise = heat / (mass × "
        "specific heat)",
        working=f"{show(nominal(heat), Kind.ENERGY)} / "
        f"({_disc_words(case)}) + "
        f"{show(nominal(_air(case)), Kind.TEMPERATURE)} = {show(nominal(hot), Kind.TEMPERATURE)}",
        source="Shigley's Mechanical Engineering Design, sections 16-9 and 16-10; lining: "
        + _lining_source(case),
        leaves_out="the lining's skin, which gets far hotter for a moment; cooling",
        caution=HEAT_CAUTION,
    )


def _descent(case: Case) -> Draft:
    length = case.build.machine.descent
    assert length is not None
    slope, free = steepest(case), freest(case)
    mass = laden(case).balance.mass
    path = case.si(length)
    # without cooling the rise does not depend on the speed, so any speed serves
    speed = 1.0
    power = braking_power(mass, speed, slope, free.rolling)
    capacity = _disc_mass(case) * STEEL_HEAT
    rise = rise_on_descent(power, path / speed, capacity, 0.0)
    hot = np.atleast_1d(_air(case) + rise)
    show = case.units.show
    far = (_bears(case) - nominal(_air(case))) / max(nominal(rise), 1e-9) * nominal(path)
    return Draft(
        kind=Kind.TEMPERATURE,
        value=hot,
        at_most=_bears(case),
        worst=Verdict.STOP,
        meaning="With the clutch down, the brake dragging over "
        f"{distance_words(case, nominal(path))} of {slope_words(nominal(slope))} on {free.name}, "
        f"fully laden. The lining bears {_so_far(case, far)}.",
        remedy="Go down in the slowest gear with the clutch up, so that the engine holds the "
        "machine; or fit a heavier disc or drum."
        if goes_over(hot, _bears(case))
        else "",
        formula="rise = m g (sin θ − f cos θ) × length / (mass × specific heat), no cooling",
        working=f"{show(nominal(power) * nominal(path), Kind.ENERGY)} / "
        f"({_disc_words(case)}) + "
        f"{show(nominal(_air(case)), Kind.TEMPERATURE)} = {show(nominal(hot), Kind.TEMPERATURE)}",
        source="energy balance; lining: " + _lining_source(case),
        leaves_out="cooling on the way down and engine braking, both of which help",
        caution=HEAT_CAUTION,
    )


def _so_far(case: Case, metres: float) -> str:
    """How much of a descent, in words."""
    return "any length of it" if metres > FARTHEST else f"{distance_words(case, metres)} of it"


def _disc_words(case: Case) -> str:
    mass = case.units.show(nominal(_disc_mass(case)), Kind.MASS)
    return f"{mass} × {specific_heat_words(case, STEEL_HEAT)}"
