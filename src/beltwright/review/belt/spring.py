"""The spring of a belt's idler arm in both clutch positions, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Idler
from beltwright.physics.arrays import Array
from beltwright.physics.belt.spring_arm import balancing_pull, belt_lever
from beltwright.physics.spring import SpringOnArm, spring_on_arm
from beltwright.review.belt.layout import belt_layout
from beltwright.review.belt.task import wheel_named
from beltwright.review.case import Case, NotKnownError


class ArmSpring(NamedTuple):
    """The spring of an idler arm in drive and released.

    idler       its name
    place       in the order of the run
    driving     the spring with the belt driving
    released    the spring with the clutch down
    pull        belt pull that balances it in drive, belt mass left out [N]
    """

    idler: str
    place: int
    driving: SpringOnArm
    released: SpringOnArm
    pull: Array


def sprung_idler(case: Case, belt: Belt) -> Idler | None:
    """The idler of a belt whose arm has a spring."""
    for name in belt.run:
        wheel = wheel_named(case, name)
        if isinstance(wheel, Idler) and wheel.arm is not None and wheel.arm.spring is not None:
            return wheel
    return None


def arm_spring(case: Case, belt: Belt) -> ArmSpring:
    """The spring of the belt's idler arm, by equilibrium of the arm.

    Raises NotKnownError where there is none.
    """
    return case.once(("arm_spring", belt.name), lambda: _arm_spring(case, belt))


def _arm_spring(case: Case, belt: Belt) -> ArmSpring:
    idler = sprung_idler(case, belt)
    if idler is None or idler.arm is None:
        raise NotKnownError(
            f"belt.{belt.name}.tension",
            "Measure the spring of the idler arm (rate, free length, where it hooks) and write it "
            "as spring = { … } of the arm; where no spring tightens the belt, find its pull by a "
            'press test and write it, for example tension = "180 N".',
        )
    layout = belt_layout(case, belt)
    place = belt.run.index(idler.name)
    driving, released = (
        _spring_at(case, idler, angle) for angle in (layout.arm_angle, case.si(idler.arm.released))
    )
    before, after = layout.path.spans[place - 1], layout.path.spans[place]
    lever = belt_lever(
        layout.arm_angle,
        case.si(idler.arm.length),
        (before.heading_x, before.heading_y),
        (after.heading_x, after.heading_y),
    )
    pull = balancing_pull(driving.moment, lever)
    return ArmSpring(idler.name, place, driving, released, pull)


def _spring_at(case: Case, idler: Idler, angle: Array) -> SpringOnArm:
    assert idler.arm is not None
    assert idler.arm.spring is not None
    spring, pivot = idler.arm.spring, idler.arm.pivot
    return spring_on_arm(
        angle,
        (case.si(pivot[0]), case.si(pivot[1])),
        (case.si(spring.arm_hook[0]), case.si(spring.arm_hook[1])),
        (case.si(spring.frame_hook[0]), case.si(spring.frame_hook[1])),
        case.si(spring.free),
        case.si(spring.rate),
        0.0 if spring.initial is None else case.si(spring.initial),
        np.inf if spring.longest is None else case.si(spring.longest),
    )
