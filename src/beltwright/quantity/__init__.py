"""Quantities: what a builder writes with a unit, as SI values, and back."""

from beltwright.quantity.errors import QuantityError
from beltwright.quantity.goal import read_goal
from beltwright.quantity.kinds import Kind
from beltwright.quantity.reading import read_quantity
from beltwright.quantity.showing import (
    Units,
    default_unit,
    show,
    show_inches,
    show_quantity,
    show_range,
    write,
)
from beltwright.quantity.tyre import Tyre, read_tyre
from beltwright.quantity.units import Unit, unit_named, units_of
from beltwright.quantity.values import Goal, Quantity
from beltwright.quantity.written import Written

__all__ = [
    "Goal",
    "Kind",
    "Quantity",
    "QuantityError",
    "Tyre",
    "Unit",
    "Units",
    "Written",
    "default_unit",
    "read_goal",
    "read_quantity",
    "read_tyre",
    "show",
    "show_inches",
    "show_quantity",
    "show_range",
    "unit_named",
    "units_of",
    "write",
]
