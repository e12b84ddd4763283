"""The pulleys that a belt goes round, in their order."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from beltwright.physics.arrays import ArrayLike


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


def _swapped(values: Sequence[ArrayLike], place: int, value: ArrayLike) -> list[ArrayLike]:
    return [value if i == place else old for i, old in enumerate(values)]
