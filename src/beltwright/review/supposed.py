"""A supposed number in the builder's units."""

from dataclasses import replace

from beltwright.quantity import Kind, Quantity, Units, show_quantity, unit_named

_INCH_UNITS = {"in", "ft", "thou", "yd", "mi", "lb", "oz", "mph", "hp", "lbf", "psi", "ksi", "°F"}
_INCH_UNITS |= {"ft²", "in²", "fl oz", "pt", "qt", "gal", "in³"}
"""What an inch builder reads beside inches."""


def in_units(quantity: Quantity, units: Units) -> str:
    """A supposed number as it was put down, or in the builder's units where those are others.

    Inches for who measures in inches and the other way round; shares and angles stay.
    """
    strong = quantity.kind is Kind.PRESSURE and quantity.unit == "MPa"
    wanted = unit_named(units.strength()) if strong else units[quantity.kind]
    if (unit_named(quantity.unit, quantity.kind).symbol in _INCH_UNITS) == (
        wanted.symbol in _INCH_UNITS
    ):
        return quantity.text
    guessed = quantity.kind is Kind.LENGTH and not quantity.plus and not quantity.minus
    return show_quantity(replace(quantity, unit=wanted.symbol), digits=2 if guessed else 3)
