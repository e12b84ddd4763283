"""Reading of goals: "18 to 22 km/h", "at most 3.5 km/h", "between 1 and 2 m/s", "20 %"."""

import re

from beltwright.quantity.kinds import Kind
from beltwright.quantity.number import NumberError
from beltwright.quantity.reading import (
    Unread,
    amount_of,
    checked,
    read_quantity,
    refusal,
    spelling_of,
    value_of,
    within_reach,
)
from beltwright.quantity.values import Goal
from beltwright.quantity.written import place_of

_RANGE = re.compile(r"(?:between |from )?(?P<low>.+?) ?(?: to | and |…|\.\.\.?|–| - )(?P<high>.+)")
_MOST = re.compile(r"(?:at most|no more than|not more than|up to|below|under|≤|<=|<) ?(?P<high>.+)")
_LEAST = re.compile(r"(?:at least|no less than|not less than|above|over|≥|>=|>) ?(?P<low>.+)")


def read_goal(text: str, kind: Kind, key: str = "") -> Goal:
    """Read a range, a limit on one side or a single value; raise QuantityError if it is none."""
    place = key or place_of(text)
    try:
        clean = checked(text)
        if one_sided := _LEAST.fullmatch(clean):
            low, unit = _limit(one_sided["low"], kind)
            return Goal(low, None, kind, unit, str(text), place)
        if one_sided := _MOST.fullmatch(clean):
            high, unit = _limit(one_sided["high"], kind)
            return Goal(None, high, kind, unit, str(text), place)
        if both := _RANGE.fullmatch(clean):
            return _range(both["low"], both["high"], text, kind, place)
    except (Unread, NumberError) as unread:
        raise refusal(text, kind, str(unread)) from None
    single = read_quantity(text, kind, place)
    return Goal(single.low, single.high, kind, single.unit, str(text), place)


def _limit(text: str, kind: Kind) -> tuple[float, str]:
    """Read one limit and the unit that it is written in."""
    value = value_of(text.strip())
    spelled = spelling_of(value)
    number, unit = amount_of(value, spelled, kind)
    return within_reach(unit.to_si(number), kind), spelled


def _range(low_text: str, high_text: str, text: str, kind: Kind, place: str) -> Goal:
    """Read both ends of a range; the first may leave its unit to the second."""
    high, spelled = _limit(high_text, kind)
    value = value_of(low_text.strip())
    number, unit = amount_of(value, spelling_of(value) or spelled, kind)
    low = within_reach(unit.to_si(number), kind)
    if low > high:
        raise Unread("The first end of the range is above the second.")
    return Goal(low, high, kind, spelled, str(text), place)
