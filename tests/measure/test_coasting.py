"""Coast-downs: the drag comes back, the slope goes out when both ways are given."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.measure.coasting import UNLEVEL, both_ways, coasting_part, rolling_drag
from beltwright.measure.refusal import NotMeasuredError
from beltwright.measure.track import Track
from beltwright.physics.gravity import STANDARD_GRAVITY

TIME = np.linspace(0.0, 6.0, 13)


@given(st.floats(0.02, 0.06), st.floats(3.6, 6.0))
def test_a_steady_drag_comes_back(drag: float, fast: float) -> None:
    found = rolling_drag(TIME, fast - drag * STANDARD_GRAVITY * TIME)
    assert found.value == pytest.approx(drag, rel=1e-6)
    assert found.spread == pytest.approx(UNLEVEL, rel=1e-6)


@given(st.floats(0.03, 0.06), st.floats(-0.015, 0.015), st.integers(0, 100))
def test_both_ways_leave_the_slope_out(drag: float, fall: float, seed: int) -> None:
    noise = np.random.default_rng(seed).normal(0.0, 0.02, (2, TIME.size))
    there, back = (
        rolling_drag(TIME, 6.0 - (drag + way) * STANDARD_GRAVITY * TIME + each)
        for way, each in zip((-fall, fall), noise, strict=True)
    )
    mean = both_ways(there, back)
    assert mean.value == pytest.approx(drag, abs=2.0 * mean.spread + 1e-6)
    assert mean.spread < UNLEVEL


def test_one_way_says_what_the_slope_does() -> None:
    found = rolling_drag(TIME, 4.0 - 0.5 * TIME)
    assert "both" in found.notes[0]


@pytest.mark.parametrize(
    ("speed", "says"),
    [
        (np.full(13, 4.0), "falls too little"),
        (4.0 + 0.2 * TIME, "falls too little"),
        (1.2 - 0.1 * TIME, "walking pace"),
    ],
)
def test_a_run_that_tells_nothing_is_refused(speed: np.ndarray, says: str) -> None:
    with pytest.raises(NotMeasuredError, match=says):
        rolling_drag(TIME, speed)


def test_too_few_readings_are_refused() -> None:
    with pytest.raises(NotMeasuredError, match="four times"):
        rolling_drag(TIME[:3], TIME[:3])


def test_the_coasting_part_of_a_track_is_found() -> None:
    seconds = np.arange(80.0)
    speed = np.interp(seconds, [0, 10, 40, 60, 79], [0, 6, 6, 1, 1])
    along = np.concatenate(([0.0], np.cumsum((speed[1:] + speed[:-1]) / 2.0)))
    part = coasting_part(Track(seconds, along, np.zeros(80), None))
    found = rolling_drag(*part)
    assert found.value * STANDARD_GRAVITY == pytest.approx(5.0 / 20.0, rel=0.08)


def test_a_track_without_coasting_is_refused() -> None:
    track = Track(np.arange(40.0), 0.01 * np.arange(40.0) ** 3, np.zeros(40), None)
    with pytest.raises(NotMeasuredError, match="coast"):
        coasting_part(track)
