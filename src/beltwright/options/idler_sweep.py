"""A grid of places for one more idler, with every belt that is sold near the present one."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from beltwright.options.belt_limits import reach_of, takes_up
from beltwright.options.idler_place import BLOCK, Places
from beltwright.options.idler_region import Grid, grid_over
from beltwright.physics.arrays import Array
from beltwright.review.case import NotKnownError
from beltwright.tables.belts import pitch_length

Truth = NDArray[np.bool_]

Watch = Callable[[float], None]
"""Told the share that is done [1]; raises to end it early."""


@dataclass
class Nearest:
    """What stops the place that comes nearest to being allowed: the fewest limits, broken least."""

    count: int = 1_000_000
    excess: float = np.inf
    titles: tuple[str, ...] = ()

    def offer(self, count: NDArray[np.intp], excess: Array, titles: dict[str, Truth]) -> None:
        """Take the best of some places, if it is better than all before."""
        place = int(np.lexsort((excess, count))[0])
        found = (int(count[place]), float(excess[place]))
        if found < (self.count, self.excess):
            self.count, self.excess = found
            self.titles = tuple(title for title, by in titles.items() if by[place])


@dataclass(frozen=True)
class Sweep:
    """What a grid says.

    grid     its points
    kept     for every belt and point, whether it is allowed, shape (belts, y, x)
    mends    which of the findings that are broken now keep their limit at these places
    nearest  what stops the others
    """

    grid: Grid
    kept: Truth
    mends: frozenset[str]
    nearest: Nearest


@dataclass
class Sweeping:
    """Goes through a grid.

    places  which places are allowed, and the belts
    hoped   findings that are broken now and need not be kept; a place that mends more of them
            goes before others
    """

    places: Places
    hoped: frozenset[str]
    nearest: Nearest = field(default_factory=Nearest)

    @cached_property
    def stricter(self) -> Places:
        """The same places, held to what is broken now as well."""
        held = self.places
        return Places(held.build, held.belt, held.idler, held.lengths, wanted=self.hoped)

    def over(self, grid: Grid, watch: Watch) -> Sweep:
        """The whole grid with all belts."""
        x, y = (axis.ravel() for axis in np.meshgrid(grid.x, grid.y))
        lengths = np.array(self.places.lengths)
        belts, points = self._pairs(x, y, lengths)
        kept = np.zeros(len(belts), dtype=bool)
        missed = {id_: np.zeros(len(belts), dtype=bool) for id_ in sorted(self.hoped)}
        for start in range(0, len(belts), BLOCK):
            watch(start / len(belts))
            block = slice(start, start + BLOCK)
            at = (x[points[block]], y[points[block]], lengths[belts[block]])
            kept[block] = self._judge(*at, {id_: by[block] for id_, by in missed.items()})
        kept, mends = _mending_most(kept, missed)
        whole = np.zeros((len(lengths), len(x)), dtype=bool)
        whole[belts, points] = kept
        shape = (len(lengths), len(grid.y), len(grid.x))
        return Sweep(grid, whole.reshape(shape), mends, self.nearest)

    def _pairs(
        self, x: Array, y: Array, lengths: Array
    ) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        """The belts and points that go together as far as the arm's reach tells."""
        build, belt = self.places.build, self.places.belt
        fits = np.ones((len(lengths), len(x)), dtype=bool)
        if takes_up(build, belt):
            pitch = np.asarray(pitch_length(belt.section, lengths, belt.length_is))[:, np.newaxis]
            try:
                reach = reach_of(belt, self.places.case(x, y, lengths[:1]))
                fits = (pitch >= reach.shortest) & (pitch <= reach.longest)
            except NotKnownError:
                pass
        belts, points = np.nonzero(fits)
        return belts, points

    def _judge(self, x: Array, y: Array, length: Array, missed: dict[str, Truth]) -> Truth:
        """Whether each is allowed; notes which of the findings that are hoped for stay broken."""
        kept = self.places.runs(x, y, length)
        left = np.flatnonzero(kept)
        if not left.size:
            return kept
        judged = self.stricter.judged(x[left], y[left], length[left])
        broken = {each.id: np.broadcast_to(each.by, len(left)) for each in judged.broken}
        must = {id_: by for id_, by in broken.items() if id_ not in self.hoped}
        hoped = {id_: by for id_, by in broken.items() if id_ in self.hoped}
        for id_, by in hoped.items():
            missed[id_][left] = by
        stopped = _any(must, len(left))
        doubtful = np.flatnonzero(_any(hoped, len(left)) & ~stopped)
        if doubtful.size:
            at = left[doubtful]
            stopped[doubtful] = ~self.places.passes(x[at], y[at], length[at])
        if stopped.any():
            titles = {each.id: each.title for each in judged.broken}
            self._note(stopped, must or hoped, titles, np.broadcast_to(judged.excess, len(left)))
        kept[left] = ~stopped
        return kept

    def _note(
        self, stopped: Truth, broken: dict[str, Truth], titles: dict[str, str], excess: Array
    ) -> None:
        """Remember what stops the place that comes nearest so far."""
        these = np.flatnonzero(stopped)
        by = {titles[id_]: truth[these] for id_, truth in broken.items()}
        count = np.sum(list(by.values()), axis=0)
        if count.any():
            some = np.flatnonzero(count)
            by = {title: truth[some] for title, truth in by.items()}
            self.nearest.offer(count[some], excess[these][some], by)


def _any(truths: dict[str, Truth], count: int) -> Truth:
    none = np.zeros(count, dtype=bool)
    found: Truth = np.logical_or.reduce([none, *truths.values()])
    return found


def _mending_most(kept: Truth, missed: dict[str, Truth]) -> tuple[Truth, frozenset[str]]:
    """The allowed places that mend the same, the most that any does, and what they mend."""
    if not kept.any() or not missed:
        return kept, frozenset()
    ids = list(missed)
    stays = np.stack([missed[id_] for id_ in ids])
    count = np.where(kept, stays.sum(axis=0), len(ids) + 1)
    best = np.flatnonzero(count == count.min())
    patterns, counts = np.unique(stays[:, best], axis=1, return_counts=True)
    pattern = patterns[:, int(counts.argmax())]
    mends = frozenset(id_ for id_, stay in zip(ids, pattern, strict=True) if not stay)
    return kept & ~stays[~pattern].any(axis=0), mends


def most_room(kept: Truth) -> tuple[float, tuple[int, int]]:
    """How far the allowed point that is farthest from one that is not is from it [steps], and its
    place in the grid of one belt."""
    from scipy.ndimage import distance_transform_edt

    room = np.asarray(distance_transform_edt(np.pad(kept, 1)), dtype=float)[1:-1, 1:-1]
    row, column = np.unravel_index(int(room.argmax()), room.shape)
    return float(room[row, column]), (int(row), int(column))


def finer(kept: Truth, grid: Grid, points: int, finest: float) -> Grid:
    """A grid of so many points over the piece with the most room, a step wider, but none finer
    than that [m]."""
    from scipy.ndimage import label

    named, _ = label(kept, structure=np.ones((3, 3)))
    rows, columns = np.nonzero(named == named[most_room(kept)[1]])
    low = (float(grid.x[columns.min()] - grid.step), float(grid.y[rows.min()] - grid.step))
    high = (float(grid.x[columns.max()] + grid.step), float(grid.y[rows.max()] + grid.step))
    return grid_over(
        low, high, max(float(np.sqrt(np.prod(np.subtract(high, low)) / points)), finest)
    )
