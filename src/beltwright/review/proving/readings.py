"""What was read on the drives, and what the plan expects under the same conditions, as numbers."""

from collections.abc import Callable, Iterator
from functools import partial
from typing import NamedTuple

import numpy as np

from beltwright.build.drive import Drive
from beltwright.build.driveline import Belt
from beltwright.physics.arrays import Array
from beltwright.physics.belt.tensioning import press_force
from beltwright.physics.brake.stopping import deceleration, stopping_distance
from beltwright.physics.gearbox.heat import Stage
from beltwright.physics.gearbox.heat import warm_up as follow
from beltwright.physics.motion.climb import climb_by_power
from beltwright.physics.proving.readings import counted_ratio, counted_roll_out, mean_speed
from beltwright.quantity import Kind, Quantity
from beltwright.review.belt.force import press_test, pulls, static_pull
from beltwright.review.belt.layout import belt_layout, loose_belt
from beltwright.review.brake.braking import brake_force, described, grip_force
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.pulleys import roll_out
from beltwright.review.driveline.routes import route_to
from beltwright.review.driveline.speed import governed, idle, speed_in
from beltwright.review.engine.torque import peak_torque
from beltwright.review.gearbox.heat import FIT_STEPS, thermal_in, working_gear
from beltwright.review.motion.pull import climb, geared, run_up_on, top_speed_on
from beltwright.review.proving.conditions import by_hand, gear_of, ground_of, slope_of
from beltwright.review.stability.centre_of_gravity import laden

Numbers = Callable[[Case], Array]
"""Gives numbers of a case that is under the conditions of the drive."""


class Reading(NamedTuple):
    """One thing that was read on a drive.

    what       the last step of its finding's id
    words      what it is called
    kind       of both numbers
    measured   as read [SI]
    predicted  as the plan expects it under the same conditions [SI]
    side       0 where both should be alike; 1 where the reading shows that the plan's number is at
               least so much, −1 where it shows that it is at most so much
    """

    drive: Drive
    what: str
    words: str
    kind: Kind
    measured: Numbers
    predicted: Numbers
    side: int = 0


def readings(case: Case) -> Iterator[Reading]:
    """Every reading of every drive, in file order."""
    for drive in case.build.drive:
        yield from _of_gears(drive)
        yield from _of_ground(drive)
        yield from _of_belt(case, drive)


def _of_gears(drive: Drive) -> Iterator[Reading]:
    if drive.engine_turns is not None and drive.wheel_turns is not None:
        counted = partial(_counted, counted_ratio, drive.engine_turns, drive.wheel_turns)
        words = "turns of the engine for one of the wheels"
        yield Reading(drive, "ratio", words, Kind.RATIO, counted, partial(_ratio, drive))
    if drive.rolled is not None and drive.wheel_turns is not None:
        rolled = partial(_counted, counted_roll_out, drive.rolled, drive.wheel_turns)
        yield Reading(drive, "roll_out", "roll-out", Kind.LENGTH, rolled, roll_out)
    if drive.speed is not None or drive.distance is not None:
        found = partial(_speed_read, drive)
        yield Reading(drive, "speed", "speed", Kind.SPEED, found, partial(expected_speed, drive))


def _of_ground(drive: Drive) -> Iterator[Reading]:
    if drive.stopped_in is not None:
        stop = partial(_read, drive.stopped_in)
        expected = partial(brake_path_expected, drive)
        yield Reading(drive, "stop", "brake path", Kind.LENGTH, stop, expected)
    if drive.case is not None:
        hot = partial(_read, drive.case)
        words = "case temperature"
        expected = partial(_case_temperature, drive)
        yield Reading(drive, "temperature", words, Kind.TEMPERATURE, hot, expected)
    if drive.climbed is not None and drive.slope is not None:
        slope = partial(_read, drive.slope)
        side = 1 if drive.climbed == "yes" else -1
        words = "climb" if drive.climbed == "yes" else f"climb, {drive.climbed}"
        yield Reading(drive, "climb", words, Kind.ANGLE, slope, partial(_climb, drive), side)
    if drive.reached_in is not None and drive.reached is not None:
        took = partial(_read, drive.reached_in)
        yield Reading(drive, "run_up", "time to speed", Kind.TIME, took, partial(_run_up, drive))


def _of_belt(case: Case, drive: Drive) -> Iterator[Reading]:
    belt = next((each for each in case.build.belt if each.name == drive.belt), None)
    if belt is None:
        return
    if drive.slack is not None:
        slack = partial(_read, drive.slack)
        yield Reading(
            drive, "slack", f"slack of the {belt.name}", Kind.LENGTH, slack, partial(_slack, belt)
        )
    if drive.press is not None:
        press = partial(_read, drive.press)
        words = f"press test of the {belt.name}"
        yield Reading(drive, "press", words, Kind.FORCE, press, partial(_press, drive, belt))


def _read(quantity: Quantity, case: Case) -> Array:
    return case.si(quantity)


def _counted(
    formula: Callable[[Array, Array], Array], first: Quantity, second: Quantity, case: Case
) -> Array:
    return np.atleast_1d(formula(case.si(first), case.si(second)))


def _speed_read(drive: Drive, case: Case) -> Array:
    if drive.speed is not None:
        return case.si(drive.speed)
    assert drive.distance is not None
    assert drive.time is not None
    return np.atleast_1d(mean_speed(case.si(drive.distance), case.si(drive.time)))


def _ratio(drive: Drive, case: Case) -> Array:
    slowly = by_hand(case)
    route = route_to(slowly, slowly.build.wheels.shaft)
    return np.atleast_1d(route.total_ratio(gear_of(slowly, drive)))


def expected_speed(drive: Drive, case: Case) -> Array:
    """The speed of a drive at its engine speed; governed, with the drop that its drag makes."""
    gear = gear_of(case, drive)
    if drive.engine == "idle":
        return np.atleast_1d(speed_in(case, gear, idle(case)))
    if drive.engine != "governed":
        return np.atleast_1d(speed_in(case, gear, case.si(drive.engine)))
    try:
        top = top_speed_on(case, ground_of(case), gear, slope_of(case, drive))
    except NotKnownError:
        # not weighed yet: the drop under load is then a part of what is left unexplained
        return np.atleast_1d(speed_in(case, gear, governed(case)))
    return np.atleast_1d(top.speed)


def braked_from(drive: Drive, case: Case) -> Array:
    """The speed from which a drive was braked [m/s]."""
    if drive.braked_from is not None:
        return case.si(drive.braked_from)
    return expected_speed(drive, case)


def brake_path_expected(drive: Drive, case: Case) -> Array:
    """The brake path of a drive [m], by its brake, its tyres, or whichever gives in first."""
    by_brake = np.inf if drive.locked else brake_force(case)
    return _path(drive, case, by_brake, held=drive.locked is not False)


def shortest_path(drive: Drive, case: Case) -> Array:
    """The brake path of a drive with its wheels locked [m]."""
    described(case)
    return _path(drive, case, np.inf, held=True)


def _path(drive: Drive, case: Case, force: Array | float, *, held: bool) -> Array:
    ground, state, slope = ground_of(case), laden(case), slope_of(case, drive)
    most = grip_force(case, state, ground, slope) if held else np.inf
    rate = deceleration(state.balance.mass, force, most, slope, ground.rolling)
    return np.atleast_1d(stopping_distance(braked_from(drive, case), rate))


def _case_temperature(drive: Drive, case: Case) -> Array:
    if case.build.gearbox is None:
        raise NotKnownError("gearbox", "Describe the gearbox whose case was felt.")
    air = case.need(
        drive.air,
        f"drive.{drive.name}.air",
        'Write how warm the air was, for example air = "18 °C": the case warms from there.',
    )
    assert drive.after is not None
    gear = working_gear(case) if drive.gear is None else gear_of(case, drive)
    box = thermal_in(case, gear)
    stage = Stage(case.si(drive.after), box.loss, box.conductance)
    run = follow([stage], box.capacity, air, air, FIT_STEPS)
    return np.atleast_1d(run.temperature[..., -1])


def _climb(drive: Drive, case: Case) -> Array:
    """The slope at which what ended the climb should give in; the least where nothing did [rad]."""
    gear = gear_of(case, drive)
    found = climb(case, ground_of(case), gear)
    ends = {
        "stalled": found.power,
        "wheels spun": found.grip,
        "front lifted": found.lift,
        "yes": found.slope,
    }
    assert drive.climbed is not None
    if drive.climbed in ends:
        return np.atleast_1d(ends[drive.climbed])
    holds = [np.atleast_1d(pulls(case, belt).grip) for belt in case.build.belt]
    slips = np.fmin.reduce(np.broadcast_arrays(*holds))  # of those that run as drawn
    torque = np.clip(slips, 0.0, peak_torque(case))  # a loose belt carries nothing
    thrust = geared(case, gear).thrust(torque)
    rolling = ground_of(case).rolling
    return np.atleast_1d(climb_by_power(laden(case).chassis.weight, thrust, rolling))


def _run_up(drive: Drive, case: Case) -> Array:
    assert drive.reached is not None
    gear = gear_of(case, drive)
    run = run_up_on(case, ground_of(case), gear, case.si(drive.reached))
    return np.atleast_1d(run.time)


def _slack(belt: Belt, case: Case) -> Array:
    layout = belt_layout(case, belt)
    return layout.where_it_runs(loose_belt(case, belt).belt.slack)


def _press(drive: Drive, belt: Belt, case: Case) -> Array:
    assert drive.moved is not None
    pull = static_pull(case, belt) / belt.count
    length = press_test(case, belt).length
    return np.atleast_1d(press_force(pull, case.si(drive.moved), length))
