"""What the engine of a build gives and how fast it runs, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.vehicle import TorquePoint
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.engine.torque import (
    full_load_torque,
    governed_torque,
    measured_torque,
    no_load_speed,
    torque_of_power,
)
from beltwright.physics.engine.wheel_stress import bursting_speed, rim_speed, rim_stress
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.driveline.routes import route_to, routes
from beltwright.tables.engines import wheel_material

LEAST_CURVE = 2
"""Points that a measured torque curve needs."""


class Rating(NamedTuple):
    """The engine's rated point: speed [rad/s], torque [N m] and power [W], shape (...)."""

    speed: Array
    torque: Array
    power: Array


class _Governor(NamedTuple):
    """Where the governor begins to close the throttle and where it has [rad/s], and the torque
    at which it begins [N m], shape (...)."""

    begins: Array
    ends: Array
    torque: Array


def rating(case: Case) -> Rating:
    """The point at which the engine's power is stated, or the last point of a measured curve."""
    return case.once("engine.rating", lambda: _rating(case))


def rated_speed(case: Case) -> Array:
    """Engine speed at the rated point [rad/s]."""
    engine = case.build.engine
    points = _curve(case)
    if engine.at is None and points:
        return case.si(points[-1].at)
    return case.need(
        engine.at,
        "engine.at",
        'Read the rated speed off the engine\'s label and write it, for example at = "3300 rpm".',
    )


def _rating(case: Case) -> Rating:
    engine = case.build.engine
    points = _curve(case)
    speed = rated_speed(case)
    if points:
        torque = _measured(case, points, speed)
        return Rating(speed, torque, torque * speed)
    power = case.need(
        engine.power,
        "engine.power",
        "Read the power off the engine's label or its maker's data and write it, for example "
        'power = "9.3 kW".',
    )
    return Rating(speed, torque_of_power(power, speed), power)


def no_load(case: Case) -> Array:
    """Governed speed with nothing to drive [rad/s], measured or rated speed and droop."""
    engine = case.build.engine
    if engine.no_load is not None:
        return case.si(engine.no_load)
    return no_load_speed(rated_speed(case), _droop(case))


def _droop(case: Case) -> Array:
    """Drop of speed from no load to full load over the speed at full load [1]."""
    return case.suppose(
        None,
        "engine.droop",
        "0.07 ± 0.03",
        Kind.RATIO,
        "flyweight governors of small engines droop by 4 to 10 % (common practice, no source)",
    )


def full_load(case: Case, rotation: ArrayLike) -> Array:
    """Full-load torque [N m] at an engine speed [rad/s], the governor left out."""
    points = _curve(case)
    if points:
        return _measured(case, points, rotation)
    rated = rating(case)
    rise, peak_at = _rise(case), _peak_at(case)
    return full_load_torque(rotation, rated.power, rated.speed, rise, peak_at)


def _rise(case: Case) -> Array:
    """Rise of the peak torque over the rated one [1]."""
    return case.suppose(
        None,
        "engine.torque_rise",
        "0.12 +0.08 -0.06",
        Kind.RATIO,
        "small four-strokes peak 6 to 20 % above their rated torque (common practice, no source)",
    )


def _peak_at(case: Case) -> Array:
    """Speed of the peak torque over the rated one [1]."""
    return case.suppose(
        None,
        "engine.peak_torque_at",
        "0.68 +0.07 -0.08",
        Kind.RATIO,
        "small four-strokes have their peak torque at 60 to 75 % of rated speed (common practice, "
        "no source)",
    )


def engine_torque(case: Case, rotation: ArrayLike) -> Array:
    """The most torque [N m] that the governed engine gives at a speed [rad/s].

    `rotation` broadcasts against the case's leading axis: give a grid of speeds as (k, 1).
    """
    governor = _governor(case)
    full = full_load(case, rotation)
    return governed_torque(rotation, full, governor.torque, governor.begins, governor.ends)


def governor_begins(case: Case) -> Array:
    """Engine speed at which the governor begins to close the throttle [rad/s]."""
    return _governor(case).begins


def _governor(case: Case) -> _Governor:
    return case.once("engine.governor", lambda: _governor_line(case))


def _governor_line(case: Case) -> _Governor:
    """The governor's line, from the rated point to the speed without load.

    Many labels state the power at a speed at which the machine was never governed: set below it,
    the engine never comes to its rated point, and the line begins its droop below the speed without
    load.
    """
    begins, ends = rating(case).speed, no_load(case)
    below = ends <= begins
    if np.any(below):
        begins = np.where(below, ends / (1.0 + _droop(case)), begins)
    ends = np.maximum(ends, begins * (1 + 1e-6))
    return _Governor(begins, ends, full_load(case, begins))


def peak_torque(case: Case) -> Array:
    """The highest torque [N m] that the engine puts on its shaft, shape (...)."""
    return case.once("engine.peak_torque", lambda: _peak_torque(case))


def _peak_torque(case: Case) -> Array:
    points = _curve(case)
    if points:
        together = np.broadcast_arrays(*(case.si(point.torque) for point in points))
        return np.asarray(np.max(together, axis=0))
    return rating(case).torque * (1 + _rise(case))


def _curve(case: Case) -> tuple[TorquePoint, ...]:
    points = case.build.engine.curve
    if len(points) < LEAST_CURVE:
        return ()
    return tuple(sorted(points, key=lambda point: point.at.value))


def _measured(case: Case, points: tuple[TorquePoint, ...], rotation: ArrayLike) -> Array:
    return measured_torque(
        rotation,
        [case.si(point.at) for point in points],
        [case.si(point.torque) for point in points],
    )


class Rim(NamedTuple):
    """A wheel with the engine at no-load speed, and how far it is from bursting.

    turns       its speed [rad/s]
    speed       speed of its rim [m/s]
    stress      hoop stress in the rim [Pa]
    strength    tensile strength of its material [Pa]
    brittle     whether its material breaks without warning
    bursting    speed at which the stress reaches the strength [rad/s]
    """

    name: str
    material: str
    turns: Array
    speed: Array
    stress: Array
    strength: float
    brittle: bool
    bursting: Array


def flywheel_rim(case: Case) -> Rim:
    """The flywheel at no-load speed, taken as a thin rim at its outside (which is cautious)."""
    wheel = case.build.engine.flywheel
    outside = case.need(
        wheel.outside if wheel else None,
        "engine.flywheel",
        "Measure across the flywheel under the cowl and write it with what it is made of, for "
        'example flywheel = { outside = "200 mm", material = "aluminium" }.',
    )
    assert wheel is not None
    return _rim("flywheel", wheel.material, outside / 2, no_load(case))


def pulley_rims(case: Case) -> tuple[Rim, ...]:
    """Every pulley that the engine turns ahead of the gearbox, at no-load speed."""
    return case.once("engine.pulley_rims", lambda: tuple(_pulley_rims(case)))


def _pulley_rims(case: Case) -> list[Rim]:
    rims = []
    for pulley in case.build.pulley:
        measured = pulley.outside or pulley.pitch
        assert measured is not None
        if pulley.shaft in routes(case) and not route_to(case, pulley.shaft).geared:
            turns = no_load(case) / route_to(case, pulley.shaft).ratio
            rims.append(_rim(pulley.name, pulley.material, case.si(measured) / 2, turns))
    return rims


def _rim(name: str, material: str, radius: Array, turns: Array) -> Rim:
    metal = wheel_material(material)
    stress = rim_stress(metal.density, radius, turns)
    burst = bursting_speed(metal.tensile_strength, stress, turns)
    speed = rim_speed(radius, turns)
    strength, brittle = metal.tensile_strength, metal.brittle
    return Rim(name, material, turns, speed, stress, strength, brittle, burst)
