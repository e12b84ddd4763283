"""Roller chain by its number: pitch, breaking load, mass."""

from typing import NamedTuple

from beltwright.tables.loading import Table, UnlistedError, load


class ChainSize(NamedTuple):
    """A row of chains.csv: pitch [m], least breaking load [N], mass of a metre [kg/m]."""

    size: str
    pitch: float
    breaking_load: float
    linear_mass: float
    also: str
    source: str
    status: str


def chains() -> Table[ChainSize]:
    """Simplex roller chains of both series."""
    return load("chains", ChainSize)


def chain_size(text: str) -> ChainSize:
    """The chain of an ISO 606 or ANSI number ("08B", "08B-1", "#40"); KeyError lists them."""
    wanted = text.upper().replace("#", "").strip().removesuffix("-1").strip()
    for row in chains():
        if wanted in (row.size, row.also):
            return row
    raise UnlistedError("chain", text, (row.size for row in chains()))
