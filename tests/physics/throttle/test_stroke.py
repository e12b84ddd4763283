"""Forces of the throttle: what cannot be pulled, what comes back by itself."""

import numpy as np
import pytest

from beltwright.physics.throttle.stroke import (
    opening_pull,
    pedal_push,
    pull_to_lift,
    resisting_torque,
)


def test_a_wire_through_the_pivot_opens_nothing() -> None:
    pulls = opening_pull(np.array([0.4, 0.4, 0.0]), 0.0, np.array([0.0, -0.01, 0.0]))
    assert pulls.tolist() == [np.inf, np.inf, 0.0]


def test_springs_that_open_by_themselves_need_no_pull() -> None:
    assert float(opening_pull(-0.2, 0.05, 0.025)) == 0.0


def test_a_pedal_that_falls_by_itself_needs_no_push() -> None:
    assert float(pedal_push(0.0, 0.06, -1.0, 0.2, 0.18)) == 0.0


def test_a_pedal_with_its_own_spring_leaves_the_arm_alone() -> None:
    pulls = pull_to_lift(np.array([0.0, 0.3, 0.5]), 0.36, 0.06, 0.5)
    assert pulls == pytest.approx([12.0, 2.0, 0.0])
    assert resisting_torque(0.05, pulls, 0.025) == pytest.approx([0.35, 0.1, 0.05])


def test_a_pedal_at_dead_centre_cannot_be_brought_back() -> None:
    assert float(pull_to_lift(0.0, 0.36, 0.0, 0.5)) == np.inf
    assert float(pull_to_lift(0.5, 0.36, 0.0, 0.5)) == 0.0


def test_what_no_pull_brings_back_is_never_taken_for_light() -> None:
    levers = np.array([-0.01, 0.0, 0.01])
    assert resisting_torque(0.05, np.inf, levers).tolist() == [np.inf] * 3
    assert pedal_push(np.inf, levers, 0.0, 0.2, 0.18).tolist() == [np.inf] * 3
