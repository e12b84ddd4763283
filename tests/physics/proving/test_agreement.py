"""The fit of one input to several readings, and the doubt of a prediction."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose

from beltwright.physics.proving.agreement import best_fit, expanded_uncertainty, normalized_error

CANDIDATES = np.linspace(0.0, 10.0, 41)


@given(
    middles=st.lists(st.floats(1.0, 9.0), min_size=1, max_size=5),
    doubts=st.lists(st.floats(0.05, 5.0), min_size=5, max_size=5),
)
def test_straight_errors_give_the_weighted_mean(middles: list[float], doubts: list[float]) -> None:
    at, width = np.array(middles), np.array(doubts[: len(middles)])
    fit = best_fit(CANDIDATES, (CANDIDATES - at[:, None]) / width[:, None])
    weights = 1.0 / width**2
    assert_allclose(fit.value, np.sum(weights * at) / np.sum(weights), atol=1e-9)
    assert_allclose(fit.errors, (fit.value - at) / width, atol=1e-8)


@given(middle=st.floats(3.0, 7.0), doubt=st.floats(0.1, 2.0))
def test_the_doubt_of_one_reading_is_its_own(middle: float, doubt: float) -> None:
    fit = best_fit(CANDIDATES, ((CANDIDATES - middle) / doubt)[None, :])
    assert_allclose([fit.low, fit.high], [middle - doubt, middle + doubt], atol=1e-9)


def test_a_stretch_that_reaches_beyond_the_candidates_ends_with_them() -> None:
    fit = best_fit(CANDIDATES, ((CANDIDATES - 9.5) / 4.0)[None, :])
    assert fit.high == 10.0


def test_an_input_that_changes_nothing_leaves_the_error() -> None:
    fit = best_fit(CANDIDATES, np.full((1, 41), 3.0))
    assert_allclose(fit.errors, [3.0])
    assert fit.low == 0.0
    assert fit.high == 10.0


def test_one_value_leaves_no_doubt() -> None:
    assert expanded_uncertainty(np.array([3.0])) == 0.0


def test_what_is_not_finite_is_not_counted() -> None:
    draws = np.concatenate(([0.0], np.linspace(-1.0, 1.0, 1001), [np.inf, np.nan]))
    # the nominal value is one more draw in the middle
    assert_allclose(expanded_uncertainty(draws), 0.95, atol=1e-3)


@pytest.mark.parametrize(("read", "error"), [(1.0, 0.0), (2.0, np.inf), (0.5, -np.inf)])
def test_without_doubt_only_the_same_agrees(read: float, error: float) -> None:
    assert float(normalized_error(read, 1.0, 0.0, 0.0)) == error
