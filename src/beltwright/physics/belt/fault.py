"""Why a run of pulleys makes no usable loop."""

from enum import IntFlag
from functools import reduce
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.belt.loop import TURN_ERROR, BeltPath, turning
from beltwright.physics.belt.span import FULL_TURN, crossing, square_to_span


class PathFault(IntFlag):
    """What can be wrong with a path; several can be wrong at once."""

    NO_TANGENT = 1
    """Two pulleys that follow each other overlap so far that no belt fits between them."""
    MISSES_PULLEY = 2
    """The belt does not touch a pulley that it should go round."""
    PULLEYS_OVERLAP = 4
    """Two pulleys inside the loop stand in the same place."""
    RUNS_INTO_PULLEY = 8
    """A span cuts through a pulley that it should pass."""
    CROSSES_ITSELF = 16
    """Two spans cross."""
    NOT_ONE_TURN = 32
    """The headings do not turn through one full turn: the loop is twisted or out of order."""


def path_faults(path: BeltPath) -> NDArray[np.uint8]:
    """Say for each candidate why its path is no usable loop.

    Parameters
    ----------
    path : BeltPath [m]
        The path.

    Returns
    -------
    array of uint8, shape (...) [1]
        The sum of the `PathFault` values that apply; 0 for a usable loop.

    Notes
    -----
    Range of validity: one belt in one plane.  Two pulleys inside the loop overlap for certain when
    their pitch circles do; whether rims come close is the concern of
    `beltwright.physics.belt.own_gap`.  A candidate without a tangent has no other fault told.

    Source: plane geometry; the theorem of turning tangents (M. P. do Carmo,
    Differential Geometry of Curves and Surfaces, 1976, section 5-7).

    Examples
    --------
    >>> from beltwright.physics.belt.path import belt_path
    >>> from beltwright.physics.belt.run import Run
    >>> crossed = belt_path(Run([0.0, 24.0], [0.0, 0.0], [2.0, 4.0], [1, -1]))
    >>> PathFault(int(path_faults(crossed))) == PathFault.CROSSES_ITSELF | PathFault.NOT_ONE_TURN
    True
    """
    with np.errstate(invalid="ignore"):
        found = {
            PathFault.NO_TANGENT: np.isnan(path.length),
            PathFault.MISSES_PULLEY: reduce(np.minimum, path.wrap) <= 0.0,
            PathFault.PULLEYS_OVERLAP: _inside_pulleys_overlap(path),
            PathFault.RUNS_INTO_PULLEY: _runs_into_a_pulley(path),
            PathFault.CROSSES_ITSELF: _crosses_itself(path),
            PathFault.NOT_ONE_TURN: np.abs(turning(path) - FULL_TURN) > TURN_ERROR,
        }
    return np.asarray(
        reduce(np.add, [np.uint8(fault) * np.asarray(where) for fault, where in found.items()]),
        dtype=np.uint8,
    )


def _inside_pulleys_overlap(path: BeltPath) -> NDArray[np.bool_]:
    run = path.run
    inside = [i for i in range(len(run)) if run.side[i] > 0]
    overlap = np.asarray(False)
    for i, j in combinations(inside, 2):
        dx, dy = np.subtract(run.x[i], run.x[j]), np.subtract(run.y[i], run.y[j])
        reach = np.add(run.radius[i], run.radius[j])
        overlap = overlap | (dx * dx + dy * dy < reach * reach)
    return overlap & ~np.isnan(path.length)


def _runs_into_a_pulley(path: BeltPath) -> NDArray[np.bool_]:
    run, count = path.run, len(path.run)
    hits = np.asarray(False)
    for i, span in enumerate(path.spans):
        for j in range(count):
            if j not in (i, (i + 1) % count):
                radius = np.asarray(run.radius[j])
                hits = hits | (square_to_span(span, run.x[j], run.y[j]) < radius * radius)
    return hits & ~np.isnan(path.length)


def _crosses_itself(path: BeltPath) -> NDArray[np.bool_]:
    """Say whether two spans cross, other than beside a pulley that they miss."""
    crosses, count = np.asarray(False), len(path.spans)
    for i, j in combinations(range(count), 2):
        crossed = crossing(path.spans[i], path.spans[j])
        if j == i + 1:
            crossed = crossed & (path.wrap[j] > 0.0)
        if i == (j + 1) % count:
            crossed = crossed & (path.wrap[i] > 0.0)
        crosses = crosses | crossed
    return crosses & ~np.isnan(path.length)
