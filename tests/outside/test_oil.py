"""Oil viscosity and heat against published figures.

Sources:
- ASTM D341, standard practice for viscosity–temperature equations and charts of liquid petroleum.
- SAE J306 (2019), automotive gear lubricant viscosity; SAE J300 (2021), engine oil viscosity.
- ISO 3448:1992, industrial liquid lubricants, ISO viscosity classification (class ± 10 %).
- ASTM D2270, viscosity index, worked example (from memory, high confidence).
- C. S. Cragoe, Thermal Properties of Petroleum Products, Miscellaneous Publication 97,
  National Bureau of Standards, 1929.
"""

import numpy as np
import pytest

from beltwright.physics.gearbox.oil import (
    ZERO_CELSIUS,
    density,
    heat_capacity,
    kinematic_viscosity,
    walther_line,
)
from beltwright.tables.oils import OilGrade, oil, oil_grade_limits, oils

FORTY, HUNDRED = 313.15, 373.15


@pytest.mark.parametrize(
    ("celsius", "printed"),
    [(70, 37.592), (20, 551.21), (0, 3221.5), (40, 150.0), (100, 14.5)],
)
def test_viscosity_between_and_beyond_two_points(celsius: float, printed: float) -> None:
    """ASTM D341 by an independent calculation; all printed digits."""
    line = walther_line(150e-6, FORTY, 14.5e-6, HUNDRED)
    found = kinematic_viscosity(line, celsius + ZERO_CELSIUS) * 1e6
    assert found == pytest.approx(printed, rel=1.5e-4)


def test_the_line_itself() -> None:
    """ASTM D341: A 9.0425 and B 3.4877 by an independent calculation."""
    line = walther_line(150e-6, FORTY, 14.5e-6, HUNDRED)
    assert float(line.a) == pytest.approx(9.0425, abs=5e-5)
    assert float(line.b) == pytest.approx(3.4877, abs=5e-5)


@pytest.mark.parametrize(
    ("grade", "low", "high"),
    [
        # SAE J306: an 80W-90 and a 75W-90 must lie in the 90 window at 100 °C
        ("SAE 80W-90", 13.5, 18.5),
        ("SAE 75W-90", 13.5, 18.5),
        ("SAE 90", 13.5, 18.5),
        ("SAE 85W-140", 24.0, 32.5),
        ("SAE 140", 24.0, 32.5),
        # SAE J300
        ("SAE 30", 9.3, 12.5),
        ("SAE 10W-30", 9.3, 12.5),
        ("SAE 40", 12.5, 16.3),
        ("SAE 50", 16.3, 21.9),
    ],
)
def test_typical_oils_keep_their_grade_at_100(grade: str, low: float, high: float) -> None:
    assert low <= oil(grade).at_100 * 1e6 < high


@pytest.mark.parametrize("row", [row for row in oils() if row.grade.startswith("ISO VG")])
def test_typical_industrial_oils_keep_their_class_at_40(row: OilGrade) -> None:
    """ISO 3448: the class number ± 10 % at 40 °C."""
    assert row.at_40 * 1e6 == pytest.approx(float(row.grade.split()[-1]), rel=0.1)


def test_limits_as_printed() -> None:
    """SAE J306 row 90, SAE J300 row 30, ISO 3448 row 220."""
    limits = {row.grade: (row.low * 1e6, row.high * 1e6) for row in oil_grade_limits()}
    assert limits["90"] == pytest.approx((13.5, 18.5))
    assert limits["30"] == pytest.approx((9.3, 12.5))
    assert limits["VG 220"] == pytest.approx((198.0, 242.0))


def test_heat_capacity_of_the_bureau_of_standards() -> None:
    """Cragoe: c = (0.388 + 0.00045 t)/√s in Btu/(lb·°F), t in °F: his own units, 0.9 and 176 °F."""
    british = (0.388 + 0.00045 * 176.0) / np.sqrt(0.9)
    # the two printed forms of the formula, British and metric, agree to their last digit
    assert heat_capacity(0.9 * 999.0, 353.15) == pytest.approx(british * 4186.8, rel=1e-3)


def test_density_falls_as_a_volume_table_says() -> None:
    """ASTM D1250 gives about 0.965 for a 0.89 lubricating oil from 15 to 65 °C (from memory)."""
    assert density(890.0, 338.15) / 890.0 == pytest.approx(0.966, abs=0.002)
