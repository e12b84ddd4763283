"""The topics of the review, in the order in which they are read."""

from collections.abc import Callable, Iterator

from beltwright.review import (
    axle_findings,
    belt_findings,
    belt_force_findings,
    brake_findings,
    clearance_findings,
    direction,
    engine_findings,
    gearbox_findings,
    money_findings,
    motion_findings,
    shaft_findings,
    speed,
    stability_findings,
    steering_findings,
    thread_findings,
)
from beltwright.review.case import Case
from beltwright.review.draft import Ask

TOPICS: dict[str, Callable[[Case], Iterator[Ask]]] = {
    "Speed": speed.questions,
    "Direction": direction.questions,
    "Belt": belt_findings.questions,
    "Clearance": clearance_findings.questions,
    "Belt force": belt_force_findings.questions,
    "Engine": engine_findings.questions,
    "Pull and climb": motion_findings.questions,
    "Gearbox": gearbox_findings.questions,
    "Brake": brake_findings.questions,
    "Stability": stability_findings.questions,
    "Steering": steering_findings.questions,
    "Shafts and hubs": shaft_findings.questions,
    "Axle and chain": axle_findings.questions,
    "Threads": thread_findings.questions,
    "Money": money_findings.questions,
}
