"""A sprung idler arm: what its spring does over the travel and which belt pull balances it.

The arm turns about its pivot; its angle is counter-clockwise from the x axis. The spring hooks on
the frame at one end and on the arm at the other, at a place given in the arm's own directions.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike


def spring_pull(
    length: ArrayLike, free_length: ArrayLike, rate: ArrayLike, initial_pull: ArrayLike = 0.0
) -> Array:
    """Answer how hard a tension spring pulls at a length between its hooks.

    F = F₀ + k (l − l₀) where l > l₀, else 0

    Parameters
    ----------
    length : array, shape (...) [m]
    free_length : array, shape (...) [m]
        With no load.
    rate : array, shape (...) [N/m]
    initial_pull : array, shape (...) [N]
        Pull at which close-wound coils begin to open.

    Returns
    -------
    pull : array, shape (...) [N]

    Range of validity: up to the length past which the spring stays stretched.
    Source: Shigley, Mechanical Engineering Design, 9th ed., section 10-11.

    Examples
    --------
    >>> round(float(spring_pull(0.120, 0.095, 2400.0, 10.0)), 6)
    70.0
    """
    stretch = np.asarray(length) - free_length
    return np.where(stretch <= 0.0, 0.0, initial_pull + rate * stretch)


@dataclass(frozen=True)
class SpringOnArm:
    """A tension spring at one position of its arm.

    Attributes
    ----------
    length : array, shape (...) [m]
    pull : array, shape (...) [N]
    moment : array, shape (...) [N m]
        On the arm about its pivot, counter-clockwise positive.
    slack : boolean array, shape (...) [1]
        The spring hangs loose.
    overstretched : boolean array, shape (...) [1]
        It is drawn past the length from which it comes back.
    """

    length: Array
    pull: Array
    moment: Array
    slack: NDArray[np.bool_]
    overstretched: NDArray[np.bool_]


def spring_on_arm(
    angle: ArrayLike,
    pivot: tuple[ArrayLike, ArrayLike],
    arm_hook: tuple[ArrayLike, ArrayLike],
    frame_hook: tuple[ArrayLike, ArrayLike],
    free_length: ArrayLike,
    rate: ArrayLike,
    initial_pull: ArrayLike = 0.0,
    longest: ArrayLike = np.inf,
) -> SpringOnArm:
    """Answer the spring's length, pull and moment about the pivot at an angle of the arm.

    Hook on the arm: p + u (cos a, sin a) + w (−sin a, cos a). Moment: (hook − pivot) × F toward
    the hook on the frame.

    Parameters
    ----------
    angle : array, shape (...) [rad]
    pivot : pair of arrays, shape (...) [m]
        x, y.
    arm_hook : pair of arrays, shape (...) [m]
        u along the arm from its pivot, then w to the left of it.
    frame_hook : pair of arrays, shape (...) [m]
        x, y.
    free_length : array, shape (...) [m]
    rate : array, shape (...) [N/m]
    initial_pull : array, shape (...) [N]
    longest : array, shape (...) [m]
        Length past which it stays stretched.

    Returns
    -------
    spring : SpringOnArm, shape (...) [m, N, N m, 1]

    Range of validity: hooks that turn freely; the weight of arm and idler is left out (it has no
    moment about an upright pivot).
    Source: statics.

    Examples
    --------
    >>> spring = spring_on_arm(0.0, (0.0, 0.0), (0.1, 0.0), (0.1, 0.12), 0.1, 2000.0)
    >>> round(float(spring.pull), 6), round(float(spring.moment), 6)
    (40.0, 4.0)
    """
    cosine, sine = np.cos(angle), np.sin(angle)
    along, left = arm_hook
    lever_x = along * cosine - left * sine
    lever_y = along * sine + left * cosine
    reach_x = frame_hook[0] - pivot[0] - lever_x
    reach_y = frame_hook[1] - pivot[1] - lever_y
    length = np.hypot(reach_x, reach_y)
    pull = spring_pull(length, free_length, rate, initial_pull)
    with np.errstate(invalid="ignore"):
        arm = np.where(length == 0.0, 0.0, (lever_x * reach_y - lever_y * reach_x) / length)
    return SpringOnArm(
        length=length,
        pull=pull,
        moment=pull * arm,
        slack=length <= free_length,
        overstretched=length > longest,
    )


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
        As `SpringOnArm.moment`; add the moments where there is more than one spring.
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
