"""Sprung arms: a spring that draws the idler off, dead centre."""

import numpy as np

from beltwright.physics.belt.spring_arm import balancing_pull, belt_lever
from beltwright.physics.spring import spring_on_arm


def test_a_spring_that_draws_the_idler_off_leaves_no_pull() -> None:
    assert float(balancing_pull(8.0, 0.1)) == 0.0
    assert float(balancing_pull(-8.0, 0.1)) == 80.0


def test_dead_centre_cannot_be_held() -> None:
    straight = belt_lever(0.0, 0.1, (1.0, 0.0), (1.0, 0.0))
    assert float(straight) == 0.0
    assert np.isinf(balancing_pull(-8.0, straight))
    assert float(balancing_pull(0.0, straight)) == 0.0


def test_what_is_missing_stays_missing() -> None:
    """An arm without an angle must never look as if its spring held it."""
    spring = spring_on_arm(np.array([0.0, np.nan]), (0.0, 0.0), (0.1, 0.0), (0.1, 0.2), 0.1, 2000.0)
    assert np.isnan(spring.pull).tolist() == [False, True]
    assert np.isnan(balancing_pull(spring.moment, -0.1)).tolist() == [False, True]
