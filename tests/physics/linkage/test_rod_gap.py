"""Rods and parts in their way: over, beside, through, and outlines that turn in on themselves."""

import numpy as np
import pytest

from beltwright.physics.linkage.rod_gap import place_on_rod, point_gap, rod_gap

SQUARE = np.array([0.0, 1.0, 1.0, 0.0]), np.array([0.0, 0.0, 1.0, 1.0])
HOOK = np.array([0.0, 3.0, 3.0, 2.0, 2.0, 0.0]), np.array([0.0, 0.0, 3.0, 3.0, 1.0, 1.0])
"""An angle iron, seen from above."""


@pytest.mark.parametrize(
    ("start", "end", "gap"),
    [
        ((-1.0, 0.5, 1.5), (2.0, 0.5, 1.5), 0.5),  # over it
        ((-1.0, 1.3, 0.5), (2.0, 1.3, 0.5), 0.3),  # beside it
        ((-1.0, 1.3, 1.4), (2.0, 1.3, 1.4), 0.5),  # past its upper edge
        ((1.5, 0.0, 0.5), (1.5, 3.0, 0.5), 0.5),  # across its end
        ((2.0, 0.5, 0.5), (5.0, 0.5, 0.5), 1.0),  # away from it: the rod's own end is nearest
    ],
)
def test_gaps_beside_a_box(
    start: tuple[float, float, float], end: tuple[float, float, float], gap: float
) -> None:
    assert rod_gap(start, end, *SQUARE, 0.0, 1.0).gap == pytest.approx(gap, abs=1e-3)


def test_a_rod_through_a_box_is_below_zero() -> None:
    near = rod_gap((-1.0, 0.5, 0.5), (2.0, 0.5, 0.5), *SQUARE, 0.0, 1.0)
    assert near.gap == pytest.approx(-0.5, abs=1e-3)


def test_an_outline_that_turns_in_is_no_full_box() -> None:
    assert point_gap((1.0, 2.0, 0.5), *HOOK, 0.0, 1.0) == pytest.approx(1.0)
    assert point_gap((2.5, 2.0, 0.5), *HOOK, 0.0, 1.0) == pytest.approx(-0.5)


def test_the_way_round_an_outline_does_not_matter() -> None:
    for place in ((1.0, 2.0, 0.5), (2.5, 2.0, 0.5), (4.0, 4.0, 2.0)):
        there = point_gap(place, HOOK[0], HOOK[1], 0.0, 1.0)
        back = point_gap(place, HOOK[0][::-1], HOOK[1][::-1], 0.0, 1.0)
        assert there == pytest.approx(float(back))


def test_many_rods_at_once() -> None:
    heights = np.array([[0.5, 1.5], [2.0, 3.0]])
    near = rod_gap((-1.0, 0.5, heights), (2.0, 0.5, heights), *SQUARE, 0.0, 1.0)
    assert near.gap.shape == near.share.shape == (2, 2)
    assert near.gap[0, 1] == pytest.approx(0.5, abs=1e-3)
    assert near.gap[1] == pytest.approx([1.0, 2.0], abs=1e-3)


def test_a_share_of_the_rod_is_a_place_on_it() -> None:
    place = place_on_rod((0.0, 0.0, 0.0), (1.0, 2.0, 4.0), np.array([0.0, 0.5, 1.0]))
    wanted = np.array([[0, 0, 0], [0.5, 1, 2], [1, 2, 4]])
    found = np.stack(place, axis=-1)
    assert found == pytest.approx(wanted)
