"""What the ground gives: grip and rolling drag of each surface, as ranges with their sources."""

from typing import NamedTuple

from beltwright.tables.loading import STATUS, Table, load


class Surface(NamedTuple):
    """One kind of ground; both figures are ratios of a force to the load on the tyre [1]."""

    name: str
    grip_low: float
    grip_usual: float
    grip_high: float
    rolling_low: float
    rolling_usual: float
    rolling_high: float
    grip_source: str
    grip_status: str
    rolling_source: str
    rolling_status: str

    def check(self) -> None:
        """Refuse a range that is out of order or a figure without its standing."""
        if not 0.0 < self.grip_low <= self.grip_usual <= self.grip_high:
            raise ValueError(f"grip of {self.name!r} must rise from low to high, above zero")
        if not 0.0 < self.rolling_low <= self.rolling_usual <= self.rolling_high:
            raise ValueError(f"rolling drag of {self.name!r} must rise from low to high, above 0")
        for status in (self.grip_status, self.rolling_status):
            if not status.startswith(STATUS):
                raise ValueError(f"status {status!r} of {self.name!r} is not a known one")


def surfaces() -> Table[Surface]:
    """All surfaces, hard to soft."""
    return load("surfaces", Surface)


def surface(name: str) -> Surface:
    """The surface of that name; KeyError lists what there is."""
    return surfaces().named(name)
