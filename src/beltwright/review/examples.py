"""The values in what is told and asked, in the units that the builder writes."""

import re
from functools import cache

from beltwright.quantity import Kind, Quantity, Units, read_quantity, unit_named
from beltwright.quantity.showing import show_inches
from beltwright.quantity.units import INCH

_METRIC = {
    "mm": Kind.LENGTH,
    "m": Kind.LENGTH,
    "kg": Kind.MASS,
    "km/h": Kind.SPEED,
    "kW": Kind.POWER,
    "N": Kind.FORCE,
    "N·m": Kind.TORQUE,
    "N/mm": Kind.SPRING_RATE,
    "°C": Kind.TEMPERATURE,
    "L": Kind.VOLUME,
    "MPa": Kind.PRESSURE,
    "bar": Kind.PRESSURE,
    "m²": Kind.AREA,
    "EUR": Kind.MONEY,
}
"""Units in which the examples are written."""

_OTHER = {"in", "ft", "thou", "lb", "mph", "hp", "lbf", "lbf·ft", "lbf/in", "°F", "fl oz"}
_OTHER |= {"psi", "ksi", "ft²", "pt", "qt", "gal"}
"""Units that ask for other examples."""

_LIMITS = ("at most ", "at least ")
_UNITS = "|".join(sorted(_METRIC, key=len, reverse=True))
_VALUE = rf"(?:{'|'.join(_LIMITS)})?-?[0-9.]+(?: ± [0-9.]+| to [0-9.]+)? (?:{_UNITS})"
_BARE = re.compile(rf"(?<![\w.]){_VALUE}(?![\w/²·])")
_TAPE_FROM = 0.0004
"""A tolerance finer than this is a caliper's, and so are its decimals [m]."""


def in_their_units(words: str, units: Units) -> str:
    """Words with every value in the builder's units, also where one is to be written so."""
    if not words or (units.symbols.isdisjoint(_OTHER) and "EUR" not in words):
        return words
    return _BARE.sub(lambda found: _theirs(found[0], units), words)


def _theirs(text: str, units: Units) -> str:
    """A metric value, a range or a limit in the builder's unit, as round as the example was."""
    limit = next((words for words in _LIMITS if text.startswith(words)), "")
    figures, _, name = text.removeprefix(limit).rpartition(" ")
    low, to, high = figures.partition(" to ")
    if not to:
        return limit + _one_value(f"{figures} {name}", units)
    first, last = (_one_value(f"{end} {name}", units) for end in (low, high))
    return f"{first.rpartition(' ')[0]} to {last}"


def _one_value(text: str, units: Units) -> str:
    value = _read(text)
    unit = units[value.kind]
    if text.endswith(" m") and unit.symbol == "in":
        unit = unit_named("ft", Kind.LENGTH)  # a way over the ground, and no part
    if text.endswith(" MPa"):
        unit = unit_named(units.strength())
    if value.kind is Kind.MONEY:
        return units.show(value.value, Kind.MONEY)
    if unit.symbol not in _OTHER:
        return text
    if unit.symbol == "in" and units.inch_parts and (not value.plus or value.plus > _TAPE_FROM):
        return _as_fractions(value, units.inch_parts)
    middle = unit.from_si(value.value)
    off = unit.from_si(value.high) - middle
    if value.kind is Kind.TEMPERATURE and not off:
        return f"{middle:.0f} {unit.symbol}"
    if not off:
        return f"{_rounded(middle)} {unit.symbol}"
    decimals = max(0, -_exponent(off))
    return f"{middle:.{decimals}f} ± {max(off, 0.1**decimals):.{decimals}f} {unit.symbol}"


def _as_fractions(value: Quantity, parts: int) -> str:
    middle = show_inches(value.value, parts)
    if not value.plus:
        return middle
    off = max(value.plus, float(INCH) / parts)
    return f"{middle.removesuffix(' in')} ± {show_inches(off, parts)}"


def _rounded(number: float) -> str:
    """A number with three figures, no finer than a hundredth."""
    figures = f"{number:.{min(2, max(0, 2 - _exponent(number)))}f}"
    return figures.rstrip("0").rstrip(".") if "." in figures else figures


def _exponent(number: float) -> int:
    """The power of ten of a number's first figure; 0 for 0."""
    return int(f"{abs(number):e}".partition("e")[2])


@cache
def _read(text: str) -> Quantity:
    return read_quantity(text, _METRIC[text.rpartition(" ")[2]])
