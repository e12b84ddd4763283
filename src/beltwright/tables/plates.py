"""What plates and brackets are cut from, and the stress at which it stays bent."""

from typing import NamedTuple

from beltwright.tables.loading import Table, load


class PlateMaterial(NamedTuple):
    """A row of plate_materials.csv: least yield strength [Pa]."""

    material: str
    yield_strength: float
    example: str
    source: str
    status: str


def plate_materials() -> Table[PlateMaterial]:
    """What plates are cut from."""
    return load("plate_materials", PlateMaterial)


def plate_material(name: str) -> PlateMaterial:
    """One material; KeyError lists the known ones."""
    return plate_materials().named(name)
