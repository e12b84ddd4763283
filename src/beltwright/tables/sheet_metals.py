"""Sheet metals by name: where a bend's neutral line lies, how tight it may be, how it springs."""

from typing import NamedTuple

from beltwright.tables.loading import Table, load


class SheetMetal(NamedTuple):
    """A row of sheet_metals.csv.

    k             where the neutral line lies, with its low and high [1]
    least_radius  least inside radius over the thickness [1]
    strength_low  yield strength from here ... [Pa]
    strength_high ... to here [Pa]
    modulus       Young's modulus [Pa]
    springback    by which a right-angled bend opens, as the trade reckons [rad]
    """

    name: str
    k: float
    k_low: float
    k_high: float
    least_radius: float
    strength_low: float
    strength_high: float
    modulus: float
    springback: float
    source: str
    status: str
    note: str = ""

    def check(self) -> None:
        """Refuse a spread that does not hold its own middle."""
        if not 0.0 < self.k_low <= self.k <= self.k_high <= 0.5:
            raise ValueError(f"K of {self.name!r} must lie between its low and high")
        if not 0.0 < self.strength_low <= self.strength_high:
            raise ValueError(f"strength of {self.name!r} must run from low to high")


def sheet_metals() -> Table[SheetMetal]:
    """All sheet metals."""
    return load("sheet_metals", SheetMetal)


def sheet_metal(name: str) -> SheetMetal:
    """The sheet metal of that name; KeyError lists what there is."""
    return sheet_metals().named(name)
