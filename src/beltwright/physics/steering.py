"""How tightly a machine turns, and how far its linkage is from steering both wheels rightly."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.angle import within_half_turn
from beltwright.physics.arrays import Array, ArrayLike

Point = tuple[ArrayLike, ArrayLike]
"""x forward and y to the left [m]."""


def ideal_outer_angle(inner: ArrayLike, kingpin_distance: ArrayLike, wheelbase: ArrayLike) -> Array:
    """Answer how far the outer wheel should steer so that no wheel is dragged sideways.

    cot δ_o = cot δ_i + w / L

    Parameters
    ----------
    inner : array, shape (...) [rad]
        Steer angle of the wheel on the inside of the turn, 0 to 90°.
    kingpin_distance : array, shape (...) [m]
    wheelbase : array, shape (...) [m]

    Returns
    -------
    outer : array, shape (...) [rad]

    Range of validity: slow turns, upright kingpins, one rear axle.
    Source: Ackermann's condition; J. Y. Wong, Theory of Ground Vehicles, 3rd ed. 2001,
    equation 5.1, from memory.

    Examples
    --------
    >>> print(f"{np.degrees(ideal_outer_angle(np.radians(40.0), 0.62, 1.235)):.3f}")
    30.557
    """
    inner = np.asarray(inner)
    # tan δ_o = L tan δ_i / (L + w tan δ_i), written with sin and cos so that 0 and 90° are exact
    return np.asarray(
        np.arctan2(
            wheelbase * np.sin(inner),
            wheelbase * np.cos(inner) + kingpin_distance * np.sin(inner),
        )
    )


def steer_error(
    inner: ArrayLike, outer: ArrayLike, kingpin_distance: ArrayLike, wheelbase: ArrayLike
) -> Array:
    """Answer how far the outer wheel steers more than it should.

    Δ = δ_o − arccot(cot δ_i + w / L)

    Parameters
    ----------
    inner : array, shape (...) [rad]
        From 0 to full lock.
    outer : array, shape (...) [rad]
        What the linkage gives, for example from `arm_turned_by_rod`.
    kingpin_distance : array, shape (...) [m]
    wheelbase : array, shape (...) [m]

    Returns
    -------
    error : array, shape (...) [rad]
        About this angle the front tyres are dragged sideways between them.

    Range of validity: slow turns; a few degrees at full lock are usual (common practice, no
    source).
    Source: Ackermann's condition, as `ideal_outer_angle`.

    Examples
    --------
    >>> print(f"{np.degrees(steer_error(np.radians(40.0), np.radians(33.0), 0.62, 1.235)):.3f}")
    2.443
    """
    return np.asarray(outer - ideal_outer_angle(inner, kingpin_distance, wheelbase))


class TurningCircle(NamedTuple):
    """The radii on which a machine turns, from the middle of the turn.

    Attributes
    ----------
    rear_middle : array, shape (...) [m]
        Middle of the rear axle.
    outer_front : array, shape (...) [m]
        Contact of the outer front tyre: half the turning circle between kerbs.
    """

    rear_middle: Array
    outer_front: Array


def turning_circle(
    inner: ArrayLike,
    outer: ArrayLike,
    kingpin_distance: ArrayLike,
    wheelbase: ArrayLike,
    scrub_radius: ArrayLike = 0.0,
) -> TurningCircle:
    """Answer how tightly the machine turns at a pair of steer angles.

    Each front wheel points at a turning centre of its own; the mean of both is taken:
    R = L (cot δ_i + cot δ_o) / 2; outer front tyre: √((R + w/2)² + L²) + scrub radius

    Parameters
    ----------
    inner : array, shape (...) [rad]
        Above zero.
    outer : array, shape (...) [rad]
    kingpin_distance : array, shape (...) [m]
    wheelbase : array, shape (...) [m]
    scrub_radius : array, shape (...) [m]
        From kingpin axis to middle of the tyre, on the ground, outwards.

    Returns
    -------
    circle : TurningCircle, shape (...) [m]

    Range of validity: walking speed, tyres that roll without sliding. Locked or missing
    differentials and soft ground make the circle larger.
    Source: geometry; with Ackermann's condition the outer tyre runs on L / sin δ_o.

    Examples
    --------
    >>> inner = np.radians(40.0)
    >>> outer = ideal_outer_angle(inner, 0.62, 1.235)
    >>> circle = turning_circle(inner, outer, 0.62, 1.235, 0.05)
    >>> print(f"{circle.rear_middle:.4f} {circle.outer_front:.4f}")
    1.7818 2.4792
    """
    middle = 0.5 * wheelbase * (1.0 / np.tan(inner) + 1.0 / np.tan(outer))
    outer_kingpin = np.hypot(middle + 0.5 * kingpin_distance, wheelbase)
    return TurningCircle(
        rear_middle=np.asarray(middle),
        outer_front=np.asarray(outer_kingpin + scrub_radius),
    )


def arm_turned_by_rod(
    driving_pivot: Point,
    driving_pin: Point,
    driven_pivot: Point,
    driven_pin: Point,
    turned: ArrayLike,
) -> Array:
    """Answer how far a rod turns one arm when the other arm is turned.

    The rod keeps its length d, |pin_1(δ_1) − pin_2(δ_2)| = d. With D from the driven pivot to
    the driving pin and a the driven arm: cos(β − arg D) = (D² + a² − d²) / (2 a D); of both
    solutions the one that the arms have straight ahead.

    Parameters
    ----------
    driving_pivot : two arrays, shape (...) [m]
        Kingpin, or the pivot of a steering plate.
    driving_pin : two arrays, shape (...) [m]
        End of its arm with the wheels straight ahead.
    driven_pivot : two arrays, shape (...) [m]
    driven_pin : two arrays, shape (...) [m]
    turned : array, shape (...) [rad]
        Of the driving arm from straight ahead, counter-clockwise from above.

    Returns
    -------
    follows : array, shape (...) [rad]
        Of the driven arm, counter-clockwise; NaN where the rod cannot reach.

    Range of validity: all joints in one plane (check a steep drag link in space).
    Source: loop closure of the plane four-bar; Freudenstein 1955 in Norton, Design of Machinery,
    section 4.5, from memory.

    Examples
    --------
    >>> pins = ((0.0, 0.31), (-0.12, 0.25), (0.0, -0.31), (-0.12, -0.25))
    >>> print(f"{np.degrees(arm_turned_by_rod(*pins, np.radians(40.0))):.3f}")
    25.084
    """
    arm_x, arm_y = (pin - at for pin, at in zip(driving_pin, driving_pivot, strict=True))
    driven_x, driven_y = (pin - at for pin, at in zip(driven_pin, driven_pivot, strict=True))
    apart_x, apart_y = (one - two for one, two in zip(driving_pivot, driven_pivot, strict=True))
    start_x, start_y = apart_x + arm_x, apart_y + arm_y
    rod_squared = (start_x - driven_x) ** 2 + (start_y - driven_y) ** 2
    branch = np.sign(driven_y * start_x - driven_x * start_y)

    cosine, sine = np.cos(turned), np.sin(turned)
    reach_x = apart_x + arm_x * cosine - arm_y * sine
    reach_y = apart_y + arm_x * sine + arm_y * cosine
    driven_squared = driven_x**2 + driven_y**2
    reach_squared = reach_x**2 + reach_y**2
    opening = (reach_squared + driven_squared - rod_squared) / (
        2.0 * np.sqrt(driven_squared * reach_squared)
    )
    reaches = np.abs(opening) <= 1.0
    opened = branch * np.arccos(np.where(reaches, opening, 1.0))
    angle = np.arctan2(reach_y, reach_x) + opened - np.arctan2(driven_y, driven_x)
    return np.where(reaches, within_half_turn(angle), np.nan)


def scrub_radius(hub_offset: ArrayLike, inclination: ArrayLike, tyre_radius: ArrayLike) -> Array:
    """Answer how far the tyre stands out from where the kingpin axis meets the ground.

    s = e − r tan σ

    Parameters
    ----------
    hub_offset : array, shape (...) [m]
        From kingpin axis to the middle plane of the wheel, at axle height, outwards.
    inclination : array, shape (...) [rad]
        How far the top of the kingpin leans inwards.
    tyre_radius : array, shape (...) [m]
        Axle centre to ground.

    Returns
    -------
    scrub : array, shape (...) [m]

    Range of validity: upright wheel. Wider tyres or spacers add to the offset; a taller tyre
    takes from the scrub radius.
    Source: geometry; term as ISO 8855.

    Examples
    --------
    >>> print(f"{scrub_radius(0.08, np.radians(8.0), 0.19):.4f}")
    0.0533
    """
    return np.asarray(hub_offset - tyre_radius * np.tan(inclination))


def standing_steer_torque(
    load: ArrayLike, grip: ArrayLike, tyre_width: ArrayLike, scrub: ArrayLike
) -> Array:
    """Answer what torque about its kingpin turns one loaded wheel on the spot.

    T = μ W √(b²/8 + s²)

    Parameters
    ----------
    load : array, shape (...) [N]
        On that wheel.
    grip : array, shape (...) [1]
    tyre_width : array, shape (...) [m]
        On the ground.
    scrub : array, shape (...) [m]
        Scrub radius.

    Returns
    -------
    torque : array, shape (...) [N m]

    Range of validity: standing machine, wheel free to roll about the kingpin, usual pressure.
    Source: V. E. Gough's estimate of parking torque, as given in vehicle steering texts, from
    memory, medium.

    Examples
    --------
    >>> print(f"{standing_steer_torque(600.0, 0.7, 0.15, 0.05):.1f}")
    30.6
    """
    arm = np.hypot(np.asarray(tyre_width) / np.sqrt(8.0), scrub)
    return np.asarray(grip * np.asarray(load) * arm)
