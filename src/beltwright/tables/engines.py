"""Wheel materials and piston speeds for a small engine that may be turned too fast."""

from typing import NamedTuple

from beltwright.tables.loading import Table, load


class WheelMaterial(NamedTuple):
    """A row of wheel_materials.csv: density [kg/m³], strength [Pa], and whether it breaks
    without warning."""

    material: str
    density: float
    tensile_strength: float
    brittle: bool
    source: str
    status: str


class PistonSpeed(NamedTuple):
    """A row of piston_speeds.csv [m/s]."""

    engine: str
    usual: float
    limit: float
    note: str
    source: str
    status: str


def wheel_materials() -> Table[WheelMaterial]:
    """What pulleys and flywheels are made of."""
    return load("wheel_materials", WheelMaterial)


def wheel_material(name: str) -> WheelMaterial:
    """One material; KeyError lists the known ones."""
    return wheel_materials().named(name)


def piston_speeds() -> Table[PistonSpeed]:
    """Mean piston speeds that small engines are built for."""
    return load("piston_speeds", PistonSpeed)
