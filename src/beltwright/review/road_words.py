"""Slopes, distances and degrees of warming as the driver reads them."""

import math

from beltwright.quantity import Kind, unit_named
from beltwright.review.case import Case

SLOPE_UNIT = "°"
"""Slopes show their range and limit in degrees, whatever other angles are written in."""

INCH_UNITS = ("in", "ft", "yd", "mi", "thou")


def slope_words(angle: float) -> str:
    """A slope [rad] in words, for example "11.3° (20 %)"."""
    if angle >= math.radians(89.9):
        return "any slope"
    if angle <= -math.radians(89.9):
        return "no slope"
    return f"{math.degrees(angle):.1f}° ({math.tan(angle):.0%})".replace("%", " %")


def warmer_by(case: Case, kelvin: float) -> str:
    """A difference of temperature in the builder's degrees, for example "21 °C"."""
    fahrenheit = case.units[Kind.TEMPERATURE].symbol == "°F"
    degrees = kelvin * 1.8 if fahrenheit else kelvin
    return f"{degrees:.{0 if abs(degrees) >= 1.0 else 1}f} {'°F' if fahrenheit else '°C'}"


def thinks_in_inches(case: Case) -> bool:
    """Whether the builder's lengths are inches, feet or yards."""
    chosen = case.units.chosen.get(Kind.LENGTH)
    return chosen is not None and chosen.symbol in INCH_UNITS


def distance_unit(case: Case) -> str:
    """The unit for distances on the ground: metres, or feet where the builder thinks in inches."""
    return "ft" if thinks_in_inches(case) else "m"


def distance_words(case: Case, metres: float) -> str:
    """A distance on the ground in words, for example "6.7 m"."""
    return case.units.show(metres, Kind.LENGTH, distance_unit(case))


def pace_words(case: Case, speed: float) -> str:
    """A speed in a sum with metres or with feet, for example "3.94 m/s"."""
    return case.units.show(speed, Kind.SPEED, "ft/s" if thinks_in_inches(case) else "m/s")


def stress_words(case: Case, pascal: float) -> str:
    """A stress or a strength of metal, for example "240 MPa"."""
    return case.units.show(pascal, Kind.PRESSURE, case.units.strength())


def a_degree(case: Case, per_kelvin: float) -> tuple[float, str]:
    """What goes with a kelvin as what goes with the builder's degree, and that degree."""
    fahrenheit = case.units[Kind.TEMPERATURE].symbol == "°F"
    return (per_kelvin / 1.8, "°F") if fahrenheit else (per_kelvin, "°C")


def heat_units(case: Case) -> tuple[str, str]:
    """The units for heat and for its flow, which no builder gives in horsepower."""
    return ("Btu", "Btu/h") if thinks_in_inches(case) else ("W·h", "W")


def specific_heat_words(case: Case, specific_heat: float) -> str:
    """Heat that a mass takes for a degree [J/(kg K)] in words, for example "480 J/(kg K)"."""
    if not thinks_in_inches(case):
        return f"{specific_heat:g} J/(kg K)"
    pound = unit_named("lb", Kind.MASS).factor
    foot_pound = unit_named("ft·lbf", Kind.ENERGY).factor
    return f"{specific_heat * pound / foot_pound / 1.8:.3g} ft·lbf/(lb °F)"
