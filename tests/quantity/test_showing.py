"""Values are shown in the builder's units, with sensible digits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.quantity import (
    Kind,
    Units,
    default_unit,
    read_goal,
    read_quantity,
    show,
    show_inches,
    show_quantity,
    show_range,
    unit_named,
)


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [
        (0.118, "mm", "118 mm"),
        (0.1234567, "mm", "123.5 mm"),
        (12.3456, "m", "12.35 m"),
        (12345.6, "m", "12346 m"),
        (0.99996, "m", "1 m"),
        (-1e-18, "m", "0 m"),
        (0.0, "m", "0 m"),
        (0.4188790205, "deg", "24°"),
        (293.15, "°C", "20 °C"),
        (160.0, "EUR", "160 EUR"),
        (12.5, "€", "12.50 EUR"),
        (0.35, "", "0.35"),
        (0.2, "%", "20 %"),
    ],
)
def test_show(value: float, unit: str, shown: str) -> None:
    assert show(value, unit) == shown


def test_a_slope_is_shown_as_its_tangent() -> None:
    assert show(0.19739556, unit_named("%", Kind.ANGLE)) == "20 %"


def test_ranges() -> None:
    assert show_range(124.617, 133.518, "rpm") == "1190 to 1275 rpm"
    assert show_range(0.118, 0.11800001, "mm") == "118 mm"


@pytest.mark.parametrize(
    ("inches", "nearest", "shown"),
    [
        (4.625, 16, "4 5/8 in"),
        (0.5, 16, "1/2 in"),
        (3.99, 16, "4 in"),
        (0.01, 16, "0 in"),
        (-1.03125, 32, "-1 1/32 in"),
        (0.0, 16, "0 in"),
    ],
)
def test_inches_as_on_a_tape(inches: float, nearest: int, shown: str) -> None:
    assert show_inches(inches * 0.0254, nearest) == shown


@given(st.floats(-100, 100), st.sampled_from([16, 32, 64]))
def test_tape_inches_are_the_nearest(metres: float, nearest: int) -> None:
    read = read_quantity(show_inches(metres, nearest), Kind.LENGTH)
    assert abs(read.value - metres) <= 0.0254 / nearest / 2 * (1 + 1e-9)


@pytest.mark.parametrize(
    "text", ["118 ± 1 mm", "118 +1 -0.5 mm", "4.5 ± 0.02 in", "68 ± 9 °F", "35 EUR"]
)
def test_a_quantity_is_shown_as_written(text: str) -> None:
    kind = {"EUR": Kind.MONEY, "°F": Kind.TEMPERATURE}.get(text.split()[-1], Kind.LENGTH)
    assert show_quantity(read_quantity(text, kind)) == text


def test_units_follow_what_the_builder_writes_most() -> None:
    lengths = ['4 5/8"', "3 1/32 in", "5 in", "5 mm"]
    written = [read_quantity(text, Kind.LENGTH) for text in lengths]
    units = Units.of([*written, read_goal("at most £5", Kind.MONEY)])
    assert units.show(0.1, Kind.LENGTH) == "3 15/16 in"
    assert units.show(2.5, Kind.MONEY) == "£2.50"
    assert units.show(300, Kind.TEMPERATURE) == "80.3 °F"


def test_ranges_of_tape_inches() -> None:
    units = Units.of([read_quantity("4 5/8 ± 1/64 in", Kind.LENGTH)])
    assert units.show_range(0.0254, 0.0381, Kind.LENGTH) == "1 to 1 1/2 in"
    assert units.show_range(0.0254, 0.0254, Kind.LENGTH) == "1 in"
    assert units.show(0.0254 * 1.03125, Kind.LENGTH) == "1 1/32 in"


def test_units_asked_for_come_first() -> None:
    written = [read_quantity("4 5/8 in", Kind.LENGTH)]
    assert Units.of(written, {Kind.LENGTH: "mm"}).show(0.1, Kind.LENGTH) == "100 mm"
    assert Units.of(written, {Kind.LENGTH: "in"}).show(0.1, Kind.LENGTH) == "3.937 in"
    assert Units.of([], {Kind.LENGTH: "in 1/32"}).show(0.1, Kind.LENGTH) == "3 15/16 in"


@pytest.mark.parametrize("kind", list(Kind))
def test_every_kind_has_a_default_unit(kind: Kind) -> None:
    assert read_quantity(show(1.0, default_unit(kind)), kind).kind is kind


def test_who_measures_in_inches_reads_pounds_and_fahrenheit() -> None:
    units = Units.of([read_quantity("3 in", Kind.LENGTH), read_quantity("2 kW", Kind.POWER)])
    assert units.show(10.0, Kind.SPEED) == "22.4 mph"
    assert units.show(293.15, Kind.TEMPERATURE) == "68 °F"
    assert units.show(1000.0, Kind.POWER) == "1 kW"
    assert Units.of([read_quantity("3 mm", Kind.LENGTH)]).show(10.0, Kind.SPEED) == "36 km/h"


@pytest.mark.parametrize(
    ("millimetres", "unit", "shown"),
    [
        (0.1, "in", "0.004 in"),
        (0.02, "in", "0.0008 in"),
        (1.4, "in", "0.055 in"),
        (39.37, "in", "1.55 in"),
        (1e-5, "in", "0 in"),
        (0.0998, "mm", "0.1 mm"),
        (0.004, "mm", "0.004 mm"),
        (12.3456, "mm", "12.35 mm"),
        (2.5, "in 1/16", "0.098 in"),
        (6.35, "in 1/16", "1/4 in"),
        (4.7625, "in 1/16", "3/16 in"),
        (0.0, "in 1/16", "0 in"),
        (7.0, "in 1/16", "1/4 in"),
        (100.0, "in 1/16", "3 15/16 in"),
    ],
)
def test_lengths_have_the_figures_that_a_tape_or_a_caliper_shows(
    millimetres: float, unit: str, shown: str
) -> None:
    units = Units.of([], {Kind.LENGTH: unit})
    assert units.show(millimetres / 1000.0, Kind.LENGTH) == shown


def test_a_short_range_is_in_decimals_at_both_ends() -> None:
    units = Units.of([], {Kind.LENGTH: "in 1/16"})
    assert units.show_range(0.0025, 0.0127, Kind.LENGTH) == "0.098 to 0.5 in"


def test_distances_on_the_ground_have_three_figures() -> None:
    assert Units().show(2.07816, Kind.LENGTH, "ft") == "6.82 ft"
    assert Units().show(12.345, Kind.LENGTH, "m") == "12.3 m"


def test_whole_inches_speak_neither_for_fractions_nor_for_decimals() -> None:
    tape = ["14 in", "6 in", "20 in", "3 1/4 in"]
    units = Units.of([read_quantity(text, Kind.LENGTH) for text in tape])
    assert units.show(3.25 * 0.0254, Kind.LENGTH) == "3 1/4 in"
    caliper = [*tape, "0.361 in", "1.25 in"]
    units = Units.of([read_quantity(text, Kind.LENGTH) for text in caliper])
    assert units.show(3.25 * 0.0254, Kind.LENGTH) == "3.25 in"


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        (["3 1/4 in", "5 1/2 in", "7 3/4 in", "1 5/8 in", "13/32 in"], "3 15/16 in"),
        (["3 1/4 in", "5 1/2 in", "7 1/32 in", "13/32 in"], "3 29/32 in"),
    ],
)
def test_one_drill_makes_no_finer_tape(written: list[str], shown: str) -> None:
    units = Units.of([read_quantity(text, Kind.LENGTH) for text in written])
    assert units.show(3.915 * 0.0254, Kind.LENGTH) == shown


@pytest.mark.parametrize(
    ("way", "part", "shown"),
    [("20 ft", "47 1/2 in", "4 in"), ("60 m", "1200 mm", "101.6 mm"), ("20 ft", "9 ft", "4 in")],
)
def test_ways_over_the_ground_set_no_unit_for_parts(way: str, part: str, shown: str) -> None:
    goal, size = read_goal(f"at most {way}", Kind.LENGTH), read_quantity(part, Kind.LENGTH)
    assert Units.of([goal, goal, size]).show(0.1016, Kind.LENGTH) == shown
    assert Units.of([goal], {Kind.LENGTH: "ft"}).show(0.3048, Kind.LENGTH) == "1 ft"


def test_money_is_shown_with_the_sign_that_the_builder_writes() -> None:
    units = Units.of([read_quantity("$18.50", Kind.MONEY), read_quantity("$4", Kind.MONEY)])
    assert units.show(32.75, Kind.MONEY) == "$32.75"
    assert units.show(-3.0, Kind.MONEY) == "-$3"
    assert units[Kind.MONEY].symbol == "USD"
    units = Units.of([read_quantity("18.50 USD", Kind.MONEY), read_quantity("$4", Kind.MONEY)])
    assert units.show(32.75, Kind.MONEY) == "32.75 USD"
