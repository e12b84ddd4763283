"""What torque a disc, drum or band brake makes, and how hard its lining is pressed."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike


def disc_worn_in(
    force: ArrayLike, friction: ArrayLike, inner: ArrayLike, outer: ArrayLike, faces: int = 2
) -> Array:
    """Answer the torque of a disc brake with bedded pads (even wear).

    T = n μ F (r_o + r_i) / 2

    Parameters
    ----------
    force : array, shape (...) [N]
        Pressing each pad on the disc.
    friction : array, shape (...) [1]
    inner : array, shape (...) [m]
    outer : array, shape (...) [m]
    faces : int [1]
        Rubbing faces: 2 for one disc gripped from both sides.

    Returns
    -------
    torque : array, shape (...) [N m]

    Range of validity: pads bounded by two radii and two rays, bedded in.
    Source: Shigley's Mechanical Engineering Design, section 16-5, uniform wear.

    Examples
    --------
    >>> print(f"{disc_worn_in(800.0, 0.35, 0.040, 0.060):.2f}")
    28.00
    """
    return np.asarray(faces * friction * np.asarray(force) * (outer + np.asarray(inner)) / 2.0)


def pad_pressure(force: ArrayLike, pad: ArrayLike, inner: ArrayLike, outer: ArrayLike) -> Array:
    """Answer how hard a bedded pad presses on its disc where it presses most, at its inner edge.

    p_a = F / (θ r_i (r_o − r_i)), θ = 2 l / (r_o + r_i)

    Parameters
    ----------
    force : array, shape (...) [N]
        Pressing each pad on the disc.
    pad : array, shape (...) [m]
        Length of the pad along the middle of its track, l.
    inner : array, shape (...) [m]
    outer : array, shape (...) [m]

    Returns
    -------
    pressure : array, shape (...) [Pa]

    Range of validity: as `disc_worn_in`.
    Source: Shigley's Mechanical Engineering Design, section 16-5, uniform wear.

    Examples
    --------
    >>> print(f"{pad_pressure(800.0, 0.030, 0.040, 0.060) / 1e6:.3f} MPa")
    1.667 MPa
    """
    angle = 2.0 * np.asarray(pad) / (np.asarray(outer) + inner)
    return np.asarray(force / (angle * inner * (np.asarray(outer) - inner)))


class ShoeBrake(NamedTuple):
    """What one shoe of a drum brake does.

    Attributes
    ----------
    torque : array, shape (...) [N m]
        Infinite where the shoe grabs.
    peak_pressure : array, shape (...) [Pa]
        Highest pressure on the lining.
    grabs : array of booleans, shape (...) [1]
        The friction pulls the shoe on by itself; a touch of the pedal locks the drum.
    """

    torque: Array
    peak_pressure: Array
    grabs: NDArray[np.bool_]


def drum_shoe(
    force: ArrayLike,
    force_arm: ArrayLike,
    pivot_distance: ArrayLike,
    radius: ArrayLike,
    width: ArrayLike,
    friction: ArrayLike,
    begins: ArrayLike,
    ends: ArrayLike,
    leading: bool,
) -> ShoeBrake:
    """Answer the torque of one long internal shoe on a fixed pivot.

    The pressure follows p = p_a sin θ / sin θ_a, θ from the pivot. With
    A = ∫ sin² θ dθ and B = ∫ sin θ (r − a cos θ) dθ over the lining:
    M_N = p_a w r a A / sin θ_a; M_f = μ p_a w r B / sin θ_a; F c = M_N ∓ M_f (− leading);
    T = μ p_a w r² (cos θ₁ − cos θ₂) / sin θ_a

    Parameters
    ----------
    force : array, shape (...) [N]
        Of cam or cable on the free end of the shoe.
    force_arm : array, shape (...) [m]
        From the pivot to the line of that force, c.
    pivot_distance : array, shape (...) [m]
        From the centre of the drum to the pivot, a.
    radius : array, shape (...) [m]
    width : array, shape (...) [m]
    friction : array, shape (...) [1]
    begins : array, shape (...) [rad]
        Where the lining begins, seen from the centre of the drum, counted from the pivot.
    ends : array, shape (...) [rad]
    leading : bool [1]
        The drum's surface runs along the lining from the free end to the pivot, so that the
        friction helps to press the shoe on. Turning backwards makes the shoe trailing.

    Returns
    -------
    shoe : ShoeBrake, shape (...) [N m, Pa, 1]

    Range of validity: stiff shoe and drum, linear wear, lining within 0 and 180° from the pivot.
    Source: Shigley's Mechanical Engineering Design, section 16-2, equations 16-2 to 16-7.

    Examples
    --------
    >>> shoe = drum_shoe(2284.0, 0.212, 0.1227, 0.150, 0.032, 0.32, 0.0, np.radians(126.0), True)
    >>> print(f"{shoe.torque:.0f} N m at {shoe.peak_pressure / 1e6:.2f} MPa")
    366 N m at 1.00 MPa
    """
    first, last = np.asarray(begins), np.asarray(ends)
    highest = np.sin(np.clip(np.pi / 2.0, first, last))
    rise = np.cos(first) - np.cos(last)
    per_pressure = np.asarray(width) * radius / highest
    pressing = (last - first) / 2.0 - (np.sin(2.0 * last) - np.sin(2.0 * first)) / 4.0
    dragging = radius * rise - pivot_distance / 2.0 * (np.sin(last) ** 2 - np.sin(first) ** 2)
    normal_moment = per_pressure * pivot_distance * pressing
    friction_moment = friction * per_pressure * dragging
    needed = np.asarray(normal_moment - (1.0 if leading else -1.0) * friction_moment)
    grabs = np.asarray(needed <= 0.0)
    peak = np.where(grabs, np.inf, force * np.asarray(force_arm) / np.where(grabs, 1.0, needed))
    torque = friction * peak * per_pressure * radius * rise
    return ShoeBrake(torque=np.asarray(torque), peak_pressure=peak, grabs=grabs)


class BandBrake(NamedTuple):
    """What a band round a drum does.

    Attributes
    ----------
    torque : array, shape (...) [N m]
    anchor_pull : array, shape (...) [N]
        On the end that is pinned to the frame.
    peak_pressure : array, shape (...) [Pa]
        On the lining, at the tight end.
    """

    torque: Array
    anchor_pull: Array
    peak_pressure: Array


def band(
    pull: ArrayLike,
    friction: ArrayLike,
    wrap: ArrayLike,
    radius: ArrayLike,
    width: ArrayLike,
    turning_from_anchor: bool,
) -> BandBrake:
    """Answer the torque of a band with one end pinned; the direction of turning decides.

    The drum drags the band along with its surface, so the end that the surface comes from is the
    tight one. Turning away from the anchor: T = P r (e^(μφ) − 1), the drum helps; towards it:
    T = P r (1 − e^(−μφ)), the drum works against the pedal.

    Parameters
    ----------
    pull : array, shape (...) [N]
        On the end that the pedal moves, P.
    friction : array, shape (...) [1]
    wrap : array, shape (...) [rad]
    radius : array, shape (...) [m]
    width : array, shape (...) [m]
    turning_from_anchor : bool [1]
        The drum's surface runs from the pinned end towards the pedal's end. A machine that
        rolls backwards turns it round.

    Returns
    -------
    brake : BandBrake, shape (...) [N m, N, Pa]

    Range of validity: thin band that hugs the drum.
    Source: belt friction (Euler, Eytelwein); Shigley's Mechanical Engineering Design,
    section 16-4, p = 2 P / (b D).

    Examples
    --------
    >>> helped = band(100.0, 0.35, np.radians(270.0), 0.06, 0.04, turning_from_anchor=True)
    >>> against = band(100.0, 0.35, np.radians(270.0), 0.06, 0.04, turning_from_anchor=False)
    >>> print(f"{helped.torque:.3f} against {against.torque:.3f}")
    25.221 against 4.847
    """
    grip = np.asarray(friction * np.asarray(wrap))
    anchor = pull * np.exp(grip if turning_from_anchor else -grip)
    difference = anchor - pull if turning_from_anchor else pull - anchor
    tight = anchor if turning_from_anchor else np.broadcast_to(np.asarray(pull), np.shape(anchor))
    return BandBrake(
        torque=np.asarray(difference * radius),
        anchor_pull=np.asarray(anchor),
        peak_pressure=np.asarray(tight / (width * np.asarray(radius))),
    )
