"""Oils by the grade on the can: typical viscosity, density, and the limits of their standards."""

import re
from typing import NamedTuple

from beltwright.tables.loading import Table, UnlistedError, load

GREASE = "grease"


class OilGrade(NamedTuple):
    """A row of oils.csv: kinematic viscosity at 40 and 100 °C [m²/s], density at 15 °C [kg/m³]."""

    grade: str
    at_40: float
    at_100: float
    density: float
    also: str
    source: str
    status: str

    def check(self) -> None:
        """Refuse an oil that does not thin with heat."""
        if not 0.0 < self.at_100 < self.at_40:
            raise ValueError(f"{self.grade!r} must be thinner at 100 °C than at 40 °C")


class GradeLimits(NamedTuple):
    """A row of oil_grade_limits.csv: what a standard allows a grade at 40 or 100 °C [m²/s]."""

    grade: str
    standard: str
    low: float
    high: float
    at_100: bool
    source: str
    status: str


class GreaseError(KeyError):
    """The gearbox is packed with grease, which has no viscosity–temperature line."""


def oils() -> Table[OilGrade]:
    """All the grades that are known."""
    return load("oils", OilGrade)


def oil_grade_limits() -> Table[GradeLimits]:
    """What the standards allow each grade."""
    return load("oil_grade_limits", GradeLimits)


def oil(grade: str) -> OilGrade:
    """The oil of a grade as printed on the can.

    GreaseError where it is grease, KeyError with the known grades where it is not known.
    """
    wanted = _plain(grade)
    if "NLGI" in wanted or GREASE.upper() in wanted:
        raise GreaseError(f"{grade!r} is grease: oil viscosity does not describe it")
    for row in oils():
        if wanted in {_plain(name) for name in (row.grade, *row.also.split(";"))}:
            return row
    raise UnlistedError("oil", grade, (row.grade for row in oils()))


def _plain(grade: str) -> str:
    """A grade without the marks that cans print differently: "SAE 80W-90" is "80W90"."""
    return re.sub(r"[\s\-/.]|SAE|ISO", "", grade.upper())
