"""How hot a build's gearbox gets, as numbers."""

from typing import Any, TypeVar

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.physics.gearbox.correction import Correction, fit_correction
from beltwright.physics.gearbox.heat import Stage, WarmUp, steady_temperature
from beltwright.physics.gearbox.heat import warm_up as follow
from beltwright.quantity import Kind, Quantity
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.routes import Gear, gears
from beltwright.review.gearbox.at_work import Thermal, at_work, case_air, gearbox
from beltwright.tables.seals import seal_material

T = TypeVar("T")

MINERAL_LIMIT = 383.15
"""Hottest that a mineral oil is held to, 110 °C; ISO/TR 14179 counts 90 to 110 °C as usual."""

OIL_MARGIN = 15.0
"""Below the limit by this, the oil is watched: 95 °C, the sump limit of ISO/TR 14179-1 [K]."""

CHART_HOURS = 2.0
BAND_SAMPLES = 60
"""Samples that the band of the warm-up chart is drawn from: enough for its 5 and 95 %."""

FIT_STEPS = 10
"""Steps of the simulated run while a measured warm-up is fitted; good to 0.2 K."""

RANDOM_SPREAD = float(np.sqrt(3.0))
"""Half-width of a uniform draw whose standard deviation is 1."""


def thermal(case: Case) -> Thermal:
    """The gearbox at its usual work: governed speed, middle gear, part of full power."""
    return thermal_in(case, working_gear(case))


def thermal_in(case: Case, gear: Gear) -> Thermal:
    """The gearbox at work in one gear."""
    return case.once(("gearbox.thermal", gear.name), lambda: _thermal(case, gear))


def steady(case: Case) -> Array:
    """Temperature at which the oil settles [K]; infinity where it would run away."""

    def work() -> Array:
        box = thermal(case)
        return steady_temperature(box.loss, box.conductance, box.air)

    return case.once("gearbox.steady", work)


def donor_steady(case: Case) -> Array:
    """The same, nominal, at the speed at which the donor turned the gearbox [K]."""
    return case.once("gearbox.donor_steady", lambda: _donor_steady(case))


def _donor_steady(case: Case) -> Array:
    stock = gearbox(case).stock_input
    if stock is None:
        raise NotKnownError("gearbox.stock_input", "The donor's input speed is not known.")
    box = rows(thermal(case), slice(0, 1))
    slower = case.si(stock)[:1] / box.input_speed
    donor = box._replace(
        input_speed=box.input_speed * slower,
        gear_speed=box.gear_speed * slower,
        seals=tuple(seal._replace(speed=seal.speed * slower) for seal in box.seals),
    )
    return steady_temperature(donor.loss, donor.conductance, donor.air)


def warm_up(case: Case, hours: float = CHART_HOURS) -> WarmUp:
    """Oil temperature from a cold start; row 0 is the nominal build, the rest some samples.

    Only some of the samples are followed: a band of 5 to 95 % asks for no more.
    """

    def work() -> WarmUp:
        every = max(1, case.samples // BAND_SAMPLES)
        box = rows(thermal(case), slice(0, None, every))
        stage = Stage(hours * 3600.0, box.loss, box.conductance)
        return follow([stage], box.capacity, box.air, box.air)

    return case.once(("gearbox.warm_up", hours), work)


def oil_limit(case: Case) -> float:
    """The hottest oil that gearbox and seals stand for long [K]."""
    lips = (seal_material(seal.material).hottest for seal in gearbox(case).seals)
    return min([MINERAL_LIMIT, *lips])


def time_constant(case: Case) -> Array:
    """Time in which a cold gearbox makes 63 % of its rise [s], near its settled temperature."""
    box = thermal(case)
    return box.capacity / box.conductance(np.minimum(steady(case), box.air + 400.0))


def working_gear(case: Case) -> Gear:
    """The middle forward gear, in which a working hour is mostly driven (assumed)."""
    forward = sorted((g for g in gears(case) if g.forward), key=lambda g: -g.ratio)
    return forward[len(forward) // 2]


def rows(part: T, keep: slice) -> T:
    """The same numbers for some of the samples only."""
    taken: Any = part
    if isinstance(part, np.ndarray):
        taken = part[keep] if part.ndim and part.shape[0] > 1 else part
    elif isinstance(part, tuple):
        kept = [rows(item, keep) for item in part]
        taken = part._make(kept) if hasattr(part, "_make") else tuple(kept)
    kept_part: T = taken
    return kept_part


def _thermal(case: Case, gear: Gear) -> Thermal:
    box = gearbox(case)
    predicted = at_work(case, gear, case_air(case), _duty(case, box.duty))
    if box.measured is None:
        return predicted
    return _corrected(case, predicted)


def _duty(case: Case, written: Quantity | None) -> Array:
    return case.suppose(
        written,
        "gearbox.duty",
        "40 % ± 15 %",
        Kind.RATIO,
        "a working hour takes 25 to 55 % of full power on average (assumed)",
    )


def _corrected(case: Case, predicted: Thermal) -> Thermal:
    """The predicted gearbox with the factors of a measured run, and the doubt that it leaves."""
    found = correction(case)
    why = "what a measured warm-up leaves in doubt"
    spread = f"0 ± {RANDOM_SPREAD:.6f}"
    loss = case.suppose(None, "gearbox.measured.loss_left", spread, Kind.RATIO, why)
    cooling = case.suppose(None, "gearbox.measured.cooling_left", spread, Kind.RATIO, why)
    return predicted._replace(
        loss_factor=found.loss * np.exp(found.loss_spread * loss),
        conductance_factor=found.conductance * np.exp(found.conductance_spread * cooling),
    )


def correction(case: Case) -> Correction:
    """What a measured warm-up makes of the predicted gearbox."""
    return case.once("gearbox.correction", lambda: _correction(case))


def _correction(case: Case) -> Correction:
    run = gearbox(case).measured
    assert run is not None
    forward = [g for g in gears(case) if g.forward]
    if run.gear > len(forward):
        raise NotKnownError(
            "gearbox.measured.gear",
            f"Write a forward gear from 1 to {len(forward)}.",
            f"The gearbox has no forward gear {run.gear}, in which its warm-up is said to be.",
        )
    air, duty = case.si(run.air), case.si(run.duty)
    measured = rows(at_work(case, forward[run.gear - 1], air, duty), slice(0, 1))
    times = np.array([case.si(each.after)[0] for each in run.reading])
    return fit_correction(
        [Stage(float(times.max()), measured.loss, measured.conductance)],
        measured.capacity,
        measured.air,
        measured.air,
        times,
        np.array([case.si(each.oil)[0] for each in run.reading]),
        steps=FIT_STEPS,
    )
