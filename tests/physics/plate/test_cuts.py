"""Metal left round holes and slots, in any place and turn of the plate."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.plate.cuts import Corner, Cut, edge_distance, web_between, width_left

BAR: list[Corner] = [(0.0, 0.0), (0.12, 0.0), (0.12, 0.04), (0.0, 0.04)]
CORNER_BRACKET: list[Corner] = [
    (0.0, 0.0),
    (0.1, 0.0),
    (0.1, 0.03),
    (0.03, 0.03),
    (0.03, 0.1),
    (0.0, 0.1),
]
turns = st.floats(-np.pi, np.pi)
shifts = st.floats(-2.0, 2.0)


def turned(point: tuple[float, float], angle: float, x: float, y: float) -> tuple[float, float]:
    c, s = np.cos(angle), np.sin(angle)
    return float(x + c * point[0] - s * point[1]), float(y + s * point[0] + c * point[1])


@given(turns, shifts, shifts)
def test_a_plate_is_the_same_wherever_it_lies(angle: float, x: float, y: float) -> None:
    corners: list[Corner] = [turned((float(a), float(b)), angle, x, y) for a, b in BAR]
    start, end = turned((0.03, 0.015), angle, x, y), turned((0.06, 0.015), angle, x, y)
    slot = Cut(*start, *end, 0.005)
    assert edge_distance(slot, corners) == pytest.approx(0.015, abs=1e-12)
    middle, along = turned((0.05, 0.03), angle, x, y), (np.cos(angle), np.sin(angle))
    assert width_left(middle, along, corners, [slot]) == pytest.approx(0.03, abs=1e-12)


def test_a_hole_outside_counts_below_zero() -> None:
    assert edge_distance(Cut(0.05, 0.05, 0.05, 0.05, 0.004), BAR) == pytest.approx(-0.01)


def test_a_slot_that_leaves_an_inner_corner_has_no_edge_left() -> None:
    """Both ends lie in the metal, its middle runs over the corner."""
    slot = Cut(0.02, 0.09, 0.09, 0.02, 0.003)
    assert edge_distance(slot, CORNER_BRACKET) == 0.0


def test_the_width_is_that_of_the_piece_that_is_looked_at() -> None:
    """A second leg across the same line does not count."""
    bay: list[Corner] = [(0, 0), (0.1, 0), (0.1, 0.1), (0.07, 0.1), (0.07, 0.03), (0.03, 0.03)]
    bay += [(0.03, 0.1), (0.0, 0.1)]
    assert width_left((0.015, 0.06), (0.0, 1.0), bay, []) == pytest.approx(0.03)
    assert width_left((0.05, 0.06), (0.0, 1.0), bay, []) == pytest.approx(0.04)  # the gap
    assert width_left((0.5, 0.06), (0.0, 1.0), bay, []) == 0.0


@pytest.mark.parametrize(
    ("cut", "left"),
    [
        (Cut(0.05, 0.02, 0.05, 0.02, 0.005), 0.03),  # through the middle of a round hole
        (Cut(0.046, 0.02, 0.046, 0.02, 0.005), 0.034),  # its chord 4 mm off: 2 × 3 mm
        (Cut(0.03, 0.02, 0.08, 0.02, 0.005), 0.03),  # along a slot
        (Cut(0.05, 0.01, 0.05, 0.03, 0.005), 0.01),  # a slot across: 20 + 2 × 5 mm
        (Cut(0.05, 0.035, 0.05, 0.035, 0.01), 0.025),  # past the edge, counted up to it
        (Cut(0.09, 0.02, 0.09, 0.02, 0.005), 0.04),  # elsewhere
    ],
)
def test_what_a_hole_takes_of_the_width(cut: Cut, left: float) -> None:
    assert width_left((0.05, 0.001), (1.0, 0.0), BAR, [cut]) == pytest.approx(left)


@given(shifts, shifts, shifts, shifts)
def test_webs_are_the_same_both_ways(x: float, y: float, to_x: float, to_y: float) -> None:
    one, other = Cut(0.0, 0.0, 0.3, 0.1, 0.01), Cut(x, y, to_x, to_y, 0.02)
    there, back = web_between(one, other), web_between(other, one)
    assert float(there) == pytest.approx(float(back), abs=1e-12)


def test_slots_that_cross_have_no_web() -> None:
    assert web_between(
        Cut(0.0, 0.0, 0.1, 0.1, 0.004), Cut(0.0, 0.1, 0.1, 0.0, 0.006)
    ) == pytest.approx(-0.01)


def test_many_plates_at_once_agree_with_one() -> None:
    x = np.linspace(0.01, 0.11, 7)
    many = edge_distance(Cut(x, 0.02, x, 0.02, 0.005), BAR)
    single = [float(edge_distance(Cut(float(a), 0.02, float(a), 0.02, 0.005), BAR)) for a in x]
    np.testing.assert_allclose(many, single, rtol=1e-15)
