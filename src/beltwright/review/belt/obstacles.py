"""The parts in a belt's way as outlines in its plane, those of as many corners side by side."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

import numpy as np

from beltwright.build.shop import Obstacle
from beltwright.physics.arrays import Array
from beltwright.physics.outline import Outline
from beltwright.quantity import Quantity
from beltwright.review.case import Case

Plane = Literal["upright", "cross"]

NO_END = 1.0e3
"""A part whose height is not written stands from far below to far above the machine [m]."""


class PartGroup(NamedTuple):
    """Parts of as many corners, worked out together.

    names    of the parts
    outline  corners on the first axis, parts on the second, candidates on the third
    """

    names: tuple[str, ...]
    outline: Outline

    def as_written(self) -> Outline:
        """The outlines in the build as written."""
        whole = self.outline
        low, high = np.asarray(whole.low), np.asarray(whole.high)
        if whole.x.shape[-1] == whole.y.shape[-1] == low.shape[-1] == high.shape[-1] == 1:
            return whole
        return Outline(whole.x[..., :1], whole.y[..., :1], low[..., :1], high[..., :1])


def grouped_parts(case: Case, plane: Plane) -> tuple[PartGroup, ...]:
    """All parts that a belt of a plane may touch."""
    parts = case.build.obstacle
    return case.once(("grouped_parts", plane), lambda: grouped(case, plane, parts, len(parts)))


def outline_of(case: Case, plane: Plane, part: Obstacle) -> Outline:
    """A part's outline in the plane of a belt, and what it fills across that plane.

    Where the shafts lie across the machine the belt is seen from the side: the part is then the
    box between its ends and its heights, and what it fills across is what it fills sideways.
    """
    x = _stacked([case.si(corner[0]) for corner in part.outline])
    y = _stacked([case.si(corner[1]) for corner in part.outline])
    if plane == "cross":
        low, high = _si(case, part.from_height, 0.0), _si(case, part.to_height, NO_END)
        near, far = x.min(axis=0), x.max(axis=0)
        return Outline(
            _stacked([near, far, far, near]),
            _stacked([low, low, high, high]),
            y.min(axis=0),
            y.max(axis=0),
        )
    return Outline(x, y, _si(case, part.from_height, -NO_END), _si(case, part.to_height, NO_END))


def grouped(
    case: Case, plane: Plane, parts: Iterable[Obstacle], most: int
) -> tuple[PartGroup, ...]:
    """Some parts, at most so many worked out together."""
    alike: dict[int, dict[str, Outline]] = {}
    for part in parts:
        outline = outline_of(case, plane, part)
        alike.setdefault(len(outline.x), {})[part.name] = outline
    return tuple(
        PartGroup(tuple(some), _beside([group[name] for name in some]))
        for group in alike.values()
        for some in _at_most(list(group), most)
    )


def _at_most(names: Sequence[str], most: int) -> Iterator[Sequence[str]]:
    for start in range(0, len(names), most):
        yield names[start : start + most]


def _beside(outlines: Sequence[Outline]) -> Outline:
    return Outline(
        np.stack(np.broadcast_arrays(*(outline.x for outline in outlines)), axis=1),
        np.stack(np.broadcast_arrays(*(outline.y for outline in outlines)), axis=1),
        _stacked([np.asarray(outline.low) for outline in outlines]),
        _stacked([np.asarray(outline.high) for outline in outlines]),
    )


def _si(case: Case, quantity: Quantity | None, otherwise: float) -> Array:
    return np.full(1, otherwise) if quantity is None else case.si(quantity)


def _stacked(rows: Sequence[Array]) -> Array:
    return np.stack(np.broadcast_arrays(*rows))
