"""How a build turns, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.vehicle import Steering
from beltwright.physics.arrays import Array
from beltwright.physics.steering import (
    TurningCircle,
    arm_turned_by_rod,
    ideal_outer_angle,
    scrub_radius,
    steer_error,
    turning_circle,
)
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal
from beltwright.review.stability.centre_of_gravity import (
    front_radius,
    track_front,
    wheelbase,
)

LOCK_STEPS = np.linspace(0.0, 1.0, 13)
"""Parts of the full lock at which the linkage is looked at."""


class Lock(NamedTuple):
    """The steering over its lock.

    inner  steer angle of the inner wheel [rad], shape (steps, ...)
    outer  what the linkage gives the outer wheel [rad], NaN where the rod cannot follow
    error  how far the outer wheel steers too far [rad]
    """

    inner: Array
    outer: Array
    error: Array


def described(case: Case) -> Steering:
    """The steering of the build; raises NotKnownError where there is none."""
    steering = case.build.steering
    if steering is None:
        raise NotKnownError(
            "steering",
            "Measure between the kingpins, where the end of the left steering arm sits from its "
            'kingpin, and the angle at full lock, and write [steering] kingpins = "560 mm", '
            'arm = ["-95 mm", "-25 mm"], lock = "35 deg".',
        )
    return steering


def lock(case: Case) -> Lock:
    """The linkage from straight ahead to full lock, the left wheel on the inside."""
    return case.once("steering.lock", lambda: _lock(case))


def _lock(case: Case) -> Lock:
    steering = described(case)
    kingpins = case.si(steering.kingpins)
    arm_x, arm_y = (case.si(part) for part in steering.arm)
    half, base = 0.5 * kingpins, wheelbase(case)
    inner = LOCK_STEPS[:, None] * case.si(steering.lock)
    outer = arm_turned_by_rod(
        (base, half),
        (base + arm_x, half + arm_y),
        (base, -half),
        (base + arm_x, -half - arm_y),
        inner,
    )
    return Lock(inner, outer, steer_error(inner, outer, kingpins, base))


def circle(case: Case) -> TurningCircle:
    """The turning circle at full lock; the ideal outer angle stands in where the rod toggles, or
    turns the outer wheel the other way."""
    return case.once("steering.circle", lambda: _circle(case))


def _circle(case: Case) -> TurningCircle:
    steering = described(case)
    kingpins, base = case.si(steering.kingpins), wheelbase(case)
    inner = lock(case).inner[-1]
    ideal = ideal_outer_angle(inner, kingpins, base)
    outer = np.where(lock(case).outer[-1] > 0.0, lock(case).outer[-1], ideal)
    return turning_circle(inner, outer, kingpins, base, scrub(case))


def lock_for(case: Case, radius: float) -> float:
    """The steer angle of the inner wheel at which the middle of the rear axle runs on a radius,
    in the nominal build [rad]; no more than full lock."""
    inner, outer = (part[1:, 0] for part in (lock(case).inner, lock(case).outer))
    turned = 2.0 / (nominal(wheelbase(case)) * (1.0 / np.tan(inner) + 1.0 / np.tan(outer)))
    follows = np.isfinite(turned)
    angles = np.append(0.0, inner[follows])
    return float(np.interp(1.0 / radius, np.append(0.0, turned[follows]), angles))


def scrub(case: Case) -> Array:
    """Scrub radius of the front wheels [m], from kingpin axis to middle of the tyre on the ground.

    Measured, or from track, kingpin distance and how far the kingpins lean.
    """
    steering = described(case)
    if steering.scrub_radius is not None:
        return case.si(steering.scrub_radius)
    leans = case.suppose(
        None,
        "steering.kingpin_inclination",
        "0 deg",
        Kind.ANGLE,
        "the kingpins are taken to stand upright (assumed); measure the scrub radius where they "
        "lean",
    )
    offset = 0.5 * (track_front(case) - case.si(steering.kingpins))
    return scrub_radius(offset, leans, front_radius(case))
