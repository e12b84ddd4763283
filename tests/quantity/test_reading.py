"""Quantities are read as written, and anything else is refused in plain words."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.quantity import (
    Kind,
    QuantityError,
    Unit,
    Written,
    read_quantity,
    unit_named,
    units_of,
    write,
)

INCH = 0.0254


@pytest.mark.parametrize(
    "text",
    [
        "4 5/8 in",
        '4-5/8"',
        "4 5/8″",
        "4⅝ in",
        "4 5⁄8 inches",
        "4.625 in",
        "4,625e0 in",
        "4 5/8 IN.",
    ],
)
def test_one_length_in_many_spellings(text: str) -> None:
    if "," in text:
        with pytest.raises(QuantityError, match="may mean"):
            read_quantity(text, Kind.LENGTH)
    else:
        assert read_quantity(text, Kind.LENGTH).value == pytest.approx(4.625 * INCH, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("118 mm", Kind.LENGTH, 0.118),
        ("11 cm", Kind.LENGTH, 0.11),
        ("1.2 m", Kind.LENGTH, 1.2),
        ("1,5 mm", Kind.LENGTH, 0.0015),
        ("0,125 mm", Kind.LENGTH, 0.000125),
        ("−10 mm", Kind.LENGTH, -0.010),
        ("3 ft 2 in", Kind.LENGTH, 38 * INCH),
        ("3' 2\"", Kind.LENGTH, 38 * INCH),
        ("3’ 2 1/2”", Kind.LENGTH, 38.5 * INCH),
        ("- 3 ft 2 in", Kind.LENGTH, -38 * INCH),
        ("2 min 30 s", Kind.TIME, 150.0),
        ("24 deg", Kind.ANGLE, math.radians(24)),
        ("24°", Kind.ANGLE, math.radians(24)),
        ("0.4 rad", Kind.ANGLE, 0.4),
        ("20 %", Kind.ANGLE, math.atan(0.2)),
        ("20 %", Kind.RATIO, 0.2),
        ("0.35", Kind.RATIO, 0.35),
        ("3300 rpm", Kind.ROTATION, 110 * math.pi),
        ("3300 1/min", Kind.ROTATION, 110 * math.pi),
        ("3300 min⁻¹", Kind.ROTATION, 110 * math.pi),
        ("1/2 hp", Kind.POWER, 275 * 0.3048 * 0.45359237 * 9.80665),
        ("12.5 PS", Kind.POWER, 12.5 * 75 * 9.80665),
        ("25 N m", Kind.TORQUE, 25.0),
        ("25 Nm", Kind.TORQUE, 25.0),
        ("25 ft-lb", Kind.TORQUE, 25 * 0.3048 * 0.45359237 * 9.80665),
        ("25 lb in", Kind.TORQUE, 25 * INCH * 0.45359237 * 9.80665),
        ("68 °F", Kind.TEMPERATURE, 293.15),
        ("20 C", Kind.TEMPERATURE, 293.15),
        ("10 psi", Kind.PRESSURE, 10 * 0.45359237 * 9.80665 / INCH**2),
        ("-5 mbar", Kind.PRESSURE, -500.0),
        ("2.4 N/mm", Kind.SPRING_RATE, 2400.0),
        ("20 fl. oz.", Kind.VOLUME, 20 * 231 / 128 * INCH**3),
        ("600 cm³", Kind.VOLUME, 0.0006),
        ("1.2 m^2", Kind.AREA, 1.2),
        ("20 km per h", Kind.SPEED, 20 / 3.6),
        ("€160", Kind.MONEY, 160.0),
        ("160,50 €", Kind.MONEY, 160.5),
        ("EUR 160", Kind.MONEY, 160.0),
        ("160 chf", Kind.MONEY, 160.0),
    ],
)
def test_value(text: str, kind: Kind, value: float) -> None:
    assert read_quantity(text, kind).value == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "kind", "minus", "plus"),
    [
        ("118 ± 1 mm", Kind.LENGTH, 0.001, 0.001),
        ("118 +- 1 mm", Kind.LENGTH, 0.001, 0.001),
        ("118 +/- 1 mm", Kind.LENGTH, 0.001, 0.001),
        ("118 mm ± 1 mm", Kind.LENGTH, 0.001, 0.001),
        ("118 mm ± 1", Kind.LENGTH, 0.001, 0.001),
        ("118 mm ± 1/32 in", Kind.LENGTH, INCH / 32, INCH / 32),
        ("118 +1 -0.5 mm", Kind.LENGTH, 0.0005, 0.001),
        ("118 mm +1/-0.5", Kind.LENGTH, 0.0005, 0.001),
        ("118 -0.5 +1 mm", Kind.LENGTH, 0.0005, 0.001),
        ("4 5/8 +1/16 -1/32 in", Kind.LENGTH, INCH / 32, INCH / 16),
        ("20 °C ± 5 °C", Kind.TEMPERATURE, 5.0, 5.0),
        ("68 ± 9 °F", Kind.TEMPERATURE, 5.0, 5.0),
        ("0.35 ± 0.02", Kind.RATIO, 0.02, 0.02),
        ("20 % ± 2 %", Kind.RATIO, 0.02, 0.02),
        ("200 W ± 5 %", Kind.POWER, 10.0, 10.0),
        ("10 deg ± 2 %", Kind.ANGLE, math.radians(0.2), math.radians(0.2)),
        (
            "20 ± 2 %",
            Kind.ANGLE,
            math.atan(0.2) - math.atan(0.18),
            math.atan(0.22) - math.atan(0.2),
        ),
    ],
)
def test_tolerance(text: str, kind: Kind, minus: float, plus: float) -> None:
    read = read_quantity(text, kind)
    assert (read.minus, read.plus) == pytest.approx((minus, plus), rel=1e-15)


@pytest.mark.parametrize(
    ("text", "kind", "reason"),
    [
        ("", Kind.LENGTH, "Nothing stands here"),
        ("   ", Kind.LENGTH, "Nothing stands here"),
        ("about", Kind.LENGTH, "no number"),
        ("nan mm", Kind.LENGTH, "no number"),
        ("inf mm", Kind.LENGTH, "no number"),
        ("1e400 mm", Kind.LENGTH, "far too large"),
        ("1e15 m", Kind.LENGTH, "far too large"),
        ("1e-20 m", Kind.LENGTH, "far too large or too small"),
        ("9" * 60 + " mm", Kind.LENGTH, "too many digits"),
        ("9 mm " * 60, Kind.LENGTH, "far too long"),
        ("118", Kind.LENGTH, "unit is missing"),
        ("118 ± 1", Kind.LENGTH, "unit is missing"),
        ("12 kg", Kind.LENGTH, '"kg" is a unit for a mass, not for a length'),
        ("40 lb", Kind.FORCE, '"lb" is a unit for a mass, not for a force'),
        ("12 furlong", Kind.LENGTH, "not a unit"),
        ("1,500 mm", Kind.LENGTH, "may mean 1500 or 1.500"),
        ("1,234,567 mm", Kind.LENGTH, "marks between thousands"),
        ("1.234,5 mm", Kind.LENGTH, "marks between thousands"),
        ("1.2.3 mm", Kind.LENGTH, "more than one decimal point"),
        ("1 500 mm", Kind.LENGTH, "gaps between thousands"),
        ("118 +1 mm", Kind.LENGTH, "half a tolerance"),
        ("4 5/0 in", Kind.LENGTH, "over 0"),
        ("4 9/8 in", Kind.LENGTH, "not less than 1"),
        ("3 ft 14 in", Kind.LENGTH, "12 in make one"),
        ("12 mm 3 in", Kind.LENGTH, "do not go together"),
        ("12 mm !", Kind.LENGTH, "cannot be read"),
        ("-5 kg", Kind.MASS, "never below 0"),
        ("5 ± 6 kg", Kind.MASS, "tolerance is larger"),
        ("-300 °C", Kind.TEMPERATURE, "colder"),
        ("20 °C ± 5 %", Kind.TEMPERATURE, "says nothing"),
        ("20 % ± 1 deg", Kind.ANGLE, "in the same unit"),
        ("0.35 ± 10 %", Kind.RATIO, "not clear"),
        ("¥500", Kind.MONEY, "two currencies"),
        ("160", Kind.MONEY, "unit is missing"),
        ("160 QQQ", Kind.MONEY, "not a unit"),
    ],
)
def test_refusal_says_why_and_gives_an_example(text: str, kind: Kind, reason: str) -> None:
    with pytest.raises(QuantityError, match=reason) as refused:
        read_quantity(text, kind)
    assert refused.value.expected == kind.noun
    assert read_quantity(refused.value.example, kind).kind is kind


def test_the_place_in_the_file_comes_with_the_text() -> None:
    written = Written("118 mm", "belt.traction belt.length")
    assert read_quantity(written, Kind.LENGTH).key == "belt.traction belt.length"
    assert read_quantity(written, Kind.LENGTH, "elsewhere").key == "elsewhere"


def test_what_the_builder_wrote_is_kept() -> None:
    read = read_quantity('4-5/8" ± 1/32"', Kind.LENGTH)
    assert (read.text, read.unit) == ('4-5/8" ± 1/32"', '"')


@pytest.mark.parametrize("text", ["0 mm", "-3 mm", "5 ± 6 mm", "5 ± 5 mm"])
def test_a_size_stays_above_zero_over_its_whole_tolerance(text: str) -> None:
    with pytest.raises(QuantityError, match="0"):
        read_quantity(text, Kind.LENGTH).above_zero()


UNITS = [unit for kind in Kind if kind is not Kind.MONEY for unit in units_of(kind)] + [
    unit_named("EUR", Kind.MONEY)
]


@given(st.sampled_from(UNITS), st.floats(1e-6, 1e5))
def test_every_unit_goes_to_text_and_back(unit: Unit, value: float) -> None:
    if unit.slope:
        value = min(value, 1.5)
    text = write(value, unit)
    read = read_quantity(text, unit.kind)
    floor = 273.15 * 2**-52 if unit.offset else 0.0
    assert read.value == pytest.approx(value, rel=1e-15 if not unit.slope else 1e-13, abs=floor)
    assert unit_named(read.unit, unit.kind) == unit


@given(
    st.integers(0, 5000),
    st.integers(1, 63),
    st.sampled_from([8, 16, 32, 64]),
    st.sampled_from(" -"),
)
def test_mixed_inches_are_exact(whole: int, over: int, under: int, join: str) -> None:
    over %= under
    read = read_quantity(f"{whole}{join}{over}/{under} in", Kind.LENGTH)
    assert read.value == pytest.approx((whole + over / under) * INCH, rel=2e-16)


@given(st.text(max_size=150), st.sampled_from(list(Kind)))
def test_no_text_does_worse_than_a_refusal(text: str, kind: Kind) -> None:
    try:
        read = read_quantity(text, kind)
    except QuantityError:
        return
    assert math.isfinite(read.value)


@given(
    st.text(alphabet="0123456789./,+-±%eE \"'°·²³⅝½minkgftlbFCrpUSD€$×to", max_size=24),
    st.sampled_from(list(Kind)),
)
def test_no_near_miss_does_worse_than_a_refusal(text: str, kind: Kind) -> None:
    try:
        read = read_quantity(text, kind)
    except QuantityError:
        return
    assert math.isfinite(read.value)
    assert read.minus >= 0
    assert read.plus >= 0


@given(st.sampled_from(list("\u00a0\u2009\u202f\t")), st.sampled_from(["", "\u200b", "\ufeff"]))
def test_odd_spaces_do_not_matter(space: str, nothing: str) -> None:
    text = f"{nothing}118{space}±{space}1{nothing}{space}mm{space}"
    assert read_quantity(text, Kind.LENGTH).high == pytest.approx(0.119, rel=1e-15)
