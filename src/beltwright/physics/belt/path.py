"""The exact path of a belt round any number of pulleys and back-side idlers, sense and all."""

from functools import reduce
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.fault import PathFault, path_faults
from beltwright.physics.belt.loop import BeltPath, path_in_sense
from beltwright.physics.belt.run import Run


def belt_path(run: Run, sense: ArrayLike | None = None) -> BeltPath:
    """Follow a belt round its pulleys, in the sense in which it goes round them.

    `belt_loop.path_in_sense` in the sense of `loop_sense`.

    Parameters
    ----------
    run : Run [m]
        Pulleys in the order in which the belt goes round.
    sense : array, shape (...), optional [1]
        +1 counter-clockwise, -1 clockwise; found when left out.

    Returns
    -------
    BeltPath [m, rad]
        NaN in every part that depends on two pulleys without a common tangent.

    Notes
    -----
    Range of validity: as for `belt_loop.path_in_sense`.

    Source: as for `belt_loop.path_in_sense`.

    Examples
    --------
    >>> path = belt_path(Run([0.0, 20.0, 9.0], [0.0, 0.0, 2.2], [1.5, 4.5, 1.25], [1, 1, -1]))
    >>> round(float(path.length), 4), float(path.sense)
    (59.6835, 1.0)
    """
    return path_in_sense(run, loop_sense(run) if sense is None else sense)


def loop_sense(run: Run) -> Array:
    """Find which way the order of a run goes round its loop.

    The right sense makes a usable loop.  Where both do (a small back-side idler between two large
    pulleys can press on either run), it is the one with the shorter belt, in which the idler
    presses less.  Where neither does, it is one that only misses a pulley, by as little as can be;
    then one whose headings at least turn through one full turn.  Two inside pulleys fit both
    senses; +1 is taken.

    Parameters
    ----------
    run : Run [m]
        Pulleys in the order in which the belt goes round.

    Returns
    -------
    array, shape () or (...) [1]
        +1 counter-clockwise, -1 clockwise; +1 where nothing tells.  A single number where all
        candidates agree.

    Notes
    -----
    Range of validity: as for `belt_loop.path_in_sense`.

    Source: a closed curve that does not cross itself turns through one full turn (the theorem of
    turning tangents; M. P. do Carmo, Differential Geometry of Curves and Surfaces, 1976,
    section 5-7).

    Examples
    --------
    >>> float(loop_sense(Run([0.0, 1.0, 0.5], [0.0, 0.0, -0.6], [0.1] * 3, [1, 1, 1])))
    -1.0
    """
    one, other = _standing(run, 1.0), _standing(run, -1.0)
    turned = (other.rank > one.rank) | ((other.rank == one.rank) & (other.cost < one.cost))
    if np.all(turned):
        return np.asarray(-1.0)
    if not np.any(turned):
        return np.asarray(1.0)
    return np.where(turned, -1.0, 1.0)


class _Standing(NamedTuple):
    """How well a run closes in one sense: rank, and what decides between equal ranks."""

    rank: NDArray[np.int_]
    cost: Array


def _standing(run: Run, sense: float) -> _Standing:
    path = path_in_sense(run, sense)
    faults = path_faults(path)
    only_missed = faults == PathFault.MISSES_PULLEY
    broken = (faults & (PathFault.NOT_ONE_TURN | PathFault.NO_TANGENT)) != 0
    rank = np.where(faults == 0, 3, np.where(only_missed, 2, np.where(broken, 0, 1)))
    missed_by = -reduce(np.minimum, path.wrap)
    return _Standing(rank, np.where(only_missed, missed_by, path.length))
