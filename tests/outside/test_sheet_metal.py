"""Bends of sheet metal against handbooks, standards and plain geometry.

Sources:
- Machinery's Handbook, 26th ed. 2000, section on bending sheet metal: straight lengths of 90°
  bends L = c T + 1.57 R (from memory, high) and K by material (seen in print).
- S. Kalpakjian and S. R. Schmid, Manufacturing Engineering and Technology, section on bending:
  springback and smallest radii (from memory, high; the example with its answer, medium).
- Shapely, and the integral of a curve by SciPy, as independent geometry.
"""

from math import cos, pi, radians, sin, tan

import numpy as np
import pytest
from scipy.integrate import quad
from shapely import LineString, Point

from beltwright.physics.customary import INCH
from beltwright.physics.sheet_metal.bend import (
    bend_allowance,
    outer_strain,
    setback,
)
from beltwright.physics.sheet_metal.polygon import corner_error
from beltwright.physics.sheet_metal.spring_back import relaxed_radius
from beltwright.physics.sheet_metal.strip import bent_form, flat_strip
from beltwright.quantity import Kind
from beltwright.review.measuring import how_for
from beltwright.tables.sheet_metals import sheet_metal, sheet_metals

MM = 1e-3


def test_right_angle_of_the_reference() -> None:
    """90°, t 1.5, r 2.0 mm, K 0.42: BA 4.1312, OSSB 3.50 mm (exact)."""
    bend = pi / 2, 2.0 * MM, 1.5 * MM, 0.42
    assert bend_allowance(*bend) / MM == pytest.approx(4.1312, abs=5e-5)
    assert setback(pi / 2, 3.5 * MM) / MM == pytest.approx(3.50, abs=1e-9)


def test_flat_length_of_an_angle() -> None:
    """Outside legs 40 and 60 mm with that bend: 97.1312 mm, deduction 2.8688 mm (exact)."""
    legs = np.array([40.0, 60.0]) * MM
    flat = flat_strip(legs, np.array([-pi / 2]), 2.0 * MM, 1.5 * MM, 0.42)
    assert flat.length / MM == pytest.approx(97.1312, abs=5e-5)
    assert 100.0 - flat.length / MM == pytest.approx(2.8688, abs=5e-5)


def test_k_from_a_test_bend_comes_back() -> None:
    """The formula that the builder is told, over the strip above (exact but for 1.571)."""
    radius, thickness = 2.0, 1.5
    flat, legs = 97.1312, 100.0
    k = ((flat - legs + 2.0 * radius + 2.0 * thickness) / 1.571 - radius) / thickness
    assert k == pytest.approx(0.42, abs=1e-3)
    assert "(flat − both legs + 2 r + 2 t) / 1.571 − r) / t" in how_for("k_factor", Kind.RATIO)


@pytest.mark.parametrize(
    ("metal", "c"),
    [
        ("soft brass", 0.55),
        ("hard brass", 0.64),
        ("soft steel", 0.64),
        ("soft aluminium", 0.64),
        ("cold-rolled steel", 0.71),
    ],
)
def test_straight_lengths_of_right_angles(metal: str, c: float) -> None:
    """L = c T + 1.57 R, Machinery's Handbook, from memory, high; 1.57 has three digits."""
    thickness, radius = 0.06 * INCH, 0.1 * INCH
    ours = bend_allowance(pi / 2, radius, thickness, sheet_metal(metal).k)
    assert ours == pytest.approx(c * thickness + 1.57 * radius, rel=1.5e-3)


@pytest.mark.parametrize(
    ("metal", "low", "high"),
    [
        ("cold-rolled steel", 0.42, 0.467),
        ("soft aluminium", 0.38, 0.407),
        ("hard aluminium", 0.38, 0.407),
        ("stainless steel", 0.438, 0.483),
    ],
)
def test_k_lies_where_the_handbook_tabulates_it(metal: str, low: float, high: float) -> None:
    """K by material for thin sheet, Machinery's Handbook 26 as tabulated, seen in print."""
    row = sheet_metal(metal)
    assert low - 5e-4 <= row.k <= high + 5e-4
    assert row.k_low <= low + 5e-4
    assert row.k_high >= high - 5e-4


def test_cold_rolled_steel_as_round_as_it_is_thick() -> None:
    """0.060 in at r 0.060 in: K 0.463, Machinery's Handbook 26, seen in print."""
    row = sheet_metal("cold-rolled steel")
    assert row.k_low <= 0.463 <= row.k_high


def test_springback_of_kalpakjian() -> None:
    """20-gauge steel 0.0359 in, held at 0.5 in, Y 40 000 psi, E 29e6 psi: opens to 0.531 in.

    From memory, medium; three digits.
    """
    freed = relaxed_radius(0.5 * INCH, 0.0359 * INCH, 40_000 * 6894.757, 29e6 * 6894.757)
    assert freed / INCH == pytest.approx(0.531, abs=5e-4)


@pytest.mark.parametrize(
    ("metal", "soft", "hard"),
    [
        ("soft steel", 0.5, 4.0),
        ("cold-rolled steel", 0.5, 4.0),
        ("galvanised steel", 0.5, 4.0),
        ("stainless steel", 0.5, 6.0),
        ("soft aluminium", 0.0, 6.0),
        ("hard aluminium", 0.0, 6.0),
        ("soft brass", 0.0, 2.0),
        ("hard brass", 0.0, 2.0),
    ],
)
def test_least_radii_lie_between_soft_and_hard(metal: str, soft: float, hard: float) -> None:
    """Minimum bend radii, Kalpakjian and Schmid, from memory, medium-high."""
    assert soft <= sheet_metal(metal).least_radius <= hard


def test_every_metal_is_covered() -> None:
    assert {row.name for row in sheet_metals()} == {
        "soft steel",
        "cold-rolled steel",
        "galvanised steel",
        "stainless steel",
        "soft aluminium",
        "hard aluminium",
        "soft brass",
        "hard brass",
    }


def test_strain_of_the_outside_by_lengths() -> None:
    """Outer arc over middle arc, less 1: expressions, exact."""
    radius, thickness, angle = 3.0 * MM, 2.0 * MM, 1.1
    outer, middle = angle * (radius + thickness), angle * (radius + 0.5 * thickness)
    assert outer_strain(radius, thickness) == pytest.approx(outer / middle - 1.0)


@pytest.mark.parametrize("degrees", [12.0, 18.9, 30.0, 60.0, 90.0])
def test_an_arc_by_flats_is_what_shapely_measures(degrees: float) -> None:
    """A polygon that touches an arc, by Shapely's distances."""
    radius, angle, centre = 60.0, radians(degrees), Point(0.0, 0.0)
    half = angle / 2.0
    corner = radius / cos(half)
    around = [(corner * cos(half * turn), corner * sin(half * turn)) for turn in (-1.0, 1.0)]
    assert centre.distance(LineString(around)) == pytest.approx(radius)
    assert LineString(around).length == pytest.approx(2.0 * float(setback(angle, radius)))
    assert Point(around[0]).distance(centre) - radius == pytest.approx(
        float(corner_error(radius, angle))
    )


def test_a_rounded_corner_stands_less_far_out() -> None:
    """The middle of a bend of radius r lies (R - r) sec(A/2) + r from the arc's centre (exact)."""
    big, small, angle = 60.0, 4.0, radians(40.0)
    bend_centre = (big - small) / cos(angle / 2.0)
    assert corner_error(big, angle, small) == pytest.approx(bend_centre + small - big)


def test_flats_and_bends_approach_the_arc() -> None:
    """With many bends the strip is as long as an arc of its neutral line, by quadrature."""
    curve, total, thickness, k, count = 0.06, radians(200.0), 0.002, 0.4, 400
    half = curve * tan(0.5 * total / count)
    legs = np.array([half, *[2.0 * half] * (count - 1), half])
    bends = np.full(count, total / count)
    # a strip as sharp as its flats are short: the neutral line lies K t outside of the curve
    flat = flat_strip(legs, bends, 0.0, thickness, k)
    arc, _ = quad(lambda _: curve + k * thickness, 0.0, total)
    assert flat.length == pytest.approx(arc, rel=1e-5)
    form = bent_form(legs, bends, 0.0, 0.0, 0.0)
    assert form.x[-1] == pytest.approx(curve * sin(total), abs=1e-6)
    assert form.y[-1] == pytest.approx(curve * (1.0 - cos(total)), abs=1e-6)
