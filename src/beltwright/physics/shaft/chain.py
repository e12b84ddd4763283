"""Roller chain after the gearbox: pull, speed, and how far it stays from breaking."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def sprocket_pitch_diameter(pitch: ArrayLike, teeth: ArrayLike) -> Array:
    """Answer the diameter on which the rollers of a chain run.

    D = p / sin(π/z).

    Parameters
    ----------
    pitch : array, shape (...) [m]
    teeth : array, shape (...) [1]

    Returns
    -------
    diameter : array, shape (...) [m]

    Range of validity: exact.
    Source: ISO 606, clause on sprockets.

    Examples
    --------
    >>> round(float(sprocket_pitch_diameter(0.0127, 17)) * 1e3, 2)
    69.12
    """
    angle = np.pi / np.asarray(teeth, dtype=np.float64)
    return np.asarray(np.asarray(pitch) / np.sin(angle))


def chain_speed(pitch: ArrayLike, teeth: ArrayLike, speed: ArrayLike) -> Array:
    """Answer how fast a chain runs, averaged over its links.

    v = p z n.

    Parameters
    ----------
    pitch : array, shape (...) [m]
    teeth : array, shape (...) [1]
    speed : array, shape (...) [rad/s]
        Of the sprocket that has these teeth.

    Returns
    -------
    chain_speed : array, shape (...) [m/s]

    Range of validity: exact.
    Source: kinematics.

    Examples
    --------
    >>> round(float(chain_speed(0.0127, 17, 20.0)), 4)
    0.6872
    """
    round_trip = np.asarray(pitch, dtype=np.float64) * teeth
    return np.asarray(round_trip * np.asarray(speed) / (2.0 * np.pi))


def working_pull(
    torque: ArrayLike,
    pitch_diameter: ArrayLike,
    linear_mass: ArrayLike = 0.0,
    chain_speed: ArrayLike = 0.0,
) -> Array:
    """Answer how hard the tight side of a chain is pulled.

    F = 2 T / D + m v².

    Parameters
    ----------
    torque : array, shape (...) [N·m]
        On the sprocket, at its highest: what grip or the engine allows.
    pitch_diameter : array, shape (...) [m]
    linear_mass : array, shape (...) [kg/m]
    chain_speed : array, shape (...) [m/s]

    Returns
    -------
    pull : array, shape (...) [N]

    Range of validity: slack side without pull; shocks and the swing of few teeth left out.
    Source: mechanics; ISO 10823 leaves out the same parts.

    Examples
    --------
    >>> round(float(working_pull(120.0, 0.06912)))
    3472
    """
    pull = 2.0 * np.asarray(torque, dtype=np.float64) / pitch_diameter
    return np.asarray(pull + np.asarray(linear_mass) * np.asarray(chain_speed) ** 2)


def speed_swing(teeth: ArrayLike) -> Array:
    """Answer by how much the links make the chain's speed swing each tooth.

    Δv/v = π/z (1/sin(π/z) − 1/tan(π/z)).

    Parameters
    ----------
    teeth : array, shape (...) [1]
        Of the smaller sprocket.

    Returns
    -------
    swing : array, shape (...) [1]

    Range of validity: exact; 17 teeth or more are usual, fewer than 11 run roughly.
    Source: Shigley, Mechanical Engineering Design, 8th edition, equation 17-31 (chordal variation).

    Examples
    --------
    >>> round(float(speed_swing(17)), 4)
    0.0171
    """
    angle = np.pi / np.asarray(teeth, dtype=np.float64)
    return np.asarray(angle * (1.0 / np.sin(angle) - 1.0 / np.tan(angle)))
