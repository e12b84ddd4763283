"""Belt sections, grooves and lengths against print.

Sources:
[1] ANSI/RMA IP-20-1988, Specifications for Drives Using Classical V-Belts and Sheaves: sections,
    groove table, standard lengths, as seen in print.
[2] RMA IP-23, Specifications for Drives Using Single V-Belts (light duty): sections seen in print;
    groove angles and diameters from memory.
[3] R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering Design, Tables 17-10, 17-11:
    from memory, high.
[4] ISO 4183, Classical and narrow V-belts, grooved pulleys: datum widths and the least height of
    groove above the datum line, from memory, medium.
[5] The trade's rule that a classical belt's outside length is its number plus 2, 3 or 4 in:
    common practice, seen in print.
"""

import numpy as np
import pytest

from beltwright.tables.belt_tolerances import length_tolerance
from beltwright.tables.belts import (
    groove_angle,
    nearest_lengths,
    outside_to_pitch,
    pitch_length,
    section,
    sold_lengths,
)

INCH = 0.0254


@pytest.mark.parametrize(
    ("name", "width", "height", "tolerance", "source"),
    [
        ("A", 1 / 2, 5 / 16, 1 / 32, "[1]"),
        ("B", 21 / 32, 13 / 32, 1 / 32, "[1]"),
        ("C", 7 / 8, 17 / 32, 1 / 32, "[1]"),
        ("3L", 3 / 8, 7 / 32, 1 / 64, "[2]"),
        ("4L", 1 / 2, 5 / 16, 1 / 64, "[2]"),
        ("5L", 5 / 8, 13 / 32, 1 / 64, "[2]"),
    ],
)
def test_cross_sections(
    name: str, width: float, height: float, tolerance: float, source: str
) -> None:
    cross = section(name).cross
    assert cross.top_width / INCH == pytest.approx(width, abs=tolerance / 100), source
    assert cross.height / INCH == pytest.approx(height, abs=tolerance / 100), source
    assert np.degrees(cross.angle) == pytest.approx(40.0, abs=1e-9), source


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        ("A", (12.5, 13.0), (8.0, 9.0)),
        ("B", (16.5, 17.0), (11.0, 11.0)),
        ("C", (22.0, 22.0), (14.0, 14.0)),
    ],
)
def test_the_metric_names_of_the_same_sections(
    name: str, width: tuple[float, float], height: tuple[float, float]
) -> None:
    """[1] prints the millimetre sizes beside the inch ones; they agree to the ±1/32 in of both."""
    cross = section(name).cross
    assert width[0] - 0.8 <= cross.top_width * 1e3 <= width[1] + 0.8
    assert height[0] - 0.8 <= cross.height * 1e3 <= height[1] + 0.8


@pytest.mark.parametrize(
    ("name", "offset", "tolerance", "source"),
    [
        ("A", 0.250, 0.005, "[1] column 2hd"),
        ("B", 0.350, 0.005, "[1] column 2hd"),
        ("C", 0.400, 0.005, "[1] column 2hd"),
        ("3L", 0.15, 0.05, "[2] from memory, medium to low"),
        ("4L", 0.20, 0.05, "[2] from memory, medium to low"),
        ("5L", 0.30, 0.05, "[2] from memory, medium to low"),
    ],
)
def test_outside_less_pitch_diameter(
    name: str, offset: float, tolerance: float, source: str
) -> None:
    pitch = float(outside_to_pitch(name, 5.0 * INCH)) / INCH
    assert 5.0 - pitch == pytest.approx(offset, abs=1e-9), source
    assert section(name).pitch_line.doubt / INCH == pytest.approx(tolerance), source


@pytest.mark.parametrize(("name", "inches"), [("A", 0.418), ("B", 0.530), ("C", 0.757)])
def test_datum_width_in_both_units(name: str, inches: float) -> None:
    """[1] column bd prints 10.62, 13.46, 19.23 mm and these inches; half the last digit."""
    assert section(name).pitch_line.datum_width / INCH == pytest.approx(inches, abs=0.0005)


@pytest.mark.parametrize(("name", "least"), [("A", 2.75), ("B", 3.5), ("C", 4.8)])
def test_the_belt_lies_about_as_high_as_its_groove(name: str, least: float) -> None:
    """[4] gives the least depth of groove above the datum line; a belt fills it to ±1 mm."""
    assert section(name).belt_above_pitch * 1e3 == pytest.approx(least, abs=1.0)


@pytest.mark.parametrize(
    ("name", "pitch_diameter", "degrees", "source"),
    [
        ("A", 3.0, 34, "[1]"),
        ("A", 5.4, 34, "[1]"),
        ("A", 5.5, 38, "[1]"),
        ("B", 7.0, 34, "[1]"),
        ("B", 7.1, 38, "[1]"),
        ("C", 8.0, 34, "[1]"),
        ("C", 9.0, 36, "[1]"),
        ("C", 12.0, 36, "[1]"),
        ("C", 13.0, 38, "[1]"),
        ("3L", 2.0 - 0.15, 32, "[2] from memory: 2.0 in outside"),
        ("3L", 2.5 - 0.15, 34, "[2] from memory: 2.5 in outside"),
        ("3L", 4.0 - 0.15, 36, "[2] from memory: 4.0 in outside"),
        ("3L", 4.5 - 0.15, 38, "[2] from memory: 4.5 in outside"),
        ("4L", 2.5 - 0.20, 30, "[2] from memory: 2.5 in outside"),
        ("4L", 3.0 - 0.20, 32, "[2] from memory: 3.0 in outside"),
        ("4L", 3.25 - 0.20, 34, "[2] from memory: 3.25 in outside"),
        ("4L", 6.0 - 0.20, 38, "[2] from memory: 6.0 in outside"),
        ("5L", 3.5 - 0.30, 30, "[2] from memory: 3.5 in outside"),
        ("5L", 4.0 - 0.30, 32, "[2] from memory: 4.0 in outside"),
        ("5L", 5.0 - 0.30, 34, "[2] from memory: 5.0 in outside"),
        ("5L", 8.0 - 0.30, 38, "[2] from memory: 8.0 in outside"),
    ],
)
def test_groove_angles(name: str, pitch_diameter: float, degrees: int, source: str) -> None:
    angle = float(groove_angle(name, pitch_diameter * INCH))
    assert np.degrees(angle) == pytest.approx(degrees, abs=1e-9), source


def test_groove_limits_in_millimetres() -> None:
    """[1] prints the limits also as 137 mm (A), 178 (B), 203 and 305 (C)."""
    for name, limit in (("A", 0.137), ("B", 0.178), ("C", 0.203), ("C", 0.305)):
        below, above = groove_angle(name, np.array([limit - 0.0005, limit + 0.0005]))
        assert above > below


@pytest.mark.parametrize(
    ("size", "pitch"),
    [
        *(("A26", 27.3), ("A31", 32.3), ("A35", 36.3), ("A42", 43.3), ("A51", 52.3)),
        *(("A60", 61.3), ("A90", 91.3), ("A105", 106.3)),
        *(("B35", 36.8), ("B38", 39.8), ("B42", 43.8), ("B51", 52.8), ("B60", 61.8)),
        *(("B68", 69.8), ("B75", 76.8), ("B105", 106.8), ("B240", 240.3)),
        *(("C51", 53.9), ("C60", 62.9), ("C68", 70.9), ("C75", 77.9), ("C81", 83.9)),
        *(("C85", 87.9), ("C105", 107.9)),
    ],
)
def test_standard_pitch_lengths(size: str, pitch: float) -> None:
    """[1] standard length table. A75 is left out: one print reads 75.3 in, its rule 76.3 in."""
    (found,) = (belt for belt in sold_lengths(size[0]) if belt.size == size)
    assert found.standard
    assert found.pitch_length / INCH == pytest.approx(pitch, abs=0.05)


def test_a75_follows_the_rule() -> None:
    """The doubt of the trap above is 1.0 in; the rule number + 1.3 in of [3] is kept."""
    (found,) = (belt for belt in sold_lengths("A") if belt.size == "A75")
    assert found.pitch_length / INCH == pytest.approx(76.3, abs=0.05)


@pytest.mark.parametrize(("name", "correction"), [("A", 1.3), ("B", 1.8), ("C", 2.9)])
def test_inside_to_pitch(name: str, correction: float) -> None:
    """[3] Table 17-11, agreeing with every row of [1] above."""
    pitch = float(pitch_length(name, 60 * INCH, "inside"))
    assert pitch / INCH - 60 == pytest.approx(correction, abs=1e-9)


@pytest.mark.parametrize(("name", "added"), [("A", 2.0), ("B", 3.0), ("C", 4.0)])
def test_outside_length_of_a_number(name: str, added: float) -> None:
    """[5], ±0.5 in: an A60 measures about 62 in outside."""
    inside = float(pitch_length(name, 60 * INCH, "inside"))
    outside = float(pitch_length(name, (60 + added) * INCH, "outside"))
    assert inside / INCH == pytest.approx(outside / INCH, abs=0.5)


def test_light_duty_numbers_are_tenths_of_an_inch_outside() -> None:
    """[2]: 4L460 is 46.0 in outside; it is interchanged with A44, so its pitch is 45.3 ±0.3 in."""
    (found,) = (belt for belt in sold_lengths("4L") if belt.size == "4L460")
    assert found.marked / INCH == pytest.approx(46.0, abs=1e-9)
    assert found.marked_by == "outside"
    assert found.pitch_length / INCH == pytest.approx(45.3, abs=0.3)
    nearest = nearest_lengths("A", found.pitch_length, 1)[0]
    assert nearest.size == "A44"


def test_outside_correction_is_about_the_geometry_of_the_pitch_line() -> None:
    """A belt bent round grows by 2π times the height of its top over its pitch line.

    4L: π × 0.2 in = 0.63 in against the 0.7 in of A44 and 4L460; 3L and 5L by the same rule, ±0.3.
    """
    for name in ("3L", "4L", "5L"):
        belt = section(name)
        bent = 2 * np.pi * belt.rim_above_pitch
        assert belt.lengths.pitch_to_outside / INCH == pytest.approx(bent / INCH, abs=0.3)


@pytest.mark.parametrize(
    ("pitch_mm", "longer", "shorter"),
    [
        # ISO 4184, permissible deviation of one belt's datum length [mm] (from memory, medium)
        (630, 13, 6),
        (631, 15, 7),
        (1000, 17, 8),
        (1250, 19, 10),
        (1600, 23, 11),
        (2000, 27, 13),
        (2500, 31, 16),
    ],
)
def test_length_tolerance_in_millimetres(pitch_mm: float, longer: float, shorter: float) -> None:
    found = length_tolerance("A", pitch_mm / 1000.0, inches=False)
    assert (found.longer, found.shorter, found.unit) == (longer, shorter, "mm")


@pytest.mark.parametrize(("size", "either"), [("A42", 0.6), ("A60", 0.6), ("A90", 0.7)])
def test_length_tolerance_in_inches(size: str, either: float) -> None:
    """RMA IP-20, standard length table (seen in print: ±0.6 to ±0.8 in from A26 to A105)."""
    pitch = (float(size[1:]) + 1.3) * 0.0254
    found = length_tolerance("A", pitch, inches=True)
    assert (found.longer, found.shorter, found.unit) == (either, either, "in")
