"""A lever, a rod and an arm put together: what follows what, from neutral on, without a jump."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.linkage.rod import (
    arm_angle,
    joint_angle,
    off_dead_point,
    rod_length,
    side_of_arm,
)
from beltwright.physics.linkage.swing import Swing


class Link(NamedTuple):
    """A lever, a rod and an arm as they are put together.

    Attributes
    ----------
    lever, arm : Swing [m]
    neutral : array, shape (...) [rad]
        Angle of the lever in neutral.
    arm_neutral : array, shape (...) [rad]
        Angle of the arm that goes with it.
    needed : array, shape (...) [m]
        Rod length that gives the one with the other.
    length : array, shape (...) [m]
        Rod length that there is.
    arm_side, lever_side : array, shape (...) [1]
        `side_of_arm` of both ends in neutral.
    """

    lever: Swing
    arm: Swing
    neutral: ArrayLike
    arm_neutral: ArrayLike
    needed: Array
    length: Array
    arm_side: Array
    lever_side: Array


def put_together(
    lever: Swing,
    neutral: ArrayLike,
    arm: Swing,
    arm_neutral: ArrayLike,
    length: ArrayLike | None = None,
) -> Link:
    """Answer how a lever, a rod and an arm stand in neutral.

    Parameters
    ----------
    lever : Swing [m]
    neutral : array, shape (...) [rad]
        Of the lever.
    arm : Swing [m]
    arm_neutral : array, shape (...) [rad]
        Of the arm.
    length : array, shape (...) [m]
        Of the rod; the one that centres neutral if left out.

    Returns
    -------
    Link [m, rad]

    Range of validity: rod and arm, rod and lever not in line in neutral.
    Source: `rod_length`, `side_of_arm`.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.3, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> print(f"{put_together(lever, np.pi / 2, arm, np.pi / 2).needed:.3f}")
    0.300
    """
    needed = rod_length(lever, neutral, arm, arm_neutral)
    return Link(
        lever,
        arm,
        neutral,
        arm_neutral,
        needed,
        needed if length is None else np.asarray(length, dtype=np.float64),
        side_of_arm(lever, neutral, arm, arm_neutral),
        side_of_arm(arm, arm_neutral, lever, neutral),
    )


def arm_follows(link: Link, angle: ArrayLike) -> Array:
    """Answer where the arm stands for an angle of the lever.

    Parameters
    ----------
    link : Link [m, rad]
    angle : array, shape (...) [rad]
        Of the lever.

    Returns
    -------
    follows : array, shape (...) [rad]
        NaN where the rod has jammed: past the arm's dead point.

    Range of validity: as `arm_angle`; within half a turn of neutral.
    Source: `arm_angle`.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.3, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> twin = put_together(lever, np.pi / 2, arm, np.pi / 2)
    >>> print(f"{arm_follows(twin, 1.2):.3f}")
    1.200
    """
    return arm_angle(link.lever, angle, link.arm, link.length, link.arm_side, link.arm_neutral)


def lever_for(link: Link, wanted: ArrayLike) -> Array:
    """Answer how the lever must stand for an angle of the arm.

    Parameters
    ----------
    link : Link [m, rad]
    wanted : array, shape (...) [rad]
        Of the arm.

    Returns
    -------
    angle : array, shape (...) [rad]
        NaN where the lever cannot bring the arm there, its dead point coming first.

    Range of validity: as `arm_angle`; within half a turn of neutral.
    Source: `arm_angle`, the roles changed.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.3, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> twin = put_together(lever, np.pi / 2, arm, np.pi / 2)
    >>> print(f"{lever_for(twin, 1.2):.3f}")
    1.200
    """
    return arm_angle(link.arm, wanted, link.lever, link.length, link.lever_side, link.neutral)


def dead_point_margins(link: Link, angle: ArrayLike, at: ArrayLike) -> tuple[Array, Array]:
    """Answer how far lever and arm are from standing in line with the rod.

    Parameters
    ----------
    link : Link [m, rad]
    angle : array, shape (...) [rad]
        Of the lever.
    at : array, shape (...) [rad]
        Of the arm there.

    Returns
    -------
    margins : two arrays, shape (...) [rad]
        At the lever and at the arm; 90° at best, below 0 past the dead point.

    Range of validity: everywhere.
    Source: `off_dead_point`, signed by how the linkage stands in neutral.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.3, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> twin = put_together(lever, np.pi / 2, arm, np.pi / 2)
    >>> [round(float(np.degrees(each)), 6) for each in dead_point_margins(twin, 1.0, 1.0)]
    [57.29578, 57.29578]
    """
    at_lever = link.lever_side * off_dead_point(link.lever, angle, link.arm, at)
    at_arm = link.arm_side * off_dead_point(link.arm, at, link.lever, angle)
    return np.asarray(at_lever), np.asarray(at_arm)


def joint_angles(link: Link, angle: ArrayLike, at: ArrayLike) -> tuple[Array, Array]:
    """Answer how far both ball joints of the rod are tilted.

    Parameters
    ----------
    link : Link [m, rad]
    angle : array, shape (...) [rad]
        Of the lever.
    at : array, shape (...) [rad]
        Of the arm there.

    Returns
    -------
    tilts : two arrays, shape (...) [rad]
        At the lever and at the arm.

    Range of validity: studs parallel to the pivots.
    Source: `joint_angle`.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.3, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> twin = put_together(lever, np.pi / 2, arm, np.pi / 2)
    >>> [float(each) for each in joint_angles(twin, 1.0, 1.0)]
    [0.0, 0.0]
    """
    return (
        joint_angle(link.lever, angle, link.arm, at),
        joint_angle(link.arm, at, link.lever, angle),
    )
