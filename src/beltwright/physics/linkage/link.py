"""A lever, a rod and an arm put together: what follows what, from neutral on, without a jump."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.linkage.rod import (
    arm_angle,
    lean,
    rod_length,
    side_of_arm,
)
from beltwright.physics.linkage.swing import (
    Swing,
    axis_of,
    rod_end,
    way_between,
    way_of_motion,
)


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


class RodAngles(NamedTuple):
    """How a rod stands to its lever and its arm.

    Attributes
    ----------
    at_lever, at_arm : array, shape (...) [rad]
        How far it is from standing in line with each: 90° at best, below 0 past the dead point.
    lever_tilt, arm_tilt : array, shape (...) [rad]
        How far the ball joint at each is tilted, its stud standing along the pivot.
    """

    at_lever: Array
    at_arm: Array
    lever_tilt: Array
    arm_tilt: Array


def rod_angles(link: Link, angle: ArrayLike, at: ArrayLike) -> RodAngles:
    """Answer how near the rod is to the dead points of lever and arm, and how its joints tilt.

    Parameters
    ----------
    link : Link [m, rad]
    angle : array, shape (...) [rad]
        Of the lever.
    at : array, shape (...) [rad]
        Of the arm there.

    Returns
    -------
    RodAngles [rad]

    Range of validity: studs parallel to the pivots; a bent bracket changes the tilt.
    Source: `lean`, signed by how the linkage stands in neutral.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.3, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> twin = put_together(lever, np.pi / 2, arm, np.pi / 2)
    >>> [round(float(np.degrees(each)), 4) for each in rod_angles(twin, 1.0, 1.0)]
    [57.2958, 57.2958, 0.0, 0.0]
    """
    rod = way_between(rod_end(link.lever, angle), rod_end(link.arm, at))
    return RodAngles(
        # side_of_arm looks from the far end, and so takes the rod the other way round
        np.asarray(-link.lever_side * lean(rod, way_of_motion(link.lever, angle))),
        np.asarray(link.arm_side * lean(rod, way_of_motion(link.arm, at))),
        np.abs(lean(rod, axis_of(link.lever))),
        np.abs(lean(rod, axis_of(link.arm))),
    )
