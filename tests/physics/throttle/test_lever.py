"""Levers on a wire: reach and angle undo each other, dead centre, the hole that matches."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from beltwright.physics.throttle.lever import (
    angle_at_reach,
    matching_radius,
    wire_lever,
    wire_reach,
)

radii = st.floats(0.01, 0.2)
distances = st.floats(0.02, 0.4)
headings = st.floats(-np.pi, np.pi)


def _end(distance: float, heading: float) -> tuple[float, float]:
    return distance * float(np.cos(heading)), distance * float(np.sin(heading))


@given(radii, distances, headings, st.floats(0.1, 3.0), st.sampled_from([-1.0, 1.0]))
def test_angle_and_reach_undo_each_other(
    radius: float, distance: float, heading: float, short: float, turns: float
) -> None:
    """The lever stands `short` of dead centre, on the side from which drawing in turns it."""
    assume(abs(distance - radius) > 1e-3)
    end, angle = _end(distance, heading), heading - turns * short
    reach = wire_reach(angle, radius, end)
    assert float(angle_at_reach(reach, radius, end, angle, turns)) == pytest.approx(angle, abs=1e-6)
    assert turns * float(wire_lever(angle, radius, end, reach)) > 0.0


@given(radii, distances, headings, headings)
def test_the_lever_is_minus_the_slope_of_the_reach(
    radius: float, distance: float, heading: float, angle: float
) -> None:
    assume(abs(distance - radius) > 5e-3)
    end = _end(distance, heading)
    step = 1e-6
    slope = (wire_reach(angle + step, radius, end) - wire_reach(angle - step, radius, end)) / (
        2.0 * step
    )
    lever = wire_lever(angle, radius, end, wire_reach(angle, radius, end))
    assert float(lever) == pytest.approx(-float(slope), abs=1e-8)


def test_a_wire_drawn_in_too_far_stops_at_dead_centre() -> None:
    end = (0.1, 0.0)
    assert float(angle_at_reach(0.01, 0.03, end, -0.5, 1.0)) == pytest.approx(0.0)
    assert float(wire_lever(0.0, 0.03, end, 0.07)) == 0.0


def test_a_hole_at_the_end_of_the_housing_has_no_lever() -> None:
    assert float(wire_lever(0.0, 0.03, (0.03, 0.0), 0.0)) == 0.0


@given(radii, distances, headings, st.floats(0.2, 1.5), st.floats(0.1, 1.2))
def test_the_matching_hole_gives_the_travel(
    radius: float, distance: float, heading: float, short: float, swing: float
) -> None:
    """A smaller hole may match as well; what is found must give the travel it was asked for."""
    assume(distance > 1.3 * radius)
    end = _end(distance, heading)
    first, last = heading - short - swing, heading - short
    travel = float(wire_reach(first, radius, end) - wire_reach(last, radius, end))
    found = float(matching_radius(travel, first, last, end))
    assert found <= radius * (1.0 + 1e-6)
    again = float(wire_reach(first, found, end) - wire_reach(last, found, end))
    assert again == pytest.approx(travel, rel=1e-6)


def test_no_hole_matches_more_travel_than_the_swing_can_take() -> None:
    """The end of the housing is 40 mm away: no hole brings it nearer by a metre."""
    assert np.isnan(matching_radius(1.0, -1.0, -0.2, (0.04, 0.0)))


def test_arrays_go_through_as_one() -> None:
    reaches = np.array([[0.05], [0.06]])
    radii_ = np.array([0.03, 0.035, 0.04])
    whole = angle_at_reach(reaches, radii_, (0.07, 0.0), 0.0, -1.0)
    assert whole.shape == (2, 3)
    one = angle_at_reach(0.06, 0.035, (0.07, 0.0), 0.0, -1.0)
    assert whole[1, 1] == pytest.approx(float(one), rel=1e-12)
