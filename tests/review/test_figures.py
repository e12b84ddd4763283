"""Figures are no finer than the range is wide, and never hide on which side of a limit they lie."""

import numpy as np
import pytest

from beltwright.build.model import Build
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Draft
from beltwright.review.figures import Figures, spaced
from beltwright.review.finding import Limit

CASE = Case(Build(format=1, name="empty"))


def figures(
    value: float, low: float, high: float, limit: Limit | None = None, below_zero: str = ""
) -> Figures:
    draft = Draft(
        kind=Kind.LENGTH,
        value=np.array([value]),
        below_zero=below_zero,
        meaning="m",
        formula="f",
        working="w",
        source="s",
    )
    return Figures(CASE, draft, value, low, high, limit)


@pytest.mark.parametrize(
    ("value", "low", "high", "shown", "shown_range"),
    [
        (0.02251, 0.00597, 0.03934, "23 mm", "6 to 39 mm"),
        (0.1077, 0.1072, 0.1081, "107.7 mm", "107.2 to 108.1 mm"),
        (1.963, 1.947, 1.979, "1963 mm", "1947 to 1979 mm"),
        (1.963, 1.6, 2.4, "1960 mm", "1600 to 2400 mm"),
        (0.02251, 0.02251, 0.02251, "22.51 mm", ""),
    ],
)
def test_a_wide_range_has_few_figures(
    value: float, low: float, high: float, shown: str, shown_range: str
) -> None:
    found = figures(value, low, high)
    assert (found.shown(), found.shown_range()) == (shown, shown_range)


@pytest.mark.parametrize("value", [0.02251, 0.02249])
def test_a_value_near_its_limit_is_seen_to_be_on_its_side(value: float) -> None:
    found = figures(value, 0.005, 0.040, Limit(at_most=0.0225))
    assert found.shown() == f"{value * 1000:.4g} mm"
    assert found.shown_limit() == "at most 22.5 mm"


@pytest.mark.parametrize(
    ("limit", "shown"),
    [
        (Limit(at_least=0.019632), "at least 20 mm"),
        (Limit(at_most=0.0284713), "at most 28 mm"),
        (Limit(at_least=0.0125), "at least 12.5 mm"),
        (Limit(at_least=0.004), "at least 4 mm"),
        (Limit(0.0096324, 0.0314159), "10 to 31 mm"),
        (Limit(0.0125, 0.0314159), "12.5 to 31.42 mm"),
    ],
)
def test_a_limit_that_was_worked_out_is_no_finer_than_its_value(limit: Limit, shown: str) -> None:
    """One that was given stays as it is."""
    assert figures(0.0231, 0.006, 0.039, limit).shown_limit() == shown


def test_what_lies_short_is_told_in_words() -> None:
    found = figures(-0.0048, -0.0062, -0.0034, below_zero="short by")
    assert found.shown() == "short by 4.8 mm"


def test_words_tell_the_value_with_the_same_figures() -> None:
    found = figures(0.02251, 0.00597, 0.03934)
    told = found.in_words("22.51 mm are left of 122.51 mm: 22.51 mm or 41%.")
    assert told == "23 mm are left of 122.51 mm: 23 mm or 41 %."


def test_shares_stand_off_their_sign() -> None:
    assert spaced("45% of 3 %, 0.5%") == "45 % of 3 %, 0.5 %"


@pytest.mark.parametrize(
    ("says", "shown"),
    [("13.7° (24 %)", "at least 6.8° (12 %)"), ("", "at least 6.84°"), ("21°", "at least 6.84°")],
)
def test_the_limit_of_a_slope_is_told_as_a_slope(says: str, shown: str) -> None:
    """Builders write the slope that they want as a percentage."""
    value = np.radians([13.7])
    draft = Draft(
        kind=Kind.ANGLE, value=value, says=says, meaning="m", formula="f", working="w", source="s"
    )
    limit = Limit(at_least=float(np.arctan(0.12)))
    assert Figures(CASE, draft, value[0], value[0], value[0], limit).shown_limit() == shown
