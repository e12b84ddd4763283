"""Threads against their standards and the usual shop charts.

Sources:
- Machinery's Handbook, 31st edition, tapping, table 2 (share of thread of tap drills; shop basis)
  and table 24a (drills for taper pipe taps, p. 1005).
- ASME B1.1, limits of size of unified threads, classes 2A and 2B (from memory, high confidence).
- ISO 965-2, limits of size of general-purpose metric threads, 6g and 6H (from memory, high
  confidence); ISO 724, basic dimensions; ISO 898-1, stress areas.
- FED-STD-H28/2B and ASME B1.1, nonmandatory appendix B: stripping areas.
- ASME B18.29.1, holes for wire thread inserts (from memory, high confidence).
- ASME B1.20.1 and ISO 7-1: taper pipe threads.
- Shigley, Mechanical Engineering Design, 8th edition, section 8-8: tightening torque.
- VDI 2230, part 1: friction of oiled threads (from memory, high confidence).
"""

import numpy as np
import pytest
from scipy.integrate import quad

from beltwright.physics.customary import INCH
from beltwright.physics.thread.limits import metric_limits, unified_limits
from beltwright.physics.thread.pipe import (
    TAPER,
    TaperThread,
    iso_taper,
    npt,
    tap_drill,
)
from beltwright.physics.thread.share import (
    basic_thread,
    hole_for_share,
    insert_hole,
    thread_share,
)
from beltwright.physics.thread.strength import (
    bolt_strip_area,
    nut_strip_area,
    tensile_area,
    tightening_torque,
)
from beltwright.review.thread.holes import OILED
from beltwright.tables.drills import drills
from beltwright.tables.pipe_threads import pipe_thread
from beltwright.tables.threads import thread

MM = 1e-3


@pytest.mark.parametrize(
    ("name", "drill", "share", "hole"),
    # usual chart: drill in inches, share of thread in per cent, hole for 75 % in inches
    [
        ("1/4-20", 0.201, 75.4, 0.2013),
        ("5/16-18", 0.257, 76.9, 0.2584),
        ("3/8-16", 0.3125, 77.0, 0.3141),
        ("1/2-13", 0.421875, 78.2, 0.4251),
    ],
)
def test_tap_drills_of_inch_threads(name: str, drill: float, share: float, hole: float) -> None:
    size = thread(name)
    found = float(thread_share(drill * INCH, size.major, size.pitch)) * 100.0
    assert found == pytest.approx(share, abs=0.06)
    assert hole_for_share(0.75, size.major, size.pitch) / INCH == pytest.approx(hole, abs=5.1e-5)


def test_both_bases_of_full_thread() -> None:
    """2-56 with a 0.0700 in drill: 69 % (Machinery's Handbook, table 2), of a full thread of 3H/4;
    on the 5H/8 of ASME B1.1 the same depth is 6/5 of it, H = √3/2 P."""
    shop = float(thread_share(0.0700, 0.0860, 1.0 / 56.0))
    assert round(shop * 100.0) == 69
    basic = (0.0860 - 0.0700) / (2.0 * 0.625 * np.sqrt(0.75) / 56.0)
    assert basic == pytest.approx(1.2 * shop)


@pytest.mark.parametrize(
    ("name", "drill"),
    # common charts, D − P (seen in print)
    [("M6", 5.0), ("M8", 6.8), ("M10", 8.5), ("M12", 10.2)],
)
def test_tap_drills_of_metric_threads(name: str, drill: float) -> None:
    """D − P leaves 1/1.299 = 77 % of thread; the chart rounds to 0.1 mm, half of it either side."""
    size = thread(name)
    wanted = float(hole_for_share(0.7698, size.major, size.pitch))
    assert wanted == pytest.approx(drill * MM, abs=0.0505 * MM)


@pytest.mark.parametrize(
    ("name", "pitch_diameter", "minor"),
    # ISO 724, mm; ASME B1.1, in (basic pitch and minor diameter of the nut thread)
    [
        ("M6", 5.350, 4.917),
        ("M8", 7.188, 6.647),
        ("M10", 9.026, 8.376),
        ("M10x1.25", 9.188, 8.647),
        ("M12", 10.863, 10.106),
        ("M20", 18.376, 17.294),
    ],
)
def test_basic_metric_sizes(name: str, pitch_diameter: float, minor: float) -> None:
    size = thread(name)
    basic = basic_thread(size.major, size.pitch)
    assert basic.pitch_diameter / MM == pytest.approx(pitch_diameter, abs=5.1e-4)
    assert basic.minor_diameter / MM == pytest.approx(minor, abs=5.1e-4)


@pytest.mark.parametrize(
    ("name", "pitch_diameter", "minor"),
    [
        ("1/4-20", 0.2175, 0.1959),
        ("5/16-18", 0.2764, 0.2524),
        ("3/8-16", 0.3344, 0.3073),
        ("1/2-13", 0.4500, 0.4167),
        ("#10-24", 0.1629, 0.1449),
        ("3/4-10", 0.6850, 0.6417),
    ],
)
def test_basic_unified_sizes(name: str, pitch_diameter: float, minor: float) -> None:
    size = thread(name)
    basic = basic_thread(size.major, size.pitch)
    assert basic.pitch_diameter / INCH == pytest.approx(pitch_diameter, abs=5.1e-5)
    assert basic.minor_diameter / INCH == pytest.approx(minor, abs=5.1e-5)


@pytest.mark.parametrize(
    ("name", "bolt_major", "bolt_pitch", "nut_pitch"),
    # ASME B1.1, classes 2A and 2B, in (from memory, high confidence)
    [
        ("1/4-20", 0.2408, 0.2127, 0.2224),
        ("3/8-16", 0.3643, 0.3287, 0.3401),
        ("1/2-13", 0.4876, 0.4435, 0.4565),
    ],
)
def test_unified_limits_as_printed(
    name: str, bolt_major: float, bolt_pitch: float, nut_pitch: float
) -> None:
    """The standard rounds its steps on the way: 0.0001 in."""
    size = thread(name)
    limits = unified_limits(size.major, size.pitch)
    assert limits.bolt_major / INCH == pytest.approx(bolt_major, abs=1.05e-4)
    assert limits.bolt_pitch / INCH == pytest.approx(bolt_pitch, abs=1.05e-4)
    assert limits.nut_pitch / INCH == pytest.approx(nut_pitch, abs=1.05e-4)


@pytest.mark.parametrize(
    ("name", "bolt_major", "bolt_pitch", "nut_pitch"),
    # ISO 965-2, 6g and 6H, mm (from memory, high confidence)
    [
        ("M6", 5.794, 5.212, 5.500),
        ("M8", 7.760, 7.042, 7.348),
        ("M10", 9.732, 8.862, 9.206),
        ("M12", 11.701, 10.679, 11.063),
    ],
)
def test_metric_limits_as_printed(
    name: str, bolt_major: float, bolt_pitch: float, nut_pitch: float
) -> None:
    """The standard rounds tolerances to preferred numbers (R 40): up to 5 % of them, 0.01 mm."""
    size = thread(name)
    limits = metric_limits(size.major, size.pitch)
    assert limits.bolt_major / MM == pytest.approx(bolt_major, abs=0.007)
    assert limits.bolt_pitch / MM == pytest.approx(bolt_pitch, abs=0.007)
    assert limits.nut_pitch / MM == pytest.approx(nut_pitch, abs=0.01)


@pytest.mark.parametrize(
    ("name", "area", "tolerance"),
    # ASME B1.1, in² (four digits); ISO 898-1, mm² (three digits)
    [
        ("1/4-20", 0.0318, 5.1e-5),
        ("3/8-16", 0.0775, 5.1e-5),
        ("1/2-13", 0.1419, 5.1e-5),
        ("M6", 20.1, 0.051),
        ("M8", 36.6, 0.051),
        ("M10", 57.99, 5.1e-3),
        ("M12", 84.3, 0.051),
        ("M20", 245.0, 0.51),
    ],
)
def test_tensile_areas(name: str, area: float, tolerance: float) -> None:
    size = thread(name)
    unit = MM**2 if size.metric else INCH**2
    found = tensile_area(size.major, size.pitch, size.metric)
    assert found / unit == pytest.approx(area, abs=tolerance)


def test_stripping_areas_as_the_standard_writes_them() -> None:
    """ASME B1.1 appendix B, 1/2-13 UNC-2A/2B over 0.5 in, its formulas in n threads an inch."""
    n, length = 13.0, 0.5
    k_max, e_min, d_min, en_max = 0.434, 0.4435, 0.4876, 0.4565
    bolt = np.pi * n * length * k_max * (1.0 / (2.0 * n) + 0.57735 * (e_min - k_max))
    nut = np.pi * n * length * d_min * (1.0 / (2.0 * n) + 0.57735 * (d_min - en_max))
    found_bolt = bolt_strip_area(k_max * INCH, e_min * INCH, INCH / n, length * INCH)
    found_nut = nut_strip_area(d_min * INCH, en_max * INCH, INCH / n, length * INCH)
    # 0.57735 is tan 30° to five digits
    assert found_bolt / INCH**2 == pytest.approx(bolt, rel=1e-6)
    assert found_nut / INCH**2 == pytest.approx(nut, rel=1e-6)


def test_stripping_area_is_the_profile_cut_by_the_bore() -> None:
    """First principles: circumference times the thickness of a 60° tooth, over its pitch."""
    pitch, pitch_diameter, bore, length = 1.5e-3, 9.026e-3, 8.7e-3, 12e-3
    # half the pitch is tooth at the pitch diameter; each flank adds tan 30° of radial depth
    thickness = pitch / 2.0 + 2.0 * np.tan(np.pi / 6.0) * (pitch_diameter - bore) / 2.0
    expected = quad(lambda _: np.pi * bore * thickness / pitch, 0.0, length)[0]
    found = bolt_strip_area(bore, pitch_diameter, pitch, length)
    assert float(found) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("name", "tap_major", "drill_least"),
    # ASME B18.29.1, in, minimum sizes of the tapped hole (from memory, high confidence)
    [("1/4-20", 0.3150, 0.2608), ("3/8-16", 0.4562, 0.3885)],
)
def test_insert_holes(name: str, tap_major: float, drill_least: float) -> None:
    size = thread(name)
    hole = insert_hole(size.major, size.pitch)
    assert hole.tap_major / INCH == pytest.approx(tap_major, abs=1.05e-4)
    assert hole.drill / INCH == pytest.approx(drill_least, abs=1.05e-4)


def test_tightening_torque() -> None:
    """Shigley 8-8: T = K F d; K 0.2, F 6.38 kip, 3/4 in: 957 lbf·in (example 8-3, from memory)."""
    kip_inch = 4448.2216 * INCH
    found = tightening_torque(6.38 * 4448.2216, 0.75 * INCH, 0.2)
    assert found / kip_inch == pytest.approx(0.957, abs=5e-4)


@pytest.mark.parametrize(
    "name", ["M6", "M8", "M10", "M12", "1/4-20", "5/16-18", "3/8-16", "1/2-13"]
)
def test_an_oiled_screw_is_not_drawn_harder_than_wanted(name: str) -> None:
    """Shigley, equation 8-26 with a nut face of 1.5 d (mean collar 1.25 d): K of oiled steel lies
    at 0.15 to 0.18 (friction 0.11 to 0.14: VDI 2230, oiled, from memory, high), that of table 8-15
    is 0.18 lubricated and 0.20 as received. The torque told must take the least of them."""
    size = thread(name)
    mean = float(basic_thread(size.major, size.pitch).pitch_diameter)
    lead, flank = size.pitch / (np.pi * mean), 1.0 / np.cos(np.pi / 6.0)

    def factor(friction: float) -> float:
        screw = (lead + friction * flank) / (1.0 - friction * lead * flank)
        return float(mean / (2.0 * size.major) * screw + 0.625 * friction)

    assert factor(0.11) == pytest.approx(0.15, abs=0.007)  # coarse inch threads a little more
    assert factor(0.14) == pytest.approx(0.18, abs=0.012)
    drawn = tightening_torque(10e3, size.major, OILED) / (factor(0.11) * size.major)
    assert drawn <= 10e3 * 1.04  # of 25 % of scatter; with 0.2 it would be drawn by a third more


def _taper(name: str) -> TaperThread:
    size = pipe_thread(name)
    if size.standard == "NPT":
        return npt(size.diameter, size.pitch, size.hand_length)
    return iso_taper(size.diameter, size.pitch, size.hand_length, size.useful_length)


@pytest.mark.parametrize(
    ("name", "small", "at_hand", "useful"),
    # ASME B1.20.1, table 2: E0, E1, L2 in inches
    [
        ("1/8 NPT", 0.36351, 0.37360, 0.2639),
        ("1/4 NPT", 0.47739, 0.49163, 0.4018),
        ("3/8 NPT", 0.61201, 0.62701, 0.4078),
        ("1/2 NPT", 0.75843, 0.77843, 0.5337),
        ("3/4 NPT", 0.96768, 0.98887, 0.5457),
    ],
)
def test_american_taper_threads(name: str, small: float, at_hand: float, useful: float) -> None:
    male = _taper(name)
    assert male.small_pitch_diameter / INCH == pytest.approx(small, abs=1.05e-5)
    hand = male.small_pitch_diameter + TAPER * male.hand_length
    assert hand / INCH == pytest.approx(at_hand, abs=1.05e-5)
    assert male.useful_length / INCH == pytest.approx(useful, abs=5.1e-5)


@pytest.mark.parametrize(
    ("name", "pitch_diameter", "minor"),
    # ISO 7-1, table 1: d2 and d1 at the gauge plane, mm
    [
        ("R 1/8", 9.147, 8.566),
        ("R 1/4", 12.301, 11.445),
        ("R 3/8", 15.806, 14.950),
        ("R 1/2", 19.793, 18.631),
        ("R 3/4", 25.279, 24.117),
    ],
)
def test_iso_taper_threads(name: str, pitch_diameter: float, minor: float) -> None:
    male = _taper(name)
    at_gauge = float(male.small_pitch_diameter + TAPER * male.hand_length) / MM
    assert at_gauge == pytest.approx(pitch_diameter, abs=1.05e-3)
    assert at_gauge - float(male.depth) / MM == pytest.approx(minor, abs=1.05e-3)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    # Machinery's Handbook table 24a, and the spread of other charts, in
    [
        ("1/8 NPT", 0.332, 0.34375),
        ("1/4 NPT", 7 / 16, 7 / 16),
        ("3/8 NPT", 9 / 16, 37 / 64),
        ("1/2 NPT", 45 / 64, 45 / 64),
        ("3/4 NPT", 29 / 32, 59 / 64),
    ],
)
def test_drills_for_taper_taps(name: str, low: float, high: float) -> None:
    """Charts round to a drill, 1/64 in apart at these sizes: half of that either side."""
    drill = float(tap_drill(_taper(name))) / INCH
    assert low - 1 / 128 <= drill <= high + 1 / 128


def test_taper_half_angle() -> None:
    """ASME B1.20.1: 1 in 16 on diameter is 1.7899° a side."""
    assert np.degrees(np.arctan(TAPER / 2.0)) == pytest.approx(1.7899, abs=5e-5)


@pytest.mark.parametrize(
    ("name", "inches"),
    # ASME B94.11M: number and letter drills (from memory, high confidence)
    [("#7", 0.2010), ("F", 0.2570), ("Q", 0.3320), ("R", 0.3390), ("#1", 0.2280), ("#60", 0.0400)],
)
def test_drill_sizes(name: str, inches: float) -> None:
    by_name = {drill.name: drill.diameter for drill in drills()}
    assert by_name[name] / INCH == pytest.approx(inches)
