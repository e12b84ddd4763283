"""Bends, flats and strips: what holds for every one of them, and for many at once."""

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.sheet_metal.bend import (
    bend_allowance,
    outer_strain,
    setback,
    smallest_radius,
)
from beltwright.physics.sheet_metal.polygon import (
    SHARPEST,
    bends_for_corner_error,
    corner_error,
)
from beltwright.physics.sheet_metal.spring_back import over_bend_ratio, relaxed_radius
from beltwright.physics.sheet_metal.strip import bent_form, flat_strip, other_face

RADII = st.floats(0.01, 0.3)
TOTALS = st.floats(0.1, 1.9 * pi)
ERRORS = st.floats(0.0002, 0.005)
BENDS = st.lists(st.floats(-1.5, 1.5), min_size=1, max_size=8)


@given(RADII, TOTALS, ERRORS)
def test_as_many_bends_as_asked_for_keep_the_error_and_one_less_does_not(
    radius: float, total: float, error: float
) -> None:
    count = float(bends_for_corner_error(radius, total, error))
    assert corner_error(radius, total / count) <= error * (1.0 + 1e-6)
    if count > 1.0 and total / (count - 1.0) < SHARPEST:
        assert corner_error(radius, total / (count - 1.0)) > error * (1.0 - 1e-6)


def test_no_bend_of_many_turns_further_than_it_can() -> None:
    assert bends_for_corner_error(0.01, 1.9 * pi, 10.0) == np.ceil(1.9 * pi / SHARPEST)


def test_a_bend_as_round_as_the_arc_has_no_corner() -> None:
    assert corner_error(0.05, 0.6, 0.05) == 0.0
    assert bends_for_corner_error(0.05, 1.2, 0.001, 0.05) == 1.0


@given(BENDS)
def test_a_strip_is_as_long_as_its_flats_and_its_bends(angles: list[float]) -> None:
    legs = np.full(len(angles) + 1, 0.08)
    flat = flat_strip(legs, np.array(angles), 0.003, 0.002, 0.4)
    assert flat.length == pytest.approx(flat.flats.sum() + flat.allowances.sum())
    walked = 0.0
    for at, allowance in enumerate(flat.allowances):
        walked += flat.flats[at] + 0.5 * allowance
        assert flat.marks[at] == pytest.approx(walked)
        walked += 0.5 * allowance
    assert flat.length == pytest.approx(walked + flat.flats[-1])


@given(BENDS)
def test_a_strip_measured_on_its_other_face_is_as_long(angles: list[float]) -> None:
    """The bends told from the other side, with the legs of that face, give the same strip."""
    turns, thickness = np.array(angles), 0.002
    legs = np.full(len(angles) + 1, 0.08)
    x, y = other_face(bent_form(legs, turns, 0.0, 0.0, 0.3), thickness)
    others = np.hypot(np.diff(x), np.diff(y))
    one = flat_strip(legs, turns, 0.003, thickness, 0.4).length
    other = flat_strip(others, -turns, 0.003, thickness, 0.4).length
    assert one == pytest.approx(float(other), rel=1e-9)


@given(BENDS)
def test_the_other_face_stands_a_thickness_off_every_leg(angles: list[float]) -> None:
    legs, thickness = np.full(len(angles) + 1, 0.08), 0.002
    form = bent_form(legs, np.array(angles), 0.1, -0.2, 1.0)
    x, y = other_face(form, thickness)
    for leg, heading in enumerate(form.heading):
        for end in (leg, leg + 1):
            right = (x[end] - form.x[leg]) * np.sin(heading)
            right -= (y[end] - form.y[leg]) * np.cos(heading)
            assert right == pytest.approx(thickness, abs=1e-12)


def test_many_strips_at_once_give_what_each_gives_alone() -> None:
    legs = np.array([[0.04, 0.05], [0.06, 0.07], [0.03, 0.02]])
    angles, radii = np.array([0.5, -1.2]), np.array([0.002, 0.003])
    both = flat_strip(legs, angles[:, None], radii, 0.0015, 0.42)
    for at in range(2):
        alone = flat_strip(legs[:, at], angles, radii[at], 0.0015, 0.42)
        assert both.length[at] == pytest.approx(float(alone.length))
        assert both.marks[:, at] == pytest.approx(alone.marks)
        assert both.flats[:, at] == pytest.approx(alone.flats)
    form = bent_form(legs, angles[:, None], 0.0, np.array([0.0, 1.0]), 0.0)
    assert form.x.shape == (4, 2)
    assert form.y[0].tolist() == [0.0, 1.0]


def test_functions_of_a_bend_broadcast() -> None:
    angle, radius = np.array([[0.5], [1.0]]), np.array([0.001, 0.002, 0.004])
    for value in (
        bend_allowance(angle, radius, 0.002, 0.4),
        setback(angle, radius),
    ):
        assert value.shape == (2, 3)
    for one in (
        outer_strain(radius, 0.002),
        smallest_radius(radius, 2.0),
        relaxed_radius(radius, 0.002, 250e6, 200e9),
        over_bend_ratio(radius, 0.002, 250e6, 200e9),
    ):
        assert one.shape == (3,)


def test_a_bend_that_stays_elastic_springs_back_all_the_way() -> None:
    assert np.isinf(relaxed_radius(1.0, 0.001, 300e6, 200e9))
    assert np.isinf(over_bend_ratio(1.0, 0.001, 300e6, 200e9))


@given(st.floats(0.2, 5.0), st.floats(50e6, 400e6))
def test_springback_always_opens_a_bend(ratio: float, strength: float) -> None:
    radius, thickness = 0.002 * ratio, 0.002
    assert relaxed_radius(radius, thickness, strength, 200e9) >= radius
    assert over_bend_ratio(radius, thickness, strength, 200e9) >= 1.0
