"""The topics of the review, in the order in which they are read."""

from collections.abc import Callable, Iterator

from beltwright.review.belt.clearance_findings import questions as clearance
from beltwright.review.belt.findings import questions as belt
from beltwright.review.belt.force_findings import questions as belt_force
from beltwright.review.brake.findings import questions as brake
from beltwright.review.case import Case
from beltwright.review.draft import Ask
from beltwright.review.driveline.direction import questions as direction
from beltwright.review.driveline.speed import questions as speed
from beltwright.review.engine.findings import questions as engine
from beltwright.review.gearbox.findings import questions as gearbox
from beltwright.review.guard.keepers import questions as keepers
from beltwright.review.money.findings import questions as money
from beltwright.review.motion.findings import questions as motion
from beltwright.review.shaft.axle_findings import questions as axle
from beltwright.review.shaft.findings import questions as shaft
from beltwright.review.stability.findings import questions as stability
from beltwright.review.steering.findings import questions as steering
from beltwright.review.thread.findings import questions as thread


def plates(case: Case) -> Iterator[Ask]:
    """Plates and brackets, only loaded for a build that has some."""
    if case.build.plate:
        from beltwright.review.plate.findings import questions

        yield from questions(case)


def throttle(case: Case) -> Iterator[Ask]:
    """The throttle, only loaded for a build that describes it."""
    if case.build.throttle:
        from beltwright.review.throttle.findings import questions

        yield from questions(case)


def guards(case: Case) -> Iterator[Ask]:
    """Guards and keepers, only loaded for a build that has some; then what lacks them."""
    if case.build.guard:
        from beltwright.review.guard.findings import questions

        yield from questions(case)
    yield from keepers(case)


TOPICS: dict[str, Callable[[Case], Iterator[Ask]]] = {
    "Speed": speed,
    "Direction": direction,
    "Belt": belt,
    "Clearance": clearance,
    "Belt force": belt_force,
    "Engine": engine,
    "Pull and climb": motion,
    "Gearbox": gearbox,
    "Brake": brake,
    "Throttle": throttle,
    "Stability": stability,
    "Steering": steering,
    "Shafts and hubs": shaft,
    "Axle and chain": axle,
    "Guards": guards,
    "Plates and brackets": plates,
    "Threads": thread,
    "Money": money,
}
