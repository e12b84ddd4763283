"""Sizes of holes, bores and stock as a caliper reads them, and as drills and rules are marked."""

from beltwright.quantity import Kind, show_inches
from beltwright.quantity.units import INCH
from beltwright.review.case import Case

DRILL_PARTS = 64
"""Parts of an inch by which drills, keys and sheet are named in fractions."""

SAME = 1e-5
"""A size this near to such a fraction is that fraction [m]."""


def caliper(case: Case, size: float) -> str:
    """A size in millimetres or decimals of an inch: no tape shows what a hole is."""
    inches = case.units[Kind.LENGTH].symbol in ("in", "ft")
    return case.units.show(size, Kind.LENGTH, "in" if inches else "mm")


def marked(case: Case, size: float) -> str:
    """A size that is made: the fraction by which its drill is named, for who works in fractions,
    else as a caliper reads it."""
    fraction = round(size / float(INCH) * DRILL_PARTS) * float(INCH) / DRILL_PARTS
    if case.units.inch_parts and abs(fraction - size) <= SAME:
        return show_inches(fraction, DRILL_PARTS)
    return caliper(case, size)
