"""Positions of arms and slots for a belt length, and what is left of their travel."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from beltwright.physics.belt.arm import TravelEnd, take_up
from beltwright.physics.belt.fault import path_faults
from beltwright.physics.belt.fit import Fit, fit_to_length
from beltwright.physics.belt.mount import Arm, Slot
from beltwright.physics.belt.moving import MovingPulley
from beltwright.physics.belt.path import belt_path
from beltwright.physics.belt.run import Run

RUN = Run(
    [1.04, 0.56, 0.2, 0.45], [0.0, 0.1, 0.0, -0.12], [0.047, 0.044, 0.09, 0.03], [1, -1, 1, 1]
)
ARM = Arm(0.42, 0.15, 0.13)
RELEASED, FULL = math.radians(20), math.radians(-60)


def length_at(angle: float) -> float:
    motion = ARM.motion(angle)
    return float(belt_path(RUN.moved(1, motion.x, motion.y)).length)


@given(st.floats(-60.0, -16.0))
def test_the_angle_of_a_path_is_found_again(degrees: float) -> None:
    angle = math.radians(degrees)
    fitted = fit_to_length(RUN, 1, ARM, RELEASED, FULL, length_at(angle))
    assert int(fitted.fit) == Fit.FITS
    # the length is flat where the idler begins to touch, so only the length is known to rounding
    assert float(fitted.path.length) == pytest.approx(length_at(angle), rel=1e-13)
    assert float(fitted.position) == pytest.approx(angle, abs=1e-8)


@given(st.floats(-60.0, -16.0))
def test_an_arm_on_the_other_side_is_its_mirror(degrees: float) -> None:
    length = length_at(math.radians(degrees))
    mirrored = Run(RUN.x, [-float(y) for y in RUN.y], RUN.radius, RUN.side)
    fitted = fit_to_length(mirrored, 1, Arm(0.42, -0.15, 0.13), -RELEASED, -FULL, length)
    here = fit_to_length(RUN, 1, ARM, RELEASED, FULL, length)
    assert float(fitted.position) == pytest.approx(-float(here.position), abs=1e-12)


@given(st.floats(-70.0, 60.0))
def test_the_length_bends_as_its_derivatives_say(degrees: float) -> None:
    """Central differences of 1e-4 rad; their own error is of the order of its square, and
    rounding 1e-16 / 1e-8 in the second."""
    moving, step, angle = MovingPulley(RUN, 1, np.asarray(1.0)), 1e-4, math.radians(degrees)
    near, here, far = (moving.reach(ARM.motion(angle + k * step)) for k in (-1, 0, 1))
    slope = float(far.length - near.length) / (2 * step)
    bend = float(far.length - 2 * here.length + near.length) / step**2
    assert slope == pytest.approx(float(here.rate), abs=1e-7)
    assert bend == pytest.approx(float(here.bend), abs=1e-6)
    assert float(here.all_wraps) == pytest.approx(
        sum(float(w) for w in moving.path(*_centre(angle)).wrap), abs=1e-12
    )


def _centre(angle: float) -> tuple[float, float]:
    motion = ARM.motion(angle)
    return float(motion.x), float(motion.y)


def test_a_belt_too_short_even_when_released() -> None:
    fitted = fit_to_length(RUN, 1, ARM, RELEASED, FULL, 2.05)
    assert int(fitted.fit) == Fit.TOO_SHORT
    assert math.isnan(float(fitted.position))
    assert float(fitted.released.slack) < 0.0


def test_a_belt_too_long_even_at_full_travel() -> None:
    fitted = fit_to_length(RUN, 1, ARM, RELEASED, FULL, 2.2)
    assert int(fitted.fit) == Fit.TOO_LONG
    assert math.isnan(float(fitted.position))


def test_a_belt_too_long_for_the_top_of_the_swing() -> None:
    """Past the top of its swing an arm slackens the belt again, so its stop does not help."""
    longest = max(length_at(math.radians(-d)) for d in np.arange(80, 150, 0.1))
    assert length_at(math.radians(-170)) < longest - 0.01
    fitted = fit_to_length(RUN, 1, ARM, RELEASED, math.radians(-170), longest + 1e-4)
    assert int(fitted.fit) == Fit.TOO_LONG
    fitted = fit_to_length(RUN, 1, ARM, RELEASED, math.radians(-170), longest - 1e-4)
    assert int(fitted.fit) == Fit.FITS
    assert -120 < math.degrees(float(fitted.position)) < -90


def test_pulleys_in_the_same_place_have_no_path() -> None:
    run = Run([0.0, 0.0, 0.3], [0.0, 0.0, 0.2], [0.05, 0.1, 0.03], [1, 1, -1])
    fitted = fit_to_length(run, 2, Arm(0.3, 0.3, 0.1), 0.0, -1.0, 1.0)
    assert int(fitted.fit) == Fit.NO_PATH


def test_slack_at_the_released_end() -> None:
    """The idler is off the belt there, so the path leaves it out; the gap follows from dL/dr."""
    bare = belt_path(RUN.without(1))
    released = fit_to_length(RUN, 1, ARM, RELEASED, FULL, 2.14).released
    assert not bool(released.touches)
    assert float(released.slack) == pytest.approx(2.14 - float(bare.length), rel=1e-12)
    wraps = sum(float(wrap) for wrap in bare.wrap)
    assert float(released.mean_gap) == pytest.approx(float(released.slack) / wraps, rel=1e-12)
    # the same belt lifted evenly off all pulleys is the belt of pulleys larger by the gap
    gap = float(released.mean_gap)
    lifted = Run(bare.run.x, bare.run.y, [np.add(r, gap) for r in bare.run.radius], bare.run.side)
    assert float(belt_path(lifted).length) == pytest.approx(2.14, rel=1e-4)


def test_slack_where_the_idler_still_touches() -> None:
    released = fit_to_length(RUN, 1, ARM, math.radians(-20), FULL, 2.14).released
    assert bool(released.touches)
    slack = 2.14 - length_at(math.radians(-20))
    assert float(released.slack) == pytest.approx(slack, rel=1e-12)


def test_an_idler_far_off_the_belt_is_not_read_as_wrapped_round() -> None:
    """Seen from an idler far out the belt would turn back on itself."""
    released = fit_to_length(RUN, 1, Arm(0.55, 0.6, 0.6), math.radians(40), -1.5, 2.14).released
    assert not bool(released.touches)


@given(
    st.lists(st.floats(2.05, 2.25), min_size=2, max_size=9),
    st.floats(0.035, 0.055),
)
def test_many_at_once_are_the_same_as_one_at_a_time(lengths: list[float], engine: float) -> None:
    run = Run(RUN.x, RUN.y, [engine, *RUN.radius[1:]], RUN.side)
    full = math.radians(-170)
    together = fit_to_length(run, 1, ARM, RELEASED, full, np.array(lengths))
    for i, length in enumerate(lengths):
        alone = fit_to_length(run, 1, ARM, RELEASED, full, length)
        assert int(alone.fit) == int(together.fit[i])
        assert float(alone.position) == pytest.approx(
            float(together.position[i]), abs=1e-7, nan_ok=True
        )


@given(st.floats(0.02, 0.1), st.floats(0.02, 0.1), st.floats(0.25, 1.0))
def test_the_slot_place_of_two_pulleys_is_found_again(
    first: float, second: float, apart: float
) -> None:
    length = float(belt_path(Run([0.0, apart], [0.0, 0.0], [first, second], [1, 1])).length)
    run = Run([0.0, 0.0], [0.0, 0.0], [first, second], [1, 1])
    fitted = fit_to_length(run, 1, Slot(0.0, 0.0, 0.3), 0.2, 1.2, length)
    assert float(fitted.position) == pytest.approx(apart, rel=1e-12)
    assert float(fitted.path.run.y[1]) == pytest.approx(apart * math.sin(0.3), rel=1e-12)


def test_what_is_left_to_the_stop() -> None:
    fitted = fit_to_length(RUN, 1, ARM, RELEASED, FULL, 2.135)
    left = take_up(fitted.position, fitted.path, 1, ARM, FULL)
    assert int(left.ends_by) == TravelEnd.STOP
    assert float(left.travel) == pytest.approx(float(fitted.position) - FULL, rel=1e-12)
    assert float(left.stretch) == pytest.approx(length_at(FULL) - 2.135, rel=1e-9)


def test_what_is_left_to_the_top_of_the_swing() -> None:
    full = math.radians(-170)
    fitted = fit_to_length(RUN, 1, ARM, RELEASED, full, 2.135)
    left = take_up(fitted.position, fitted.path, 1, ARM, full)
    angles = np.radians(np.arange(-120, -80, 0.01))
    longest = angles[np.argmax([length_at(a) for a in angles])]
    assert int(left.ends_by) == TravelEnd.TOP_OF_SWING
    assert float(left.end) == pytest.approx(longest, abs=math.radians(0.01))


def test_what_is_left_before_the_idler_meets_a_pulley() -> None:
    """The slot leads the idler across the loop; it ends where the idler meets the other run."""
    run = Run([0.0, 1.0, 0.5], [0.0, 0.0, 0.0], [0.1, 0.1, 0.03], [1, 1, -1])
    slot = Slot(0.5, 0.2, -math.pi / 2)
    length = float(belt_path(run.moved(2, 0.5, 0.1)).length)
    fitted = fit_to_length(run, 2, slot, 0.0, 0.5, length)
    left = take_up(fitted.position, fitted.path, 2, slot, 0.5)
    assert int(left.ends_by) == TravelEnd.FAULT
    assert float(left.end) == pytest.approx(0.2 + 0.1 - 0.03, abs=1e-6)
    motion = slot.motion(float(left.end) - 1e-6)
    assert int(path_faults(belt_path(run.moved(2, motion.x, motion.y), fitted.path.sense))) == 0


def test_nothing_is_left_where_nothing_fits() -> None:
    lengths = np.array([2.0, 2.135, 2.4])
    fitted = fit_to_length(RUN, 1, ARM, RELEASED, FULL, lengths)
    left = take_up(fitted.position, fitted.path, 1, ARM, FULL)
    assert left.ends_by.tolist() == [TravelEnd.NOT_FITTED, TravelEnd.STOP, TravelEnd.NOT_FITTED]
    assert np.isnan(left.stretch).tolist() == [True, False, True]


@given(st.floats(2.128, 2.145))
def test_take_up_is_the_belt_that_a_longer_one_would_still_need(length: float) -> None:
    fitted = fit_to_length(RUN, 1, ARM, RELEASED, FULL, length)
    left = take_up(fitted.position, fitted.path, 1, ARM, FULL)
    longest = length + float(left.stretch)
    assume(longest - 1e-9 > length)
    assert int(fit_to_length(RUN, 1, ARM, RELEASED, FULL, longest - 1e-9).fit) == Fit.FITS
    assert int(fit_to_length(RUN, 1, ARM, RELEASED, FULL, longest + 1e-9).fit) == Fit.TOO_LONG
