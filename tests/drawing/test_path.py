"""Paths keep their geometry exactly."""

from itertools import pairwise
from math import hypot, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.drawing.path import Arc, Path, Straight, circle, polyline, rectangle

radii = st.floats(0.01, 10.0)
angles = st.floats(-7.0, 7.0)

LEFT, RIGHT = Arc((0.0, 0.0), 0.1, pi / 2, pi), Arc((1.0, 0.0), 0.1, -pi / 2, pi)
BELT = Path(
    (LEFT, Straight(LEFT.end, RIGHT.start), RIGHT, Straight(RIGHT.end, LEFT.start)), closed=True
)
"""An open belt round two equal wheels."""


def test_an_open_belt_is_as_long_as_its_spans_and_arcs() -> None:
    assert BELT.length == pytest.approx(2.0 + 2.0 * pi * 0.1, rel=1e-12)


@given(radii, st.floats(0.0, 0.9))
def test_the_inside_of_a_round_belt_is_shorter_by_a_turn_of_the_offset(
    radius: float, share: float
) -> None:
    path = circle((3.0, -2.0), radius)
    inner = path.offset(share * radius)
    assert inner.length == pytest.approx(path.length - 2.0 * pi * share * radius, abs=1e-9)


def test_an_offset_belt_stays_closed_without_gaps() -> None:
    for offset in (0.03, -0.03):
        pieces = BELT.offset(offset).pieces
        for piece, following in zip(pieces, [*pieces[1:], pieces[0]], strict=True):
            gap = hypot(piece.end[0] - following.start[0], piece.end[1] - following.start[1])
            assert gap < 1e-12


@given(radii, angles, angles)
def test_the_box_of_an_arc_holds_it_and_no_more(radius: float, begin: float, sweep: float) -> None:
    arc = Arc((0.5, -0.5), radius, begin, sweep)
    (x0, y0), (x1, y1) = Path((arc,)).bounds()
    points = [arc.at(begin + i / 2000 * sweep) for i in range(2001)]
    slack = radius * (abs(sweep) / 2000) ** 2
    assert x0 == pytest.approx(min(x for x, _ in points), abs=slack + 1e-9)
    assert y1 == pytest.approx(max(y for _, y in points), abs=slack + 1e-9)
    assert x1 == pytest.approx(max(x for x, _ in points), abs=slack + 1e-9)
    assert y0 == pytest.approx(min(y for _, y in points), abs=slack + 1e-9)


@given(radii, angles, angles, st.floats(0.1, 3.0))
def test_split_arcs_join_and_are_short(
    radius: float, begin: float, sweep: float, largest: float
) -> None:
    parts = list(Arc((0.0, 0.0), radius, begin, sweep).split(largest))
    assert all(abs(part.sweep) <= largest * (1 + 1e-8) for part in parts)
    assert sum(part.sweep for part in parts) == pytest.approx(sweep, abs=1e-9)
    for part, following in pairwise(parts):
        assert part.end == pytest.approx(following.start, abs=1e-9)


def test_lines_through_points() -> None:
    assert polyline([(0, 0), (3, 4)]).length == 5.0
    assert rectangle((1, 1), 2, 3).length == 10.0
    assert rectangle((1, 1), 2, 3).bounds() == ((1, 1), (3, 4))
