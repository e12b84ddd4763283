"""Ground speed against the usual mph formula and worked arithmetic.

The figures 336 and 168 (rpm, inches, mph) stand in many trade pages; they follow from
1 mile = 63,360 in exactly (NIST SP 811, appendix B).
"""

from math import pi

import pytest
from numpy.testing import assert_allclose

from beltwright.physics.gearing import belt_ratio, ground_speed, rolling_radius
from beltwright.quantity import Kind, read_quantity, read_tyre

RPM = 2 * pi / 60
INCH = 0.0254
MPH = 1609.344 / 3600


@pytest.mark.parametrize(
    ("rpm", "ratio", "tyre_inches", "mph", "source"),
    [
        (3600, 60.0, 19.0, 3.3915, "3.0 to 9.0 in belt stage and 20:1 gearbox, exact arithmetic"),
        (3600, 60.0, 19.0, 3600 * 19.0 / (336.13 * 60.0), "trade formula rpm·D/(336·ratio)"),
        (3000, 40.0, 20.0, 3000 * 20.0 / (336.13 * 40.0), "trade formula rpm·D/(336·ratio)"),
        (1500, 12.0, 15.0, 1500 * 7.5 / (168.07 * 12.0), "trade formula rpm·radius/(168·ratio)"),
        (336.135, 1.0, 1.0, 1.0, "63,360 in a mile / (60 π), exact"),
    ],
)
def test_ground_speed(
    rpm: float, ratio: float, tyre_inches: float, mph: float, source: str
) -> None:
    speed = ground_speed(rpm * RPM, ratio, pi * tyre_inches * INCH)
    # the trade's constants are printed to five figures
    assert_allclose(speed / MPH, mph, rtol=2e-5, err_msg=source)


def test_ratio_of_the_worked_arithmetic() -> None:
    assert_allclose(belt_ratio(3.0 * INCH, 9.0 * INCH) * 20.0, 60.0, rtol=1e-15)


@pytest.mark.parametrize(
    ("size", "outside_in", "width_in", "rim_in"),
    [("20x8.00-8", 20.0, 8.0, 8.0), ("15x6.00-6", 15.0, 6.0, 6.0)],
)
def test_free_circumference_of_a_tyre(
    size: str, outside_in: float, width_in: float, rim_in: float
) -> None:
    """Sizes as moulded give outside diameter, width and rim in inches (TRA practice)."""
    tyre = read_tyre(size)
    assert_allclose(tyre.outside.value, outside_in * INCH, rtol=1e-12)
    assert_allclose(tyre.width.value, width_in * INCH, rtol=1e-12)
    assert_allclose(tyre.rim.value, rim_in * INCH, rtol=1e-12)
    assert_allclose(rolling_radius(pi * tyre.outside.value) * 2, tyre.outside.value, rtol=1e-15)


def test_twenty_inch_tyre_rolls_62_83_inches() -> None:
    outside = read_quantity("20 in", Kind.LENGTH).value
    assert_allclose(pi * outside / INCH, 62.8319, atol=5e-5)
