"""Goals are ranges, limits on one side, or single values."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.quantity import Kind, QuantityError, read_goal


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("18 to 22 km/h", 5.0, 22 / 3.6),
        ("18–22 km/h", 5.0, 22 / 3.6),
        ("between 18 and 22 km/h", 5.0, 22 / 3.6),
        ("18 km/h to 22 km/h", 5.0, 22 / 3.6),
        ("from 5 m/s to 36 km/h", 5.0, 10.0),
        ("at most 3.6 km/h", None, 1.0),
        ("up to 3.6 km/h", None, 1.0),
        ("≤ 3.6 km/h", None, 1.0),
        ("at least 3.6 km/h", 1.0, None),
        ("no less than 3.6 km/h", 1.0, None),
        ("3.6 km/h", 1.0, 1.0),
        ("36 ± 3.6 km/h", 9.0, 11.0),
    ],
)
def test_limits(text: str, low: float | None, high: float | None) -> None:
    goal = read_goal(text, Kind.SPEED)
    assert goal.low == (low if low is None else pytest.approx(low, rel=1e-15))
    assert goal.high == (high if high is None else pytest.approx(high, rel=1e-15))


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("22 to 18 km/h", "above the second"),
        ("at most", "no number"),
        ("at most 3 kg", "a unit for a mass"),
        ("18 to 22", "unit is missing"),
        ("18 to fast 3", "cannot be read"),
        ("at least 1,500 km/h", "may mean"),
        ("at most -3 km/h", "never below 0"),
    ],
)
def test_refusals(text: str, reason: str) -> None:
    with pytest.raises(QuantityError, match=reason):
        read_goal(text, Kind.SPEED)


@given(st.text(alphabet="0123456789. tobewnad-–…<>≤atmslkm/h%", max_size=30))
def test_no_text_does_worse_than_a_refusal(text: str) -> None:
    try:
        goal = read_goal(text, Kind.SPEED)
    except QuantityError:
        return
    if goal.low is not None and goal.high is not None:
        assert goal.low <= goal.high
