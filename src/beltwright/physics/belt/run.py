"""The pulleys that a belt goes round, in their order."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike


@dataclass(frozen=True)
class Run:
    """Pulleys in the order in which the belt goes round them, in either sense.

    Each entry broadcasts over the candidates; plain floats are welcome.

    Attributes
    ----------
    x : sequence of n arrays, shape (...) [m]
        Centre of each pulley.
    y : sequence of n arrays, shape (...) [m]
        Centre of each pulley.
    radius : sequence of n arrays, shape (...) [m]
        Radius of the belt's pitch line on each pulley.
    side : sequence of n integers [1]
        +1 for a pulley inside the loop, -1 for one that runs on the belt's back.
    """

    x: Sequence[ArrayLike]
    y: Sequence[ArrayLike]
    radius: Sequence[ArrayLike]
    side: Sequence[int]

    def __post_init__(self) -> None:
        count = len(self.side)
        if count < 2:
            raise ValueError("a belt needs at least two pulleys")
        if not len(self.x) == len(self.y) == len(self.radius) == count:
            raise ValueError("x, y, radius and side need one entry for each pulley")
        if any(side not in (-1, 1) for side in self.side):
            raise ValueError("side is +1 (inside the loop) or -1 (on the belt's back)")

    def __len__(self) -> int:
        return len(self.side)

    def moved(self, pulley: int, x: ArrayLike, y: ArrayLike) -> "Run":
        """Return the run with one pulley's centre at (x, y) [m]."""
        return replace(self, x=_swapped(self.x, pulley, x), y=_swapped(self.y, pulley, y))

    def taken(self, shape: tuple[int, ...], index: NDArray[np.intp]) -> "Run":
        """Return the run of a few candidates out of all."""
        return Run(
            [taken(value, shape, index) for value in self.x],
            [taken(value, shape, index) for value in self.y],
            [taken(value, shape, index) for value in self.radius],
            self.side,
        )

    def without(self, pulley: int) -> "Run":
        """Return the run as it is when the belt leaves this pulley out."""
        keep = [i for i in range(len(self)) if i != pulley]
        return Run(
            [self.x[i] for i in keep],
            [self.y[i] for i in keep],
            [self.radius[i] for i in keep],
            [self.side[i] for i in keep],
        )


def signed_radius(run: Run, pulley: int, sense: ArrayLike) -> ArrayLike:
    """Give a pulley's radius the sign of the way it turns the belt.

    Parameters
    ----------
    run : Run [m]
        The pulleys.
    pulley : int [1]
        Place in the run.
    sense : array, shape (...) [1]
        +1 counter-clockwise, -1 clockwise.

    Returns
    -------
    array, shape (...) [m]
        Positive where the belt turns counter-clockwise round the pulley.

    Notes
    -----
    Range of validity: any run.

    Source: definition.

    Examples
    --------
    >>> float(signed_radius(Run([0.0, 1.0], [0.0, 0.0], [0.1, 0.2], [1, -1]), 1, 1.0))
    -0.2
    """
    return run.side[pulley] * run.radius[pulley] * sense


def taken(value: ArrayLike, shape: tuple[int, ...], index: NDArray[np.intp]) -> Array:
    """Take a few candidates out of all, leaving alone what all of them share.

    Parameters
    ----------
    value : array, shape (...) [any]
        Anything that broadcasts over the candidates.
    shape : tuple of int [1]
        Shape of all candidates.
    index : array of int, shape (k) [1]
        Which candidates, counted along the flattened shape.

    Returns
    -------
    array, shape () or (k) [as given]
        The value for those candidates.

    Notes
    -----
    Range of validity: any value.

    Source: definition.

    Examples
    --------
    >>> taken(np.array([1.0, 2.0, 4.0]), (3,), np.array([0, 2])).tolist()
    [1.0, 4.0]
    """
    whole = np.asarray(value, dtype=np.float64)
    return whole if whole.ndim == 0 else np.broadcast_to(whole, shape).reshape(-1)[index]


def _swapped(values: Sequence[ArrayLike], place: int, value: ArrayLike) -> list[ArrayLike]:
    return [value if i == place else old for i, old in enumerate(values)]
