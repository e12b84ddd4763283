"""Springs on levers: slack and overstretched ones, turning the whole drawing, least energy."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.spring import spring_on_arm, spring_pull

coordinates = st.tuples(st.floats(-0.3, 0.3), st.floats(-0.3, 0.3))


def test_a_loose_spring_does_nothing() -> None:
    spring = spring_on_arm(0.0, (0.0, 0.0), (0.1, 0.0), (0.1, 0.05), 0.09, 2000.0, 20.0)
    assert bool(spring.slack)
    assert float(spring.pull) == 0.0
    assert float(spring.moment) == 0.0


def test_close_wound_coils_pull_as_soon_as_they_open() -> None:
    pulls = spring_pull(np.array([0.0949, 0.0951, 0.100]), 0.095, 2000.0, 15.0)
    assert pulls == pytest.approx([0.0, 15.2, 25.0])


def test_an_overdrawn_spring_is_told() -> None:
    reach = np.array([0.15, 0.25])
    spring = spring_on_arm(0.0, (0.0, 0.0), (0.1, 0.0), (0.1, reach), 0.09, 2000.0, longest=0.2)
    assert spring.overstretched.tolist() == [False, True]


def test_both_hooks_in_one_place_pull_nowhere() -> None:
    spring = spring_on_arm(0.0, (0.0, 0.0), (0.1, 0.0), (0.1, 0.0), 0.0, 2000.0)
    assert float(spring.moment) == 0.0


def test_over_the_travel_at_once() -> None:
    angles = np.linspace(0.0, 1.5, 7)
    whole = spring_on_arm(angles, (0.0, 0.0), (0.1, 0.01), (0.0, 0.3), 0.1, 2000.0)
    each = [spring_on_arm(a, (0.0, 0.0), (0.1, 0.01), (0.0, 0.3), 0.1, 2000.0) for a in angles]
    assert whole.moment == pytest.approx([float(one.moment) for one in each], rel=1e-12)


@given(coordinates, coordinates, st.floats(-3.0, 3.0), st.floats(-3.0, 3.0))
def test_moment_stays_when_the_drawing_is_turned(
    hook: tuple[float, float], frame: tuple[float, float], angle: float, turn: float
) -> None:
    cosine, sine = np.cos(turn), np.sin(turn)
    turned = (cosine * frame[0] - sine * frame[1], sine * frame[0] + cosine * frame[1])
    one = spring_on_arm(angle, (0.0, 0.0), hook, frame, 0.02, 2000.0)
    other = spring_on_arm(angle + turn, (0.0, 0.0), hook, turned, 0.02, 2000.0)
    assert float(other.length) == pytest.approx(float(one.length), abs=1e-12)
    if abs(float(one.length) - 0.02) > 1e-9:
        assert float(other.moment) == pytest.approx(float(one.moment), abs=1e-9)


@given(coordinates, st.floats(-3.0, 3.0))
def test_moment_is_minus_the_slope_of_the_spring_energy(
    frame: tuple[float, float], angle: float
) -> None:
    def energy(a: float) -> float:
        spring = spring_on_arm(a, (0.0, 0.0), (0.09, 0.02), frame, 0.0, 2000.0)
        return 2000.0 * float(spring.length) ** 2 / 2

    slope = (energy(angle + 1e-6) - energy(angle - 1e-6)) / 2e-6
    spring = spring_on_arm(angle, (0.0, 0.0), (0.09, 0.02), frame, 0.0, 2000.0)
    assert float(spring.moment) == pytest.approx(-slope, abs=1e-5)
