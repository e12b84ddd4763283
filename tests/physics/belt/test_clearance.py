"""Clearances in plan and height, own runs, pulleys that are passed, fleet angles."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.belt.band import belt_band, offset_path
from beltwright.physics.belt.clearance import clearance, plan_gap
from beltwright.physics.belt.flap import driving_bow, flap_gap
from beltwright.physics.belt.own_gap import fleet_angle, passing_gaps, rim_gaps, span_gaps
from beltwright.physics.belt.path import belt_path
from beltwright.physics.belt.run import Run
from beltwright.physics.outline import Outline, height_gap

OPEN = Run([0.0, 0.4], [0.0, 0.0], [0.05, 0.05], [1, 1])


def box(x: float, y: float, width: float = 0.02, low: float = 0.3, high: float = 0.4) -> Outline:
    return Outline(
        x + np.array([0, width, width, 0]), y + np.array([0, 0, width, width]), low, high
    )


def test_gap_to_the_back_and_to_the_narrow_side() -> None:
    """The belt reaches 2 mm out of its pitch line and 6 mm in."""
    band = belt_band(belt_path(OPEN), 0.002, 0.006)
    assert float(plan_gap(band, box(0.2, 0.06))) == pytest.approx(0.008, rel=1e-12)
    assert float(plan_gap(band, box(0.2, 0.02))) == pytest.approx(0.004, rel=1e-12)


def test_the_nearest_points_lie_on_both_surfaces() -> None:
    near = clearance(belt_band(belt_path(OPEN), 0.002, 0.006), 0.34, 0.35, box(-0.09, -0.01))
    assert (float(near.belt_x), float(near.part_x)) == pytest.approx((-0.052, -0.07))
    assert int(near.piece) == 2
    assert float(near.gap) == pytest.approx(0.018)


def test_a_part_above_the_belt_is_as_far_as_it_is_high() -> None:
    band = belt_band(belt_path(OPEN), 0.002, 0.006)
    over, beside = box(0.2, 0.045, low=0.37), box(0.2, 0.06, low=0.356)
    assert float(clearance(band, 0.34, 0.35, over).gap) == pytest.approx(0.02)
    assert float(clearance(band, 0.34, 0.35, beside).gap) == pytest.approx(math.hypot(0.008, 0.006))


@pytest.mark.parametrize(
    ("low", "high", "gap"), [(0.34, 0.35, 0.0), (0.2, 0.25, 0.05), (0.41, 0.42, 0.01)]
)
def test_gap_in_height(low: float, high: float, gap: float) -> None:
    assert float(height_gap(low, high, box(0.0, 0.0))) == pytest.approx(gap, abs=1e-15)


def test_a_part_across_the_belt_overlaps_it() -> None:
    near = clearance(belt_band(belt_path(OPEN), 0.002, 0.006), 0.34, 0.35, box(0.2, 0.04, 0.03))
    assert float(near.gap) == -0.004
    assert float(near.belt_y) == pytest.approx(0.048, abs=1e-12)


def test_a_part_that_pokes_into_an_arc_overlaps_it() -> None:
    spike = Outline(np.array([-0.2, -0.2, -0.03]), np.array([-0.001, 0.001, 0.0]), 0.3, 0.4)
    near = clearance(belt_band(belt_path(OPEN), 0.0, 0.0), 0.34, 0.35, spike)
    assert float(near.gap) == 0.0
    assert float(near.belt_x) == pytest.approx(-0.05, abs=1e-5)
    assert int(near.piece) == 2


@given(st.lists(st.tuples(st.floats(-0.2, 0.6), st.floats(-0.2, 0.2)), min_size=1, max_size=6))
def test_many_parts_and_paths_at_once(places: list[tuple[float, float]]) -> None:
    apart = np.linspace(0.4, 0.5, len(places))
    band = belt_band(belt_path(Run([0.0, apart], *_two())), 0.002, 0.006)
    corners = (
        np.array([box(x, y).x for x, y in places]).T,
        np.array([box(x, y).y for x, y in places]).T,
    )
    together = clearance(band, 0.34, 0.35, Outline(*corners, 0.3, 0.4))
    assert together.gap.tolist() == pytest.approx(plan_gap(band, Outline(*corners, 0.3, 0.4)))
    for i, (x, y) in enumerate(places):
        alone_band = belt_band(belt_path(Run([0.0, float(apart[i])], *_two())), 0.002, 0.006)
        alone = clearance(alone_band, 0.34, 0.35, box(x, y))
        assert float(alone.gap) == pytest.approx(float(together.gap[i]), abs=1e-14)


def _two() -> tuple[list[float], list[float], list[int]]:
    return [0.0, 0.0], [0.05, 0.05], [1, 1]


def test_a_path_without_a_tangent_has_no_clearance() -> None:
    path = belt_path(Run([0.0, np.array([0.0, 0.4])], [0.0, 0.0], [0.05, 0.06], [1, 1]))
    gaps = plan_gap(belt_band(path, 0.002, 0.006), box(0.2, 0.08))
    assert np.isnan(gaps).tolist() == [True, False]


def test_an_outline_needs_corners() -> None:
    with pytest.raises(ValueError, match="three corners"):
        Outline(np.array([0.0, 1.0]), np.array([0.0, 1.0]), 0.0, 1.0)
    with pytest.raises(ValueError, match="first axis"):
        Outline(np.array([0.0, 1.0, 1.0]), np.array([0.0, 1.0]), 0.0, 1.0)


def test_the_back_of_the_belt_is_the_path_of_larger_pulleys() -> None:
    run = Run([0.0, 0.6, 0.3], [0.0, 0.0, 0.1], [0.1, 0.1, 0.05], [1, 1, -1])
    back = offset_path(belt_path(run), 0.003)
    assert [float(r) for r in back.run.radius] == pytest.approx([0.103, 0.103, 0.047])
    again = belt_path(back.run)
    assert float(back.length) == pytest.approx(float(again.length), rel=1e-14)
    for one, other in zip(back.spans, again.spans, strict=True):
        assert float(one.start_x) == pytest.approx(float(other.start_x), abs=1e-14)
        assert float(one.end_y) == pytest.approx(float(other.end_y), abs=1e-14)


def test_pulleys_that_a_span_passes() -> None:
    run = Run([0.0, 1.0, 1.0], [0.0, 0.0, 1.0], [0.1, 0.1, 0.1], [1, 1, 1])
    gaps = passing_gaps(belt_band(belt_path(run), 0.002, 0.006), [0.104, 0.104, 0.104])
    assert [(gap.first, gap.second) for gap in gaps] == [(0, 2), (1, 0), (2, 1)]
    # the level run's narrow side is 0.094 below the axis, the belt round the third 0.102 from its
    assert float(gaps[0].gap) == pytest.approx(1.0 + 0.094 - 0.104, rel=1e-12)


def test_rims_of_stacked_pulleys() -> None:
    run = Run([0.0, 0.3, 0.0], [0.0, 0.4, 1.0], [0.1, 0.1, 0.1], [1, 1, 1])
    gaps = rim_gaps(run, [0.1, 0.2, 0.3])
    assert [float(gap.gap) for gap in gaps] == pytest.approx([0.2, 0.6, math.hypot(0.3, 0.6) - 0.5])


def test_three_pulleys_have_no_spans_apart() -> None:
    run = Run([0.0, 1.0, 1.0], [0.0, 0.0, 1.0], [0.1, 0.1, 0.1], [1, 1, 1])
    assert span_gaps(belt_band(belt_path(run), 0.0, 0.0)) == ()


def test_fleet_angle_either_way() -> None:
    """Half a degree is 8.7 mm in a metre (geometry)."""
    angles = np.degrees(fleet_angle(np.array([0.008727, -0.008727]), 1.0))
    assert angles.tolist() == pytest.approx([0.5, 0.5], abs=1e-4)


def test_a_trembling_span_reaches_nearer() -> None:
    band = belt_band(belt_path(OPEN), 0.0, 0.0)
    bow = float(driving_bow(0.4))
    assert bow == 0.00625
    assert float(flap_gap(band, 1, bow, box(0.19, 0.06))) == pytest.approx(0.00375, rel=3e-3)
    # near its ends a bowed span has hardly left its line
    assert float(flap_gap(band, 1, bow, box(0.0, 0.06, 0.01))) > 0.009
    assert float(flap_gap(band, 1, bow, box(0.5, 0.06))) == np.inf


def test_a_bow_that_strikes_is_negative() -> None:
    band = belt_band(belt_path(OPEN), 0.0, 0.002)
    assert float(flap_gap(band, 1, 0.02, box(0.19, 0.06))) == pytest.approx(-0.01, rel=1e-12)
