"""The examples in what to do are in the builder's units."""

import re
from collections.abc import Callable

import pytest

from beltwright.quantity import Kind, Units, read_quantity
from beltwright.review.case import Case
from beltwright.review.examples import in_their_units
from beltwright.review.guard.cautions import guard_caution
from beltwright.review.review import review_of

Cart = Callable[..., Case]

FRACTIONS = Units.of([read_quantity("4 5/8 in", Kind.LENGTH), read_quantity("5 USD", Kind.MONEY)])
DECIMALS = Units.of([read_quantity("4.625 in", Kind.LENGTH)])
METRIC = Units.of([read_quantity("118 mm", Kind.LENGTH)])


@pytest.mark.parametrize(
    ("example", "fractions", "decimals"),
    [
        ('wheelbase = "1235 mm"', "48 5/8 in", "48.6 in"),
        ('height = "341 ± 2 mm"', "13 7/16 ± 1/16 in", "13.43 ± 0.08 in"),
        ('diameter = "25.40 ± 0.02 mm"', "1.0000 ± 0.0008 in", "1.0000 ± 0.0008 in"),
        ('width = "6.35 mm"', "1/4 in", "0.25 in"),
        ('arm = "-95 mm"', "-3 3/4 in", "-3.74 in"),
        ('hip = "0 mm"', "0 in", "0 in"),
        ('mass = "82 kg"', "181 lb", "181 lb"),
        ('power = "9.3 kW"', "12.5 hp", "12.5 hp"),
        ('air = "30 °C"', "86 °F", "86 °F"),
        ('air = "18 °C"', "64 °F", "64 °F"),
        ('volume = "0.6 L"', "20.3 fl oz", "20.3 fl oz"),
        ('force = "60 ± 10 N"', "13 ± 2 lbf", "13 ± 2 lbf"),
        ('descent = "120 m"', "394 ft", "394 ft"),
        ('top_speed = "12 to 15 km/h"', "7.46 to 9.32 mph", "7.46 to 9.32 mph"),
        ('gap = "at least 3 mm"', "at least 1/8 in", "at least 0.12 in"),
        ('stop_within = "at most 4 m"', "at most 13.1 ft", "at most 13.1 ft"),
    ],
)
def test_an_example_is_in_the_builders_units(example: str, fractions: str, decimals: str) -> None:
    key = example.partition('"')[0]
    assert in_their_units(example, FRACTIONS) == f'{key}"{fractions}"'
    assert in_their_units(example, DECIMALS) == f'{key}"{decimals}"'
    assert in_their_units(example, METRIC) == example


def test_a_value_needs_no_quotes() -> None:
    corner = in_their_units("560 mm, 185 mm; 585 mm, 210 mm", FRACTIONS)
    assert corner == "22 1/16 in, 7 5/16 in; 23 1/16 in, 8 1/4 in"
    assert in_their_units("M8", FRACTIONS) == "M8"


@pytest.mark.parametrize(
    "words",
    ['set_screw = "M8"', 'grade = "SAE 90"', 'thread = "1/8 NPT"', 'gear = "4"'],
)
def test_what_is_no_value_stays(words: str) -> None:
    assert in_their_units(words, FRACTIONS) == words


def test_a_price_is_in_the_builders_money() -> None:
    assert in_their_units('price = "24 EUR"', FRACTIONS) == 'price = "24 USD"'


def test_no_finding_of_a_build_in_inches_asks_for_millimetres(cart: Cart) -> None:
    """Forces and powers stay in what this builder writes of them."""
    bare = ("[[belt]]", '[show]\nlength = "in 1/16"\n[[belt]]')
    unbraked = ('material = "moulded"\n', "")
    found = review_of(cart(bare, unbraked))
    asked = [finding.remedy for finding in found.findings if '"' in finding.remedy]
    assert len(asked) > 5
    metric = re.compile(r'"[-0-9.]+(?: ± [0-9.]+)? mm"')
    assert [remedy for remedy in asked if metric.search(remedy)] == []


def test_a_build_in_inches_reads_rims_and_slots_in_its_own_units(cart: Cart) -> None:
    bare = ("[[belt]]", '[show]\nlength = "in"\n[[belt]]')
    case = cart(bare)
    found = {finding.id: finding for finding in review_of(case).findings}
    speed = next(found[id_] for id_ in found if id_.startswith("belt.") and id_.endswith(".speed"))
    assert speed.shown.endswith("ft/min")
    assert "m/s" not in speed.meaning + speed.working
    caution = guard_caution(case)
    assert "gets 7/16 in deep through a slot 3/16 in wide, 13/16 in through 5/16 in" in caution
    assert " mm" not in caution
