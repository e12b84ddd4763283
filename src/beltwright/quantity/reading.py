"""Reading of quantities: "4 5/8 in", "118 ± 1 mm", "12.5 hp ± 5 %", "€160".

One decimal comma is read ("1,5 mm") unless it may mean thousands ("1,500 mm"), which is refused.
A tolerance in the value's own unit is a difference, so "20 % ± 2 %" is 18 % to 22 %; a tolerance
in per cent of a value in another unit is that share of it.
"""

import re
from fractions import Fraction

from beltwright.quantity.errors import QuantityError
from beltwright.quantity.kinds import Kind
from beltwright.quantity.measure import Amount, Value, parse_toleranced, parse_value
from beltwright.quantity.number import NumberError, tidy
from beltwright.quantity.units import Unit, find_unit, kinds_of
from beltwright.quantity.values import Quantity
from beltwright.quantity.written import place_of

MAX_TEXT = 120
LARGEST = 1e12
"""No quantity of a cart comes near this many SI units."""
SMALLEST = 1e-12

_PAIRS = {("ft", "in"): 12, ("lb", "oz"): 16, ("h", "min"): 60, ("min", "s"): 60}


class Unread(Exception):  # noqa: N818 - it never leaves this package
    """Why a text cannot be read, before it is known whose text it is."""


class _NoUnit(Unread):
    """Nothing but the unit is missing."""


def read_quantity(text: str, kind: Kind, key: str = "") -> Quantity:
    """Read a quantity of a kind; raise QuantityError if it is none."""
    try:
        return _read(text, kind, key or place_of(text))
    except _NoUnit:
        raise without_unit(text, kind) from None
    except (Unread, NumberError) as unread:
        raise refusal(text, kind, str(unread)) from None


def refusal(text: str, kind: Kind, reason: str) -> QuantityError:
    """Say that a text is no quantity of this kind, and why."""
    return QuantityError(str(text)[:MAX_TEXT], kind.noun, reason, kind.example)


def without_unit(text: str, kind: Kind) -> QuantityError:
    """Say that only the unit is missing, and show the text with one."""
    unit = kind.example.partition(" ")[2]
    found = str(text)[:MAX_TEXT]
    return QuantityError(found, kind.noun, "The unit is missing.", f"{tidy(found)} {unit}".strip())


def _read(text: str, kind: Kind, key: str) -> Quantity:
    """Read the value and its two half-widths, and hold them to what the kind allows."""
    clean = checked(text)
    parsed = parse_toleranced(clean)
    if parsed is None:
        raise Unread(_why_unread(clean))
    minus, plus = parsed.minus, parsed.plus
    beside = (plus.unit if plus else "") or (minus.unit if minus else "")
    spelled = spelling_of(parsed.value) or beside
    if kind is Kind.RATIO and beside and not spelling_of(parsed.value):
        raise Unread("It is not clear what the per cent belong to. Write them after both numbers.")
    number, unit = amount_of(parsed.value, spelled, kind)
    below, above = _widths(number, unit, minus, plus, kind)
    value = within_reach(unit.to_si(number), kind)
    if not kind.below_zero and value < below:
        raise Unread("The tolerance is larger than the value.")
    return Quantity(value, below, above, kind, spelled, str(text), key)


def checked(text: str) -> str:
    """Give the text tidied, or refuse one that is empty, endless or has no number."""
    if len(text) > MAX_TEXT:
        raise Unread(f'"{text[:24]}…" is far too long for a value.')
    clean = tidy(text)
    if not clean:
        raise Unread("Nothing stands here.")
    if not re.search("[0-9]", clean):
        raise Unread(f'"{clean}" has no number.')
    return clean


def value_of(text: str) -> Value:
    """Take a value without tolerance apart, or say why it cannot be."""
    parsed = parse_value(text)
    if parsed is None:
        raise Unread(_why_unread(text))
    return parsed


def spelling_of(value: Value) -> str:
    """Give the unit as written, the smaller one of a pair."""
    return value.rest.unit if value.rest else value.main.unit


def amount_of(value: Value, spelled: str, kind: Kind) -> tuple[Fraction, Unit]:
    """Give the number and the unit of a value, with the unit that is spelled elsewhere if need be.

    A pair such as 3 ft 2 in is given in its smaller unit.
    """
    unit = _unit(spelled, kind)
    if value.rest is None:
        return value.main.number, unit
    large = _unit(value.main.unit, kind)
    share = _PAIRS.get((large.symbol, unit.symbol))
    if share is None:
        raise Unread("Two units stand here that do not go together. Write the value in one unit.")
    if abs(value.rest.number) >= share:
        raise Unread(f"{share} {unit.symbol} make one {large.symbol}. Write less than that.")
    return value.main.number * share + value.rest.number, unit


def within_reach(value: float, kind: Kind) -> float:
    """Give the SI value back, or refuse one that no machine has."""
    if abs(value) > LARGEST or 0 < abs(value) < SMALLEST:
        raise Unread("This number is far too large or too small.")
    if value < 0 and not kind.below_zero:
        raise Unread(f"{kind.noun.capitalize()} is never below 0.")
    if value < 0 and kind is Kind.TEMPERATURE:
        raise Unread("Nothing is colder than -273.15 °C.")
    return value


def _why_unread(text: str) -> str:
    """Say what is likely wrong with a text that has no known form."""
    gaps = re.match("[+-]?[0-9]{1,3}(?:[ '][0-9]{3})+(?![0-9])", text)
    if gaps:
        joined = re.sub("[ ']", "", gaps[0])
        return f"{gaps[0]} has gaps between thousands. Leave them out: {joined}."
    if re.search(r"[0-9].*\+ ?[0-9]|[0-9] - ?[0-9]", text):
        return f'"{text}" has half a tolerance. Write both sides, as in "118 +1 -0.5 mm".'
    return f'"{text}" cannot be read as a number with a unit.'


def _unit(spelling: str, kind: Kind) -> Unit:
    """Give the unit of this kind with this spelling, or say what else it is."""
    unit = find_unit(spelling, kind)
    if unit:
        return unit
    if not spelling:
        raise _NoUnit("The unit is missing.")
    if spelling == "¥":
        raise Unread("¥ is the sign of two currencies. Write JPY or CNY.")
    others = kinds_of(spelling)
    if others:
        raise Unread(f'"{spelling}" is a unit for {others[0].noun}, not for {kind.noun}.')
    raise Unread(f'"{spelling}" is not a unit that is known here.')


def _widths(
    number: Fraction, unit: Unit, minus: Amount | None, plus: Amount | None, kind: Kind
) -> tuple[float, float]:
    """Give the SI half-widths below and above; a unit written on one side holds for both."""
    if minus is None or plus is None:
        return 0.0, 0.0
    down = _share(number, minus, minus.unit or plus.unit, unit, kind)
    up = _share(number, plus, plus.unit or minus.unit, unit, kind)
    return unit.widths(number, down, up)


def _share(number: Fraction, side: Amount, spelled: str, unit: Unit, kind: Kind) -> Fraction:
    """Give a half-width as a number of the value's own unit."""
    if not spelled:
        return side.number
    if spelled == "%" and unit.symbol != "%":
        if kind is Kind.TEMPERATURE:
            raise Unread("A share of a temperature says nothing. Write the tolerance in degrees.")
        return abs(number) * side.number / 100
    own = _unit(spelled, kind)
    if own.slope != unit.slope or own.of_turn != unit.of_turn:
        raise Unread("Write the value and its tolerance in the same unit.")
    return side.number * own.scale / unit.scale
