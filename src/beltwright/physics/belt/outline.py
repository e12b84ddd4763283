"""What stands in the belt's way: the outline of a part in plan, and the heights that it fills."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike


@dataclass(frozen=True)
class Outline:
    """A closed outline with straight sides, in either sense, corners on the first axis.

    Attributes
    ----------
    x, y : array, shape (corners, ...) [m]
        Corners in order; the first is not repeated.
    low, high : array, shape (...) [m]
        Heights between which the part stands.
    """

    x: Array
    y: Array
    low: ArrayLike
    high: ArrayLike

    def __post_init__(self) -> None:
        if np.ndim(self.x) < 1 or np.shape(self.x)[0] != np.shape(self.y)[0]:
            raise ValueError("x and y need the corners on their first axis")
        if np.shape(self.x)[0] < 3:
            raise ValueError("an outline needs at least three corners")

    def over(self, axes: int) -> "Outline":
        """Return the outline ready to be set against values with this many axes of candidates."""
        return Outline(_over(self.x, axes), _over(self.y, axes), self.low, self.high)

    @cached_property
    def edge_x(self) -> Array:
        """From each corner to the next [m]."""
        return np.roll(self.x, -1, axis=0) - self.x

    @cached_property
    def edge_y(self) -> Array:
        """From each corner to the next [m]."""
        return np.roll(self.y, -1, axis=0) - self.y

    @cached_property
    def edge_square(self) -> Array:
        """Squared length of each side, never quite zero [m²]."""
        square = self.edge_x * self.edge_x + self.edge_y * self.edge_y
        return np.maximum(square, np.finfo(np.float64).tiny)


def height_gap(low: ArrayLike, high: ArrayLike, outline: Outline) -> Array:
    """Find how far a belt passes above or below a part.

    Gap = max(0, part's low - belt's high, belt's low - part's high).

    Parameters
    ----------
    low : array, shape (...) [m]
        Lowest height that the belt fills, at its lowest pulley.
    high : array, shape (...) [m]
        Highest height that it fills, at its highest pulley.
    outline : Outline [m]
        The part.

    Returns
    -------
    array, shape (...) [m]
        0 where the heights overlap.

    Notes
    -----
    Range of validity: a belt between pulleys of different heights is taken to fill all heights
    between them.

    Source: definition.

    Examples
    --------
    >>> square = np.array([0.0, 0.1, 0.1, 0.0]), np.array([0.0, 0.0, 0.1, 0.1])
    >>> round(float(height_gap(0.33, 0.35, Outline(*square, 0.36, 0.42))), 3)
    0.01
    """
    above, below = np.subtract(outline.low, high), np.subtract(low, outline.high)
    return np.maximum(0.0, np.maximum(above, below))


def _over(corners: Array, axes: int) -> Array:
    missing = max(axes - (np.ndim(corners) - 1), 0)
    return np.reshape(corners, corners.shape[:1] + (1,) * missing + corners.shape[1:])
