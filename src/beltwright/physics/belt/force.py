"""The pulls in a running belt at one pulley: speed, effective pull, mass and friction."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def belt_speed(pitch_radius: ArrayLike, speed: ArrayLike) -> Array:
    """Answer how fast the belt runs over a pulley that turns at a given speed.

    v = r ω

    Parameters
    ----------
    pitch_radius : array, shape (...) [m]
    speed : array, shape (...) [rad/s]
        Turning speed of the pulley.

    Returns
    -------
    belt_speed : array, shape (...) [m/s]

    Range of validity: no slip; creep of a V-belt under load takes off 1 to 2 % (common practice,
    no source).
    Source: kinematics.

    Examples
    --------
    >>> round(float(belt_speed(0.0508, 1750 * np.pi / 30)), 3)
    9.31
    """
    return np.asarray(pitch_radius * np.asarray(speed))


def centrifugal_pull(linear_mass: ArrayLike, belt_speed: ArrayLike) -> Array:
    """Answer what part of a belt's pull only bends its own moving mass round the pulleys.

    Fc = m v²

    Parameters
    ----------
    linear_mass : array, shape (...) [kg/m]
    belt_speed : array, shape (...) [m/s]

    Returns
    -------
    pull : array, shape (...) [N]

    Range of validity: any belt in steady running; free spans are not loaded by it.
    Source: momentum; Shigley, Mechanical Engineering Design, 9th ed., eq. 17-21 (Kc form).

    Examples
    --------
    >>> float(centrifugal_pull(0.1, 20.0))
    40.0
    """
    return np.asarray(linear_mass * np.square(belt_speed))


def groove_friction(friction: ArrayLike, groove_angle: ArrayLike) -> Array:
    """Answer how much friction counts once the belt is wedged in its groove.

    f' = f / sin(β/2); a flat rim is β = π.

    Parameters
    ----------
    friction : array, shape (...) [1]
        Of the belt's flank on the metal.
    groove_angle : array, shape (...) [rad]
        Whole angle between the flanks.

    Returns
    -------
    friction : array, shape (...) [1]

    Range of validity: the belt bears on both flanks and not on the bottom of the groove; the
    force that it takes to lift the belt out of the groove is neglected.
    Source: Shigley, Mechanical Engineering Design, 9th ed., section 17-3.

    Examples
    --------
    >>> round(float(groove_friction(0.15, np.radians(34.0))), 4)
    0.513
    """
    return np.asarray(friction / np.sin(np.asarray(groove_angle) / 2))


def capstan_ratio(groove_friction: ArrayLike, wrap: ArrayLike) -> Array:
    """Answer how many times harder the tight side can pull than the slack side before slip.

    E = exp(f' θ), of the pulls with the centrifugal pull taken off.

    Parameters
    ----------
    groove_friction : array, shape (...) [1]
        As from `groove_friction`.
    wrap : array, shape (...) [rad]
        A pulley that the belt misses (negative wrap) carries nothing: ratio 1.

    Returns
    -------
    ratio : array, shape (...) [1]

    Range of validity: gross slip over the whole wrap; friction the same all round.
    Source: Euler; Shigley, Mechanical Engineering Design, 9th ed., eq. 17-7.

    Examples
    --------
    >>> round(float(capstan_ratio(0.5123, np.pi)), 2)
    5.0
    """
    return np.exp(groove_friction * np.maximum(wrap, 0.0))


class Load(NamedTuple):
    """A force in the plane of the belt.

    Attributes
    ----------
    x : array, shape (...) [N]
    y : array, shape (...) [N]
    """

    x: Array
    y: Array

    @property
    def size(self) -> Array:
        """How hard it pulls, whichever way, shape (...) [N]."""
        return np.hypot(self.x, self.y)


def shaft_load(
    pull_before: ArrayLike,
    heading_before: tuple[ArrayLike, ArrayLike],
    pull_after: ArrayLike,
    heading_after: tuple[ArrayLike, ArrayLike],
    centrifugal: ArrayLike = 0.0,
) -> Load:
    """Answer which way and how hard the belt pulls a pulley and its shaft.

    F = (T_after − Fc) h_after − (T_before − Fc) h_before

    Parameters
    ----------
    pull_before : array, shape (...) [N]
        In the span before the pulley, in the order of the run.
    heading_before : pair of arrays, shape (...) [1]
        Unit heading (x, y) of that span, in the order of the run.
    pull_after : array, shape (...) [N]
    heading_after : pair of arrays, shape (...) [1]
    centrifugal : array, shape (...) [N]
        The moving belt needs it to turn round the pulley, so the shaft does not feel it.

    Returns
    -------
    load : Load, shape (...) [N]

    Range of validity: steady running, whichever way the belt travels along the run.
    Source: statics and momentum.

    Examples
    --------
    >>> load = shaft_load(100.0, (-1.0, 0.0), 300.0, (1.0, 0.0))
    >>> float(load.x), float(load.y)
    (400.0, 0.0)
    """
    before = np.asarray(pull_before) - centrifugal
    after = np.asarray(pull_after) - centrifugal
    return Load(
        x=after * heading_after[0] - before * heading_before[0],
        y=after * heading_after[1] - before * heading_before[1],
    )
