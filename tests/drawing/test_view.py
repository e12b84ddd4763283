"""The machine lands on the paper where it should."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.drawing.path import Arc, Path
from beltwright.drawing.view import SCALES, Forward, View, fit, scale_text

metres = st.floats(-5.0, 5.0)
points = st.tuples(metres, metres)
views = st.builds(
    View,
    st.floats(0.01, 10.0),
    st.tuples(st.floats(-500.0, 500.0), st.floats(-500.0, 500.0)),
    st.sampled_from(Forward),
)


@given(views, points, points)
def test_distances_scale(view: View, one: tuple[float, float], other: tuple[float, float]) -> None:
    a, b = view.point(one), view.point(other)
    there = hypot(other[0] - one[0], other[1] - one[1])
    on_paper = hypot(b[0] - a[0], b[1] - a[1])
    assert on_paper == pytest.approx(view.length(there), abs=1e-9, rel=1e-9)


@given(views, points)
def test_left_stays_left_of_forward(view: View, at: tuple[float, float]) -> None:
    origin = view.point(at)
    ahead, left = view.point((at[0] + 1.0, at[1])), view.point((at[0], at[1] + 1.0))
    cross = (ahead[0] - origin[0]) * (left[1] - origin[1]) - (ahead[1] - origin[1]) * (
        left[0] - origin[0]
    )
    assert cross > 0.0


@given(views, points, st.floats(0.01, 2.0), st.floats(-7, 7), st.floats(-6, 6))
def test_an_arc_ends_where_its_end_point_goes(
    view: View, centre: tuple[float, float], radius: float, begin: float, sweep: float
) -> None:
    arc = Arc(centre, radius, begin, sweep)
    (moved,) = view.path(Path((arc,))).pieces
    assert moved.start == pytest.approx(view.point(arc.start), abs=1e-6)
    assert moved.end == pytest.approx(view.point(arc.end), abs=1e-6)


def test_forward_up_drives_up_the_page() -> None:
    view = View(1.0, (0.0, 0.0), Forward.UP)
    assert view.point((1.0, 0.0)) == pytest.approx((0.0, 1000.0))
    assert view.point((0.0, 1.0)) == pytest.approx((-1000.0, 0.0))


def test_a_hundred_millimetres_at_one_to_one() -> None:
    assert View(1.0).point((0.1, 0.0)) == (100.0, 0.0)


@given(st.floats(0.05, 20.0), st.floats(0.05, 20.0), st.sampled_from(Forward))
def test_fit_is_the_largest_recommended_scale_that_fits(
    width: float, height: float, forward: Forward
) -> None:
    view = fit(((-0.3, 0.4), (-0.3 + width, 0.4 + height)), (20.0, 10.0), 180.0, 120.0, forward)
    wide, high = (width, height) if forward is Forward.RIGHT else (height, width)
    assert view.length(wide) <= 180.0 * (1 + 1e-8)
    assert view.length(high) <= 120.0 * (1 + 1e-8)
    larger = [float(s) for s in SCALES if view.scale * (1 + 1e-9) < s <= 1]
    if larger:
        step = min(larger) * 1000.0
        assert step * wide > 180.0 or step * high > 120.0
    middle = view.point((-0.3 + width / 2, 0.4 + height / 2))
    assert middle == pytest.approx((110.0, 70.0), abs=1e-6)


def test_scales_are_written_as_drawings_write_them() -> None:
    assert [scale_text(float(s)) for s in SCALES[:8]] == [
        "50:1", "20:1", "10:1", "5:1", "2:1", "1:1", "1:2", "1:5",
    ]  # fmt: skip
    assert scale_text(0.2) == "1:5"
