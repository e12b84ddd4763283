"""A run with one pulley in many places, against the same run looked at afresh."""

import numpy as np
import pytest
from numpy.testing import assert_allclose

from beltwright.physics.belt.mount import Arm
from beltwright.physics.belt.moving import MovingPulley
from beltwright.physics.belt.path import belt_path
from beltwright.physics.belt.run import Run

RUN = Run(
    [0.9, 0.7, 0.5, 0.1, 0.45],
    [0.0, -0.2, -0.25, 0.0, 0.2],
    [0.05, 0.03, 0.04, 0.1, 0.03],
    [1, 1, 1, 1, 1],
)
"""Clockwise, so that the first pulley is not next to the third."""


@pytest.mark.parametrize("pulley", range(5))
def test_five_pulleys_of_which_any_moves(pulley: int) -> None:
    arm = Arm(RUN.x[pulley], RUN.y[pulley], 0.02)
    angles = np.linspace(0.0, 6.0, 7)
    motion = arm.motion(angles)
    moving = MovingPulley(RUN, pulley, np.asarray(-1.0))
    afresh = belt_path(RUN.moved(pulley, motion.x, motion.y), -1.0)
    assert_allclose(moving.reach(motion).length, afresh.length, rtol=1e-12)
    assert_allclose(moving.path(motion.x, motion.y).length, afresh.length, rtol=1e-12)


def test_fixed_pulleys_that_overlap_give_nothing_and_no_warning() -> None:
    run = Run([0.0, 0.02, 0.5, 0.3], [0.0, 0.0, 0.0, 0.3], [0.05, 0.2, 0.05, 0.05], [1, 1, 1, 1])
    moving = MovingPulley(run, 3, np.asarray(1.0))
    assert np.isnan(moving.path(0.3, 0.3).length)
