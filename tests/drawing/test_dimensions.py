"""Dimensions and balloons say and point at the right thing."""

from itertools import combinations, pairwise
from math import pi
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.drawing.arrow import reading_angle
from beltwright.drawing.balloons import Balloon, balloon_places
from beltwright.drawing.dimensions import LinearDimension, RadialDimension
from beltwright.drawing.ink import Area, Group, Letters, Stroke
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.path import Straight
from beltwright.drawing.spacing import spread_apart
from beltwright.drawing.verdict_mark import Verdict
from beltwright.drawing.view import Forward, View

VIEW = View(0.1, (50.0, 50.0))


def tips(group: Group) -> list[tuple[float, float]]:
    """Where the arrowheads point."""
    return [
        area.outlines[0].pieces[0].start
        for area in group.pieces
        if isinstance(area, Area) and len(area.outlines[0].pieces) == 3
    ]


def letters(group: Group) -> list[Letters]:
    return [piece for piece in group.pieces if isinstance(piece, Letters)]


def test_arrows_stand_as_far_apart_as_the_points_measured() -> None:
    group = LinearDimension((0.1, 0.2), (0.5, 0.5), "500", 12.0).inked(VIEW, FINE_PEN)
    (xa, ya), (xb, yb) = tips(group)
    assert ((xb - xa) ** 2 + (yb - ya) ** 2) ** 0.5 == pytest.approx(50.0)


@pytest.mark.parametrize(("along", "expected"), [("x", 40.0), ("y", 30.0)])
def test_a_dimension_along_an_axis_measures_that_axis(along: str, expected: float) -> None:
    dimension = LinearDimension(
        (0.1, 0.2), (0.5, 0.5), "?", 12.0, along="x" if along == "x" else "y"
    )
    (xa, ya), (xb, yb) = tips(dimension.inked(VIEW, FINE_PEN))
    assert abs(xb - xa) + abs(yb - ya) == pytest.approx(expected)


def test_the_dimension_line_clears_both_points() -> None:
    group = LinearDimension((0.1, 0.2), (0.5, 0.5), "400", 12.0, along="x").inked(VIEW, FINE_PEN)
    outer = VIEW.point((0.5, 0.5))[1]
    assert [y for _, y in tips(group)] == pytest.approx([outer + 12.0] * 2)


def test_arrows_go_outside_where_there_is_no_room() -> None:
    group = LinearDimension((0.0, 0.0), (0.03, 0.0), "30", 10.0).inked(VIEW, FINE_PEN)
    lines = [p for p in group.pieces if isinstance(p, Stroke)]
    longest = max(line.path.length for line in lines)
    assert longest > VIEW.length(0.03) + 4.0 * FINE_PEN.lettering - 1e-9
    (text,) = letters(group)
    assert text.at[0] > VIEW.point((0.03, 0.0))[0]


@given(st.floats(-20.0, 20.0))
def test_lettering_reads_from_below_or_from_the_right(angle: float) -> None:
    turned = reading_angle(angle)
    assert -pi / 2 < turned <= pi / 2 + 1e-8
    assert abs((turned - angle) / pi - round((turned - angle) / pi)) < 1e-6


def test_a_radius_points_at_its_circle() -> None:
    dimension = RadialDimension((0.2, 0.1), 0.05, pi / 2, "R50")
    (tip,) = tips(dimension.inked(VIEW, FINE_PEN))
    assert tip == pytest.approx(VIEW.point((0.2, 0.15)))
    (turned,) = tips(dimension.inked(View(0.1, (50.0, 50.0), Forward.UP), FINE_PEN))
    assert turned == pytest.approx((50.0 - 15.0, 50.0 + 20.0))


def test_fractions_are_set_in_dimensions() -> None:
    group = LinearDimension((0, 0), (1, 0), "4 5/8 in", 9.0).inked(VIEW, FINE_PEN)
    assert [text.text for text in letters(group)] == ["4⁵⁄₈ in"]


def test_each_verdict_has_a_shape_of_its_own() -> None:
    shapes = [_mark_shape(verdict) for verdict in get_args(Verdict)]
    assert all(shapes.count(shape) == 1 for shape in shapes)


def _mark_shape(verdict: Verdict) -> list[str]:
    """The pieces of a mark without their colours."""
    marks = Balloon((0.1, 0.1), (0.3, 0.3), "7", verdict).inked(VIEW, FINE_PEN).pieces[-1]
    assert isinstance(marks, Group)
    return [
        repr(piece.path if isinstance(piece, Stroke) else piece.outlines)
        for piece in marks.pieces
        if isinstance(piece, Stroke | Area)
    ]


def test_a_leader_runs_from_the_rim_to_the_point() -> None:
    group = Balloon((0.1, 0.1), (0.3, 0.1), "12", "stop").inked(VIEW, FINE_PEN)
    leader = group.pieces[0]
    assert isinstance(leader, Stroke)
    (line,) = leader.path.pieces
    assert isinstance(line, Straight)
    assert line.end == VIEW.point((0.1, 0.1))
    assert line.start[0] < VIEW.point((0.3, 0.1))[0]


points = st.lists(st.tuples(st.floats(0.0, 100.0), st.floats(0.0, 60.0)), min_size=1, max_size=7)


@given(points)
def test_balloons_stand_apart_on_the_box_and_keep_their_order(
    spots: list[tuple[float, float]],
) -> None:
    places = balloon_places(spots, ((0.0, 0.0), (100.0, 60.0)), 10.0)
    assert len(places) == len(spots)
    for (xa, ya), (xb, yb) in combinations(places, 2):
        assert max(abs(xa - xb), abs(ya - yb)) >= 10.0 - 1e-9
    for x, y in places:
        assert x in (0.0, 100.0) or y in (0.0, 60.0)


@given(st.lists(st.floats(-50, 150), max_size=15).map(sorted), st.floats(0.1, 30.0))
def test_spreading_keeps_order_and_pitch(wanted: list[float], pitch: float) -> None:
    spots = spread_apart(wanted, 0.0, 100.0, pitch)
    assert all(b - a >= pitch * (1 - 1e-9) for a, b in pairwise(spots))
    if (len(wanted) - 1) * pitch <= 100.0:
        assert all(-1e-9 <= spot <= 100.0 + 1e-9 for spot in spots)
