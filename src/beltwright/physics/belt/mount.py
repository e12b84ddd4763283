"""What carries a pulley that can be moved: a swinging arm or a straight slot.

Both answer the same three questions at a position (an angle of the arm, a place along the slot):
where the pulley's centre is, and how it moves and turns off its line as the position grows.
"""

from typing import NamedTuple, Protocol, Self

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.run import taken


class Motion(NamedTuple):
    """A pulley's centre and its derivatives by the position of its mount.

    Attributes
    ----------
    x, y : array, shape (...) [m]
        Centre.
    rate_x, rate_y : array, shape (...) [m/rad or 1]
        First derivative.
    bend_x, bend_y : array, shape (...) [m/rad² or 1/m]
        Second derivative.
    """

    x: Array
    y: Array
    rate_x: Array
    rate_y: Array
    bend_x: Array
    bend_y: Array


class Mount(Protocol):
    """What can carry a pulley."""

    def motion(self, position: ArrayLike) -> Motion:
        """Return the centre and its derivatives at a position [rad or m]."""
        ...

    def taken(self, shape: tuple[int, ...], index: NDArray[np.intp]) -> Self:
        """Return the mount of a few candidates out of all."""
        ...


class Arm(NamedTuple):
    """An arm that swings about a pivot.

    Attributes
    ----------
    pivot_x, pivot_y : array, shape (...) [m]
        Centre of the pivot bolt.
    length : array, shape (...) [m]
        From the pivot to the idler's centre.
    """

    pivot_x: ArrayLike
    pivot_y: ArrayLike
    length: ArrayLike

    def motion(self, position: ArrayLike) -> Motion:
        """Return the idler's motion at an angle from the x axis, counter-clockwise [rad]."""
        along = np.asarray(self.length * np.cos(position))
        across = np.asarray(self.length * np.sin(position))
        return Motion(self.pivot_x + along, self.pivot_y + across, -across, along, -along, -across)

    def taken(self, shape: tuple[int, ...], index: NDArray[np.intp]) -> "Arm":
        """Return the arm of a few candidates out of all."""
        return Arm(
            taken(self.pivot_x, shape, index),
            taken(self.pivot_y, shape, index),
            taken(self.length, shape, index),
        )


class Slot(NamedTuple):
    """A straight slot along which a pulley's centre is moved and bolted down.

    Attributes
    ----------
    x, y : array, shape (...) [m]
        The point from which the place along the slot is counted.
    direction : array, shape (...) [rad]
        Direction of the slot from the x axis, counter-clockwise.
    """

    x: ArrayLike
    y: ArrayLike
    direction: ArrayLike

    def motion(self, position: ArrayLike) -> Motion:
        """Return the pulley's motion at a place along the slot [m]."""
        ux, uy = np.asarray(np.cos(self.direction)), np.asarray(np.sin(self.direction))
        still = np.zeros(())
        return Motion(self.x + position * ux, self.y + position * uy, ux, uy, still, still)

    def taken(self, shape: tuple[int, ...], index: NDArray[np.intp]) -> "Slot":
        """Return the slot of a few candidates out of all."""
        return Slot(
            taken(self.x, shape, index),
            taken(self.y, shape, index),
            taken(self.direction, shape, index),
        )
