"""Threads and pipe threads: shares, next sizes, engagement, strength."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.thread.limits import metric_limits, unified_limits
from beltwright.physics.thread.pipe import (
    mouth_pitch_diameter,
    npt,
    seat_depth,
)
from beltwright.physics.thread.share import (
    SHOP_DEPTH,
    basic_thread,
    hole_for_share,
    insert_hole,
    takes_next_size,
    thread_share,
    wall_left,
)
from beltwright.physics.thread.strength import (
    bolt_strip_area,
    nut_strip_area,
    tensile_area,
    usual_preload,
)

MALE = npt(0.405 * 0.0254, 0.0254 / 27, 0.1615 * 0.0254)


@given(st.floats(3e-3, 30e-3), st.floats(0.4e-3, 3e-3), st.floats(0.1, 1.0))
def test_hole_and_share_undo_each_other(major: float, pitch: float, share: float) -> None:
    hole = hole_for_share(share, major, pitch)
    assert thread_share(hole, major, pitch) == pytest.approx(share)


def test_a_hole_as_wide_as_the_bolt_holds_nothing() -> None:
    assert thread_share(0.010, 0.010, 0.0015) == 0.0
    assert thread_share(0.011, 0.010, 0.0015) < 0.0


def test_full_basic_thread_is_the_minor_diameter() -> None:
    """Which is five sixths of what shop charts call full: 2 · ⅝ H over 2 · ¾ H."""
    minor = basic_thread(0.010, 0.0015).minor_diameter
    assert thread_share(minor, 0.010, 0.0015) == pytest.approx(5.0 / 6.0)


def test_next_sizes_for_a_worn_hole() -> None:
    """A worn M8 hole of 8.1 mm: M8 has gone, M10 takes it at its own drill, M10 × 1 too."""
    majors = np.array([8.0, 10.0, 10.0, 12.0]) * 1e-3
    pitches = np.array([1.25, 1.5, 1.0, 1.75]) * 1e-3
    drill = takes_next_size(8.1e-3, majors, pitches) * 1e3
    assert np.isnan(drill[0])
    assert drill[1:] == pytest.approx(
        [10 - 0.75 * SHOP_DEPTH * 1.5, 10 - 0.75 * SHOP_DEPTH, 12 - 0.75 * SHOP_DEPTH * 1.75]
    )


def test_a_wider_hole_is_not_drilled_smaller() -> None:
    assert takes_next_size(8.7e-3, 10e-3, 1.5e-3, least_share=0.6) == pytest.approx(8.7e-3)
    assert np.isnan(takes_next_size(8.9e-3, 10e-3, 1.5e-3, least_share=0.6))


def test_insert_is_wider_than_the_bolt_by_its_wire() -> None:
    hole = insert_hole(8e-3, 1.25e-3)
    assert hole.drill > 8e-3
    assert hole.tap_major - hole.drill == pytest.approx(1.25 * np.sqrt(3) / 2 * 1.25e-3)
    assert wall_left(hole.tap_major, 0.012, 0.002) == pytest.approx(0.010 - hole.tap_major / 2)


@given(st.floats(4.0, 24.0), st.floats(0.5, 2.5))
def test_limits_leave_the_bolt_inside_the_nut(size: float, pitch: float) -> None:
    for limits in (
        metric_limits(size * 1e-3, pitch * 1e-3),
        unified_limits(size * 1e-3, pitch * 1e-3),
    ):
        basic = basic_thread(size * 1e-3, pitch * 1e-3).pitch_diameter
        assert limits.bolt_pitch < basic < limits.nut_pitch
        assert limits.bolt_major < size * 1e-3


def test_metric_limits_over_an_array() -> None:
    sizes = np.array([6.0, 10.0]) * 1e-3
    limits = metric_limits(sizes, np.array([1.0, 1.5]) * 1e-3)
    assert limits.bolt_pitch[1] == metric_limits(10e-3, 1.5e-3).bolt_pitch


@given(st.floats(8.4e-3, 9.6e-3))
def test_a_wider_bore_strips_the_bolt_sooner(bore: float) -> None:
    assert bolt_strip_area(bore + 1e-4, 8.9e-3, 1.5e-3, 0.01) < bolt_strip_area(
        bore, 8.9e-3, 1.5e-3, 0.01
    )


def test_no_thread_no_strength() -> None:
    assert bolt_strip_area(10.3e-3, 8.9e-3, 1.5e-3, 0.01) == 0.0
    assert nut_strip_area(9.7e-3, 9.2e-3, 1.5e-3, 0.01, hole_diameter=9.8e-3) == 0.0
    assert nut_strip_area(9.7e-3, 9.2e-3, 1.5e-3, 0.01, hole_diameter=9.0e-3) > 0.0


def test_the_weaker_of_bolt_and_thread_sets_the_preload() -> None:
    area = tensile_area(0.010, 0.0015, metric=True)
    assert usual_preload(580e6, area) == pytest.approx(0.75 * 580e6 * area)
    assert usual_preload(580e6, area, 10e3) == pytest.approx(5e3)


@given(st.floats(-0.2e-3, 0.6e-3))
def test_an_oversize_mouth_seats_sixteen_times_deeper(oversize: float) -> None:
    standard = MALE.small_pitch_diameter + MALE.hand_length / 16.0
    deeper = seat_depth(MALE, standard + oversize) - MALE.hand_length
    assert deeper == pytest.approx(16.0 * oversize, abs=1e-12)


def test_a_hole_too_small_does_not_take_it() -> None:
    assert seat_depth(MALE, 0.008) == 0.0


def test_mouth_of_a_hole_to_size() -> None:
    standard = float(MALE.small_pitch_diameter + MALE.hand_length / 16.0)
    assert mouth_pitch_diameter(MALE, standard - MALE.depth) == pytest.approx(standard)
