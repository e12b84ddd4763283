"""A rod with two ball joints between a lever and an arm: closure, leverage, dead points, joints.

Lever and arm may turn about any two lines in space. Where both turn about the same direction in
one plane, this is the plane four-bar linkage.
"""

import numpy as np

from beltwright.physics.angle import within_half_turn
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.linkage.swing import (
    Swing,
    Vector,
    along,
    rod_end,
    way_between,
    way_of_motion,
)


def rod_length(lever: Swing, angle: ArrayLike, arm: Swing, wanted: ArrayLike) -> Array:
    """Answer how long a rod must be, eye to eye, to hold the arm at an angle.

    d = |p_arm(ψ) − p_lever(θ)|

    Parameters
    ----------
    lever : Swing [m]
    angle : array, shape (...) [rad]
        Of the lever.
    arm : Swing [m]
    wanted : array, shape (...) [rad]
        Of the arm.

    Returns
    -------
    length : array, shape (...) [m]
        Between the middles of both joints.

    Range of validity: everywhere.
    Source: distance of two points.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.1, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.08)
    >>> print(f"{rod_length(lever, np.radians(40.0), arm, np.radians(57.325)):.4f}")
    0.1200
    """
    rod = way_between(rod_end(lever, angle), rod_end(arm, wanted))
    return np.asarray(np.sqrt(along(rod, rod)))


def side_of_arm(lever: Swing, angle: ArrayLike, arm: Swing, at: ArrayLike) -> Array:
    """Answer on which side of the rod's end an arm stands: the way in which the linkage is put
    together.

    sign of (p_arm − p_lever) · t_arm

    Parameters
    ----------
    lever : Swing [m]
    angle : array, shape (...) [rad]
        Of the lever.
    arm : Swing [m]
    at : array, shape (...) [rad]
        Of the arm.

    Returns
    -------
    side : array, shape (...) [1]
        +1 or −1; 0 at the arm's dead point. It stays as it is until the arm comes to its dead
        point, so whoever keeps it follows the movement without a jump.

    Range of validity: everywhere.
    Source: the two crossings of two circles lie on either side of the line of their middles.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.1, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.08)
    >>> both = side_of_arm(lever, np.radians(40.0), arm, np.radians([57.325, -98.005]))
    >>> both.tolist()
    [-1.0, 1.0]
    """
    rod = way_between(rod_end(lever, angle), rod_end(arm, at))
    return np.asarray(np.sign(along(rod, way_of_motion(arm, at))))


def arm_angle(
    lever: Swing,
    angle: ArrayLike,
    arm: Swing,
    length: ArrayLike,
    side: ArrayLike,
    near: ArrayLike = 0.0,
) -> Array:
    """Answer to what angle a rod brings an arm.

    The rod's ball of radius d round the lever's pin cuts the plane of the arm in a circle; its
    crossing with the arm's own circle on the kept side is the arm's pin. With D the way from that
    pin to the arm's pivot, k = D · ahead and m = D · beside:
    ψ = arg(k, m) − side arccos((d² − r² − D²) / (2 r √(k² + m²)))

    Parameters
    ----------
    lever : Swing [m]
    angle : array, shape (...) [rad]
        Of the lever.
    arm : Swing [m]
    length : array, shape (...) [m]
        Of the rod.
    side : array, shape (...) [1]
        From `side_of_arm` at a position in which the linkage is known to stand.
    near : array, shape (...) [rad]
        The answer is the turn of the arm within half a turn of this.

    Returns
    -------
    follows : array, shape (...) [rad]
        Of the arm; NaN where the rod cannot reach it.

    Range of validity: stiff rod, no play; less than half a turn of the arm. By changing the roles
    it answers what the lever must do for an angle of the arm.
    Source: crossing of two circles; for one plane F. Freudenstein 1955 in R. L. Norton, Design of
    Machinery, section 4.6, from memory; for ball joints R. S. Hartenberg and J. Denavit, Kinematic
    Synthesis of Linkages, 1964, chapter 12, from memory.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.1, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.08)
    >>> open_ = arm_angle(lever, np.radians(40.0), arm, 0.12, -1.0)
    >>> crossed = arm_angle(lever, np.radians(40.0), arm, 0.12, 1.0)
    >>> print(f"{np.degrees(open_):.3f} {np.degrees(crossed):.3f}")
    57.325 -98.005
    """
    back = way_between(rod_end(lever, angle), arm.pivot)
    k, m = along(back, arm.ahead), along(back, arm.beside)
    reach = length * np.asarray(length) - arm.radius * np.asarray(arm.radius) - along(back, back)
    with np.errstate(invalid="ignore", divide="ignore"):
        turn = np.arccos(reach / (2.0 * arm.radius * np.hypot(k, m)))
    raw = np.arctan2(m, k) - side * turn
    return np.asarray(within_half_turn(raw, near))


def turning_ratio(lever: Swing, angle: ArrayLike, arm: Swing, at: ArrayLike) -> Array:
    """Answer how much the arm turns for a little turn of the lever.

    The rod keeps its length, so both ends move alike along it:
    dψ/dθ = r_lever (rod · t_lever) / (r_arm (rod · t_arm)). By virtual work the torque on the
    lever is the torque on the arm times this.

    Parameters
    ----------
    lever : Swing [m]
    angle : array, shape (...) [rad]
        Of the lever.
    arm : Swing [m]
    at : array, shape (...) [rad]
        Of the arm.

    Returns
    -------
    ratio : array, shape (...) [1]
        0 at the dead point of the lever; infinite at that of the arm.

    Range of validity: no friction, stiff rod.
    Source: principle of virtual work; velocity components along a stiff rod are equal.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.2, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.08)
    >>> print(f"{turning_ratio(lever, np.pi / 2, arm, np.pi / 2):.3f}")
    0.500
    """
    rod = way_between(rod_end(lever, angle), rod_end(arm, at))
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(
            lever.radius
            * along(rod, way_of_motion(lever, angle))
            / (arm.radius * along(rod, way_of_motion(arm, at)))
        )


def lean(rod: Vector, direction: Vector) -> Array:
    """Answer how far a rod leans along a direction.

    sin μ = (rod · direction) / |rod|. Against the way in which its pin moves, this is how far the
    rod is from standing in line with its lever: in one plane the transmission angle, or what is
    left of it to a right angle. Against the stud of its ball joint, it is the tilt of the joint.

    Parameters
    ----------
    rod : three arrays, shape (...) [m]
        From end to end.
    direction : three arrays, shape (...) [1]
        Unit vector.

    Returns
    -------
    angle : array, shape (...) [rad]
        ±90° where the rod points along it, 0 where it stands square to it.

    Range of validity: everywhere.
    Source: angle between a line and a plane; R. L. Norton, Design of Machinery, sections 3.3 and
    4.10 (transmission and toggle), from memory.

    Examples
    --------
    >>> print(f"{np.degrees(lean((0.3, 0.0, 0.04), (0.0, 0.0, 1.0))):.2f}")
    7.59
    """
    sine = along(rod, direction) / np.sqrt(along(rod, rod))
    # rounding may take the sine of a right angle a little past 1
    return np.asarray(np.arcsin(np.clip(sine, -1.0, 1.0)))


def hole_for_rod(
    lever: Swing, angle: ArrayLike, arm: Swing, at: ArrayLike, length: ArrayLike
) -> Array:
    """Answer how far out in an arm the hole must be for a rod that is there already.

    With D from the lever's pin to the arm's pivot and e along the arm:
    r = −D · e ± √((D · e)² − D² + d²), the root nearer to the present hole

    Parameters
    ----------
    lever : Swing [m]
    angle : array, shape (...) [rad]
        Of the lever.
    arm : Swing [m]
        With its hole as it is.
    at : array, shape (...) [rad]
        Of the arm, as it shall stand.
    length : array, shape (...) [m]
        Of the rod that is there.

    Returns
    -------
    radius : array, shape (...) [m]
        NaN where no hole in the arm fits that rod.

    Range of validity: everywhere; near a right angle of rod and arm a little length takes a long
    way along the arm.
    Source: law of cosines.

    Examples
    --------
    >>> lever = Swing((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.04)
    >>> arm = Swing((0.1, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.07)
    >>> at = np.radians(40.0), np.radians(57.3250)
    >>> print(f"{hole_for_rod(lever, at[0], arm, at[1], 0.12):.4f}")
    0.0800
    """
    out = arm._replace(pivot=(0.0, 0.0, 0.0), radius=1.0)
    back = way_between(rod_end(lever, angle), arm.pivot)
    foot = along(back, rod_end(out, at))
    with np.errstate(invalid="ignore"):
        half = np.sqrt(foot * foot - along(back, back) + length * np.asarray(length))
    far, close = -foot + half, -foot - half
    nearer = np.where(np.abs(far - arm.radius) <= np.abs(close - arm.radius), far, close)
    return np.asarray(np.where(nearer > 0.0, nearer, np.nan))
