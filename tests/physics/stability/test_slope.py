"""Tipping: symmetry, what lift and width do, refusals and many at once."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.physics.stability.centre_of_gravity import (
    Balance,
    height_from_raised_end,
    left_of_middle,
    put_together,
)
from beltwright.physics.stability.cornering import (
    fastest_turn,
    sideways_limit,
    tightest_turn,
)
from beltwright.physics.stability.slope import (
    LEFT,
    NEVER_STEEPER,
    NEVER_STEEPER_LOADED,
    REAR,
    RIGHT,
    pivoting_axes,
    rigid_axes,
    static_limit,
    working_limit,
)


def balance(x: float, y: float, z: float) -> Balance:
    """A machine of 300 kg with its weight at that place."""
    return Balance(np.asarray(300.0), np.asarray(x), np.asarray(y), np.asarray(z))


places = st.builds(balance, st.floats(0.2, 0.7), st.floats(-0.1, 0.1), st.floats(0.3, 0.9))


@given(places, st.floats(-np.pi, np.pi), st.floats(0.1, 0.5))
def test_mirrored_machine_tips_alike(place: Balance, downhill: float, pivot: float) -> None:
    """Left and right changed over give the same limit."""
    other = balance(float(place.x), -float(place.y), float(place.z))
    axes = pivoting_axes(1.25, 0.8, 0.9, pivot)
    assert static_limit(axes, place, downhill) == pytest.approx(
        float(static_limit(axes, other, -downhill)), abs=1e-12
    )


@given(places, st.floats(0.05, 0.25))
def test_a_pivoting_axle_tips_sooner(place: Balance, pivot: float) -> None:
    """A pivot below the tip line's height at the weight brings the limit down."""
    rigid = static_limit(rigid_axes(1.25, 0.9, 0.9), place, LEFT)
    pivoting = static_limit(pivoting_axes(1.25, 0.9, 0.9, pivot), place, LEFT)
    assert pivoting < rigid


@given(places, st.sampled_from([LEFT, RIGHT]))
def test_lift_and_width(place: Balance, side: float) -> None:
    """A higher weight tips sooner, a wider track later."""
    limit = static_limit(rigid_axes(1.25, 0.9, 0.9), place, side)
    lifted = balance(float(place.x), float(place.y), float(place.z) + 0.05)
    assert static_limit(rigid_axes(1.25, 0.9, 0.9), lifted, side) < limit
    assert static_limit(rigid_axes(1.25, 1.0, 1.0), place, side) > limit


def test_a_weight_outside_its_wheels_falls_on_the_level() -> None:
    """The limit is negative, whichever way it faces, and the working limit is nothing."""
    for downhill in (LEFT, RIGHT, REAR):
        limit = static_limit(rigid_axes(1.25, 0.9, 0.9), balance(-0.1, 0.0, 0.5), downhill)
        assert limit < 0.0
        assert working_limit(limit) == 0.0


def test_working_limit_stays_well_inside() -> None:
    """Half the static limit, and never above what the manuals say."""
    assert working_limit(np.radians(20.0)) == pytest.approx(np.radians(10.0))
    assert working_limit(np.radians(50.0)) == NEVER_STEEPER
    assert working_limit(np.radians(50.0), NEVER_STEEPER_LOADED) == NEVER_STEEPER_LOADED


def test_tip_polygon_of_many_machines() -> None:
    """Directions along one axis, builds along the other."""
    place = Balance(
        np.full(3, 300.0), np.full(3, 0.45), np.array([0.0, 0.05, -0.05]), np.array([0.4, 0.5, 0.6])
    )
    round_the_compass = np.linspace(-np.pi, np.pi, 37)[:, None]
    polygon = static_limit(rigid_axes(1.25, 0.9, 0.9), place, round_the_compass)
    assert polygon.shape == (37, 3)
    for number in range(3):
        one = balance(0.45, float(place.y[number]), float(place.z[number]))
        alone = static_limit(rigid_axes(1.25, 0.9, 0.9), one, round_the_compass[5, 0])
        assert polygon[5, number] == pytest.approx(float(alone), rel=1e-14)


@given(st.floats(1.0, 20.0), st.floats(-0.3, 0.3), st.floats(0.35, 1.2))
def test_speed_and_radius_turn_into_each_other(
    radius: float, side_slope: float, limit: float
) -> None:
    """Fastest speed at a radius, tightest radius at that speed."""
    speed = fastest_turn(radius, limit, side_slope)
    assert tightest_turn(speed, limit, side_slope) == pytest.approx(radius, rel=1e-10)


def test_a_slope_that_tips_alone_allows_no_turn() -> None:
    """No speed and no radius."""
    limit = sideways_limit(np.radians(20.0))
    slope = np.radians(25.0)
    assert fastest_turn(5.0, limit, slope) == 0.0
    assert np.isinf(tightest_turn(1.0, limit, slope))


@pytest.mark.parametrize("raised", [0.0, 1.5, -1.5, np.array([0.4, 0.0])])
def test_an_end_that_was_not_raised_rightly_is_refused(raised: float) -> None:
    """Nothing raised, or more than the wheelbase."""
    with pytest.raises(ValueError, match="raise one end"):
        height_from_raised_end(0.4, 0.5, 1.235, 0.2, 0.2, raised)


def test_taking_off_what_was_added() -> None:
    """A part with its mass negative undoes itself."""
    whole = put_together([300.0, 40.0], [0.5, -0.2], [0.0, 0.1], [0.5, 0.3])
    bare = put_together([whole.mass, -40.0], [whole.x, -0.2], [whole.y, 0.1], [whole.z, 0.3])
    assert bare.mass == pytest.approx(300.0)
    assert bare.x == pytest.approx(0.5)
    assert bare.y == pytest.approx(0.0, abs=1e-12)
    assert bare.z == pytest.approx(0.5)


def test_even_sides_put_the_weight_in_the_middle() -> None:
    """And a heavier left side to the left."""
    assert left_of_middle(100.0, 100.0, 0.7) == 0.0
    assert left_of_middle(110.0, 90.0, 0.7) == pytest.approx(0.035)
