"""What the brake of a build does, wherever it sits in the driveline, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.vehicle import Brake
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.brake.path import force_through_levers, torque_at_axle
from beltwright.physics.brake.stopping import (
    SlopeHeld,
    brake_force_limits,
    deceleration,
    slope_held_by_brake,
    slope_held_by_grip,
)
from beltwright.physics.brake.torque import (
    BandBrake,
    ShoeBrake,
    band,
    disc_worn_in,
    drum_shoe,
)
from beltwright.physics.motion.chassis import Chassis
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.pulleys import roll_out
from beltwright.review.driveline.routes import Gear, route_to
from beltwright.review.driveline.speed import governed, speed_in, top_gear
from beltwright.review.driveline.stages import Stage
from beltwright.review.motion.ground import Ground
from beltwright.review.nominal import nominal
from beltwright.review.stability.centre_of_gravity import State, empty, states
from beltwright.tables.brake_linings import Lining, brake_linings

SHOES = 2
"""A drum holds one leading and one trailing shoe, whichever way it turns."""

ANY_WIDTH = 1.0
"""The width of a lining only spreads its pressure: any width gives the torque [m]."""

LEAST_DOWNHILL = 0.5
"""Deceleration that must be left on the steepest slope down [m/s²] (assumed, no source)."""


class BrakeTorque(NamedTuple):
    """Torque on the brake's own shaft [N m], driving forwards and rolling back."""

    forwards: Array
    backwards: Array


def described(case: Case) -> Brake:
    """The brake of the build; raises NotKnownError where there is none."""
    brake = case.build.brake
    if brake is None:
        raise NotKnownError(
            "brake",
            "Describe the brake, its lining, its levers and the shaft it holds, for example "
            '[brake] kind = "disc", on = "axle", inner = "38 mm", outer = "58 mm". A machine '
            "whose stop nobody has worked out should not be driven.",
        )
    return brake


def fastest(case: Case) -> Array:
    """The speed that the brake must stop: governed, in the fastest gear [m/s]."""
    return speed_in(case, top_gear(case), governed(case))


def lining(case: Case) -> Lining | None:
    """The row of the lining table, where the builder named one that stands in it."""
    material = described(case).material
    return next((row for row in brake_linings() if row.name == material), None)


def friction(case: Case) -> Array:
    """Friction of lining on metal [1]."""
    row = lining(case)
    low, usual, high, why = (
        (0.28, 0.35, 0.45, "textbooks give modern linings 0.3 to 0.5; name the kind of lining")
        if row is None
        else (row.friction_low, row.friction, row.friction_high, f"{row.source} ({row.status})")
    )
    return case.suppose(
        described(case).friction,
        "brake.friction",
        f"{usual:g} +{high - usual:.6g} -{usual - low:.6g}",
        Kind.RATIO,
        why,
    )


def pedal_force(case: Case) -> Array:
    """What the foot gives in an emergency [N]."""
    return case.suppose(
        described(case).pedal_force,
        "brake.pedal_force",
        "300 ± 100 N",
        Kind.FORCE,
        "a seated driver's foot in an emergency (common practice, no source)",
    )


def pad_force(case: Case) -> Array:
    """Force at the pads, the cam or the pulled end of the band [N]."""
    brake = described(case)
    if not brake.levers and brake.linkage is None:
        raise NotKnownError(
            "brake.levers",
            "Measure both arms of every lever from pedal to brake and write levers = "
            '[{ name = "pedal", pushed = "240 mm", pushing = "45 mm" }].',
        )
    efficiency = case.suppose(
        brake.efficiency,
        "brake.efficiency",
        "80 % ± 10 %",
        Kind.RATIO,
        "what cables, pins and return springs leave of the force (common practice, no source)",
    )
    ratios = [case.si(lever.pushed) / case.si(lever.pushing) for lever in brake.levers]
    if brake.linkage is not None:
        ratios.insert(0, _linkage_ratio(case, brake.linkage))
    return force_through_levers(pedal_force(case), ratios, efficiency)


def _linkage_ratio(case: Case, name: str) -> Array:
    """What the linkage makes of the force on the pedal, at its arm's hole [1]."""
    # only a build whose brake has a rod pays for loading it
    from beltwright.review.linkage.motion import by_name, force_ratio

    return force_ratio(case, by_name(case, name))


def brake_torque(case: Case) -> BrakeTorque:
    """Torque on the shaft that the brake holds [N m]."""
    return case.once("brake.torque", lambda: _brake_torque(case))


def _brake_torque(case: Case) -> BrakeTorque:
    brake = described(case)
    if brake.kind == "disc":
        assert brake.inner is not None
        assert brake.outer is not None
        sizes = (case.si(brake.inner), case.si(brake.outer))
        torque = disc_worn_in(pad_force(case), friction(case), *sizes, brake.faces)
        return BrakeTorque(torque, torque)
    if brake.kind == "drum":
        both = sum(shoe.torque for shoe in shoes(case, brake, ANY_WIDTH))
        return BrakeTorque(np.asarray(both), np.asarray(both))
    helped, against = (way.torque for way in bands(case, brake, ANY_WIDTH))
    if brake.helped:
        return BrakeTorque(helped, against)
    return BrakeTorque(against, helped if brake.helped is False else against)


def shoes(case: Case, brake: Brake, width: ArrayLike) -> tuple[ShoeBrake, ShoeBrake]:
    """The leading and the trailing shoe of a drum."""
    assert brake.radius is not None
    radius = case.si(brake.radius)
    pivot = _shoe_pivot(case, radius) if brake.shoe_pivot is None else case.si(brake.shoe_pivot)
    # the cam usually stands across from the pivot, as far from the centre
    arm = 2.0 * pivot if brake.shoe_arm is None else case.si(brake.shoe_arm)
    begins, ends = brake.shoe or (None, None)
    why = "linings of small drum brakes reach from about 20° to 130° (common practice)"
    first = case.suppose(begins, "brake.shoe.begins", "20 ± 10 deg", Kind.ANGLE, why)
    last = case.suppose(ends, "brake.shoe.ends", "130 ± 15 deg", Kind.ANGLE, why)
    each = pad_force(case) / SHOES
    leading, trailing = (
        drum_shoe(each, arm, pivot, radius, width, friction(case), first, last, leading=leads)
        for leads in (True, False)
    )
    return leading, trailing


def _shoe_pivot(case: Case, radius: Array) -> Array:
    share = case.suppose(
        None,
        "brake.shoe_pivot_share",
        "0.8 ± 0.1",
        Kind.RATIO,
        "the pivots of small drum brakes sit at 0.7 to 0.9 of the radius (common practice)",
    )
    return share * radius


def bands(case: Case, brake: Brake, width: ArrayLike) -> tuple[BandBrake, BandBrake]:
    """A band whose drum helps the pedal, and the same one turning the other way."""
    assert brake.radius is not None
    assert brake.wrap is not None
    wrap, radius = case.si(brake.wrap), case.si(brake.radius)
    helped, against = (
        band(pad_force(case), friction(case), wrap, radius, width, turning_from_anchor=turning)
        for turning in (True, False)
    )
    return helped, against


def pin_pull(case: Case) -> Array:
    """What the pinned end of a band must hold, turning the way in which the drum helps [N]."""
    return np.atleast_1d(bands(case, described(case), ANY_WIDTH)[0].anchor_pull)


class BrakePath(NamedTuple):
    """What lies between the brake and the driven wheels.

    reduction  turns of the brake's shaft for one turn of the wheels' shaft [1], in the gear
               in which the brake is weakest
    stages     every belt, chain, gear pair or gearbox in between
    gear       that gear, None where the gearbox does not lie in between
    """

    reduction: Array
    stages: tuple[Stage, ...]
    gear: Gear | None


def brake_path(case: Case) -> BrakePath:
    """The way from the brake to the driven wheels."""
    return case.once("brake.path", lambda: _brake_path(case))


def _brake_path(case: Case) -> BrakePath:
    on, shaft = described(case).on, case.build.wheels.shaft
    if on == shaft:
        return BrakePath(np.ones(1), (), None)
    wheels, braked = route_to(case, shaft), route_to(case, on)
    gear = top_gear(case)
    names = {stage.name for stage in wheels.stages} ^ {stage.name for stage in braked.stages}
    stages = tuple(s for s in (*wheels.stages, *braked.stages) if s.name in names)
    return BrakePath(
        reduction=wheels.total_ratio(gear) / braked.total_ratio(gear),
        stages=stages,
        gear=gear if any(stage.kind == "gearbox" for stage in stages) else None,
    )


def axle_torque(case: Case) -> BrakeTorque:
    """What the brake is worth at the driven wheels [N m]."""
    torque, path = brake_torque(case), brake_path(case)
    return BrakeTorque(
        torque_at_axle(torque.forwards, path.reduction),
        torque_at_axle(torque.backwards, path.reduction),
    )


def brake_force(case: Case) -> Array:
    """What the brake makes at the ground driving forwards [N]."""
    return np.asarray(axle_torque(case).forwards * 2.0 * np.pi / roll_out(case))


def grip_force(case: Case, state: State, ground: Ground, slope: ArrayLike = 0.0) -> Array:
    """The brake force at which the braked wheels lock [N].

    The rolling drag of a braked wheel takes its part of the grip: a tyre passes no more than
    grip times load along the ground, whatever holds it back. Otherwise mud, which drags most,
    would seem to stop a machine best.
    """
    chassis, driven = state.chassis, case.build.wheels.driven
    left = np.maximum(ground.grip - ground.rolling, 0.0)
    if driven == "all":
        return np.asarray(left * chassis.weight * np.cos(slope))
    share = 1.0 if driven == "front" else 0.0
    return brake_force_limits(chassis, left, share, slope, ground.rolling).usable


class Slowing(NamedTuple):
    """How hard the machine slows down on a ground, in the state that stops worst.

    rate   deceleration [m/s²], shape (...)
    state  the state that stops worst in the nominal build
    locks  whether its wheels lock; otherwise the brake sets the rate
    """

    rate: Array
    state: State
    locks: bool


def slowing(case: Case, ground: Ground, slope: ArrayLike = 0.0) -> Slowing:
    """The deceleration on a ground, the brake pressed as hard as it goes; negative slope down."""
    key = ("brake.slowing", ground.name, nominal(slope))
    return case.once(key, lambda: _slowing(case, ground, slope))


def _slowing(case: Case, ground: Ground, slope: ArrayLike) -> Slowing:
    found = [slowing_in(case, state, ground, slope) for state in states(case)]
    worst = min(found, key=lambda each: nominal(each.rate))
    rates = np.broadcast_arrays(*(each.rate for each in found))
    return Slowing(np.min(rates, axis=0), worst.state, worst.locks)


def slowing_in(case: Case, state: State, ground: Ground, slope: ArrayLike = 0.0) -> Slowing:
    """The deceleration on a ground in one state of the machine."""
    force, most = brake_force(case), grip_force(case, state, ground, slope)
    rate = deceleration(state.balance.mass, force, most, slope, ground.rolling)
    locks = nominal(force) >= nominal(most)
    return Slowing(np.atleast_1d(rate), state, locks)


def one_wheel_slowing(case: Case, usual: Ground, poor: Ground) -> Array:
    """The deceleration on level ground with one braked wheel on a poorer one [m/s²].

    An open differential gives both wheels the same torque: the poorer grip counts twice.
    """
    rates = [
        deceleration(
            state.balance.mass,
            brake_force(case),
            np.minimum(grip_force(case, state, usual), grip_force(case, state, poor)),
            0.0,
            usual.rolling,
        )
        for state in states(case)
    ]
    return np.atleast_1d(np.min(np.broadcast_arrays(*rates), axis=0))


class Parking(NamedTuple):
    """Slopes that the brake holds, with or without anyone on the machine, in the state that holds
    worst [rad].

    brake        by its torque, in its weaker direction
    facing_up    by grip, nose uphill
    facing_down  by grip, nose downhill
    """

    brake: Array
    facing_up: Array
    facing_down: Array

    @property
    def slope(self) -> Array:
        """The least of the three [rad]."""
        return np.atleast_1d(np.minimum(self.brake, np.minimum(self.facing_up, self.facing_down)))


def parking(case: Case, ground: Ground) -> Parking:
    """The slopes that the brake holds on a ground, with the pedal held or latched down."""
    torque = axle_torque(case)
    force = np.minimum(torque.forwards, torque.backwards) * 2.0 * np.pi / roll_out(case)
    found = [
        (slope_held_by_brake(state.chassis.weight, force), _held_by_grip(case, state, ground))
        for state in (empty(case), *states(case))
    ]
    return Parking(
        brake=np.min(np.broadcast_arrays(*(brake for brake, _ in found)), axis=0),
        facing_up=np.min(np.broadcast_arrays(*(held.facing_up for _, held in found)), axis=0),
        facing_down=np.min(np.broadcast_arrays(*(held.facing_down for _, held in found)), axis=0),
    )


def _held_by_grip(case: Case, state: State, ground: Ground) -> SlopeHeld:
    chassis, driven = state.chassis, case.build.wheels.driven
    if driven == "all":
        whole = np.arctan(ground.grip)
        return SlopeHeld(whole, whole)
    if driven == "rear":
        return slope_held_by_grip(chassis, ground.grip)
    # the front axle of a machine is the rear axle of the same machine turned round
    turned = Chassis(chassis.mass, chassis.wheelbase, chassis.behind, chassis.height)
    held = slope_held_by_grip(turned, ground.grip)
    return SlopeHeld(facing_up=held.facing_down, facing_down=held.facing_up)
