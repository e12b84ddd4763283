"""Levers, rods and arms: closed loops, both ways, no jumps, dead points, holes, rods in a row."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from beltwright.physics.linkage.link import (
    Link,
    arm_follows,
    lever_for,
    put_together,
    rod_angles,
)
from beltwright.physics.linkage.rod import hole_for_rod, lean, rod_length, turning_ratio
from beltwright.physics.linkage.swing import Swing
from beltwright.physics.linkage.train import Carried, follow, hand_for, turning

ACROSS = (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
UPRIGHT = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
SKEW = (0.8, 0.6, 0.0), (0.0, 0.0, 1.0)
WAYS = st.sampled_from((ACROSS, UPRIGHT, SKEW))
RADII = st.floats(0.03, 0.12)
FAR = st.floats(0.4, 0.9)
ASIDE = st.floats(-0.15, 0.15)


def angles() -> st.SearchStrategy[float]:
    """Roughly square to x, up or down."""
    return st.sampled_from((-np.pi / 2, np.pi / 2)).flatmap(
        lambda square: st.floats(square - 0.5, square + 0.5)
    )


@st.composite
def links(draw: st.DrawFn) -> Link:
    """Linkages along x that do not stand near a dead point in neutral."""
    lever = Swing((0.0, 0.0, 0.3), *draw(WAYS), draw(RADII))
    arm = Swing((draw(FAR), draw(ASIDE), 0.3 + draw(ASIDE)), *draw(WAYS), draw(RADII))
    link = put_together(lever, draw(angles()), arm, draw(angles()))
    rod = rod_angles(link, link.neutral, link.arm_neutral)
    assume(min(float(rod.at_lever), float(rod.at_arm)) > 0.4)
    return link


@given(links(), st.floats(-0.3, 0.3))
def test_the_rod_keeps_its_length(link: Link, turned: float) -> None:
    at = link.neutral + turned
    follows = arm_follows(link, at)
    assume(bool(np.isfinite(follows)))
    assert rod_length(link.lever, at, link.arm, follows) == pytest.approx(float(link.length))


@given(links())
def test_neutral_goes_with_neutral(link: Link) -> None:
    assert arm_follows(link, link.neutral) == pytest.approx(link.arm_neutral, abs=1e-7)


@given(links(), st.floats(-0.2, 0.2))
def test_the_lever_finds_back(link: Link, turned: float) -> None:
    at = link.neutral + turned
    follows = arm_follows(link, at)
    assume(bool(np.all(np.array(rod_angles(link, at, follows)[:2]) > 0.1)))
    assert lever_for(link, follows) == pytest.approx(at, abs=1e-6)


@given(links())
def test_it_follows_without_a_jump_up_to_the_dead_point(link: Link) -> None:
    """No step of a degree moves the arm by more than its leverage allows."""
    at = link.neutral + np.radians(np.arange(-60.0, 61.0))
    follows = arm_follows(link, at)
    steps = np.abs(np.diff(follows))
    ratio = np.abs(turning_ratio(link.lever, at, link.arm, follows))
    allowed = np.radians(1.0) * np.maximum(ratio[1:], ratio[:-1])
    # near the dead point the leverage itself changes within the step
    margin = rod_angles(link, at, follows).at_arm
    clear = np.minimum(margin[1:], margin[:-1]) > 0.35
    # a twentieth more than at the steps' ends: the leverage may be largest in between
    assert np.all(steps[clear] <= 1.05 * allowed[clear] + 1e-4)


@given(links(), st.floats(-0.2, 0.2))
def test_leverage_is_the_slope_of_the_travel(link: Link, turned: float) -> None:
    at, step = float(link.neutral) + turned, 1e-5
    before, follows, after = (arm_follows(link, at + by) for by in (-step, 0.0, step))
    assume(bool(np.isfinite([before, follows, after]).all()))
    assume(float(rod_angles(link, at, follows).at_arm) > 0.2)
    slope = (after - before) / (2.0 * step)
    ratio = turning_ratio(link.lever, at, link.arm, follows)
    # second differences of a step of 1e-5
    assert ratio == pytest.approx(float(slope), rel=1e-4, abs=1e-6)


@given(links(), st.floats(0.5, 1.5))
def test_a_hole_for_a_rod_fits_it(link: Link, share: float) -> None:
    length = share * float(link.needed)
    radius = hole_for_rod(link.lever, link.neutral, link.arm, link.arm_neutral, length)
    assume(bool(np.isfinite(radius)))
    drilled = link.arm._replace(radius=radius)
    found = rod_length(link.lever, link.neutral, drilled, link.arm_neutral)
    assert found == pytest.approx(length, abs=1e-9)


def test_many_at_once_are_as_one_at_a_time() -> None:
    radii = np.array([0.04, 0.05, 0.06])
    lever = Swing((0.0, 0.0, 0.0), *ACROSS, 0.05)
    many = put_together(lever, 1.4, Swing((0.4, 0.0, 0.0), *UPRIGHT, radii), 1.6)
    at = 1.4 + np.linspace(-0.4, 0.4, 5)[:, None]
    whole = arm_follows(many, at)
    assert whole.shape == (5, 3)
    for column, radius in enumerate(radii):
        one = put_together(lever, 1.4, Swing((0.4, 0.0, 0.0), *UPRIGHT, radius), 1.6)
        assert arm_follows(one, at[:, 0]) == pytest.approx(whole[:, column])


def test_past_the_dead_point_of_the_arm_there_is_nothing() -> None:
    """A long lever drags a short arm until rod and arm are in line."""
    lever, arm = (Swing((x, 0.0, 0.0), *UPRIGHT, r) for x, r in ((0.0, 0.1), (0.3, 0.03)))
    link = put_together(lever, np.pi / 2, arm, np.pi / 2)
    follows = arm_follows(link, np.pi / 2 + np.array([0.0, 0.2, 0.8]))
    assert np.isfinite(follows[:2]).all()
    assert np.isnan(follows[2])


def test_past_the_dead_point_of_the_lever_the_margin_is_below_zero() -> None:
    """A short lever turns over centre, and the arm comes back."""
    lever, arm = (Swing((x, 0.0, 0.0), *UPRIGHT, r) for x, r in ((0.0, 0.03), (0.3, 0.1)))
    link = put_together(lever, np.pi / 2, arm, np.pi / 2)
    at = np.radians([90.0, 20.0, -60.0])
    follows = arm_follows(link, at)
    margins = rod_angles(link, at, follows).at_lever
    assert margins[0] > margins[1] > 0.0 > margins[2]
    assert np.isnan(lever_for(link, follows[1] - 1.0))


def test_a_rod_square_to_a_line_does_not_lean_along_it() -> None:
    assert lean((0.0, 0.3, 0.0), (1.0, 0.0, 0.0)) == pytest.approx(0.0)
    assert lean((0.3, 0.0, 0.0), (1.0, 0.0, 0.0)) == pytest.approx(np.pi / 2)


@given(links(), st.floats(-0.15, 0.15))
def test_rods_in_a_row_multiply(link: Link, turned: float) -> None:
    """The second lever is the first one's arm again, set half a turn ahead."""
    ahead = np.pi
    arm = link.arm
    end = Swing((np.add(arm.pivot[0], 0.5), arm.pivot[1], arm.pivot[2]), *ACROSS, 0.06)
    second = put_together(arm, link.arm_neutral + np.asarray(ahead), end, 1.4)
    rod = rod_angles(second, second.neutral, second.arm_neutral)
    assume(min(float(rod.at_lever), float(rod.at_arm)) > 0.4)
    train = (Carried(link, 0.0), Carried(second, ahead))
    hand = float(link.neutral) + turned
    lever, last = follow(train, hand)
    assume(bool(np.isfinite(last)))
    between = arm_follows(link, hand)
    assert lever == pytest.approx(float(between) + ahead)
    parts = (
        turning_ratio(link.lever, hand, link.arm, between),
        turning_ratio(second.lever, lever, second.arm, last),
    )
    assert turning(train, hand) == pytest.approx(float(parts[0] * parts[1]))
    clear = [rod_angles(link, hand, between), rod_angles(second, lever, last)]
    assume(all(min(float(each.at_lever), float(each.at_arm)) > 0.1 for each in clear))
    assert hand_for(train, last) == pytest.approx(hand, abs=1e-6)
