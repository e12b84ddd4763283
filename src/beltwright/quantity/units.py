"""The units that a builder may write, each defined once from exact numbers.

Sources: NIST SP 811 (2008) appendix B for the definitions of the inch, the pound, standard
gravity, the US gallon and the horsepower; the SI Brochure, 9th edition, for the rest.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, cached_property, lru_cache

from beltwright.quantity.currencies import CURRENCIES, SIGNS
from beltwright.quantity.kinds import Kind

INCH = Fraction(254, 10_000)
FOOT = 12 * INCH
YARD = 3 * FOOT
MILE = 1760 * YARD
POUND = Fraction(45_359_237, 100_000_000)
GRAVITY = Fraction(980_665, 100_000)
POUND_FORCE = POUND * GRAVITY
KILOGRAM_FORCE = GRAVITY
HORSEPOWER = 550 * FOOT * POUND_FORCE
METRIC_HORSEPOWER = 75 * KILOGRAM_FORCE
GALLON = 231 * INCH**3
LITRE = Fraction(1, 1000)
MINUTE = 60
HOUR = 3600
FAHRENHEIT = Fraction(5, 9)
ICE_POINT = Fraction(27_315, 100)
BRITISH_THERMAL_UNIT = POUND * 1000 * Fraction(41_868, 10_000) * FAHRENHEIT
"""Of the International Table: what warms a pound of water by a degree Fahrenheit, a calorie being
4.1868 J."""
WATER = 1000 * GRAVITY
"""Pressure under one metre of conventional water (1000 kg/m³) [Pa]."""


@dataclass(frozen=True)
class Unit:
    """One unit: SI value = (number · scale + offset), times π for parts of a turn.

    A slope unit is the tangent of the angle instead.
    """

    symbol: str
    kind: Kind
    scale: Fraction
    offset: Fraction = Fraction(0)
    of_turn: bool = False
    slope: bool = False

    @cached_property
    def factor(self) -> float:
        """SI units in one of this unit, for differences and for scaling whole arrays."""
        return float(self.scale) * (math.pi if self.of_turn else 1.0)

    def to_si(self, number: Fraction) -> float:
        """Give the SI value of so many of this unit, correctly rounded but for π and slopes."""
        linear = float(number * self.scale + self.offset)
        if self.slope:
            return math.atan(linear)
        return linear * math.pi if self.of_turn else linear

    def from_si(self, value: float) -> float:
        """Give how many of this unit an SI value is."""
        if self.slope:
            return math.tan(value) / float(self.scale)
        return (value - self._start) / self.factor

    @cached_property
    def _start(self) -> float:
        return float(self.offset)

    def widths(self, number: Fraction, minus: Fraction, plus: Fraction) -> tuple[float, float]:
        """Give the SI half-widths below and above a number of this unit."""
        if self.slope:
            middle = self.to_si(number)
            return middle - self.to_si(number - minus), self.to_si(number + plus) - middle
        turn = math.pi if self.of_turn else 1.0
        return float(minus * self.scale) * turn, float(plus * self.scale) * turn


# Each row: symbol and other spellings | SI value of one. The first row of a kind is its SI-like
# default on the page; spaces, hyphens, dots and raised dots in a spelling do not matter.
_ROWS: dict[Kind, list[tuple[str, Fraction | int]]] = {
    Kind.LENGTH: [
        ("mm|millimetre|millimetres|millimeter|millimeters", Fraction(1, 1000)),
        ("cm|centimetre|centimetres|centimeter|centimeters", Fraction(1, 100)),
        ("m|metre|metres|meter|meters", 1),
        ("km", 1000),
        ('in|"|inch|inches', INCH),
        ("ft|'|foot|feet", FOOT),
        ("thou", INCH / 1000),
        ("yd|yard|yards", YARD),
        ("mi|mile|miles", MILE),
    ],
    Kind.RATIO: [("%|percent|per cent", Fraction(1, 100)), ("", 1)],
    Kind.ANGLE: [],
    Kind.MASS: [
        ("kg", 1),
        ("g", Fraction(1, 1000)),
        ("lb|lbs|pound|pounds", POUND),
        ("oz|ounce|ounces", POUND / 16),
    ],
    Kind.SPEED: [
        ("km/h|kmh|kph", Fraction(1000, HOUR)),
        ("m/s", 1),
        ("mph|mi/h", MILE / HOUR),
        ("ft/min|fpm", FOOT / MINUTE),
        ("ft/s", FOOT),
    ],
    Kind.ROTATION: [],
    Kind.POWER: [
        ("kW", 1000),
        ("W", 1),
        ("hp|horsepower", HORSEPOWER),
        ("PS", METRIC_HORSEPOWER),
        ("Btu/h|BTU/h", BRITISH_THERMAL_UNIT / HOUR),
    ],
    Kind.TORQUE: [
        ("N·m", 1),
        ("N·cm", Fraction(1, 100)),
        ("lbf·ft|lb·ft|ft·lb|ft·lbf|lbs·ft|ft·lbs", POUND_FORCE * FOOT),
        ("lbf·in|lb·in|in·lb|in·lbf|in·lbs", POUND_FORCE * INCH),
        ("kgf·m", KILOGRAM_FORCE),
        ("kgf·cm", KILOGRAM_FORCE / 100),
    ],
    Kind.FORCE: [
        ("N", 1),
        ("kN", 1000),
        ("daN", 10),
        ("lbf", POUND_FORCE),
        ("kgf", KILOGRAM_FORCE),
    ],
    Kind.TEMPERATURE: [],
    Kind.PRESSURE: [
        ("bar", 100_000),
        ("mbar", 100),
        ("Pa", 1),
        ("kPa", 1000),
        ("MPa", 1_000_000),
        ("psi|lbf/in²", POUND_FORCE / INCH**2),
        ("ksi", 1000 * POUND_FORCE / INCH**2),
        ("mmH2O", WATER / 1000),
        ("inH2O", WATER * INCH),
    ],
    Kind.SPRING_RATE: [
        ("N/mm", 1000),
        ("N/m", 1),
        ("lbf/in|lb/in|lbs/in", POUND_FORCE / INCH),
        ("kgf/mm", KILOGRAM_FORCE * 1000),
    ],
    Kind.VOLUME: [
        ("L|litre|litres|liter|liters", LITRE),
        ("mL", LITRE / 1000),
        ("cm³|cc|ccm", LITRE / 1000),
        ("m³", 1),
        ("in³|cu in", INCH**3),
        ("fl oz", GALLON / 128),
        ("pt|pint|pints", GALLON / 8),
        ("qt|quart|quarts", GALLON / 4),
        ("gal|gallon|gallons", GALLON),
    ],
    Kind.AREA: [
        ("m²", 1),
        ("cm²", Fraction(1, 10_000)),
        ("mm²", Fraction(1, 1_000_000)),
        ("in²|sq in", INCH**2),
        ("ft²|sq ft", FOOT**2),
    ],
    Kind.TIME: [
        ("s|sec|second|seconds", 1),
        ("ms", Fraction(1, 1000)),
        ("min|minute|minutes", MINUTE),
        ("h|hr|hour|hours", HOUR),
    ],
    Kind.DENSITY: [
        ("kg/m³", 1),
        ("g/cm³|g/mL|kg/L", 1000),
        ("lb/ft³", POUND / FOOT**3),
        ("lb/in³", POUND / INCH**3),
    ],
    Kind.LINEAR_MASS: [("kg/m", 1), ("g/m", Fraction(1, 1000)), ("lb/ft", POUND / FOOT)],
    Kind.ACCELERATION: [("m/s²", 1), ("g", GRAVITY), ("ft/s²", FOOT)],
    Kind.ENERGY: [
        ("J", 1),
        ("kJ", 1000),
        ("W·h", HOUR),
        ("kW·h", 1000 * HOUR),
        ("ft·lbf", FOOT * POUND_FORCE),
        ("Btu|BTU", BRITISH_THERMAL_UNIT),
    ],
    Kind.INERTIA: [("kg·m²", 1), ("kg·cm²", Fraction(1, 10_000)), ("lb·ft²", POUND * FOOT**2)],
}


def _special_rows() -> Iterator[tuple[str, Unit]]:
    """Give the units that are parts of a turn, slopes or have an offset, with their spellings."""
    yield "°|deg|degree|degrees", Unit("°", Kind.ANGLE, Fraction(1, 180), of_turn=True)
    yield "rad", Unit("rad", Kind.ANGLE, Fraction(1))
    yield "%|percent|per cent", Unit("%", Kind.ANGLE, Fraction(1, 100), slope=True)
    yield (
        "rpm|1/min|/min|min⁻¹|rev/min|r/min",
        Unit("rpm", Kind.ROTATION, Fraction(1, 30), of_turn=True),
    )
    yield "rad/s", Unit("rad/s", Kind.ROTATION, Fraction(1))
    yield "rev/s|r/s", Unit("rev/s", Kind.ROTATION, Fraction(2), of_turn=True)
    yield "°C|C|degC|deg C|℃", Unit("°C", Kind.TEMPERATURE, Fraction(1), ICE_POINT)
    yield (
        "°F|F|degF|deg F|℉",
        Unit("°F", Kind.TEMPERATURE, FAHRENHEIT, ICE_POINT - 32 * FAHRENHEIT),
    )
    yield "K", Unit("K", Kind.TEMPERATURE, Fraction(1))


_LOOSE = str.maketrans(
    dict.fromkeys(" .-·^*⁻", "") | {"²": "2", "³": "3", "¹": "1", "″": '"', "′": "'"}
)


def _plain(spelling: str) -> str:
    """Bring a spelling to one form: no spaces, dots or hyphens, raised figures put down."""
    return spelling.replace(" per ", "/").translate(_LOOSE)


@cache
def _spellings() -> dict[Kind, dict[str, Unit]]:
    """Give for each kind its units by plain spelling; the exact case first, then any case."""
    rows = [
        (names, Unit(names.split("|")[0], kind, Fraction(scale)))
        for kind, units in _ROWS.items()
        for names, scale in units
    ]
    found: dict[Kind, dict[str, Unit]] = {kind: {} for kind in _ROWS}
    rows.extend(_special_rows())
    for names, unit in rows:
        for name in names.split("|"):
            found[unit.kind].setdefault(_plain(name), unit)
    for names, unit in rows:
        for name in names.split("|"):
            found[unit.kind].setdefault(_plain(name).casefold(), unit)
    return found


@lru_cache(maxsize=4096)
def find_unit(spelling: str, kind: Kind) -> Unit | None:
    """Give the unit of this kind that is spelled so, or None."""
    if kind is Kind.MONEY:
        code = SIGNS.get(spelling, spelling.upper())
        return Unit(code, kind, Fraction(1)) if code in CURRENCIES else None
    names = _spellings()[kind]
    plain = _plain(spelling)
    if spelling.strip() and not plain:
        return None
    return names.get(plain) or names.get(plain.casefold())


def kinds_of(spelling: str) -> list[Kind]:
    """Give every kind that has a unit spelled so, in this case of letters if any has."""
    plain = _plain(spelling)
    exact = [kind for kind, names in _spellings().items() if plain in names]
    return exact or [kind for kind in Kind if find_unit(spelling, kind)]


def unit_named(symbol: str, kind: Kind | None = None) -> Unit:
    """Give the unit with this spelling, of this kind or of the first kind that has it."""
    for each in [kind] if kind else (*_ROWS, Kind.MONEY):
        unit = find_unit(symbol, each)
        if unit:
            return unit
    raise KeyError(symbol)


def units_of(kind: Kind) -> list[Unit]:
    """Give the units of a kind, the default one first, each once."""
    if kind is Kind.MONEY:
        return [Unit(code, kind, Fraction(1)) for code in sorted(CURRENCIES)]
    return list(dict.fromkeys(_spellings()[kind].values()))
