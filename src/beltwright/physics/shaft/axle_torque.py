"""Torque that grip lets onto the axle and the last gears, against what the donor could put on."""

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def grip_torque(wheel_load: ArrayLike, grip: ArrayLike, rolling_radius: ArrayLike) -> Array:
    """Answer the most torque that the driven wheels can take before they slip.

    T = μ W r.

    Parameters
    ----------
    wheel_load : array, shape (...) [N]
        Load on all the driven wheels together, at its highest (loaded, climbing).
    grip : array, shape (...) [1]
    rolling_radius : array, shape (...) [m]

    Returns
    -------
    torque : array, shape (...) [N·m]

    Range of validity: tyres slip as one; chains, ballast and cleats raise it.
    Source: mechanics.

    Examples
    --------
    >>> float(grip_torque(2000.0, 0.8, 0.25))
    400.0
    """
    return np.asarray(np.asarray(wheel_load, dtype=np.float64) * grip * rolling_radius)


def drive_torque(input_torque: ArrayLike, ratio: ArrayLike, efficiency: ArrayLike = 1.0) -> Array:
    """Answer the most torque that the engine can put on the axle in a gear.

    T = T1 i η.

    Parameters
    ----------
    input_torque : array, shape (...) [N·m]
    ratio : array, shape (...) [1]
        Turns of the engine for one turn of the axle.
    efficiency : array, shape (...) [1]

    Returns
    -------
    torque : array, shape (...) [N·m]

    Range of validity: belt does not slip; flywheel shocks come on top.
    Source: mechanics.

    Examples
    --------
    >>> float(drive_torque(16.0, 60.0, 0.8))
    768.0
    """
    return np.asarray(np.asarray(input_torque, dtype=np.float64) * ratio * efficiency)


def axle_torque(drive: ArrayLike, grip: ArrayLike) -> Array:
    """Answer the torque that the axle truly sees: the engine's or that of the grip.

    T = min(T drive, T grip).

    Parameters
    ----------
    drive : array, shape (...) [N·m]
    grip : array, shape (...) [N·m]

    Returns
    -------
    torque : array, shape (...) [N·m]

    Range of validity: steady pull; a dropped clutch or a wheel that lands turning goes past it.
    Source: mechanics.

    Examples
    --------
    >>> float(axle_torque(768.0, 400.0))
    400.0
    """
    return np.asarray(np.minimum(np.asarray(drive, dtype=np.float64), grip))


def against_donor(torque: ArrayLike, donor_torque: ArrayLike) -> Array:
    """Answer how many times the donor's load the axle and its last gear pair now carry.

    r = T / T donor; the tooth load of the last pair grows in the same proportion.

    Parameters
    ----------
    torque : array, shape (...) [N·m]
    donor_torque : array, shape (...) [N·m]
        What the donor's grip and engine could put on the same axle.

    Returns
    -------
    ratio : array, shape (...) [1]

    Range of validity: same axle, same last gear pair.
    Source: mechanics.

    Examples
    --------
    >>> float(against_donor(600.0, 400.0))
    1.5
    """
    return np.asarray(np.asarray(torque, dtype=np.float64) / donor_torque)
