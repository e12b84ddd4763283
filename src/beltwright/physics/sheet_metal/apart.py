"""How far two outlines stand from each other."""

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array
from beltwright.physics.outline import Outline


def outlines_apart(one: Outline, other: Outline) -> Array:
    """Find the distance of two outlines, seen along the shafts.

    The least distance of a corner of either from a side of the other; 0 where sides cross or one
    outline lies in the other.

    Parameters
    ----------
    one : Outline [m]
        Corners on the first axis.
    other : Outline [m]
        Corners on the first axis.

    Returns
    -------
    array, shape (...) [m]
        0 where they touch or overlap.

    Notes
    -----
    Range of validity: outlines that do not cross themselves.

    Source: plane geometry, exact.

    Examples
    --------
    >>> square = np.array([0.0, 1.0, 1.0, 0.0]), np.array([0.0, 0.0, 1.0, 1.0])
    >>> beside = Outline(square[0] + 3.0, square[1] + 0.5, 0.0, 1.0)
    >>> float(outlines_apart(Outline(*square, 0.0, 1.0), beside))
    2.0
    """
    axes = max(np.ndim(one.x), np.ndim(other.x)) - 1
    first, second = one.over(axes), other.over(axes)
    near = np.minimum(
        second.from_sides(first.x[:, None], first.y[:, None]).min(axis=0),
        first.from_sides(second.x[:, None], second.y[:, None]).min(axis=0),
    )
    meets = (
        _cross(first, second).any(axis=(0, 1))
        | first.holds(second.x[0], second.y[0])
        | second.holds(first.x[0], first.y[0])
    )
    return np.asarray(np.where(meets, 0.0, near))


def _cross(one: Outline, other: Outline) -> NDArray[np.bool_]:
    """Which sides of two outlines cross."""
    dx, dy = other.x[None] - one.x[:, None], other.y[None] - one.y[:, None]
    ax, ay = one.edge_x[:, None], one.edge_y[:, None]
    bx, by = other.edge_x[None], other.edge_y[None]
    turn = ax * by - ay * bx
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        along, beside = (dx * by - dy * bx) / turn, (dx * ay - dy * ax) / turn
    inside = (along >= 0.0) & (along <= 1.0) & (beside >= 0.0) & (beside <= 1.0)
    return np.asarray((turn != 0.0) & inside, dtype=np.bool_)
