"""A sprung idler arm: which belt pull balances its spring.

The arm turns about its pivot; its angle is counter-clockwise from the x axis.
"""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def belt_lever(
    angle: ArrayLike,
    arm_length: ArrayLike,
    heading_before: tuple[ArrayLike, ArrayLike],
    heading_after: tuple[ArrayLike, ArrayLike],
) -> Array:
    """Answer which moment about the pivot each newton of belt pull puts on the arm.

    The belt pulls the idler by T (h_after − h_before), along the bisector of its two spans, so
    the lever is arm × (h_after − h_before).

    Parameters
    ----------
    angle : array, shape (...) [rad]
    arm_length : array, shape (...) [m]
        From the pivot to the centre of the idler.
    heading_before : pair of arrays, shape (...) [1]
        Unit heading (x, y) of the span before the idler, in the order of the run.
    heading_after : pair of arrays, shape (...) [1]

    Returns
    -------
    lever : array, shape (...) [m]
        Counter-clockwise positive. It is also minus the change of the path's length with the
        arm's angle.

    Range of validity: an idler that turns freely; the same pull on both sides of it.
    Source: statics; virtual work.

    Examples
    --------
    >>> round(float(belt_lever(0.0, 0.1, (1.0, 0.0), (0.0, 1.0))), 6)
    0.1
    """
    pull_x = np.asarray(heading_after[0]) - heading_before[0]
    pull_y = np.asarray(heading_after[1]) - heading_before[1]
    return np.asarray(arm_length * (np.cos(angle) * pull_y - np.sin(angle) * pull_x))


def balancing_pull(spring_moment: ArrayLike, belt_lever: ArrayLike) -> Array:
    """Answer which belt pull on both sides of the idler holds the arm against its spring.

    T = −M / lever; 0 where the spring draws the idler off the belt.

    Parameters
    ----------
    spring_moment : array, shape (...) [N m]
        As `physics.spring.SpringOnArm.moment`; add the moments where there is more than one spring.
    belt_lever : array, shape (...) [m]

    Returns
    -------
    pull : array, shape (...) [N]
        With the centrifugal pull taken off: the idler does not feel it. Infinite at dead centre,
        where no belt pull can hold the arm.

    Range of validity: arm at rest between its stops, pivot without friction. A pull that
    runs towards infinity means that the arm is about to go over centre.
    Source: statics.

    Examples
    --------
    >>> float(balancing_pull(-8.0, 0.1))
    80.0
    """
    moment, lever = np.broadcast_arrays(spring_moment, belt_lever)
    with np.errstate(divide="ignore", invalid="ignore"):
        pull = -moment / lever
    pull = np.where(lever == 0.0, np.where(moment == 0.0, 0.0, np.inf), pull)
    return np.maximum(pull, 0.0)
