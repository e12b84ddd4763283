"""The form of a value with its unit and tolerance, before it is known what kind it is."""

import re
from dataclasses import dataclass
from fractions import Fraction

from beltwright.quantity.number import NUMBER, read_number

_LETTERS = r"(?:(?![²³¹⁻])[^\W\d_])+"
_WORD = rf"(?:(?:mm|in)H2O|°?{_LETTERS}(?:[²³]|\^?[23](?![0-9.,]))?\.?|[°%\"'€$£¥])"
UNIT = rf"(?>1 ?/ ?min|/ ?min|min(?:⁻¹|\^-1)|{_WORD}(?: ?[·*/-] ?{_WORD}| {_WORD})*)"
"""Pattern of a unit as people write it, on text that `tidy` has been over."""

_CURRENCY_BEFORE = r"[€$£¥]|[A-Za-z]{3} ?(?=[0-9.])"
_VALUE = (
    rf"(?P<sign>[+-]?) ?(?P<before>{_CURRENCY_BEFORE})? ?(?P<number>{NUMBER})"
    rf"(?: ?(?P<unit>{UNIT})(?: ?(?P<rest>{NUMBER}) ?(?P<rest_unit>{UNIT}))?)?"
)
_TOLERANCE = (
    rf" ?(?:± ?(?P<both>{NUMBER}) ?(?P<both_unit>{UNIT})?"
    rf"|\+ ?(?P<plus>{NUMBER}) ?(?P<plus_unit>{UNIT})?"
    rf" ?[,/]? ?- ?(?P<minus>{NUMBER}) ?(?P<minus_unit>{UNIT})?"
    rf"|- ?(?P<less>{NUMBER}) ?(?P<less_unit>{UNIT})?"
    rf" ?[,/]? ?\+ ?(?P<more>{NUMBER}) ?(?P<more_unit>{UNIT})?)"
)
_SINGLE = re.compile(_VALUE)
_WHOLE = re.compile(rf"{_VALUE}(?:{_TOLERANCE})?")


@dataclass(frozen=True)
class Amount:
    """A number and the unit written after it, "" where there is none."""

    number: Fraction
    unit: str


@dataclass(frozen=True)
class Value:
    """An amount, and the smaller amount that may follow it, as in 3 ft 2 in."""

    main: Amount
    rest: Amount | None


@dataclass(frozen=True)
class Toleranced:
    """A value and its tolerance below and above, None where it has none."""

    value: Value
    minus: Amount | None
    plus: Amount | None


def parse_value(text: str) -> Value | None:
    """Take a value without tolerance apart, None if it has another form."""
    found = _SINGLE.fullmatch(text)
    return _value(found.groupdict(default="")) if found else None


def parse_toleranced(text: str) -> Toleranced | None:
    """Take a value with or without tolerance apart, None if it has another form."""
    found = _WHOLE.fullmatch(text)
    if not found:
        return None
    got = found.groupdict(default="")
    minus = _amount(got, "both") or _amount(got, "minus") or _amount(got, "less")
    plus = _amount(got, "both") or _amount(got, "plus") or _amount(got, "more")
    return Toleranced(_value(got), minus, plus)


def _value(got: dict[str, str]) -> Value:
    """Put the number, its sign and its unit together; money has its unit before the number."""
    turn = -1 if got["sign"] == "-" else 1
    unit = got["unit"] or got["before"].strip()
    rest = Amount(turn * read_number(got["rest"]), got["rest_unit"]) if got["rest"] else None
    return Value(Amount(turn * read_number(got["number"]), unit), rest)


def _amount(got: dict[str, str], name: str) -> Amount | None:
    """Give a half-width of the tolerance, None if this one is not written."""
    return Amount(read_number(got[name]), got[f"{name}_unit"]) if got[name] else None
