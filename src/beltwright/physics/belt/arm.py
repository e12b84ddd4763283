"""What a fitted arm or slot has left: travel and stretch before the geometry ends."""

from enum import IntEnum
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.fault import path_faults
from beltwright.physics.belt.loop import BeltPath, length_gradient
from beltwright.physics.belt.mount import Mount
from beltwright.physics.belt.moving import MovingPulley
from beltwright.physics.belt.run import taken

HALVINGS = 20
"""Halvings of the travel that is left; its end is then known to a millionth of it."""

FITTING_SHARE = 0.015
"""Least centre travel for laying the belt on, as a share of the belt's length [1].  DIN 7753-2 as
makers' manuals repeat it, from memory; ISO 155 has its own numbers by section, not seen."""


class TravelEnd(IntEnum):
    """What ends the travel that is left."""

    NOT_FITTED = 0
    """There is no fitted position to count from."""
    STOP = 1
    """The end of the travel that was asked about."""
    TOP_OF_SWING = 2
    """The path grows no further: past here the arm runs on by itself."""
    FAULT = 3
    """The run stops being a usable loop, for example because the idler meets another pulley."""


class TakeUp(NamedTuple):
    """What is left beyond the fitted position.

    Attributes
    ----------
    travel : array, shape (...) [rad or m]
        Further travel of the mount, without sign.
    stretch : array, shape (...) [m]
        Further belt length that this travel takes up.
    end : array, shape (...) [rad or m]
        Position at which the geometry ends.
    ends_by : array of uint8, shape (...) [1]
        A value of `TravelEnd` for each candidate.
    """

    travel: Array
    stretch: Array
    end: Array
    ends_by: NDArray[np.uint8]


def take_up(position: Array, path: BeltPath, pulley: int, mount: Mount, full: ArrayLike) -> TakeUp:
    """Find how far a fitted pulley can still follow a stretching belt.

    The end is the first place between that position and `full` where the path's length no
    longer grows (dL/dp = 0) or the run has a fault, found by halving; stretch = L(end) - L(here).

    Parameters
    ----------
    position : array, shape (...) [rad or m]
        Position of the mount with the belt tight; NaN where there is none.
    path : BeltPath [m]
        The path there.
    pulley : int [1]
        Place of the movable pulley in the run.
    mount : Arm or Slot [m, rad]
        What carries it.
    full : array, shape (...) [rad or m]
        Position at the tight end of the travel.

    Returns
    -------
    TakeUp [rad or m, m]
        NaN where there is no position; 0 where the path there already has a fault.

    Notes
    -----
    Range of validity: the usable part of the travel is taken to be one piece.

    Source: own derivation; dL/dp from `belt_loop.length_gradient`.

    Examples
    --------
    >>> from beltwright.physics.belt.fit import fit_to_length
    >>> from beltwright.physics.belt.mount import Slot
    >>> from beltwright.physics.belt.run import Run
    >>> pulleys, slot = Run([0.0, 0.0], [0.0, 0.0], [1.0, 1.0], [1, 1]), Slot(0.0, 0.0, 0.0)
    >>> fitted = fit_to_length(pulleys, 1, slot, 3.0, 8.0, 10.0 + 2.0 * np.pi)
    >>> left = take_up(fitted.position, fitted.path, 1, slot, 8.0)
    >>> round(float(left.travel), 9), round(float(left.stretch), 9)
    (3.0, 6.0)
    """
    start = np.asarray(position)
    shape = np.broadcast_shapes(start.shape, np.shape(full), path.length.shape)
    start = np.broadcast_to(start, shape)
    way = np.broadcast_to(np.subtract(full, start), shape)
    moving = MovingPulley(path.run, pulley, path.sense)
    state = _state(moving, mount, start + way, way)
    fits = ~np.isnan(start)
    share, ends_by = np.ones(shape), np.where(fits, state, np.uint8(TravelEnd.NOT_FITTED))
    index = np.flatnonzero(fits & (state != TravelEnd.STOP))
    if index.size:
        share.reshape(-1)[index], ends_by.reshape(-1)[index] = _usable_share(
            MovingPulley(
                path.run.taken(shape, index),
                pulley,
                taken(path.sense, shape, index),
            ),
            mount.taken(shape, index),
            taken(start, shape, index),
            taken(way, shape, index),
        )
    end = start + share * way
    motion = mount.motion(end)
    with np.errstate(invalid="ignore", divide="ignore"):
        stretch = moving.path(motion.x, motion.y).length - path.length
    return TakeUp(np.abs(share * way), stretch, end, ends_by)


def _state(moving: MovingPulley, mount: Mount, position: Array, way: Array) -> NDArray[np.uint8]:
    """Say whether the travel still goes on at a position, or what has ended it."""
    motion = mount.motion(position)
    with np.errstate(invalid="ignore", divide="ignore"):
        path = moving.path(motion.x, motion.y)
        rising = _rate(path, moving.pulley, motion.rate_x, motion.rate_y) * way > 0.0
    return np.where(
        path_faults(path) != 0,
        TravelEnd.FAULT,
        np.where(rising, TravelEnd.STOP, TravelEnd.TOP_OF_SWING),
    ).astype(np.uint8)


def _rate(path: BeltPath, pulley: int, rate_x: Array, rate_y: Array) -> Array:
    push_x, push_y = length_gradient(path)[pulley]
    return push_x * rate_x + push_y * rate_y


def _usable_share(
    moving: MovingPulley, mount: Mount, start: Array, way: Array
) -> tuple[Array, NDArray[np.uint8]]:
    """Return the share of the way over which the travel goes on, and what ends it there."""
    low, high = np.zeros(start.shape), np.ones(start.shape)
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        goes_on = _state(moving, mount, start + middle * way, way) == TravelEnd.STOP
        low, high = np.where(goes_on, middle, low), np.where(goes_on, high, middle)
    return low, _state(moving, mount, start + high * way, way)
