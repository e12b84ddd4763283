"""Belt pulls, grip, tensioning and life: limits, refusals, and many at once as one by one."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.belt.force import (
    capstan_ratio,
    groove_friction,
    shaft_load,
)
from beltwright.physics.belt.grip import (
    SpanPulls,
    first_to_slip,
    fixed_centre_pulls,
    loosening_torque,
    pull_needed,
    slip_torques,
    spring_set_pulls,
)
from beltwright.physics.belt.life import flex_rate, passes_to_failure, peak_pull
from beltwright.physics.belt.tensioning import press_force

FOUR = (-1.0, 0.0, 1.0, 0.0)
RATIOS = (4.0, 1.5, 6.0, 1.4)

pulls_in_newtons = st.floats(1.0, 2000.0)


def test_a_missed_pulley_carries_nothing() -> None:
    assert capstan_ratio(0.5, -0.4) == 1.0


def test_a_flat_rim_does_not_wedge() -> None:
    assert float(groove_friction(0.3, np.pi)) == pytest.approx(0.3, rel=1e-15)


def test_the_span_that_runs_into_the_driver_is_tight() -> None:
    """A driver draws the belt in, so with travel along the run the last span is the tight one."""
    along = spring_set_pulls(FOUR, 0.05, 1, 0, 80.0).at(20.0)
    against = spring_set_pulls(FOUR, 0.05, -1, 2, 80.0).at(20.0)
    assert [float(pull) for pull in along] == [80.0, 80.0, 480.0, 480.0]
    assert [float(pull) for pull in against] == [480.0, 480.0, 80.0, 80.0]


def test_a_spring_on_the_tight_side_lets_the_slack_side_go() -> None:
    pulls = spring_set_pulls(FOUR, 0.05, 1, 2, 80.0)
    assert [float(pull) for pull in pulls.at(2.0)] == [40.0, 40.0, 80.0, 80.0]
    right = spring_set_pulls(FOUR, 0.05, 1, 0, 80.0)
    wrong = first_to_slip(slip_torques(pulls, RATIOS)).torque
    assert wrong < first_to_slip(slip_torques(right, RATIOS)).torque


def test_shares_must_balance() -> None:
    with pytest.raises(ValueError, match="add up to 0"):
        spring_set_pulls((-1.0, 0.9), 0.05, 1, 0, 80.0)
    with pytest.raises(ValueError, match="add up to 0"):
        fixed_centre_pulls((-1.0, 0.9), 0.05, 1, (1.0, 1.0), 80.0)


@given(pulls_in_newtons, st.floats(0.02, 0.2), st.sampled_from([1, -1]), st.floats(0.0, 30.0))
def test_pulls_carry_the_torque_round_the_driver(
    pull: float, radius: float, travel: int, torque: float
) -> None:
    spans = fixed_centre_pulls(FOUR, radius, travel, (0.3, 0.4, 0.2, 0.5), pull).at(torque)
    assert float(spans[-1] - spans[0]) * travel * radius == pytest.approx(torque, abs=1e-9)
    mean = np.dot([0.3, 0.4, 0.2, 0.5], [float(span) for span in spans]) / 1.4
    assert mean == pytest.approx(pull, rel=1e-12)


def test_many_at_once_are_each() -> None:
    radius, rest = np.array([0.04, 0.05, 0.06]), np.array([60.0, 80.0, 0.0])
    many = slip_torques(spring_set_pulls(FOUR, radius, 1, 0, rest, 5.0), RATIOS)
    first = first_to_slip(many)
    for index in range(3):
        one = slip_torques(
            spring_set_pulls(FOUR, float(radius[index]), 1, 0, float(rest[index]), 5.0), RATIOS
        )
        assert float(first.torque[index]) == pytest.approx(float(first_to_slip(one).torque))
        assert first.pulley[index] == first_to_slip(one).pulley


def test_without_pull_there_is_no_grip_and_idlers_never_slip() -> None:
    torques = slip_torques(spring_set_pulls(FOUR, 0.05, 1, 0, 0.0), RATIOS)
    assert [float(torque) for torque in torques] == [0.0, np.inf, 0.0, np.inf]


def test_fixed_centres_lose_grip_with_speed() -> None:
    torques = [
        float(
            first_to_slip(
                slip_torques(fixed_centre_pulls(FOUR, 0.05, 1, (1, 1, 1, 1), 200.0, fc), RATIOS)
            ).torque
        )
        for fc in (0.0, 40.0, 250.0)
    ]
    assert torques[0] > torques[1] > torques[2] == 0.0


@given(st.floats(1.1, 20.0), st.floats(1.1, 20.0), st.floats(1.0, 40.0), st.floats(1.0, 3.0))
def test_the_pull_needed_just_holds(
    driver: float, driven: float, torque: float, margin: float
) -> None:
    ratios = (driver, 1.3, driven, 1.3)
    loose = fixed_centre_pulls(FOUR, 0.05, 1, (0.3, 0.2, 0.2, 0.3), 0.0, 12.0)
    need = pull_needed(loose, ratios, torque, margin)
    held = SpanPulls(tuple(need for _ in FOUR), loose.per_torque, 12.0)
    first = first_to_slip(slip_torques(held, ratios))
    assert float(first.torque) == pytest.approx(torque * margin, rel=1e-9)


def test_no_wrap_needs_an_infinite_pull() -> None:
    pulls = spring_set_pulls(FOUR, 0.05, 1, 0, 0.0)
    assert np.isinf(pull_needed(pulls, (1.0, 1.0, 4.0, 1.0), 10.0))


def test_a_stiff_belt_reads_too_tight() -> None:
    assert press_force(150.0, 0.006, 0.3, bending_stiffness=0.2) > press_force(150.0, 0.006, 0.3)


def test_shaft_load_turns_with_the_drive() -> None:
    load = shaft_load(50.0, (0.0, -1.0), 250.0, (0.0, 1.0), centrifugal=10.0)
    turned = shaft_load(50.0, (1.0, 0.0), 250.0, (-1.0, 0.0), centrifugal=10.0)
    assert (float(load.x), float(load.y)) == (0.0, 280.0)
    assert (float(turned.x), float(turned.y)) == (-280.0, 0.0)
    assert float(load.size) == 280.0


def test_a_smaller_pulley_and_more_of_them_cost_life() -> None:
    large = passes_to_failure([peak_pull(400.0, 24.9, 0.10)] * 2, 3000.0, 11.089)
    small = passes_to_failure([peak_pull(400.0, 24.9, 0.07)] * 2, 3000.0, 11.089)
    more = passes_to_failure([peak_pull(400.0, 24.9, 0.10)] * 4, 3000.0, 11.089)
    assert small < more < large
    assert float(more / large) == pytest.approx(0.5)
    assert float(flex_rate(15.0, 1.5, 4)) == 40.0


def test_endless_friction_slips_where_a_span_goes_loose() -> None:
    for travel in (1, -1):
        pulls = fixed_centre_pulls(FOUR, 0.05, travel, (0.3, 0.4, 0.2, 0.5), 200.0, 12.0)
        loose = loosening_torque(pulls)
        slack = min(float(pull) for pull in pulls.at(loose))
        assert slack == pytest.approx(12.0)
        endless = first_to_slip(slip_torques(pulls, (1e12, 1.0, 1e12, 1.0)))
        assert float(endless.torque) == pytest.approx(float(loose), rel=1e-6)


def test_a_spring_on_the_slack_side_never_lets_a_span_go_loose() -> None:
    assert np.isinf(loosening_torque(spring_set_pulls(FOUR, 0.05, 1, 0, 80.0)))


def test_what_is_missing_stays_missing() -> None:
    """A candidate without a path must never look as if it gripped."""
    ratios = (np.array([4.0, np.nan]), 1.0, 6.0, 1.0)
    pulls = spring_set_pulls(FOUR, 0.05, 1, 0, np.array([80.0, 80.0]))
    assert np.isnan(first_to_slip(slip_torques(pulls, ratios)).torque).tolist() == [False, True]
    assert np.isnan(pull_needed(pulls, ratios, 10.0)).tolist() == [False, True]
    loose = fixed_centre_pulls(FOUR, 0.05, 1, (1, 1, 1, 1), np.array([80.0, np.nan]))
    assert np.isnan(loosening_torque(loose)).tolist() == [False, True]
    unset = slip_torques(loose, RATIOS)
    assert np.isnan(first_to_slip(unset).torque).tolist() == [False, True]
