"""From the pedal to the lining, and from the brake's shaft to the axle."""

from collections.abc import Sequence

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


def force_through_levers(
    pedal_force: ArrayLike, ratios: Sequence[ArrayLike], efficiency: ArrayLike = 1.0
) -> Array:
    """Answer the force at pad, shoe or band for a force on the pedal.

    F = F_pedal η Π i, with i = arm that is pushed / arm that pushes

    Parameters
    ----------
    pedal_force : array, shape (...) [N]
    ratios : sequence of arrays, shape (...) [1]
        One a lever, from the pedal on.
    efficiency : array, shape (...) [1]
        What cable, pins and springs leave of the force.

    Returns
    -------
    force : array, shape (...) [N]

    Range of validity: each lever near the middle of its travel, links square to it.
    Source: law of the lever.

    Examples
    --------
    >>> print(f"{force_through_levers(250.0, [4.0, 2.5], 0.8):.0f}")
    2000
    """
    return np.asarray(pedal_force * np.asarray(efficiency) * _product(ratios))


def _product(ratios: Sequence[ArrayLike]) -> Array:
    product = np.asarray(1.0)
    for ratio in ratios:
        product = product * ratio
    return product


def torque_at_axle(brake_torque: ArrayLike, reduction: ArrayLike) -> Array:
    """Answer what a brake somewhere in the driveline is worth at the axle.

    T_axle = T i. Gear losses would add to it while rolling; they are left out, on the cautious
    side.

    Parameters
    ----------
    brake_torque : array, shape (...) [N m]
    reduction : array, shape (...) [1]
        Turns of the brake's shaft for one turn of the axle.

    Returns
    -------
    torque : array, shape (...) [N m]

    Range of validity: everything between brake and tyre in mesh and whole. A gearbox in neutral,
    a thrown belt or chain, or a raised wheel on an open differential leaves no brake.
    Source: equal power.

    Examples
    --------
    >>> print(f"{torque_at_axle(28.0, 12.5):.0f}")
    350
    """
    return np.asarray(brake_torque * np.asarray(reduction))
