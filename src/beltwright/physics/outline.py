"""The outline of a part in plan, the heights that it fills, and how far others are from both."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

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
        if axes < min(np.ndim(self.x), np.ndim(self.y)):
            return self  # its sides need not be worked out again
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

    def from_sides(self, x: ArrayLike, y: ArrayLike) -> Array:
        """How far a point is from the nearest side, with no more axes of candidates than these."""
        away = from_piece(x - self.x, y - self.y, self.edge_x, self.edge_y)
        return np.asarray(away.min(axis=-np.ndim(self.x)))

    def holds(self, x: ArrayLike, y: ArrayLike) -> NDArray[np.bool_]:
        """Whether a point lies within: a level line from it passes an odd number of sides."""
        above = self.y > y
        crossed = above != np.roll(above, -1, axis=0)
        side = (x - self.x) * self.edge_y - (y - self.y) * self.edge_x
        right = (side < 0.0) == (self.edge_y > 0.0)
        return np.asarray(np.logical_xor.reduce(crossed & right, axis=0), dtype=np.bool_)


def from_piece(
    away_x: ArrayLike, away_y: ArrayLike, along_x: ArrayLike, along_y: ArrayLike
) -> Array:
    """Find the distance of a point from a straight piece.

    Distance = |a - s l|, s = a . l / l . l held between 0 and 1.

    Parameters
    ----------
    away_x : array, shape (...) [m]
        a, from the start of the piece to the point.
    away_y : array, shape (...) [m]
    along_x : array, shape (...) [m]
        l, from the start of the piece to its end.
    along_y : array, shape (...) [m]

    Returns
    -------
    array, shape (...) [m]
        0 on the piece.

    Notes
    -----
    Range of validity: any piece; one without length is a point.

    Source: plane geometry, exact.

    Examples
    --------
    >>> [float(from_piece(x, 3.0, 2.0, 0.0)) for x in (1.0, 6.0)]
    [3.0, 5.0]
    """
    square = np.maximum(np.square(along_x) + np.square(along_y), np.finfo(np.float64).tiny)
    foot = np.multiply(away_x, along_x) + np.multiply(away_y, along_y)
    share = np.clip(foot / square, 0.0, 1.0)
    return np.asarray(np.hypot(away_x - share * along_x, away_y - share * along_y))


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
    return heights_apart(low, high, outline.low, outline.high)


def heights_apart(
    low: ArrayLike, high: ArrayLike, other_low: ArrayLike, other_high: ArrayLike
) -> Array:
    """Find how far one thing passes above or below another.

    Gap = max(0, other's low - high, low - other's high).

    Parameters
    ----------
    low : array, shape (...) [m]
        Lowest height that the one fills.
    high : array, shape (...) [m]
        Highest height that it fills.
    other_low : array, shape (...) [m]
        The same of the other.
    other_high : array, shape (...) [m]

    Returns
    -------
    array, shape (...) [m]
        0 where the heights overlap.

    Notes
    -----
    Range of validity: flat undersides and tops; what fills all heights has infinite ones.

    Source: definition.

    Examples
    --------
    >>> round(float(heights_apart(0.33, 0.35, 0.36, 0.42)), 3)
    0.01
    """
    return np.maximum(0.0, np.maximum(np.subtract(other_low, high), np.subtract(low, other_high)))


def gap_in_space(plan: ArrayLike, over: ArrayLike) -> Array:
    """Find the gap of two upright things from their gap in the plan and the one across it.

    Gap = sqrt(plan^2 + over^2), plan at least 0; the gap in the plan where heights overlap.

    Parameters
    ----------
    plan : array, shape (...) [m]
        Gap in the plan, negative where they overlap there.
    over : array, shape (...) [m]
        How far one passes above or below the other, 0 where heights overlap.

    Returns
    -------
    array, shape (...) [m]
        Negative where they overlap.

    Notes
    -----
    Range of validity: things that stand straight up with flat undersides and tops.

    Source: Pythagoras, exact.

    Examples
    --------
    >>> [float(gap_in_space(plan, over)) for plan, over in ((3.0, 4.0), (-1.0, 4.0), (-1.0, 0.0))]
    [5.0, 4.0, -1.0]
    """
    apart = np.maximum(plan, 0.0)
    return np.where(np.greater(over, 0.0), np.sqrt(apart * apart + np.square(over)), plan)


def _over(corners: Array, axes: int) -> Array:
    missing = max(axes - (np.ndim(corners) - 1), 0)
    return np.reshape(corners, corners.shape[:1] + (1,) * missing + corners.shape[1:])
