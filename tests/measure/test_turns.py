"""Counted turns to ratios, rolled turns to a circumference."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.turns import Count, ratio, read_count, roll_out, rolling_outside
from beltwright.quantity import Kind, read_quantity


@pytest.mark.parametrize(
    ("text", "turned", "wheel"),
    [
        ("20 = 1 + 90°", 20.0, 1.25),
        ("20=1+90", 20.0, 1.25),
        ("12.5 = 2", 12.5, 2.0),
        ("20 = 0 + 180 deg", 20.0, 0.5),
    ],
)
def test_counts_are_read(text: str, turned: float, wheel: float) -> None:
    count = read_count(text)
    assert count.turned == turned
    assert count.whole + count.rest / math.tau == pytest.approx(wheel)


@pytest.mark.parametrize("text", ["", "20", "20 = ", "a = b", "20 = 1 + x", "-2 = 1", "9" * 5000])
def test_what_is_no_count_is_refused(text: str) -> None:
    with pytest.raises(NotMeasuredError, match="is no count"):
        read_count(text)


@given(
    true=st.floats(2.0, 80.0),
    turned=st.integers(20, 200),
    begin=st.floats(-1.0, 1.0),
    end=st.floats(-1.0, 1.0),
)
def test_a_mark_that_is_misread_stays_within_the_spread(
    true: float, turned: int, begin: float, end: float
) -> None:
    chalk = math.radians(5.0)
    angle = math.tau * turned / true + (begin + end) * chalk / math.sqrt(2.0)
    if angle < math.tau / 2.0:
        return
    found = ratio(Count(turned, 0.0, angle), chalk)
    assert abs(found.value - true) <= found.spread * (1.0 + 2.0 * chalk)


def test_more_turns_make_it_surer() -> None:
    few, many = ratio(read_count("20 = 1")), ratio(read_count("200 = 10"))
    assert many.spread == pytest.approx(few.spread / 10.0)


def test_the_belt_is_taken_out() -> None:
    assert ratio(read_count("40 = 1"), belt=2.0).value == pytest.approx(20.0)


def test_one_wheel_of_an_open_differential_makes_double_turns() -> None:
    """With one wheel held, the other turns twice as far as the axle."""
    assert ratio(read_count("40 = 4"), one_wheel_held=True).value == pytest.approx(20.0)


@pytest.mark.parametrize("text", ["0 = 1", "20 = 0", "20 = 0 + 5"])
def test_too_few_turns_are_refused(text: str) -> None:
    with pytest.raises(NotMeasuredError, match="Turn the pulley"):
        ratio(read_count(text))


@given(st.floats(0.5, 3.0), st.integers(1, 20))
def test_roll_out_over_turns(circumference: float, turns: int) -> None:
    distance = read_quantity(f"{circumference * turns:.6f} m ± 5 mm", Kind.LENGTH)
    found = roll_out(distance, turns)
    assert found.value == pytest.approx(circumference, abs=1e-6)
    assert found.spread == pytest.approx(0.005 / turns)
    assert rolling_outside(found).value == pytest.approx(circumference / math.pi, abs=1e-6)


def test_a_bare_distance_gets_what_a_tape_gives() -> None:
    found = roll_out(read_quantity("7.42 m", Kind.LENGTH), 5)
    assert found.spread == pytest.approx(math.sqrt(2.0) * 0.005 / 5.0)


@pytest.mark.parametrize(("distance", "turns"), [("7 m", 0.5), ("7 m", math.inf), ("0 m", 5)])
def test_no_turn_or_no_distance_is_refused(distance: str, turns: float) -> None:
    with pytest.raises(NotMeasuredError, match=r"[Rr]oll"):
        roll_out(read_quantity(distance, Kind.LENGTH), turns)
