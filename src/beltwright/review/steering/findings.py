"""What the review says about the steering: turning circle, error over the lock, effort."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.physics.gravity import STANDARD_GRAVITY
from beltwright.physics.steering import standing_steer_torque
from beltwright.quantity import Kind
from beltwright.review.angle_words import degrees
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.motion.ground import grounds
from beltwright.review.nominal import nominal
from beltwright.review.road_words import SLOPE_UNIT, distance_unit, distance_words
from beltwright.review.stability.centre_of_gravity import laden, wheelbase
from beltwright.review.stability.tipping import front_share
from beltwright.review.steering.turning import Lock, circle, described, lock, scrub

MOST_ERROR = np.radians(6.0)
"""Error of the outer wheel that a slow machine bears [rad] (common practice, no source)."""

STEERING_CAUTION = (
    "Steering that fails throws the machine off its way: every joint needs its split pin or lock "
    "nut, and no welded arm or bent rod goes back in."
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the steering; one alone where it is not described."""
    yield Ask("steering.turning_circle", "Turning circle", partial(_turning_circle, case))
    if case.build.steering is not None:
        yield Ask("steering.error", "Steering error of the front wheels", partial(_error, case))
        yield Ask("steering.effort", "Effort to steer on the spot", partial(_effort, case))


def _turning_circle(case: Case) -> Draft:
    turning = circle(case)
    across = np.atleast_1d(2.0 * turning.outer_front)
    length = partial(distance_words, case)
    return Draft(
        kind=Kind.LENGTH,
        unit=distance_unit(case),
        value=across,
        verdict=Verdict.SOUND,
        meaning=f"It turns between kerbs {length(nominal(across))} apart; the middle of the rear "
        f"axle runs on a radius of {length(nominal(turning.rear_middle))}.",
        formula="R = wheelbase × (cot inner + cot outer) / 2; outer tyre: √((R + kingpins/2)² + "
        "wheelbase²) + scrub radius",
        working=f"inner {degrees(nominal(lock(case).inner[-1]))}, {_outer(case)}, R = "
        f"{length(nominal(turning.rear_middle))}",
        source="geometry of Ackermann's condition; J. Y. Wong, Theory of Ground Vehicles, "
        "section 5.1, from memory",
        leaves_out="tyres that slip; a locked axle, which pushes the circle wider",
    )


def _error(case: Case) -> Draft:
    whole = lock(case)
    worst = np.atleast_1d(np.max(np.abs(whole.error), axis=0))
    toggles = not np.isfinite(worst[0])
    return Draft(
        kind=Kind.ANGLE,
        value=worst,
        at_most=MOST_ERROR,
        worst=Verdict.STOP if toggles else Verdict.MARGINAL,
        stops=~np.isfinite(worst),
        unit=SLOPE_UNIT,
        says="the rod goes over centre" if toggles else "",
        meaning="The tie rod cannot follow up to full lock: it goes over centre and the wheels "
        "jam or flip."
        if toggles
        else f"The outer wheel is up to {degrees(nominal(worst))} off its own circle and "
        "scrubs by that much.",
        remedy="Limit the lock with stops on the axle well before the rod goes over centre."
        if toggles
        else _arm_remedy(case)
        if nominal(worst) > MOST_ERROR
        else "",
        formula="error = outer − arccot(cot inner + kingpins / wheelbase), outer from the tie rod "
        "whose length stays the same",
        working=_error_working(whole),
        source="Ackermann's condition; loop closure of the plane four-bar (Freudenstein 1955); "
        "limit: common practice, no source",
        leaves_out="a steep drag link, play in joints, kingpins that lean",
        caution=STEERING_CAUTION,
    )


def _outer(case: Case) -> str:
    """What the outer wheel does at full lock, or is taken to do where the rod fails it."""
    outer = nominal(lock(case).outer[-1])
    return f"outer {degrees(outer)}" if outer > 0.0 else "outer on its own circle (the rod fails)"


def _arm_remedy(case: Case) -> str:
    along, aside = (nominal(case.si(part)) for part in described(case).arm)
    aimed = along * nominal(case.si(described(case).kingpins)) / (2.0 * nominal(wheelbase(case)))
    return (
        "Aim the steering arms at the middle of the rear axle, seen from above: their ends should "
        f"sit about {_inwards(case, aimed)}, and sit {_inwards(case, aside)} now."
    )


def _inwards(case: Case, left: float) -> str:
    """Where the end of the left arm sits beside its kingpin, in words."""
    return f"{case.units.show(abs(left), Kind.LENGTH)} {'outwards' if left > 0.0 else 'inwards'}"


def _error_working(whole: Lock) -> str:
    """The step of the lock at which the outer wheel is farthest off, as far as the rod follows."""
    inner, outer, error = (part[:, 0] for part in (whole.inner, whole.outer, whole.error))
    worst = int(np.argmax(np.where(np.isfinite(error), np.abs(error), 0.0)))
    at, found, off = (float(np.degrees(part[worst])) for part in (inner, outer, error))
    return f"inner {at:.1f}°: outer {found:.2f}°, its own circle {found - off:.2f}°, {off:.2f}° off"


def _effort(case: Case) -> Draft:
    tyre = case.build.wheels.front
    width = case.need(
        tyre.width if tyre else None,
        "wheels.front",
        'Read the size off the side of the front tyre and write it, for example front = "15x6-6".',
    )
    usual = grounds(case)[0]
    load = front_share(laden(case)) * laden(case).balance.mass * STANDARD_GRAVITY / 2.0
    torque = np.atleast_1d(2.0 * standing_steer_torque(load, usual.grip, width, scrub(case)))
    show = case.units.show
    return Draft(
        kind=Kind.TORQUE,
        value=torque,
        verdict=Verdict.SOUND,
        meaning=f"Both kingpins together need {show(nominal(torque), Kind.TORQUE)} standing on "
        f"{usual.name}, fully laden; a rolling wheel needs far less.",
        formula="torque = 2 × grip × load × √(tyre width² / 8 + scrub radius²)",
        working=f"2 × {nominal(usual.grip):.2f} × {show(nominal(load), Kind.FORCE)} × "
        f"√(({show(nominal(width), Kind.LENGTH)})² / 8 + "
        f"({show(nominal(scrub(case)), Kind.LENGTH)})²) = {show(nominal(torque), Kind.TORQUE)}",
        source="Gough's estimate of parking torque, from memory, medium",
        leaves_out="friction in kingpins and linkage; caster",
    )
