"""Each way in which a run makes no usable loop, and the tables of radii."""

import numpy as np
import pytest

from beltwright.physics.belt.fault import PathFault, path_faults
from beltwright.physics.belt.loop import path_in_sense
from beltwright.physics.belt.path import belt_path
from beltwright.physics.belt.pitch_line import (
    back_side_radius,
    flat_inside_radius,
    grooved_radius,
)
from beltwright.physics.belt.run import Run

LARGE = [0.1, 0.1]


def faults(run: Run) -> PathFault:
    return PathFault(int(path_faults(path_in_sense(run, 1.0))))


@pytest.mark.parametrize(
    ("run", "expected"),
    [
        (Run([0.0, 0.5], [0.0, 0.0], LARGE, [1, 1]), PathFault(0)),
        (Run([0.0, 0.0], [0.0, 0.0], [0.1, 0.05], [1, 1]), PathFault.NO_TANGENT),
        (Run([0.0, 0.15], [0.0, 0.0], LARGE, [1, 1]), PathFault.PULLEYS_OVERLAP),
        # an idler inside the loop that stands back from the belt
        (
            Run([0.0, 0.5, 0.25], [0.0, 0.0, 0.02], [0.1, 0.1, 0.03], [1, 1, 1]),
            PathFault.MISSES_PULLEY,
        ),
        # a half-twist belt
        (
            Run([0.0, 0.5], [0.0, 0.0], LARGE, [1, -1]),
            PathFault.CROSSES_ITSELF | PathFault.NOT_ONE_TURN,
        ),
        # four corners in the order of a bow tie
        (
            Run([0.0, 1.0, 0.0, 1.0], [0.0, 1.0, 1.0, 0.0], [0.05] * 4, [1] * 4),
            PathFault.CROSSES_ITSELF | PathFault.NOT_ONE_TURN,
        ),
        # a triangle whose slant run an idler on the back presses through the level one
        (
            Run([0.0, 1.0, 1.0, 0.5], [0.0, 0.0, 1.0, -0.1], [0.1, 0.1, 0.1, 0.05], [1, 1, 1, -1]),
            PathFault.RUNS_INTO_PULLEY | PathFault.CROSSES_ITSELF,
        ),
    ],
)
def test_what_is_wrong_with_a_run(run: Run, expected: PathFault) -> None:
    assert faults(run) == expected


def test_faults_are_told_for_each_candidate() -> None:
    apart = np.array([0.5, 0.2, 0.01])
    found = path_faults(belt_path(Run([0.0, apart], [0.0, 0.0], [0.1, 0.05], [1, 1])))
    assert found.tolist() == [0, 0, PathFault.NO_TANGENT]


def test_pitch_line_on_each_kind_of_pulley() -> None:
    """RMA IP-20, section A: outside less datum diameter is 0.250 in; the rest is geometry."""
    assert grooved_radius(3.25, 0.125) == 1.5
    assert flat_inside_radius(3.0, 0.25) == 1.75
    assert back_side_radius(3.0, 0.125) == 1.625
