"""Friction of brake linings, and the heat and the pressure that they stand, from handbooks."""

from typing import NamedTuple

from beltwright.tables.loading import Table, load

CAUTION_OLD_LINING = (
    "Old woven linings may hold asbestos: never blow, sand or grind them, and follow local rules."
)
"""Shown wherever an old lining is touched."""


class Lining(NamedTuple):
    """One kind of lining: friction [1] against iron or steel, and continuous temperature [K]."""

    name: str
    friction: float
    friction_low: float
    friction_high: float
    continuous: float
    source: str
    status: str

    def check(self) -> None:
        """Refuse a spread of friction that does not hold its own middle."""
        if not 0.0 < self.friction_low <= self.friction <= self.friction_high:
            raise ValueError(f"friction of {self.name!r} must lie between its low and high")


class LiningPressure(NamedTuple):
    """The highest pressure that one kind of lining is made for [Pa]."""

    name: str
    pressure: float
    source: str
    status: str


def brake_linings() -> Table[Lining]:
    """All linings."""
    return load("brake_linings", Lining)


def brake_lining_pressures() -> Table[LiningPressure]:
    """What each of those linings may be pressed with."""
    return load("brake_lining_pressures", LiningPressure)
