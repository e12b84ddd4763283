"""Which parts a belt may come near whatever the tolerances are, as numbers.

The gap to a part that stands far off is told as the build is written: hundreds of parts are worked
out in no time so, and the samples are kept for those few that the belt may touch.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from beltwright.build.shop import Obstacle
from beltwright.physics.arrays import Array
from beltwright.physics.belt.band import Band
from beltwright.physics.belt.clearance import plan_gap
from beltwright.physics.belt.loop import BeltPath
from beltwright.physics.outline import gap_in_space, height_gap
from beltwright.quantity import Quantity
from beltwright.review.belt.obstacles import PartGroup

FAR = 0.03
"""A part that keeps this gap in every sample is told as the build is written [m]."""


class Strayed(NamedTuple):
    """A belt's band as written, and how far the samples take it from there.

    band     as written
    outer    heights between which it runs in some sample [m]
    inner    heights that it fills in every sample [m]
    stray    how far any point of it strays [m]
    bow      how far its spans bow out at most [m]
    """

    band: Band
    outer: tuple[float, float]
    inner: tuple[float, float]
    stray: float
    bow: float


class NearParts(NamedTuple):
    """The names of the parts that need the samples.

    beside  those that the belt may come near, in drive or at rest
    struck  those that the loose belt may reach first, all its slack beside them
    """

    beside: frozenset[str]
    struck: frozenset[str]


def near_parts(
    parts: Sequence[Obstacle],
    groups: Sequence[PartGroup],
    driving: Sequence[Strayed],
    loose: Sequence[Strayed],
) -> NearParts:
    """Which of the parts, grouped as they are written, need the samples."""
    named = {part.name: part for part in parts}
    beside: set[str] = set()
    least: dict[str, float] = {}
    most: dict[str, float] = {}
    for group in groups:
        strays = np.array([part_stray(named[name]) for name in group.names])
        kept = np.array([_kept_from(named[name]) for name in group.names])
        nearest = np.full(len(strays), np.inf)
        for belt, bow in (
            *((each, each.bow) for each in driving),
            *((each, 0.0) for each in loose),
        ):
            nearest = np.minimum(nearest, surely_apart(belt, group, strays, bow))
        beside.update(np.array(group.names)[nearest <= kept].tolist())
        for belt in loose:
            _bound(least, group.names, surely_apart(belt, group, strays, belt.bow), min)
            _bound(most, group.names, _at_most_apart(belt, group, strays), max)
    bound = max(min(most.values(), default=0.0), 0.0)
    return NearParts(
        frozenset(beside), frozenset(name for name, low in least.items() if low <= bound)
    )


def stray_of(path: BeltPath) -> float:
    """How far any point of a belt strays from where it is as written [m].

    A point of a span strays no further than its ends do, one of an arc no further than the arc's
    ends and twice what its circle does; infinite where there is no path as written.
    """
    if not np.isfinite(np.atleast_1d(path.length)[0]):
        return np.inf
    ends = max(
        max(off_place(span.start_x, span.start_y), off_place(span.end_x, span.end_y))
        for span in path.spans
    )
    run = path.run
    circles = max(
        off_place(x, y) + off_place(radius, 0.0)
        for x, y, radius in zip(run.x, run.y, run.radius, strict=True)
    )
    return ends + 2.0 * circles


def surely_apart(belt: Strayed, group: PartGroup, strays: Array, bow: float) -> Array:
    """The gap that each part of a group keeps from a belt in every sample [m].

    `group` is as written, `strays` how far its parts stray [m], `bow` how far the spans bow out.
    """
    plan = _plan(belt, group) - belt.stray - strays - bow
    above = np.maximum(_over(belt.outer, group) - strays, 0.0)
    return gap_in_space(plan, above)


def _at_most_apart(belt: Strayed, group: PartGroup, strays: Array) -> Array:
    """A gap that no sample goes over, the belt at rest [m]."""
    plan = np.maximum(_plan(belt, group), 0.0) + belt.stray + strays
    return np.asarray(np.hypot(plan, _over(belt.inner, group) + strays))


def _plan(belt: Strayed, group: PartGroup) -> Array:
    return plan_gap(belt.band, group.outline)[:, 0]


def _over(heights: tuple[float, float], group: PartGroup) -> Array:
    over = height_gap(*heights, group.outline)
    return np.broadcast_to(over, (len(group.names), 1))[:, 0]


def _bound(
    bounds: dict[str, float],
    names: Sequence[str],
    values: Array,
    choose: Callable[[float, float], float],
) -> None:
    """Widen the bound of each part by that of one more belt."""
    for name, value in zip(names, values.tolist(), strict=True):
        bounds[name] = choose(bounds.get(name, value), value)


def part_stray(part: Obstacle) -> float:
    """How far any point of a part strays from where it is written [m]."""
    corners = max(float(np.hypot(_widest(x), _widest(y))) for x, y in part.outline)
    heights = (part.from_height, part.to_height)
    return corners + max((_widest(each) for each in heights if each is not None), default=0.0)


def _kept_from(part: Obstacle) -> float:
    """The gap from which a part needs no samples: well over the one that is wanted [m]."""
    return FAR if part.gap is None else max(FAR, 2.0 * part.gap.high)


def off_place(x: object, y: object) -> float:
    """The furthest that a point strays from its place as written, whatever the samples [m]."""
    across, up = (np.atleast_1d(np.asarray(value, dtype=float)) for value in (x, y))
    away = np.hypot(across - across[0], up - up[0])
    return float(np.max(away, where=np.isfinite(away), initial=0.0))


def _widest(quantity: Quantity) -> float:
    return max(quantity.minus, quantity.plus)
