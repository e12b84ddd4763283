"""Showing of SI values in the builder's units, with sensible digits."""

import math
import re
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache, cached_property

from beltwright.quantity.currencies import SIGNS
from beltwright.quantity.kinds import Kind
from beltwright.quantity.number import tidy
from beltwright.quantity.units import INCH, Unit, unit_named, units_of
from beltwright.quantity.values import Goal, Quantity

_TIGHT = {"°"}
MOST_DECIMALS = 9
"""What is smaller than this is the noise of arithmetic and shown as 0."""
STEPS = 10.0
"""Parts of its range to which a value is worth showing."""
TINY = 1e-9
"""Keeps a power of ten from falling to the one below it by rounding."""
NO_VALUE, UNLIMITED = "no value", "unlimited"
"""What stands for a sum that has no answer, and for one that has no upper end."""
LARGE = 1e5
"""From here on a whole number is rounded to the digits that are worth showing."""
_DIGITS = {Kind.LENGTH: 4, Kind.ROTATION: 4}
"""Significant digits worth showing of a result, 3 where a kind is not named."""
TAPE = 16
"""Parts of an inch that every tape has."""
FINE_SHARE = 0.25
"""Share of the fractions from which a tape in thirty-seconds is taken to be at hand."""
FINEST = 32
"""Finer parts of an inch are for calipers; a tape has none."""
_CALIPER = {"mm": 2, "cm": 3, "in": 3, "ft": 3, "thou": 1}
"""Decimals of a length that a caliper shows."""
_BELOW_CALIPER = 2
"""Decimals more in which what a caliper shows as 0 has its first figure; finer is 0."""
_FAR = {"m": 3, "ft": 3}
"""Significant digits of a distance, in a unit that is asked for beside the builder's own."""
TAPE_FROM = 0.00635
"""Shorter lengths are the caliper's, unless a tape shows them as they are [m]."""
TAPE_ERROR = 0.06
"""Share of a short length by which a tape's fraction may be off."""
_TAPE = {2, 4, 8, 16, 32, 64}
WHOLE = 1
"""Parts of an inch of a length in whole inches."""
_BESIDE_INCHES = {
    Kind.MASS: "lb",
    Kind.SPEED: "mph",
    Kind.POWER: "hp",
    Kind.TORQUE: "lbf·ft",
    Kind.FORCE: "lbf",
    Kind.PRESSURE: "psi",
    Kind.SPRING_RATE: "lbf/in",
    Kind.TEMPERATURE: "°F",
    Kind.VOLUME: "fl oz",
    Kind.AREA: "ft²",
    Kind.DENSITY: "lb/ft³",
    Kind.LINEAR_MASS: "lb/ft",
    Kind.ACCELERATION: "ft/s²",
    Kind.ENERGY: "ft·lbf",
    Kind.INERTIA: "lb·ft²",
}
"""What a builder who measures in inches reads, where nothing of a kind is written."""
_INCHES = {"in", "ft", "thou"}
_SMALLER = {"ft": "in", "m": "mm"}
"""What parts are measured in where a way over the ground is written in feet or metres."""


def show(
    value: float,
    unit: str | Unit,
    digits: int = 4,
    most: int = MOST_DECIMALS,
    step: float = 0.0,
) -> str:
    """Show an SI value in a unit, to so many significant digits, trailing noughts left out.

    `most` is how many decimals it may have at most, `step` the least difference that is worth
    showing [SI].

    >>> show(0.0254, "mm"), show(345.575, "rpm"), show(12.5, "EUR")
    ('25.4 mm', '3300 rpm', '12.50 EUR')
    """
    if not math.isfinite(value):
        return _endless(value)
    chosen = unit_named(unit) if isinstance(unit, str) else unit
    (number,), places = _stepped([chosen.from_si(value)], step / chosen.factor)
    decimals = min(_decimals(number, digits, most), places)
    return _with_unit(_figures(_rounded(number, digits, chosen), decimals, chosen), chosen)


def show_range(
    low: float,
    high: float,
    unit: str | Unit,
    digits: int = 4,
    most: int = MOST_DECIMALS,
    step: float = 0.0,
) -> str:
    """Show two SI values as a range, as one value where they look the same.

    >>> show_range(124.617, 133.518, "rpm")
    '1190 to 1275 rpm'
    """
    if not (math.isfinite(low) and math.isfinite(high)):
        first, last = (show(end, unit, digits, most, step) for end in (low, high))
        return last if first == last else f"{first} to {last}"
    chosen = unit_named(unit) if isinstance(unit, str) else unit
    written = [chosen.from_si(low), chosen.from_si(high)]
    ends, places = _stepped(written, step / chosen.factor)
    decimals = min(_decimals(max(ends, key=abs), digits, most), places)
    first, last = (_figures(_rounded(end, digits, chosen), decimals, chosen) for end in ends)
    return _with_unit(last if first == last else f"{first} to {last}", chosen)


def show_inches(value: float, nearest: int = 16) -> str:
    """Show an SI length in inches to the nearest sixteenth, or another power of two.

    >>> show_inches(0.117475)
    '4 5/8 in'
    """
    if not math.isfinite(value):
        return _endless(value)
    parts = round(abs(value) / float(INCH) * nearest)
    whole, rest = divmod(parts, nearest)
    fraction = f"{Fraction(rest, nearest)}" if rest else ""
    figures = " ".join(part for part in (str(whole) if whole or not rest else "", fraction) if part)
    return f"{'-' if value < 0 and parts else ''}{figures} in"


def write(value: float, unit: str | Unit) -> str:
    """Write an SI value in a unit with as few digits as read back to the same value.

    >>> write(0.118, "mm"), write(0.0254, "in")
    ('118 mm', '1 in')
    """
    chosen = unit_named(unit) if isinstance(unit, str) else unit
    number = chosen.from_si(value)
    tries = [f"{number:.{digits}g}" for digits in (15, 16, 17)]
    same = (text for text in tries if chosen.to_si(Fraction(text)) == value)
    return _with_unit(next(same, tries[-1]), chosen)


def show_quantity(quantity: Quantity, digits: int = 4) -> str:
    """Show a quantity with its tolerance in the unit that it was written in."""
    unit = unit_named(quantity.unit, quantity.kind)
    if quantity.minus == quantity.plus == 0:
        return show(quantity.value, unit, digits)
    middle, low, high = (unit.from_si(v) for v in (quantity.value, quantity.low, quantity.high))
    parts, places = _stepped([middle, middle - low, high - middle], (high - low) / STEPS)
    middle, below, above = parts
    decimals = min(max(_decimals(middle, digits), _decimals(max(below, above), 2)), places)
    figures = _figures(middle, decimals, unit)
    minus, plus = (_figures(part, decimals, unit) for part in (below, above))
    tolerance = f"± {plus}" if minus == plus else f"+{plus} -{minus}"
    return _with_unit(f"{figures} {tolerance}", unit)


def _decimals(number: float, digits: int, most: int = MOST_DECIMALS) -> int:
    """Give the decimals that show so many significant digits.

    What would be 0 with `most` decimals has its first figure shown, unless it is far smaller.
    """
    if number == 0 or not math.isfinite(number):
        return 0
    exponent = int(f"{number:.{digits - 1}e}".partition("e")[2])
    decimals = min(max(0, digits - 1 - exponent), MOST_DECIMALS)
    if decimals <= most or abs(number) >= 0.1**most:
        return min(decimals, most)
    return -exponent if -exponent <= most + _BELOW_CALIPER else 0


def _stepped(numbers: list[float], step: float) -> tuple[list[float], int]:
    """Give numbers to the power of ten of a step, and the decimals that it has."""
    if step <= 0.0 or not math.isfinite(step):
        return numbers, MOST_DECIMALS
    exponent = math.floor(math.log10(step) + TINY)
    if exponent <= 0:
        return numbers, -exponent
    return [round(number, -exponent) if math.isfinite(number) else number for number in numbers], 0


def _endless(value: float) -> str:
    """Give the words for what is no number."""
    return UNLIMITED if value > 0.0 else NO_VALUE


def _rounded(number: float, digits: int, unit: Unit) -> float:
    """Give a number of many whole figures with those that are worth showing; money keeps all.

    >>> _rounded(280862.4, 4, unit_named("rpm")), _rounded(12345.6, 3, unit_named("N"))
    (280900.0, 12345.6)
    """
    if abs(number) < LARGE or unit.kind is Kind.MONEY:
        return number
    return float(f"{number:.{digits - 1}e}")


def _figures(number: float, decimals: int, unit: Unit) -> str:
    """Give the figures alone; money has two decimals or none."""
    if unit.kind is Kind.MONEY:
        text = f"{number:.2f}"
        return _no_minus_nought(text.removesuffix(".00"))
    text = f"{number:.{decimals}f}"
    return _no_minus_nought(text.rstrip("0").rstrip(".") if "." in text else text)


def _no_minus_nought(figures: str) -> str:
    """Show -0 as 0."""
    return figures.lstrip("-") if not figures.strip("-0.") else figures


def _with_unit(figures: str, unit: Unit) -> str:
    """Set the unit behind the figures."""
    if not unit.symbol:
        return figures
    return f"{figures}{unit.symbol}" if unit.symbol in _TIGHT else f"{figures} {unit.symbol}"


@dataclass(frozen=True)
class Units:
    """One unit a kind for showing, and the fraction of an inch to show, 0 for decimals.

    `money_sign` stands before an amount of money, where the builder writes it so.
    """

    chosen: Mapping[Kind, Unit] = field(default_factory=dict)
    inch_parts: int = 0
    money_sign: str = ""

    @classmethod
    def of(
        cls, written: Iterable[Quantity | Goal], chosen: Mapping[Kind, str] | None = None
    ) -> "Units":
        """Choose for each kind the unit asked for, else the one written most, the first of equals.

        "in 1/16" and "in 1/32" ask for inches as on a tape, "in" for decimals of an inch. Feet and
        metres are for ways over the ground: parts are then shown in inches and millimetres, unless
        feet or metres are asked for.
        """
        asked = chosen or {}
        # a share is a percentage, whether its neighbours were written so or as plain numbers
        every = [each for each in written if each.kind is not Kind.RATIO]
        counts: Counter[tuple[Kind, str]] = Counter()
        signs: Counter[str] = Counter()
        inches: set[str] = set()
        for (kind, name), count in Counter((each.kind, each.unit) for each in every).items():
            unit = unit_named(name, kind)
            counts[kind, unit.symbol] += count
            if kind is Kind.MONEY:
                signs[name if name in SIGNS else ""] += count
            if unit.symbol == "in":
                inches.add(name)
        fractions = Counter(_parts(each.text) for each in every if each.unit in inches)
        units = {kind: unit_named(name.split(" ")[0], kind) for kind, name in asked.items()}
        for (kind, symbol), _ in sorted(counts.most_common(), key=_way_over_ground):
            part = _SMALLER.get(symbol, symbol) if kind is Kind.LENGTH else symbol
            units.setdefault(kind, unit_named(part, kind))
        if Kind.LENGTH in units and units[Kind.LENGTH].symbol in _INCHES:
            for kind, name in _BESIDE_INCHES.items():
                units.setdefault(kind, unit_named(name, kind))
        length = asked.get(Kind.LENGTH)
        parts = _usual_parts(fractions if length is None else Counter([_parts(length)]))
        sign = signs.most_common(1)[0][0] if signs else ""
        return cls(units, parts, sign if SIGNS.get(sign) == _symbol(units, Kind.MONEY) else "")

    @cached_property
    def symbols(self) -> frozenset[str]:
        """The symbols of all units that are shown."""
        return frozenset(self[kind].symbol for kind in Kind)

    def __getitem__(self, kind: Kind) -> Unit:
        """Give the unit for a kind, the metric one where the builder used none."""
        return self.chosen.get(kind) or default_unit(kind)

    def show(self, value: float, kind: Kind, unit: str = "", step: float = 0.0) -> str:
        """Show an SI value of a kind, in the unit named where the kind's own would be odd.

        Differences smaller than `step` [SI] are not worth showing.
        """
        if self._as_fractions(kind, unit, value):
            return show_inches(value, self.inch_parts)
        if kind is Kind.MONEY and self.money_sign:
            return self._signed(value)
        return show(value, unit or self[kind], *self._fineness(kind, unit), step)

    def show_range(
        self, low: float, high: float, kind: Kind, unit: str = "", step: float = 0.0
    ) -> str:
        """Show a range of SI values of a kind."""
        if self._as_fractions(kind, unit, low, high):
            first, last = (show_inches(end, self.inch_parts) for end in (low, high))
            return last if first == last else f"{first.removesuffix(' in')} to {last}"
        return show_range(low, high, unit or self[kind], *self._fineness(kind, unit), step)

    def _signed(self, amount: float) -> str:
        """Give an amount of money behind its sign."""
        figures = _figures(abs(amount), 2, self[Kind.MONEY])
        return f"{'-' if amount < 0 and figures.strip('0.') else ''}{self.money_sign}{figures}"

    def caliper(self, kind: Kind = Kind.LENGTH) -> str:
        """Give the unit in which a fit is shown: in decimals, as a caliper has it."""
        return "in" if self[kind].symbol in _INCHES else "mm"

    def strength(self) -> str:
        """Give the unit for strengths and stresses in metal."""
        return "ksi" if self[Kind.LENGTH].symbol in _INCHES else "MPa"

    def paper(self) -> str:
        """Give the paper that lies in the printer where lengths are measured so."""
        return "Letter" if self[Kind.LENGTH].symbol in _INCHES else "A4"

    def rim(self) -> str:
        """Give the unit for the speed of belts, rims and pistons, which is not that of a drive."""
        return "ft/min" if self[Kind.LENGTH].symbol in _INCHES else "m/s"

    def _as_fractions(self, kind: Kind, unit: str, *values: float) -> bool:
        """Say whether a tape shows these values as well as they are worth."""
        if not self.inch_parts or unit or self[kind].symbol != "in":
            return False
        return all(_on_tape(value, self.inch_parts) for value in values)

    def _fineness(self, kind: Kind, unit: str) -> tuple[int, int]:
        """Give the significant digits of a kind, and how many decimals they may be."""
        if kind is not Kind.LENGTH:
            return _DIGITS.get(kind, 3), MOST_DECIMALS
        shown = unit or self[kind].symbol
        return _FAR.get(unit, _DIGITS[kind]), _CALIPER.get(shown, MOST_DECIMALS)


def _on_tape(value: float, parts: int) -> bool:
    """Say whether the nearest fraction of an inch is near enough to a length."""
    if not math.isfinite(value):
        return False
    off = abs(round(value / float(INCH) * parts) * float(INCH) / parts - value)
    return abs(value) >= TAPE_FROM or off <= TAPE_ERROR * abs(value)


@cache
def default_unit(kind: Kind) -> Unit:
    """Give the unit that a kind is shown in where the builder has not said."""
    return unit_named("EUR", kind) if kind is Kind.MONEY else units_of(kind)[0]


def _usual_parts(fractions: Counter[int]) -> int:
    """Give the parts of an inch to show: none unless there are more fractions than decimals.

    Whole inches speak for neither, and a drill or two in thirty-seconds for no finer tape.
    """
    fine = [parts for parts in fractions.elements() if parts > WHOLE]
    if len(fine) <= fractions[0]:
        return 0
    finest = sum(parts >= FINEST for parts in fine)
    return FINEST if finest > FINE_SHARE * len(fine) else TAPE


def _parts(text: str) -> int:
    """Give the finest fraction of an inch in a text: 1 for whole inches, 0 for decimals."""
    under = [int(part) for part in re.findall(r"/ ?([0-9]+)", tidy(text))]
    if not under:
        return 0 if re.search(r"[.,][0-9]", text) else WHOLE
    return max((part for part in under if part in _TAPE), default=0)


def _way_over_ground(counted: tuple[tuple[Kind, str], int]) -> bool:
    """Say whether a unit is one in which parts are not measured: such come last."""
    (kind, symbol), _ = counted
    return kind is Kind.LENGTH and symbol in _SMALLER


def _symbol(units: Mapping[Kind, Unit], kind: Kind) -> str:
    return units[kind].symbol if kind in units else ""
