"""Rods in a row, each lever but the first carried by the arm before it, as on a bell crank."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.linkage.link import Link, arm_follows, lever_for
from beltwright.physics.linkage.rod import turning_ratio


class Carried(NamedTuple):
    """A linkage in a row.

    Attributes
    ----------
    link : Link [m, rad]
    ahead_by : array, shape (...) [rad]
        Angle of its lever over that of the arm that carries it; 0 for the first.
    """

    link: Link
    ahead_by: ArrayLike


def follow(train: Sequence[Carried], hand: ArrayLike) -> tuple[Array, Array]:
    """Answer how the last lever and the last arm of a row stand for an angle of the first lever.

    θ_next = ψ + lead, one rod after another

    Parameters
    ----------
    train : sequence of Carried [m, rad]
        From the hand on.
    hand : array, shape (...) [rad]
        Of the first lever.

    Returns
    -------
    lever_and_arm : two arrays, shape (...) [rad]
        NaN where a rod has jammed before.

    Range of validity: as `arm_follows`; bell cranks that do not twist.
    Source: `arm_follows`.

    Examples
    --------
    >>> from beltwright.physics.linkage.link import put_together
    >>> from beltwright.physics.linkage.swing import Swing
    >>> ways = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
    >>> lever, arm = Swing((0.0, 0.0, 0.0), *ways, 0.04), Swing((0.3, 0.0, 0.0), *ways, 0.04)
    >>> further = Swing((0.6, 0.0, 0.0), *ways, 0.04)
    >>> one = put_together(lever, np.pi / 2, arm, np.pi / 2)
    >>> two = put_together(arm, np.pi / 2, further, np.pi / 2)
    >>> [round(float(each), 6) for each in follow([Carried(one, 0.0), Carried(two, 0.0)], 1.2)]
    [1.2, 1.2]
    """
    lever, arm = np.asarray(hand), np.asarray(hand)
    for link, ahead_by in train:
        lever = np.asarray(arm + ahead_by)
        arm = arm_follows(link, lever)
    return lever, arm


def hand_for(train: Sequence[Carried], wanted: ArrayLike) -> Array:
    """Answer how the first lever must stand for an angle of the last arm.

    Parameters
    ----------
    train : sequence of Carried [m, rad]
        From the hand on.
    wanted : array, shape (...) [rad]
        Of the last arm.

    Returns
    -------
    hand : array, shape (...) [rad]
        NaN where the first lever cannot bring the arm there.

    Range of validity: as `follow`.
    Source: `lever_for`, from the last rod back.

    Examples
    --------
    >>> from beltwright.physics.linkage.link import put_together
    >>> from beltwright.physics.linkage.swing import Swing
    >>> ways = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
    >>> lever, arm = Swing((0.0, 0.0, 0.0), *ways, 0.04), Swing((0.3, 0.0, 0.0), *ways, 0.04)
    >>> one = put_together(lever, np.pi / 2, arm, np.pi / 2)
    >>> print(f"{hand_for([Carried(one, 0.0)], 1.2):.3f}")
    1.200
    """
    angle = np.asarray(wanted)
    for link, ahead_by in reversed(train):
        angle = np.asarray(lever_for(link, angle) - ahead_by)
    return angle


def turning(train: Sequence[Carried], hand: ArrayLike) -> Array:
    """Answer how much the last arm turns for a little turn of the first lever.

    dψ/dθ = Π dψ_i/dθ_i

    Parameters
    ----------
    train : sequence of Carried [m, rad]
        From the hand on.
    hand : array, shape (...) [rad]
        Of the first lever.

    Returns
    -------
    ratio : array, shape (...) [1]
        By virtual work also the torque on the first lever over that on the last arm.

    Range of validity: as `follow`; no friction.
    Source: chain rule; `turning_ratio`.

    Examples
    --------
    >>> from beltwright.physics.linkage.link import put_together
    >>> from beltwright.physics.linkage.swing import Swing
    >>> ways = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
    >>> lever, arm = Swing((0.0, 0.0, 0.0), *ways, 0.04), Swing((0.3, 0.0, 0.0), *ways, 0.04)
    >>> one = put_together(lever, np.pi / 2, arm, np.pi / 2)
    >>> print(f"{turning([Carried(one, 0.0)], 1.2):.3f}")
    1.000
    """
    arm, ratio = np.asarray(hand), np.asarray(1.0)
    for link, ahead_by in train:
        lever = arm + ahead_by
        arm = arm_follows(link, lever)
        ratio = np.asarray(ratio * turning_ratio(link.lever, lever, link.arm, arm))
    return ratio
