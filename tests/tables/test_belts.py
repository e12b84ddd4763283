"""Sections and lengths: names, nearest belts, arrays, and that every table can be read."""

from importlib import resources

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.tables import belt_factors, engines
from beltwright.tables.belts import (
    LengthIs,
    allowance,
    groove_angle,
    nearest_lengths,
    outside_to_pitch,
    pitch_length,
    pitch_to_outside,
    section,
    section_names,
    sold_lengths,
)

names = st.sampled_from(section_names())
diameters = st.floats(0.03, 0.6)


def test_every_section_is_in_every_table() -> None:
    for name in section_names():
        belt = section(name)
        assert belt.name == name
        assert 0 < belt.belt_above_pitch < belt.cross.height
        assert belt.belt_below_pitch > belt.belt_above_pitch
        assert belt.bending.smallest_sheave > 0
        assert belt.mass.linear_mass > 0
        assert len(sold_lengths(name)) > 20


def test_a_section_is_found_however_it_is_typed() -> None:
    assert section(" 4l ").name == "4L"
    with pytest.raises(KeyError, match="known are A, B, C"):
        section("Q")


def test_every_belt_table_of_this_package_states_a_source() -> None:
    folder = resources.files("beltwright.tables")
    tables = [entry for entry in folder.iterdir() if entry.name.endswith(".csv")]
    assert len(tables) > 15
    for table in tables:
        text = table.read_text(encoding="utf-8")
        assert "# source: " in text, table.name
        assert "# status: " in text, table.name


@given(names, diameters)
def test_outside_and_pitch_diameter_are_inverse(name: str, diameter: float) -> None:
    back = pitch_to_outside(name, outside_to_pitch(name, diameter))
    assert float(back) == pytest.approx(diameter, rel=1e-12)


@given(names, st.lists(diameters, min_size=1, max_size=5))
def test_groove_angle_of_many_is_that_of_each(name: str, many: list[float]) -> None:
    together = groove_angle(name, np.array(many))
    assert together.tolist() == [float(groove_angle(name, one)) for one in many]
    assert np.all(np.diff(groove_angle(name, np.sort(many))) >= 0)


@given(names, st.floats(0.5, 4.0), st.sampled_from(["inside", "pitch", "outside"]))
def test_inside_pitch_and_outside_stand_in_order(
    name: str, length: float, length_is: LengthIs
) -> None:
    pitch = float(pitch_length(name, length, length_is))
    order = {"inside": 1, "pitch": 0, "outside": -1}
    assert np.sign(pitch - length) == order[length_is]


@given(names, st.floats(0.6, 2.4), st.integers(1, 6))
def test_nearest_lengths_are_the_nearest(name: str, wanted: float, count: int) -> None:
    found = nearest_lengths(name, wanted, count)
    gaps = [abs(belt.pitch_length - wanted) for belt in found]
    assert gaps == sorted(gaps)
    others = [belt for belt in sold_lengths(name) if belt not in found]
    assert min(abs(belt.pitch_length - wanted) for belt in others) >= gaps[-1]


def test_sold_lengths_rise_without_doubles() -> None:
    for name in section_names():
        sizes = [belt.size for belt in sold_lengths(name)]
        assert len(set(sizes)) == len(sizes)
        assert np.all(np.diff([belt.pitch_length for belt in sold_lengths(name)]) >= 0)


def test_a_belt_marks_the_length_that_it_prints() -> None:
    nearest = nearest_lengths("A", 68.3 * 0.0254, 1)[0]
    assert (nearest.size, nearest.standard, nearest.status) == ("A67", False, "common practice")
    assert nearest.marked == pytest.approx(67 * 0.0254)


def test_allowances() -> None:
    assert allowance("take up").share == 0.03
    assert allowance("fitting").share == 0.015


def test_idler_additions_cover_every_place() -> None:
    added = [
        belt_factors.idler_addition(tight=tight, inside=inside).addition
        for tight in (False, True)
        for inside in (True, False)
    ]
    assert added == [0.0, 0.1, 0.1, 0.2]


def test_ratio_factor_counts_either_way_round() -> None:
    for form in ("industrial", "textbook"):
        both = belt_factors.ratio_factor(np.array([2.0, 0.5, 1.0]), form)
        assert both[0] == both[1] > both[2] == 1.0


def test_frictions_are_ranges() -> None:
    for surface in ("groove dry", "groove damp", "groove oiled", "back on flat steel"):
        row = belt_factors.belt_friction(surface)
        assert 0 < row.low < row.usual < row.high < 1
    assert belt_factors.belt_speed_limit().speed == 30.0


def test_wheel_materials_are_physical() -> None:
    for metal in engines.wheel_materials():
        assert 1000 < metal.density < 8000
        assert 5e7 < metal.tensile_strength < 5e8
    assert engines.wheel_material("cast iron").brittle
    assert all(row.usual < row.limit for row in engines.piston_speeds())
