"""Readings that are dangerous whatever the plan expected."""

from collections.abc import Callable
from typing import NamedTuple

from beltwright.physics.brake.stopping import stopping_distance
from beltwright.physics.proving.agreement import expanded_uncertainty
from beltwright.quantity import Kind
from beltwright.review.brake.findings import BRAKE_CAUTION
from beltwright.review.case import Case, NotKnownError
from beltwright.review.gearbox.heat import oil_limit
from beltwright.review.nominal import nominal
from beltwright.review.proving.comparing import Comparison
from beltwright.review.proving.conditions import driven
from beltwright.review.proving.readings import braked_from, shortest_path
from beltwright.review.road_words import distance_words

HEAT_CAUTION = (
    "Do not open a hot gearbox: oil and its vapour come out under pressure. Let it cool first, and "
    "keep hands and dry grass away from the case."
)


class Danger(NamedTuple):
    """Why a reading stops the drives, and what to do first."""

    why: str
    remedy: str
    caution: str


def danger_of(case: Case, compared: Comparison) -> Danger | None:
    """What is dangerous about a reading, None where nothing is."""
    judges: dict[str, Callable[[Case, Comparison], Danger | None]] = {
        "stop": _stop,
        "temperature": _hot,
    }
    judge = judges.get(compared.reading.what)
    return judge(case, compared) if judge else None


def _stop(case: Case, compared: Comparison) -> Danger | None:
    drive = compared.reading.drive
    there = driven(case, drive)
    path = nominal(compared.measured)
    remedy = (
        "Do not drive faster than walking pace. Bed the lining in, take up the slack of the cable, "
        "look for oil on the lining, then measure again; if it stays, give the pedal more lever or "
        "brake the other axle too."
    )
    held = shortest_path(drive, there)
    longest = nominal(held) + expanded_uncertainty(held)
    if not drive.locked and path - compared.measured_doubt > longest:
        why = (
            f"The tyres would have stopped it within {distance_words(case, longest)} even where "
            "they grip worst: the brake is far too weak."
        )
        return Danger(why, remedy, BRAKE_CAUTION)
    goal = case.build.goals.stop_within
    if goal is None or goal.high is None:
        return None
    whole = path + _reaction_way(case, compared)
    if whole <= goal.high:
        return None
    why = (
        f"With a driver's reaction it stands after {distance_words(case, whole)}, farther than the "
        f"goal of {goal.text}."
    )
    return Danger(why, remedy, BRAKE_CAUTION)


def _reaction_way(case: Case, compared: Comparison) -> float:
    """How far it rolls until the driver's foot is on the pedal [m]."""
    drive = compared.reading.drive
    there = driven(case, drive)
    brake = case.build.brake
    reaction = there.suppose(
        brake.reaction if brake else None,
        "brake.reaction",
        "1 ± 0.3 s",
        Kind.TIME,
        "an alert driver's foot from seeing to braking (common practice, no source)",
    )
    speed = braked_from(drive, there)
    return float(stopping_distance(speed[0], float("inf"), reaction[0]))


def _hot(case: Case, compared: Comparison) -> Danger | None:
    try:
        limit = oil_limit(driven(case, compared.reading.drive))
    except NotKnownError:
        return None
    if nominal(compared.measured) <= limit:
        return None
    show = case.units.show
    why = (
        f"That is over the {show(limit, Kind.TEMPERATURE)} that oil and seals stand: the oil thins "
        "and burns, seals harden and leak."
    )
    remedy = (
        "Let it cool before the next drive, then drive in a slower gear or with less load, check "
        "the oil's level and grade, and clean the case so that air reaches it."
    )
    return Danger(why, remedy, HEAT_CAUTION)
