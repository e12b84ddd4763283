"""Units against published conversion factors.

NIST: Guide for the Use of the International System of Units (SI), NIST Special Publication 811,
2008 edition, appendix B.8 (factors listed alphabetically; those in bold there are exact, the others
are printed to seven figures). The rows are from memory and held to the printed figures.
ISO 4217:2015, list one.
TRA: size practice of the Tire and Rim Association, sizes unloaded and inflated.
"""

import math

import pytest

from beltwright.quantity import Kind, read_quantity, read_tyre


@pytest.mark.parametrize(
    ("text", "kind", "printed", "half_digit"),
    [
        ("1 in", Kind.LENGTH, 2.54e-2, 0.0),
        ("1 ft", Kind.LENGTH, 3.048e-1, 0.0),
        ("1 mi", Kind.LENGTH, 1.609344e3, 0.0),
        ("1 yd", Kind.LENGTH, 9.144e-1, 0.0),
        ("1 lb", Kind.MASS, 4.535924e-1, 5e-8),
        ("1 oz", Kind.MASS, 2.834952e-2, 5e-9),
        ("1 lbf", Kind.FORCE, 4.448222, 5e-7),
        ("1 kgf", Kind.FORCE, 9.80665, 0.0),
        ("1 hp", Kind.POWER, 7.456999e2, 5e-5),
        ("1 PS", Kind.POWER, 7.354988e2, 5e-5),
        ("1 lbf·ft", Kind.TORQUE, 1.355818, 5e-7),
        ("1 lbf·in", Kind.TORQUE, 1.129848e-1, 5e-8),
        ("1 kgf·m", Kind.TORQUE, 9.80665, 0.0),
        ("1 psi", Kind.PRESSURE, 6.894757e3, 5e-4),
        ("1 bar", Kind.PRESSURE, 1.0e5, 0.0),
        ("1 mmH2O", Kind.PRESSURE, 9.80665, 0.0),
        ("1 inH2O", Kind.PRESSURE, 2.490889e2, 5e-5),
        ("1 lbf/in", Kind.SPRING_RATE, 1.751268e2, 5e-5),
        ("1 gal", Kind.VOLUME, 3.785412e-3, 5e-10),
        ("1 qt", Kind.VOLUME, 9.463529e-4, 5e-11),
        ("1 pt", Kind.VOLUME, 4.731765e-4, 5e-11),
        ("1 fl oz", Kind.VOLUME, 2.957353e-5, 5e-12),
        ("1 in³", Kind.VOLUME, 1.638706e-5, 5e-12),
        ("1 in²", Kind.AREA, 6.4516e-4, 0.0),
        ("1 ft²", Kind.AREA, 9.290304e-2, 0.0),
        ("1 mph", Kind.SPEED, 4.4704e-1, 0.0),
        ("1 km/h", Kind.SPEED, 2.777778e-1, 5e-8),
        ("1 ft/min", Kind.SPEED, 5.08e-3, 0.0),
        ("1 ft/s", Kind.SPEED, 3.048e-1, 0.0),
        ("1 rpm", Kind.ROTATION, 1.047198e-1, 5e-8),
        ("1 deg", Kind.ANGLE, 1.745329e-2, 5e-9),
        ("1 lb/ft³", Kind.DENSITY, 1.601846e1, 5e-6),
        ("1 lb/in³", Kind.DENSITY, 2.767990e4, 5e-3),
        ("1 lb/ft", Kind.LINEAR_MASS, 1.488164, 5e-7),
        ("1 kW·h", Kind.ENERGY, 3.6e6, 0.0),
        ("1 ft·lbf", Kind.ENERGY, 1.355818, 5e-7),
        ("1 Btu", Kind.ENERGY, 1.05505585262e3, 0.0),
        ("1 Btu/h", Kind.POWER, 2.930711e-1, 5e-8),
        ("1 g", Kind.ACCELERATION, 9.80665, 0.0),
        ("1 lb·ft²", Kind.INERTIA, 4.214011e-2, 5e-9),
    ],
)
def test_nist_sp_811_factors(text: str, kind: Kind, printed: float, half_digit: float) -> None:
    tolerance = max(half_digit * (1 + 1e-6), printed * 1e-15)
    assert read_quantity(text, kind).value == pytest.approx(printed, rel=0, abs=tolerance)


@pytest.mark.parametrize(
    ("text", "kelvin"),
    [
        # Fixed points of NIST SP 811 B.8 and the SI Brochure: t/°C = T/K - 273.15,
        # T/K = (t/°F + 459.67)/1.8; -40 is the same on both scales.
        ("0 °C", 273.15),
        ("32 °F", 273.15),
        ("212 °F", 373.15),
        ("-40 °F", 233.15),
        ("-40 °C", 233.15),
        ("-459.67 °F", 0.0),
    ],
)
def test_temperature_fixed_points(text: str, kelvin: float) -> None:
    assert read_quantity(text, Kind.TEMPERATURE).value == pytest.approx(kelvin, abs=1e-12)


@pytest.mark.parametrize(
    ("fraction", "millimetres"),
    [
        # The fraction table at the front of shop handbooks (common practice, no source); each row
        # is exact by 1 in = 25.4 mm, NIST SP 811 B.8.
        ("1/64", 0.396875),
        ("1/32", 0.79375),
        ("1/16", 1.5875),
        ("3/32", 2.38125),
        ("17/64", 6.746875),
        ("5/16", 7.9375),
        ("27/64", 10.715625),
        ("1/2", 12.7),
        ("5/8", 15.875),
        ("29/32", 23.01875),
        ("63/64", 25.003125),
        ("4 5/8", 117.475),
        ("3 3/4", 95.25),
    ],
)
def test_fraction_table(fraction: str, millimetres: float) -> None:
    read = read_quantity(f"{fraction} in", Kind.LENGTH)
    assert read.value * 1000 == pytest.approx(millimetres, rel=1e-15)


def test_horsepower_is_550_foot_pounds_a_second() -> None:
    # The definition in SI numbers: 550 · 0.3048 m · 4.448 221 615 260 5 N (NIST SP 811).
    assert read_quantity("1 hp", Kind.POWER).value == pytest.approx(
        550 * 0.3048 * 4.4482216152605, rel=1e-15
    )


@pytest.mark.parametrize(
    "code", ["EUR", "USD", "GBP", "CHF", "SEK", "NOK", "DKK", "PLN", "CZK", "JPY", "INR", "ZAR"]
)
def test_iso_4217_codes(code: str) -> None:
    # ISO 4217:2015, list one: alphabetic codes of national currencies.
    assert read_quantity(f"160 {code}", Kind.MONEY).value == 160.0


@pytest.mark.parametrize("code", ["XTS", "XXX", "XAU", "QQQ", "EURO"])
def test_iso_4217_test_codes_and_metals_are_no_money(code: str) -> None:
    # ISO 4217:2015: XTS is for tests, XXX means no currency, XAU is gold.
    with pytest.raises(ValueError, match="not a unit"):
        read_quantity(f"160 {code}", Kind.MONEY)


@pytest.mark.parametrize(
    ("size", "outside", "width", "rim"),
    [
        # TRA practice, inches: outside diameter x width - rim; a two-number size names width, rim.
        ("20×8.00-8", 20.0, 8.0, 8.0),
        ("15×6.00-6", 15.0, 6.0, 6.0),
        ("4.80-8", None, 4.8, 8.0),
        # Metric size, ISO 4223-1 / ETRTO: rim + 2 · aspect · width.
        ("145/70-6", 6 + 2 * 0.70 * 145 / 25.4, 145 / 25.4, 6.0),
    ],
)
def test_tyre_size_codes(size: str, outside: float | None, width: float, rim: float) -> None:
    tyre = read_tyre(size)
    if outside is not None:
        assert tyre.outside.value == pytest.approx(outside * 0.0254, rel=1e-15)
    assert tyre.width.value == pytest.approx(width * 0.0254, rel=1e-15)
    assert tyre.rim.value == pytest.approx(rim * 0.0254, rel=1e-15)


def test_free_circumference_of_a_20_inch_tyre() -> None:
    # TRA practice with π·D: 62.8319 in as printed to four decimals.
    inches = math.pi * read_tyre("20x8-8").outside.value / 0.0254
    assert inches == pytest.approx(62.8319, abs=5e-5)


@pytest.mark.parametrize(
    ("size", "low", "high"),
    [
        # Outside diameters in inches printed in trailer and barrow tyre lists (from memory):
        # the rule of thumb must contain them.
        ("4.00-8", 15.9, 16.4),
        ("4.80/4.00-8", 16.2, 16.7),
        ("4.10/3.50-4", 10.5, 11.1),
        ("3.50-8", 14.2, 14.8),
    ],
)
def test_rule_of_thumb_diameters(size: str, low: float, high: float) -> None:
    outside = read_tyre(size).outside
    assert outside.low <= low * 0.0254
    assert high * 0.0254 <= outside.high
