"""Sheathed cables: straight ones, many bends, play."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.cable import (
    SMALL_FALL,
    cable_efficiency,
    cable_stretch,
    play_in_bends,
    strand_stiffness,
)


def test_a_straight_cable_loses_nothing() -> None:
    assert float(cable_efficiency(0.2, 0.0)) == 1.0
    assert float(cable_stretch(50.0, 1.0, 1.5, 100e3)) == pytest.approx(
        50.0 * 1.5 / 100e3, rel=1e-15
    )
    assert float(play_in_bends(0.0, 0.001)) == 0.0


def test_the_stretch_is_smooth_where_the_series_takes_over() -> None:
    falls = np.array([0.99, 1.01]) * SMALL_FALL
    below, above = cable_stretch(50.0, np.exp(-falls), 1.5, 100e3)
    assert above == pytest.approx(below, rel=1e-8)


@given(st.floats(0.05, 0.3), st.floats(0.1, 10.0), st.floats(0.1, 3.0))
def test_the_mean_pull_lies_between_the_ends(mu: float, bends: float, length: float) -> None:
    efficiency = float(cable_efficiency(mu, bends))
    stretch = float(cable_stretch(40.0, efficiency, length, 1e5))
    assert 40.0 * length / 1e5 < stretch < 40.0 / efficiency * length / 1e5


def test_twice_as_thick_is_four_times_as_stiff() -> None:
    assert strand_stiffness(0.003, 1e11, 0.5) == pytest.approx(
        4.0 * strand_stiffness(0.0015, 1e11, 0.5)
    )
