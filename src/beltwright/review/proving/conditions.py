"""The build as it was driven when something was read: its ground, load, air and gear."""

from typing import Any

import numpy as np

from beltwright.build.drive import Drive
from beltwright.build.model import Build
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind, Quantity
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.routes import Gear, gears
from beltwright.review.motion.ground import Ground, grounds

LEAST_SAMPLES = 200
"""Samples where a review asks for none: without a range nothing can agree with a reading."""

NO_SLIP = Quantity(0.0, 0.0, 0.0, Kind.RATIO, "%", "0 %")
"""A belt turned slowly by hand, without load."""


def sampled(case: Case) -> Case:
    """The case with the ranges of its tolerances, which a reading is held against."""
    if case.samples or case.replaced:
        return case
    return case.once("proving.sampled", lambda: case.under(case.build, LEAST_SAMPLES))


def driven(case: Case, drive: Drive) -> Case:
    """The case under the conditions of a drive."""
    key = ("proving.driven", drive.ground, drive.laden, _key(drive.air), _key(drive.duty))
    return case.once(key, lambda: case.under(_as_driven(case.build, drive), case.samples))


def by_hand(case: Case) -> Case:
    """The case with belts that carry nothing."""
    return case.once("proving.by_hand", lambda: case.under(_unloaded(case.build), case.samples))


def gear_of(case: Case, drive: Drive) -> Gear:
    """The gear of a drive, with its ratio's candidates where a case has some."""
    named = {as_shifted(gear): gear for gear in gears(case)}
    if drive.gear is None and len(named) > 1:
        raise NotKnownError(
            f"drive.{drive.name}.gear",
            f'Write the gear that was driven, for example gear = "{next(iter(named))}".',
        )
    gear = named[drive.gear] if drive.gear is not None else next(iter(named.values()))
    tried: Any = case.replaced.get(ratio_key(gear))
    return gear if tried is None else gear._replace(ratio=tried)


def as_shifted(gear: Gear) -> str:
    """A gear as the builder writes it."""
    return gear.name if gear.forward else f"reverse {gear.name[1:]}"


def ratio_key(gear: Gear) -> str:
    """The key under which candidates for a gear's own ratio are tried."""
    return f"gearbox.ratio.{gear.name}"


def ground_of(case: Case) -> Ground:
    """The ground of a drive, in its own case."""
    return grounds(case)[0]


def slope_of(case: Case, drive: Drive) -> Array:
    """The slope driven up [rad]."""
    return np.zeros(1) if drive.slope is None else case.si(drive.slope)


def _as_driven(build: Build, drive: Drive) -> Build:
    machine = build.machine
    of_machine = {
        "ground": (drive.ground or machine.ground[0],),
        "load": machine.load if drive.laden else (),
        "air": drive.air or machine.air,
    }
    changed: dict[str, Any] = {"machine": machine.model_copy(update=of_machine)}
    if build.gearbox is not None and drive.duty is not None:
        changed["gearbox"] = build.gearbox.model_copy(update={"duty": drive.duty})
    return build.model_copy(update=changed)


def _unloaded(build: Build) -> Build:
    belts = tuple(belt.model_copy(update={"slip": NO_SLIP}) for belt in build.belt)
    return build.model_copy(update={"belt": belts})


def _key(quantity: Quantity | None) -> str:
    return "" if quantity is None else quantity.key
