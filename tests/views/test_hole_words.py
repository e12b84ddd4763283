"""What is made is told by the fraction that its drill or stock is named by."""

import pytest

from beltwright.build.model import Build
from beltwright.quantity import Kind, Units, read_quantity
from beltwright.review.case import Case
from beltwright.views.hole_words import caliper, marked

TAPE = Units.of([read_quantity("4 5/8 in", Kind.LENGTH)])
DECIMALS = Units.of([read_quantity("4.625 in", Kind.LENGTH)])
METRIC = Units.of([read_quantity("118 mm", Kind.LENGTH)])


@pytest.mark.parametrize(
    ("size", "units", "shown"),
    [
        ("13/32 in", TAPE, "13/32 in"),
        ("27/64 in", TAPE, "27/64 in"),
        ("1 1/2 in", TAPE, "1 1/2 in"),
        ("0.361 in", TAPE, "0.361 in"),
        ("13/32 in", DECIMALS, "0.406 in"),
        ("10.5 mm", METRIC, "10.5 mm"),
        ("1/4 in", METRIC, "6.35 mm"),
    ],
)
def test_a_size_that_is_made(size: str, units: Units, shown: str) -> None:
    case = Case(Build(format=1, name="empty"), units=units)
    assert marked(case, read_quantity(size, Kind.LENGTH).value) == shown


def test_what_is_measured_stays_in_decimals() -> None:
    case = Case(Build(format=1, name="empty"), units=TAPE)
    assert caliper(case, read_quantity("13/32 in", Kind.LENGTH).value) == "0.406 in"
