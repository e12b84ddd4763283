"""Rotary lip seals: the rubbing speed, temperature and pressure that they stand."""

from typing import NamedTuple

from beltwright.tables.loading import Table, load


class SealMaterial(NamedTuple):
    """A row of seal_limits.csv: hottest oil that a lip's rubber stands [K]."""

    material: str
    hottest: float
    source: str
    status: str


class SealSpeed(NamedTuple):
    """A row of seal_speeds.csv: limits of a plain lip by shaft diameter.

    diameter           shaft under the lip [m]
    speed              rubbing speed [m/s]
    pressure           gauge pressure in the case, handbook [Pa]
    cautious_pressure  the smaller figure of a second source [Pa]
    """

    diameter: float
    speed: float
    pressure: float
    cautious_pressure: float
    source: str
    status: str


def seal_materials() -> Table[SealMaterial]:
    """Kinds of rubber."""
    return load("seal_limits", SealMaterial)


def seal_material(name: str) -> SealMaterial:
    """One kind of rubber; KeyError lists the known ones."""
    return seal_materials().named(name)


def seal_speeds() -> Table[SealSpeed]:
    """Limits by shaft diameter."""
    return load("seal_speeds", SealSpeed)
