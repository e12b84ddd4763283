"""What a belt may carry for long, how often it is bent and how long it may last, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Idler
from beltwright.physics.arrays import Array
from beltwright.physics.belt.force import belt_speed
from beltwright.physics.belt.life import (
    flex_rate,
    passes_to_failure,
    peak_pull,
    running_time,
)
from beltwright.physics.belt.rating import (
    PublishedRatings,
    allowed_power,
    arc_factor,
    industrial_power,
    light_duty_power,
    textbook_power,
)
from beltwright.quantity import Kind
from beltwright.quantity.units import INCH
from beltwright.review.belt.force import pulls
from beltwright.review.belt.layout import belt_layout
from beltwright.review.belt.task import belt_section, task, wheel_named
from beltwright.review.case import Case
from beltwright.review.driveline.pulleys import pitch_diameter
from beltwright.review.driveline.stages import belt_pulleys
from beltwright.tables.belt_factors import (
    idler_addition,
    industrial_rating,
    length_factor,
    light_duty_rating,
    ratio_factor,
    service_factor,
    textbook_rating,
)
from beltwright.tables.belts import Bending, section

BACK_BEND = 1.33
"""Least diameter of an idler on the belt's back over that of the smallest sheave [1]: common
practice, no source; a V-belt is built to bend the other way."""


HALF_DIGIT = 0.05 * float(INCH)
"""Smallest sheaves are printed to a tenth of an inch: half of that either way [m]."""


class Allowed(NamedTuple):
    """The power that a belt may carry for long.

    ratings     of one belt, wrap and duty not yet counted [W]; None for a section that has one
                published rating only
    rated       the rating that counts, of one belt [W]
    arc         factor for the wrap on the smaller pulley [1]
    length      factor for the length [1]
    duty        service factor for the duty [1]
    idlers      what the idlers add to it [1]
    power       what all belts of the stage may carry [W]
    """

    ratings: PublishedRatings | None
    rated: Array
    arc: Array
    length: Array
    duty: Array
    idlers: float
    power: Array


class Working(NamedTuple):
    """The smaller of the pulleys that carry the power.

    place       in the order of the run, of the nominal build
    diameter    its pitch diameter [m]
    speed       its speed at the engine's rated point [rad/s]
    ratio       of the larger to the smaller pulley [1]
    wrap        the least wrap of the pulleys that carry power [rad]
    """

    place: int
    diameter: Array
    speed: Array
    ratio: Array
    wrap: Array


def smaller_pulley(case: Case, belt: Belt) -> Working:
    """The pulley that a rating is read for."""
    job, path = task(case, belt), belt_layout(case, belt).path
    named = {p.name: pitch_diameter(case, p, belt) for p in belt_pulleys(case, belt)}
    working = [i for i, share in enumerate(job.share) if share != 0.0]
    diameters = np.broadcast_arrays(*(named[belt.run[i]] for i in working))
    least = np.minimum.reduce(diameters)
    return Working(
        place=working[int(np.argmin([each[0] for each in diameters]))],
        diameter=least,
        speed=2 * job.belt_speed / least,
        ratio=np.maximum.reduce(diameters) / least,
        wrap=np.minimum.reduce(np.broadcast_arrays(*(path.wrap[i] for i in working))),
    )


def allowed(case: Case, belt: Belt) -> Allowed:
    """The power that a belt may carry, by the more cautious of the published ratings."""
    return case.once(("belt_power", belt.name), lambda: _allowed(case, belt))


def _allowed(case: Case, belt: Belt) -> Allowed:
    small = smaller_pulley(case, belt)
    ratings, rated = _ratings(case, belt, small)
    arc = arc_factor(small.wrap)
    length = length_factor(belt.section, _inside_length(case, belt))
    duty, idlers = _duty(case, belt), sum(_idler_additions(case, belt))
    power = allowed_power(rated, arc, length, duty + idlers, belt.count)
    return Allowed(ratings, rated, arc, length, duty, idlers, power)


def _ratings(case: Case, belt: Belt, small: Working) -> tuple[PublishedRatings | None, Array]:
    family = belt_section(belt).family
    if family == "light duty":
        row = light_duty_rating(belt.section)
        return None, light_duty_power(small.diameter, small.speed, (row.k1, row.k2, row.k3))
    formula = industrial_rating(belt.section)
    industrial = industrial_power(
        small.diameter,
        small.speed,
        ratio_factor(small.ratio, "industrial"),
        (formula.k1, formula.k2, formula.k3, formula.k4),
    )
    if family == "notched":
        return None, industrial
    older = textbook_rating(belt.section)
    textbook = textbook_power(
        small.diameter,
        task(case, belt).belt_speed,
        ratio_factor(small.ratio, "textbook"),
        (older.a, older.c, older.e),
    )
    both = PublishedRatings(industrial, textbook)
    return both, both.cautious


def _inside_length(case: Case, belt: Belt) -> Array:
    lengths = section(belt.section).lengths
    back = {
        "inside": 0.0,
        "pitch": lengths.inside_to_pitch,
        "outside": lengths.inside_to_pitch + lengths.pitch_to_outside,
    }
    return case.si(belt.length) - back[belt.length_is]


def _duty(case: Case, belt: Belt) -> Array:
    duty = service_factor("normal")
    return case.suppose(
        None,
        f"belt.{belt.name}.service",
        f"{duty.factor:g} ± 0.2",
        Kind.RATIO,
        f"service factor for {duty.example} ({duty.source})",
    )


def _idler_additions(case: Case, belt: Belt) -> list[float]:
    """What each idler adds to the service factor, by the span that it stands in and its side."""
    layout = belt_layout(case, belt)
    added = []
    for place, name in enumerate(belt.run):
        wheel = wheel_named(case, name)
        if isinstance(wheel, Idler):
            tight = layout.strand(place) == "tight"
            row = idler_addition(tight=tight, inside=wheel.runs_on == "inside")
            added.append(row.addition)
    return added


class Life(NamedTuple):
    """How often a belt is bent and how long a textbook lets it last.

    flexes      bends of each piece of belt a second, without load [1/s]
    passes      times round before it is likely to fail, rated power all the time [1]
    time        the same as running time [s]
    """

    flexes: Array
    passes: Array
    time: Array


def flexes(case: Case, belt: Belt) -> Array:
    """How often each piece of the belt is bent in a second, without load [1/s]."""
    job = task(case, belt)
    speed = belt_speed(job.radius, job.fastest)
    return flex_rate(speed, belt_layout(case, belt).pitch_length, len(belt.run))


def life(case: Case, belt: Belt) -> Life | None:
    """The textbook life of a belt; None for a section that the textbook does not cover."""
    bending = belt_section(belt).bending
    if np.isnan(bending.fatigue_pull):
        return None
    return case.once(("belt_life", belt.name), lambda: _life(case, belt, bending))


def _life(case: Case, belt: Belt, bending: Bending) -> Life:
    found, job, layout = pulls(case, belt), task(case, belt), belt_layout(case, belt)
    spans = [span / belt.count for span in found.spans.at(job.power / job.rated)]
    peaks = [
        peak_pull(np.maximum(spans[place - 1], spans[place]), bending.kb, 2 * radius)
        for place, radius in enumerate(layout.path.run.radius)
    ]
    passes = passes_to_failure(peaks, bending.fatigue_pull, bending.fatigue_exponent)
    time = running_time(passes, layout.pitch_length, job.belt_speed)
    return Life(flexes(case, belt), passes, time)


class Bend(NamedTuple):
    """The tightest bend of a belt against what is usual.

    name        pulley or idler, of the nominal build
    diameter    its pitch diameter [m]
    least       usual least pitch diameter there [m]
    """

    name: str
    diameter: Array
    least: float


def tightest_bend(case: Case, belt: Belt, *, back: bool) -> Bend | None:
    """The smallest wheel on one side of the belt; None where there is none."""
    layout = belt_layout(case, belt)
    places = [i for i, side in enumerate(layout.path.run.side) if (side < 0) == back]
    if not places:
        return None
    radii = [np.atleast_1d(layout.path.run.radius[i]) for i in places]
    smallest = places[int(np.argmin([radius[0] for radius in radii]))]
    diameter = 2 * np.minimum.reduce(np.broadcast_arrays(*radii))
    least = belt_section(belt).bending.smallest_sheave * (BACK_BEND if back else 1.0)
    return Bend(belt.run[smallest], diameter, least)
