"""How far a sold belt's length may be off what is printed on it."""

from functools import cache
from typing import NamedTuple

from beltwright.tables.belts import INCH, nearest_lengths
from beltwright.tables.loading import load


class MetricTolerance(NamedTuple):
    """A row of belt_length_tolerances.csv [m]."""

    up_to: float
    longer: float
    shorter: float
    source: str
    status: str


class LengthTolerance(NamedTuple):
    """How much longer or shorter a sold belt may be, in the unit that its standard prints."""

    longer: float
    shorter: float
    unit: str
    source: str

    @property
    def text(self) -> str:
        """The tolerance as it is written in a build file."""
        if self.longer == self.shorter:
            return f"0 ± {self.longer:g} {self.unit}"
        return f"0 +{self.longer:g} -{self.shorter:g} {self.unit}"


@cache
def length_tolerance(section: str, pitch_length: float, inches: bool) -> LengthTolerance:
    """The tolerance of a belt that is sold by inches, or by millimetres.

    A length beyond the end of its table takes the last row.
    """
    if inches:
        (nearest,) = nearest_lengths(section, pitch_length, 1)
        either = round(nearest.tolerance / INCH, 3)
        return LengthTolerance(either, either, "in", "RMA IP-20")
    rows = load("belt_length_tolerances", MetricTolerance).rows
    row = next((row for row in rows if pitch_length <= row.up_to), rows[-1])
    longer, shorter = (round(side * 1e3, 3) for side in (row.longer, row.shorter))
    return LengthTolerance(longer, shorter, "mm", "ISO 4184, from memory")
