"""What takes up a belt's length: the arm of its clutch idler, or the slot of a shaft."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Arm as ArmTable
from beltwright.build.driveline import Belt, Idler, Pulley, Shaft
from beltwright.physics.arrays import Array
from beltwright.physics.belt.fit import Fit, fit_to_length
from beltwright.physics.belt.mount import Arm, Mount, Slot
from beltwright.physics.belt.run import Run
from beltwright.quantity import Kind, Quantity
from beltwright.review.belt.wheels import BeltWheel, shaft_of
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal

WIDEST_SWING = np.radians(120.0)
"""How far an arm is taken to swing where no stop is written [rad]: past a right angle to the belt
it only loosens again."""


class Mover(NamedTuple):
    """A pulley or idler that moves to take up the belt.

    of       the idler, or the shaft that slides in its slot
    place    in the run
    mount    the arm or the slot
    loose    position with the clutch down, or at the loose end of the slot [rad or m]
    tight    position at the stop [rad or m]
    fixed    whether the position in drive is written rather than left to the belt
    driving  that position [rad]; NaN where it is left to the belt
    """

    of: Idler | Shaft
    place: int
    mount: Mount
    loose: Array
    tight: Array
    fixed: bool
    driving: Array


def mover_of(
    case: Case, belt: Belt, wheels: Sequence[BeltWheel], run: Run, pitch_length: Array
) -> Mover | None:
    """What takes up a belt's length: an arm before a slot; None where everything stands still.

    Raises NotKnownError where two arms of one belt both wait for its length.
    """
    arms = [
        (place, wheel.of)
        for place, wheel in enumerate(wheels)
        if isinstance(wheel.of, Idler) and wheel.of.arm is not None
    ]
    if len(arms) > 1:
        raise NotKnownError(
            f"idler.{arms[1][1].name}.at",
            "Work out one at a time: write where the other stands in drive, for example "
            'at = ["560 mm", "90 mm"].',
            f"Two idlers of the {belt.name} swing on arms.",
        )
    if arms:
        return _on_arm(case, *arms[0], run, pitch_length)
    slots = [
        (place, wheel.of)
        for place, wheel in enumerate(wheels)
        if isinstance(wheel.of, Pulley) and shaft_of(case, wheel.of).slot_to is not None
    ]
    return _in_slot(case, slots[0][0], shaft_of(case, slots[0][1]), run) if slots else None


def _on_arm(case: Case, place: int, idler: Idler, run: Run, pitch_length: Array) -> Mover:
    arm = idler.arm
    assert arm is not None
    mount = Arm(case.si(arm.pivot[0]), case.si(arm.pivot[1]), case.si(arm.length))
    fixed = isinstance(arm.driving, Quantity)
    tight = _stop(case, idler, arm, place, mount, run, pitch_length)
    loose = _within_half_a_turn(case.si(arm.released), tight)
    driving = (
        _within_half_a_turn(case.si(arm.driving), tight)
        if isinstance(arm.driving, Quantity)
        else np.full(1, np.nan)
    )
    return Mover(idler, place, mount, loose, tight, fixed, driving)


def _within_half_a_turn(angle: Array, of: Array) -> Array:
    """The same angle, whole turns added until it lies within half a turn of another [rad].

    No arm swings further, and -170° is the same place as 190°; taken as written, the swing would
    lead the long way round to another place where the belt fits.
    """
    turns = np.round((nominal(of) - nominal(angle)) / (2.0 * np.pi))
    return np.asarray(angle + 2.0 * np.pi * turns)


def _stop(
    case: Case,
    idler: Idler,
    arm: ArmTable,
    place: int,
    mount: Arm,
    run: Run,
    pitch_length: Array,
) -> Array:
    """Angle at which the arm meets its stop [rad]."""
    if arm.furthest is not None:
        return case.si(arm.furthest)
    if isinstance(arm.driving, Quantity):
        swing = np.sin(arm.driving.value - arm.released.value)
        way = np.array([1.0 if swing > 0.0 else -1.0])
    else:
        way = _way_to_belt(case.si(arm.released), place, mount, run, pitch_length)
    if case.replaced:
        # candidates may swing different ways, or from another angle
        return np.asarray(case.si(arm.released) + way * WIDEST_SWING)
    stop = arm.released.value + nominal(way) * WIDEST_SWING
    return case.suppose(
        None,
        f"idler.{idler.name}.arm.furthest",
        f"{np.degrees(stop):.6g} deg",
        Kind.ANGLE,
        "no stop is written, so the arm is taken to swing 120° towards the belt (assumed)",
    )


def _way_to_belt(loose: Array, place: int, mount: Arm, run: Run, pitch_length: Array) -> Array:
    """+1 where the nearer of the two swings that tighten the belt goes counter-clockwise."""
    swings = []
    for way in (1.0, -1.0):
        fitted = fit_to_length(run, place, mount, loose, loose + way * WIDEST_SWING, pitch_length)
        swing = np.abs(fitted.position - loose)
        swings.append(np.where(fitted.fit == Fit.FITS, swing, np.inf))
    return np.atleast_1d(np.where(swings[0] <= swings[1], 1.0, -1.0))


def _in_slot(case: Case, place: int, shaft: Shaft, run: Run) -> Mover:
    """Slide a shaft from the end of its slot at which the path is shorter."""
    assert shaft.slot_to is not None
    x, y = case.si(shaft.at[0]), case.si(shaft.at[1])
    to_x, to_y = case.si(shaft.slot_to[0]), case.si(shaft.slot_to[1])
    dx, dy = to_x - x, to_y - y
    far = np.sqrt(dx * dx + dy * dy)
    others = [i for i in range(len(run)) if i != place]
    middle_x = sum(np.asarray(run.x[i]) for i in others) / len(others)
    middle_y = sum(np.asarray(run.y[i]) for i in others) / len(others)
    away = (x - middle_x) * dx + (y - middle_y) * dy > 0.0
    slot = Slot(x, y, np.arctan2(dy, dx))
    loose, tight = np.where(away, 0.0, far), np.where(away, far, 0.0)
    return Mover(shaft, place, slot, loose, tight, False, np.full(1, np.nan))
