"""The drawn line is the path that the physics followed."""

from itertools import pairwise
from math import hypot

import pytest

from beltwright.physics.belt.path import belt_path
from beltwright.physics.belt.run import Run
from beltwright.views.layout.drawn_belt import drawable, pitch_line

ROUND_FOUR = Run([0.905, 0.6, 0.18, 0.43], [-0.02, -0.06, 0.03, 0.124],
                 [0.054, 0.044, 0.099, 0.037], [1, -1, 1, -1])  # fmt: skip


@pytest.mark.parametrize("mirrored", [1.0, -1.0])
def test_the_line_is_as_long_as_the_path_and_closed_without_a_corner(mirrored: float) -> None:
    run = Run(ROUND_FOUR.x, [mirrored * y for y in ROUND_FOUR.y], ROUND_FOUR.radius, [1, -1, 1, -1])
    path = belt_path(run)
    line = pitch_line(path)
    assert drawable(path)
    assert line.length == pytest.approx(float(path.length), rel=1e-12)
    for piece, following in pairwise([*line.pieces, line.pieces[0]]):
        gap = hypot(piece.end[0] - following.start[0], piece.end[1] - following.start[1])
        assert gap < 1e-12


def test_two_circles_that_overlap_cannot_be_drawn() -> None:
    assert not drawable(belt_path(Run([0.0, 0.1], [0.0, 0.0], [0.1, 0.3], [1, 1])))
