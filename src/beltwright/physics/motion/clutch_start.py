"""The work and the heat that a belt clutch takes while it brings the machine up to speed."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike


def inertia_at_clutch(mass: ArrayLike, rolling_radius: ArrayLike, ratio: ArrayLike) -> Array:
    """Answer what moment of inertia the whole machine shows to the driven side of the clutch.

    J = m r² / i²

    Parameters
    ----------
    mass : array, shape (...) [kg]
    rolling_radius : array, shape (...) [m]
    ratio : array, shape (...) [1]
        Turns of the clutch's driven side, taken to the engine side of the belt, for one turn of
        the wheels.

    Returns
    -------
    inertia : array, shape (...) [kg m²]

    Range of validity: turning parts of the driveline small beside the machine.
    Source: equal kinetic energy.

    Examples
    --------
    >>> print(f"{inertia_at_clutch(300.0, 0.25, 50.0):.5f}")
    0.00750
    """
    return np.asarray(mass * np.square(np.asarray(rolling_radius) / ratio))


class ClutchStart(NamedTuple):
    """One start from standing.

    Attributes
    ----------
    slips : array, shape (...) [s]
        How long the belt slips; infinite where it never catches up.
    work : array, shape (...) [J]
        Heat made between belt and pulleys.
    speed : array, shape (...) [rad/s]
        Engine speed at the moment when the belt stops slipping; below its slowest the engine
        stalls.
    catches_up : array of booleans, shape (...) [1]
        The clutch pulls more than the load holds back.
    """

    slips: Array
    work: Array
    speed: Array
    catches_up: NDArray[np.bool_]


def clutch_start(
    clutch_torque: ArrayLike,
    engine_torque: ArrayLike,
    load_torque: ArrayLike,
    engine_inertia: ArrayLike,
    driven_inertia: ArrayLike,
    engine_speed: ArrayLike,
) -> ClutchStart:
    """Answer how long a belt clutch slips at a start, and how much heat that makes.

    With constant torques the slip speed falls in a straight line from ω₀ to nothing:
    t = ω₀ / ((T_c − T_l)/J_d + (T_c − T_e)/J_e);  W = ½ T_c ω₀ t;
    ω = ω₀ − (T_c − T_e) t / J_e

    Parameters
    ----------
    clutch_torque : array, shape (...) [N m]
        What the slipping belt passes on. All quantities are taken at the engine shaft.
    engine_torque : array, shape (...) [N m]
    load_torque : array, shape (...) [N m]
        Slope, rolling drag and trailer.
    engine_inertia : array, shape (...) [kg m²]
        Infinite for an engine that holds its speed.
    driven_inertia : array, shape (...) [kg m²]
    engine_speed : array, shape (...) [rad/s]
        At the start, ω₀.

    Returns
    -------
    start : ClutchStart, shape (...) [s, J, rad/s, 1]

    Range of validity: clutch let up at once and pulling evenly. Letting it up slowly makes more
    heat, about in the ratio of the times.
    Source: Shigley's Mechanical Engineering Design, section 16-9 (energy of a clutch between two
    inertias, without load: W = J₁ J₂ ω² / (2 (J₁ + J₂))), from memory; load and engine torque
    added here by the same integration.

    Examples
    --------
    >>> start = clutch_start(20.0, 0.0, 0.0, 0.03, 0.01, 300.0)
    >>> print(f"{start.work:.2f} J in {start.slips:.4f} s, engine at {start.speed:.1f} rad/s")
    337.50 J in 0.1125 s, engine at 225.0 rad/s
    """
    gaining = (clutch_torque - np.asarray(load_torque)) / driven_inertia
    losing = (clutch_torque - np.asarray(engine_torque)) / engine_inertia
    closing = gaining + losing
    closes = (gaining > 0.0) & (closing > 0.0)
    slips = np.where(closes, engine_speed / np.where(closes, closing, 1.0), np.inf)
    speed = engine_speed - losing * np.where(closes, slips, 0.0)
    return ClutchStart(
        slips=slips,
        work=np.asarray(0.5 * clutch_torque * engine_speed * slips),
        speed=np.asarray(speed),
        catches_up=np.asarray(closes),
    )


def heat_taken(
    work: ArrayLike, share: ArrayLike, mass: ArrayLike, specific_heat: ArrayLike
) -> Array:
    """Answer how much hotter a part gets from its share of the heat of one start or one stop.

    ΔT = k W / (m c)

    Parameters
    ----------
    work : array, shape (...) [J]
    share : array, shape (...) [1]
        Of the heat that goes into this part.
    mass : array, shape (...) [kg]
    specific_heat : array, shape (...) [J/(kg K)]
        Steel about 480, grey iron about 500, rubber about 1900 (usual handbook values, from
        memory).

    Returns
    -------
    rise : array, shape (...) [K]

    Range of validity: mean of the part; the rubbing skin gets far hotter for a moment.
    Source: Shigley's Mechanical Engineering Design, section 16-10 (ΔT = E / (m C)), from memory.

    Examples
    --------
    >>> print(f"{heat_taken(774.4, 1.0, 1.2, 500.0):.3f}")
    1.291
    """
    return np.asarray(share * np.asarray(work) / (mass * np.asarray(specific_heat)))
