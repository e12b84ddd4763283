"""Where the weight of a build sits: bare, with its driver, with its loads."""

from typing import NamedTuple

import numpy as np

from beltwright.build.vehicle import Scales
from beltwright.physics.arrays import Array
from beltwright.physics.motion.chassis import Chassis
from beltwright.physics.stability.centre_of_gravity import (
    Balance,
    ahead_of_rear_axle,
    height_from_raised_end,
    left_of_middle,
    put_together,
)
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.pulleys import rolling_share

WEIGH = (
    "Put bathroom scales under the front wheels, then under the rear ones, machine level and "
    'driver off, and write scales = { front = "88 kg", rear = "126 kg" }.'
)
RAISE = (
    "Lift the front wheels on blocks of about a third of the wheelbase, rear wheels free to roll "
    'between chocks, read the rear scales again, and write raised_by = "400 mm" and '
    'rear_raised = "138 kg" under scales.'
)


class State(NamedTuple):
    """The machine as it drives: with the driver alone, or with everything it carries."""

    name: str
    balance: Balance
    chassis: Chassis


def wheelbase(case: Case) -> Array:
    """Distance from rear to front axle [m]."""
    return case.need(
        case.build.machine.wheelbase,
        "machine.wheelbase",
        'Measure from axle centre to axle centre and write it, for example wheelbase = "1235 mm".',
    )


def track_rear(case: Case) -> Array:
    """Distance between the middles of the rear tyres [m]."""
    return case.need(
        case.build.machine.track_rear,
        "machine.track_rear",
        "Measure between the middles of the rear tyres on the ground and write it, for example "
        'track_rear = "710 mm".',
    )


def track_front(case: Case) -> Array:
    """Distance between the middles of the front tyres [m]."""
    return case.need(
        case.build.machine.track_front,
        "machine.track_front",
        "Measure between the middles of the front tyres on the ground and write it, for example "
        'track_front = "690 mm".',
    )


def front_radius(case: Case) -> Array:
    """From front axle centre to the ground, tyre loaded [m]."""
    tyre = case.build.wheels.front
    outside = case.need(
        tyre.outside if tyre else None,
        "wheels.front",
        'Read the size off the side of the front tyre and write it, for example front = "15x6-6".',
    )
    return 0.5 * outside * rolling_share(case)


def rear_radius(case: Case) -> Array:
    """From rear axle centre to the ground, tyre loaded [m]."""
    tyre = case.build.wheels.rear
    outside = case.need(
        tyre.outside if tyre else None,
        "wheels.rear",
        'Read the size off the side of the rear tyre and write it, for example rear = "20x8-8".',
    )
    return 0.5 * outside * rolling_share(case)


def bare(case: Case) -> Balance:
    """Mass and centre of gravity without driver and loads."""
    return case.once("centre_of_gravity.bare", lambda: _bare(case))


def states(case: Case) -> tuple[State, ...]:
    """The machine with its driver alone and, where it carries something, fully laden."""
    return case.once("centre_of_gravity.states", lambda: _states(case))


def laden(case: Case) -> State:
    """The machine with all that it carries."""
    return states(case)[-1]


def empty(case: Case) -> State:
    """The machine as it stands parked, without driver and loads."""
    return case.once(
        "centre_of_gravity.empty",
        lambda: State("driver off", bare(case), _chassis(case, bare(case))),
    )


def _bare(case: Case) -> Balance:
    scales = case.build.machine.scales
    front = case.need(scales.front if scales else None, "machine.scales", WEIGH)
    assert scales is not None
    rear = case.si(scales.rear)
    weighed = front + rear
    mass = weighed if case.build.machine.mass is None else case.si(case.build.machine.mass)
    ahead = ahead_of_rear_axle(front, rear, wheelbase(case))
    return Balance(
        mass=np.asarray(mass),
        x=ahead,
        y=_left_of_middle(case, scales),
        z=_height(case, scales, ahead, weighed),
    )


def _left_of_middle(case: Case, scales: Scales) -> Array:
    if scales.left is None or scales.right is None:
        return case.suppose(
            None,
            "machine.left_of_middle",
            "0 ± 20 mm",
            Kind.LENGTH,
            "no scale readings left and right: the weight is taken to sit within 20 mm of the "
            "middle (assumed)",
        )
    track = 0.5 * (track_front(case) + track_rear(case))
    return left_of_middle(case.si(scales.left), case.si(scales.right), track)


def _height(case: Case, scales: Scales, ahead: Array, weighed: Array) -> Array:
    raised = case.need(scales.raised_by, "machine.scales.raised_by", RAISE)
    rear_raised = case.need(scales.rear_raised, "machine.scales.rear_raised", RAISE)
    if np.any(raised >= wheelbase(case)):
        raise NotKnownError(
            "machine.scales.raised_by",
            RAISE,
            "The front cannot have been lifted by as much as the wheelbase is long.",
        )
    return height_from_raised_end(
        1.0 - rear_raised / weighed,
        ahead,
        wheelbase(case),
        front_radius(case),
        rear_radius(case),
        raised,
    )


def _states(case: Case) -> tuple[State, ...]:
    machine = bare(case)
    driven = _with(machine, driver(case))
    alone = State("driver alone", driven, _chassis(case, driven))
    loads = [_load(case, number) for number in range(len(case.build.machine.load))]
    if not loads:
        return (alone,)
    full = _with(driven, *loads)
    return (alone, State("fully laden", full, _chassis(case, full)))


def driver(case: Case) -> Balance:
    """The seated driver: mass and centre of gravity."""
    seated = case.build.machine.driver
    mass = case.need(
        seated.mass if seated else None,
        "machine.driver",
        "Sit on the machine, have the hip joint measured from the rear axle and the ground, and "
        'write driver = { mass = "82 kg", hip = ["330 mm", "0 mm", "610 mm"] }.',
    )
    assert seated is not None
    x, y, z = (case.si(place) for place in seated.hip)
    why = (
        "a seated body's centre of mass lies about 120 mm ahead of and 180 mm above the hip "
        "(segment tables after D. A. Winter, Biomechanics and Motor Control of Human Movement, "
        "from memory)"
    )
    ahead = case.suppose(None, "driver.ahead_of_hip", "120 ± 40 mm", Kind.LENGTH, why)
    above = case.suppose(None, "driver.above_hip", "180 ± 40 mm", Kind.LENGTH, why)
    return Balance(mass, x + ahead, y, z + above)


def _load(case: Case, number: int) -> Balance:
    load = case.build.machine.load[number]
    x, y, z = (case.si(place) for place in load.at)
    return Balance(case.si(load.mass), x, y, z)


def _with(first: Balance, *others: Balance) -> Balance:
    parts = (first, *others)
    return put_together(
        [part.mass for part in parts],
        [part.x for part in parts],
        [part.y for part in parts],
        [part.z for part in parts],
    )


def _chassis(case: Case, balance: Balance) -> Chassis:
    return Chassis(balance.mass, wheelbase(case), balance.x, balance.z)
