"""Sizes of holes and bores as a caliper reads them."""

from beltwright.quantity import Kind
from beltwright.review.case import Case


def caliper(case: Case, size: float) -> str:
    """A size in millimetres or decimals of an inch: no tape shows what a hole is."""
    inches = case.units[Kind.LENGTH].symbol in ("in", "ft")
    return case.units.show(size, Kind.LENGTH, "in" if inches else "mm")
