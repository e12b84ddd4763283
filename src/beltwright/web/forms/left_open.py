"""What is most often left open in a search, offered ready to be added: pulleys and belts."""

from fractions import Fraction
from typing import Any

from beltwright.quantity import Kind, Quantity, QuantityError, read_quantity
from beltwright.quantity.units import unit_named

Data = dict[str, Any]

SMALLEST, LARGEST = Fraction(4, 5), Fraction(5, 4)
"""Pulleys from a fifth smaller to a quarter larger."""

BELTS_EITHER_WAY = 4


def often_left_open(values: Data) -> list[Data]:
    """A row of [[choose.vary]] for every pulley and belt that is not left open yet."""
    taken = {(row.get("of"), row.get("what")) for row in values.get("choose", {}).get("vary", [])}
    rows = [
        *(_ranged(pulley, "outside", SMALLEST, LARGEST) for pulley in values.get("pulley", [])),
        *(_longer_and_shorter(belt) for belt in values.get("belt", [])),
    ]
    return [row for row in rows if row and (row["of"], row["what"]) not in taken]


def _ranged(table: Data, what: str, smallest: Fraction, largest: Fraction) -> Data | None:
    stands = _read(table.get(what))
    if stands is None:
        return None
    unit = unit_named(stands.unit, Kind.LENGTH)
    step = 0.25 if unit.symbol == "in" else 5.0
    low, high = (float(share) * unit.from_si(stands.value) for share in (smallest, largest))
    ends = (low // step * step, -(-high // step) * step)
    low_text, high_text, step_text = (f"{number:g} {unit.symbol}" for number in (*ends, step))
    return {
        "of": table["name"],
        "what": what,
        "low": low_text,
        "high": high_text,
        "step": step_text,
    }


def _longer_and_shorter(belt: Data) -> Data | None:
    stands = _read(belt.get("length"))
    if stands is None:
        return None
    unit = unit_named(stands.unit, Kind.LENGTH)
    step = 1.0 if unit.symbol == "in" else 25.0
    middle = unit.from_si(stands.value)
    sizes = (middle + step * each for each in range(-BELTS_EITHER_WAY, BELTS_EITHER_WAY + 1))
    texts = [f"{size:g} {unit.symbol}" for size in sizes]
    return {"of": belt["name"], "what": "length", "values": texts}


def _read(text: object) -> Quantity | None:
    try:
        return read_quantity(str(text), Kind.LENGTH) if text is not None else None
    except QuantityError:
        return None
