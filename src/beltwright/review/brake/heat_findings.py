"""What the review says about the heat that the brake takes: one stop, the longest descent."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.brake.heat import braking_power, heat_of_a_stop, rise_on_descent
from beltwright.physics.motion.clutch_start import heat_taken
from beltwright.quantity import Kind
from beltwright.review.brake.braking import LEAST_DOWNHILL, described, fastest, lining, slowing
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.driveline.routes import route_to
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

SHORTEST = 5.0
"""Nobody stops more often than that on a way down [m]."""

FARTHEST = 1e5
"""No descent is longer [m]."""

HEAT_CAUTION = f"A hot brake fades, burns fingers and can light dry grass. {CAUTION_OLD_LINING}"

DESCENT_CAUTION = (
    "Choose the slowest gear before the slope begins; do not change gear, press the clutch or "
    "coast on it."
)


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
        f"row, without cooling, bring it to what the lining bears for long.{_drag_words(case)}",
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


def _drag_words(case: Case) -> str:
    """How far the brake can drag, where the longest descent is not written."""
    if case.build.machine.descent is not None:
        return ""
    return (
        f" Dragging all the way, clutch down, it bears {_so_far(case, _bearable(case))}; write the "
        "longest descent to have it checked."
    )


def _descent(case: Case) -> Draft:
    length = case.build.machine.descent
    assert length is not None
    slope, free, path = steepest(case), freest(case), case.si(length)
    hot = np.atleast_1d(_air(case) + _rise(case, path))
    show = case.units.show
    far = _bearable(case)
    return Draft(
        kind=Kind.TEMPERATURE,
        value=hot,
        at_most=_bears(case),
        worst=Verdict.STOP,
        meaning=f"The brake alone, clutch down, dragging over "
        f"{distance_words(case, nominal(path))} of {slope_words(nominal(slope))} on {free.name}, "
        f"fully laden. The lining bears {_so_far(case, far)}.{_runs_away(case)} "
        f"{_engine_words(case)}",
        remedy=_descent_remedy(case, far) if goes_over(hot, _bears(case)) else "",
        formula="rise = m g (sin θ − f cos θ) × length / (mass × specific heat), no cooling",
        working=f"{show(nominal(_heat_of_way(case)) * nominal(path), Kind.ENERGY)} / "
        f"({_disc_words(case)}) + "
        f"{show(nominal(_air(case)), Kind.TEMPERATURE)} = {show(nominal(hot), Kind.TEMPERATURE)}",
        source="energy balance; lining: " + _lining_source(case),
        leaves_out="cooling on the way down, and the engine's drag while belt and gear hold",
        caution=f"{DESCENT_CAUTION} {HEAT_CAUTION}",
    )


def _runs_away(case: Case) -> str:
    """A brake that keeps cool because it does not hold the machine at all is no comfort."""
    if nominal(slowing(case, freest(case), -steepest(case)).rate) > 0.0:
        return ""
    return " But it does not hold the machine on that slope: it runs away, wheels braked."


def _descent_remedy(case: Case, far: float) -> str:
    half = 0.5 * far
    stops = f"Stop every {distance_words(case, half)} until the brake is cold again, or fit"
    return (
        f"{stops if half > SHORTEST else 'Fit'} a heavier disc or drum. The slowest gear with the "
        "clutch up spares the brake, but plan on the brake alone."
    )


def _heat_of_way(case: Case) -> Array:
    """Heat that the brake takes on each metre down the steepest slope [J/m]."""
    # without cooling it does not depend on the speed, so any speed serves
    return braking_power(laden(case).balance.mass, 1.0, steepest(case), freest(case).rolling)


def _rise(case: Case, path: ArrayLike) -> Array:
    """How much hotter the brake gets on a way down the steepest slope [K]."""
    return rise_on_descent(_heat_of_way(case), path, _disc_mass(case) * STEEL_HEAT, 0.0)


def _bearable(case: Case) -> float:
    """How far down the steepest slope the lining bears to drag, in the build as written [m]."""
    allowed = _bears(case) - nominal(_air(case))
    return max(allowed, 0.0) / max(nominal(_rise(case, 1.0)), 1e-9)


def _engine_words(case: Case) -> str:
    """Why the engine's drag is no brake: what lets the wheels go from it."""
    kinds = {stage.kind for stage in route_to(case, case.build.wheels.shaft).stages}
    parts = ["the clutch is pressed"]
    if "belt" in kinds:
        parts.append("a belt slips or comes off")
    if "gearbox" in kinds:
        parts.append("a gear jumps out")
    return (
        f"Do not count on the engine: its drag is gone once {', or '.join(parts)}, and no governor "
        f"keeps a slope from turning it faster.{_idler_words(case)}"
    )


def _idler_words(case: Case) -> str:
    """What a descent does to a belt that an idler on an arm keeps tight."""
    arms = {idler.name for idler in case.build.idler if idler.arm is not None}
    if not any(arms.intersection(belt.run) for belt in case.build.belt):
        return ""
    return (
        " The wheels then drive the belt, and its tight and slack sides change over: an idler on "
        "an arm that sits on the slack side gives way, and the belt slips sooner than when it "
        "pulls."
    )


def _so_far(case: Case, metres: float) -> str:
    """How much of a descent, in words."""
    return "any length of it" if metres > FARTHEST else f"{distance_words(case, metres)} of it"


def _disc_words(case: Case) -> str:
    mass = case.units.show(nominal(_disc_mass(case)), Kind.MASS)
    return f"{mass} × {specific_heat_words(case, STEEL_HEAT)}"
