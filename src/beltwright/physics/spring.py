"""A tension spring on a lever that swings about a pivot: its pull and its moment.

The lever's angle is counter-clockwise from the x axis. The spring hooks on the frame at one end
and on the lever at the other, at a place given in the lever's own directions.
"""

from typing import NamedTuple

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


class SpringOnArm(NamedTuple):
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

    Range of validity: hooks that turn freely; the weight of arm and spring is left out (it has no
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
    length = np.sqrt(reach_x * reach_x + reach_y * reach_y)
    pull = spring_pull(length, free_length, rate, initial_pull)
    with np.errstate(invalid="ignore", divide="ignore"):
        arm = np.where(length == 0.0, 0.0, (lever_x * reach_y - lever_y * reach_x) / length)
    return SpringOnArm(
        length=length,
        pull=pull,
        moment=pull * arm,
        slack=length <= free_length,
        overstretched=length > longest,
    )
