"""What holds a pulley on its shaft: standard keys and set screws."""

from functools import cache
from typing import NamedTuple

from beltwright.tables.loading import SI_PER_UNIT, Table, load

INCH = SI_PER_UNIT["in"]
MILLIMETRE = SI_PER_UNIT["mm"]


class _Printed(NamedTuple):
    over: float
    up_to: float
    width: float
    height: float
    metric: bool
    source: str
    status: str


class KeySize(NamedTuple):
    """The key for shafts over one diameter and up to another [m]."""

    over: float
    up_to: float
    width: float
    height: float
    metric: bool


class SetScrew(NamedTuple):
    """A row of set_screws.csv: seating torque [N·m] and holding force [N] of a cup point."""

    size: str
    seating_torque: float
    holding_force: float
    source: str
    status: str


def key_table() -> Table[_Printed]:
    """The keys as their standards print them."""
    return load("keys", _Printed)


@cache
def key_sizes() -> tuple[KeySize, ...]:
    """Standard keys, inch ones first."""
    return tuple(_in_si(row) for row in key_table())


def standard_key(shaft_diameter: float, metric: bool) -> KeySize:
    """The standard key of a shaft diameter [m]; KeyError where the standard has none."""
    for size in key_sizes():
        if size.metric == metric and size.over < shaft_diameter <= size.up_to * (1.0 + 1e-9):
            return size
    raise KeyError(f"no standard key for a shaft of {shaft_diameter * 1e3:.4g} mm")


def set_screws() -> Table[SetScrew]:
    """Set screws by size."""
    return load("set_screws", SetScrew)


def set_screw(size: str) -> SetScrew:
    """The set screw of a thread as the builder wrote it ("M8", "5/16-18 UNC", "1/4")."""
    plain = size.upper().replace("×", "X").split("-")[0].split("X")[0].split(" ")[0]
    return set_screws().named(plain)


def _in_si(row: _Printed) -> KeySize:
    unit = MILLIMETRE if row.metric else INCH
    return KeySize(
        row.over * unit, row.up_to * unit, row.width * unit, row.height * unit, row.metric
    )
