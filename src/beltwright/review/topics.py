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
from beltwright.review.driveline.tyres import questions as tyres
from beltwright.review.engine.findings import questions as engine
from beltwright.review.gearbox.findings import questions as gearbox
from beltwright.review.guard.bare import questions as bare
from beltwright.review.guard.keepers import questions as keepers
from beltwright.review.money.findings import questions as money
from beltwright.review.motion.findings import questions as motion
from beltwright.review.shaft.axle_findings import questions as axle
from beltwright.review.shaft.findings import questions as shaft
from beltwright.review.stability.findings import questions as stability
from beltwright.review.steering.findings import questions as steering
from beltwright.review.thread.findings import questions as thread


def speeds(case: Case) -> Iterator[Ask]:
    """Speeds, then what they ask of the tyres."""
    yield from speed(case)
    yield from tyres(case)


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
    yield from bare(case)


def linkage(case: Case) -> Iterator[Ask]:
    """Linkages, only loaded for a build that has some."""
    if case.build.linkage:
        from beltwright.review.linkage.findings import questions

        yield from questions(case)


def first_drive(case: Case) -> Iterator[Ask]:
    """What was read on the drives, only loaded for a build that was driven."""
    if case.build.drive:
        from beltwright.review.proving.findings import questions

        yield from questions(case, lambda: _of_the_plan(case))


def _of_the_plan(case: Case) -> Iterator[Ask]:
    """The questions about the plan itself."""
    for topic, questions in TOPICS.items():
        if topic != FIRST_DRIVE:
            yield from questions(case)


FIRST_DRIVE = "First drive"

TOPICS: dict[str, Callable[[Case], Iterator[Ask]]] = {
    "Speed": speeds,
    "Direction": direction,
    "Belt": belt,
    "Clearance": clearance,
    "Belt force": belt_force,
    "Engine": engine,
    "Pull and climb": motion,
    "Gearbox": gearbox,
    "Brake": brake,
    "Linkages": linkage,
    "Throttle": throttle,
    "Stability": stability,
    "Steering": steering,
    "Shafts and hubs": shaft,
    "Axle and chain": axle,
    "Guards": guards,
    "Plates and brackets": plates,
    "Threads": thread,
    FIRST_DRIVE: first_drive,
    "Money": money,
}
