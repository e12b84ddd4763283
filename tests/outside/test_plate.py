"""Plates and brackets against statics worked out another way, and a handbook's tables.

Sources:
- S. P. Timoshenko and J. N. Goodier, Theory of Elasticity, 3rd edition, article 109: twist of a
  rectangle as a series, summed here, and its table (from memory, high).
- AISC 360, section J3.3 and table J3.4: least distance of bolts from edges and from one another
  (from memory, high).
- Shapely: distances, inside and outside, and second moments of sections cut from true outlines,
  as an independent library.
- EN 10025-2, ASTM A36, ASTM A240, ASTM B209: yield strengths (from memory, high).
"""

from itertools import pairwise

import numpy as np
import pytest
from shapely import LineString, Point, Polygon
from shapely.affinity import translate

from beltwright.physics.customary import INCH, POUND_FORCE
from beltwright.physics.plate.bracket import bracket_stress
from beltwright.physics.plate.cuts import Corner, Cut, edge_distance, web_between, width_left
from beltwright.review.plate.findings import CLEAR_GOOD, CLEAR_LEAST, EDGE_GOOD, EDGE_LEAST
from beltwright.tables.plates import plate_material

OUTLINE = [(0.0, 0.0), (0.16, 0.0), (0.16, 0.05), (0.09, 0.07), (0.06, 0.12), (0.0, 0.12)]
CORNERS: list[Corner] = list(OUTLINE)


def random_cuts(count: int) -> list[tuple[float, float, float, float, float]]:
    draw = np.random.default_rng(7)
    ends = draw.uniform((-0.02, -0.02), (0.18, 0.14), (count, 2, 2))
    return [(*a, *b, float(draw.uniform(0.002, 0.01))) for a, b in ends]


def test_edges_against_shapely() -> None:
    plate = Polygon(OUTLINE)
    seen = set()
    for x0, y0, x1, y1, radius in random_cuts(400):
        line = LineString([(x0, y0), (x1, y1)])
        inside = plate.contains(Point(x0, y0)) and plate.contains(Point(x1, y1))
        wanted = plate.exterior.distance(line) * (1.0 if inside else -1.0)
        found = edge_distance(Cut(x0, y0, x1, y1, radius), CORNERS)
        assert float(found) == pytest.approx(wanted, abs=1e-12)
        seen.add((inside, wanted == 0.0))
    assert len(seen) >= 3


def test_webs_against_shapely() -> None:
    for one, other in pairwise(random_cuts(300)):
        lines = [LineString([cut[:2], cut[2:4]]) for cut in (one, other)]
        wanted = lines[0].distance(lines[1]) - one[4] - other[4]
        assert float(web_between(Cut(*one), Cut(*other))) == pytest.approx(wanted, abs=1e-12)


def test_widths_against_shapely() -> None:
    """The line across, cut with the true outline less the slots that Shapely buffers."""
    plate = Polygon(OUTLINE)
    slots = [(0.03, 0.03, 0.05, 0.035, 0.004), (0.12, 0.02, 0.12, 0.02, 0.006)]
    metal = plate
    for x0, y0, x1, y1, radius in slots:
        # 4,096 sides a quarter keep the buffer's chords within a billionth of the radius
        metal = metal.difference(LineString([(x0, y0), (x1, y1 + 1e-12)]).buffer(radius, 4096))
    for x, y, angle in [(0.04, 0.05, 0.3), (0.118, 0.04, 0.0), (0.02, 0.1, 1.2), (0.1, 0.01, 0.7)]:
        across = LineString(
            [(x + s * np.sin(angle), y - s * np.cos(angle)) for s in (-0.3, 0.3)],
        )
        whole = plate.intersection(across)
        piece = min(getattr(whole, "geoms", [whole]), key=lambda part: part.distance(Point(x, y)))
        wanted = metal.intersection(piece.buffer(1e-9)).intersection(across).length
        found = width_left(
            (x, y), (np.cos(angle), np.sin(angle)), CORNERS, [Cut(*slot) for slot in slots]
        )
        assert float(found) == pytest.approx(wanted, abs=5e-9)


def second_moment(section: Polygon) -> float:
    """∫ y² dA of a section about its own centroid, by the sides of its outline (Green)."""
    centred = translate(section, -section.centroid.x, -section.centroid.y)
    ring = list(centred.exterior.coords)
    return float(
        abs(
            sum(
                (a[0] * b[1] - b[0] * a[1]) * (a[1] ** 2 + a[1] * b[1] + b[1] ** 2)
                for a, b in pairwise(ring)
            )
            / 12.0
        )
    )


@pytest.mark.parametrize(("width", "thickness"), [(0.04, 0.006), (0.03, 0.03), (0.05, 0.01)])
def test_bending_against_the_section_itself(width: float, thickness: float) -> None:
    """Flexure formula σ = M c / I with I from the outline of the section."""
    upright = Polygon([(0, 0), (thickness, 0), (thickness, width), (0, width)])
    flat = Polygon([(0, 0), (width, 0), (width, thickness), (0, thickness)])
    found = bracket_stress(250.0, 120.0, 0.07, 0.03, width, thickness)
    in_plane = 120.0 * 0.07 * (width / 2.0) / second_moment(upright)
    out_of_plane = 250.0 * 0.03 * (thickness / 2.0) / second_moment(flat)
    assert float(found.upright) == pytest.approx(in_plane)
    assert float(found.flat) == pytest.approx(out_of_plane)
    assert float(found.pull) == pytest.approx(250.0 / upright.area)


def twist_factor(ratio: float) -> float:
    """α of τ = T / (α b c²) of a rectangle b by c: the series of Timoshenko and Goodier."""
    odd = np.arange(1, 200, 2)
    arm = np.minimum(odd * np.pi * ratio / 2.0, 300.0)
    largest = 1.0 - 8.0 / np.pi**2 * np.sum(1.0 / (odd**2 * np.cosh(arm)))
    stiffness = (1.0 - 192.0 / (np.pi**5 * ratio) * np.sum(np.tanh(arm) / odd**5)) / 3.0
    return float(stiffness / largest)


@pytest.mark.parametrize(
    ("ratio", "printed"),
    # Timoshenko and Goodier, table of article 109: b/c and the factor of the largest stress
    [(1.0, 0.208), (1.5, 0.231), (2.0, 0.246), (3.0, 0.267), (4.0, 0.282), (10.0, 0.312)],
)
def test_twist_of_a_rectangle(ratio: float, printed: float) -> None:
    assert twist_factor(ratio) == pytest.approx(printed, abs=5e-4)
    thin = 0.005
    found = bracket_stress(0.0, 100.0, 0.0, 0.02, ratio * thin, thin)
    exact = 100.0 * 0.02 / (twist_factor(ratio) * ratio * thin**3)
    # Shigley's closed form is within 5 % of the series
    assert float(found.twist) == pytest.approx(exact, rel=0.05)


def test_yield_as_in_a_beam_of_shigley() -> None:
    """A cantilever of rectangular bar, 100 lbf at 10 in, 1/4 by 2 in on edge: σ = 6 F l / (t b²).

    Written out in customary units: 6 · 100 · 10 / (0.25 · 4) = 6,000 psi.
    """
    psi = POUND_FORCE / INCH**2
    found = bracket_stress(0.0, 100 * POUND_FORCE, 10 * INCH, 0.0, 2 * INCH, 0.25 * INCH)
    assert float(found.upright) / psi == pytest.approx(6000.0)


@pytest.mark.parametrize(
    ("bolt", "edge"),
    # AISC 360-10, table J3.4, inches (from memory, high)
    [(1 / 2, 3 / 4), (5 / 8, 7 / 8), (3 / 4, 1.0), (7 / 8, 1.125), (1.0, 1.25)],
)
def test_edges_are_no_nearer_than_in_steelwork(bolt: float, edge: float) -> None:
    assert EDGE_LEAST * bolt >= edge - 1e-12
    assert EDGE_GOOD > EDGE_LEAST


def test_holes_are_no_nearer_than_in_steelwork() -> None:
    """AISC 360 J3.3: clear distance at least d, centres at least 2 2/3 d (from memory, high)."""
    assert CLEAR_LEAST >= 1.0
    assert pytest.approx(8 / 3 - 1) == CLEAR_GOOD


@pytest.mark.parametrize(
    ("material", "least", "most"),
    # MPa; EN 10025-2 S235 to 16 mm 235, ASTM A36 36 ksi = 248; S185 185; ASTM A240 304 30 ksi
    # = 207 and EN 10088-2 1.4301 210; 6061-T6 sheet 35 ksi = 241; 5052-O 9.5 ksi = 66
    [
        ("mild steel", 235, 248),
        ("unknown steel", 180, 185),
        ("stainless steel", 205, 210),
        ("hard aluminium", 235, 241),
        ("soft aluminium", 60, 66),
    ],
)
def test_yield_strengths_are_the_least_that_standards_give(
    material: str, least: float, most: float
) -> None:
    assert least <= plate_material(material).yield_strength / 1e6 <= most
