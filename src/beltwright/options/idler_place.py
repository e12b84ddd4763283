"""Where an idler may stand: every place that the review lets pass, and the most forgiving one."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from beltwright.build.driveline import Belt, Idler
from beltwright.build.errors import BuildFileError
from beltwright.build.model import Build
from beltwright.options.belt_limits import belt_limits
from beltwright.options.family import Axis, Family
from beltwright.options.idler_region import Area, grid_over, traced
from beltwright.options.limit import held_in
from beltwright.options.referee import Judged, Referee
from beltwright.physics.arrays import Array
from beltwright.quantity import Quantity
from beltwright.review.case import Case, NotKnownError

STEP = 0.004
"""Step of the grid that looks for the region; a strip that is narrower may slip through it [m]."""

FINER = 0.5
"""Share of that step at which it is looked for once more where nothing was found [1]."""

ROOM = 0.15
"""How far past the pulleys of the run it is looked for [m]."""

BLOCK = 8_192
"""Places that are worked out side by side."""


@dataclass(frozen=True)
class IdlerMap:
    """Where the centre of an idler (or the pivot of its arm) may stand.

    idler    name of the idler
    moves    "centre" of an idler that stands still, "pivot" of one on an arm
    areas    the pieces of the allowed region [m], largest first
    best     the place that forgives the largest error of drilling [m]; None where none is allowed
    forgives how far off the best place still is allowed [m]
    lengths  the belts that run with the idler at its best place [m], as the build's own is marked
    missed   width of the strips that may be missing [m]
    """

    idler: str
    moves: Literal["centre", "pivot"]
    areas: tuple[Area, ...]
    best: tuple[float, float] | None
    forgives: float
    lengths: tuple[float, ...]
    missed: float


@dataclass(frozen=True)
class Places:
    """Says which places of an idler the review lets pass.

    build    the build with the idler in it
    belt     the belt that it runs on
    idler    name of the idler
    lengths  belt lengths that may be bought [m], as marked the way the build's own is
    wanted   findings whose limits a place has to keep beside those that every place keeps
    """

    build: Build
    belt: Belt
    idler: str
    lengths: tuple[float, ...]
    wanted: frozenset[str] = frozenset()

    @cached_property
    def moved(self) -> tuple[Quantity, Quantity]:
        """The two coordinates that are moved."""
        found = next(idler for idler in self.build.idler if idler.name == self.idler)
        return found.at if found.at is not None else _pivot(found)

    @cached_property
    def referee(self) -> Referee:
        """The findings that moving the idler can change."""
        keys = (*(quantity.key for quantity in self.moved), self.belt.length.key)
        axis = Axis(
            0, np.zeros(1, np.int32), {k: np.zeros(1) for k in keys}, np.zeros(1), np.zeros(1)
        )
        return Referee(
            Family(self.build, (axis,)), strict=strict_ids(self.build, self.belt) | self.wanted
        )

    def allowed(self, x: Array, y: Array) -> NDArray[np.bool_]:
        """Whether a belt that is sold runs there and nothing stops it."""
        found = np.zeros(len(x), dtype=bool)
        for length in self.lengths:
            open_ = np.flatnonzero(~found)
            for start in range(0, len(open_), BLOCK):
                block = open_[start : start + BLOCK]
                found[block] = self.passes(x[block], y[block], np.array([length]))
        return found

    def lengths_at(self, place: tuple[float, float] | None) -> tuple[float, ...]:
        """The belts that run with the idler at one place [m]."""
        if place is None:
            return ()
        x, y = np.array([place[0]]), np.array([place[1]])
        return tuple(length for length in self.lengths if self.passes(x, y, np.array([length]))[0])

    def case(self, x: Array, y: Array, length: Array) -> Case:
        """The build with the idler at these places and a belt of one length, or of one each."""
        replaced = {
            self.moved[0].key: x,
            self.moved[1].key: y,
            self.belt.length.key: length,
        }
        return Case(self.build, replaced=replaced)

    def passes(self, x: Array, y: Array, length: Array) -> NDArray[np.bool_]:
        """Whether nothing stops the belt there."""
        kept = self.runs(x, y, length)
        left = np.flatnonzero(kept)
        if left.size:
            for each in self.judged(x[left], y[left], taken(length, left)).broken:
                kept[left[np.broadcast_to(each.by, len(left))]] = False
        return kept

    def runs(self, x: Array, y: Array, length: Array) -> NDArray[np.bool_]:
        """Whether the belt goes round there, whatever else the review says."""
        kept = np.ones(len(x), dtype=bool)
        case = self.case(x, y, length)
        for limit in belt_limits(self.build):
            try:
                kept &= held_in(limit, case).kept()
            except NotKnownError:
                continue
        return kept

    def judged(self, x: Array, y: Array, length: Array) -> Judged:
        """What the review says of the belt there."""
        return self.referee.judge(self.case(x, y, length))


def taken(length: Array, places: NDArray[np.intp]) -> Array:
    """The lengths at some places; one that is for all stays one."""
    return length if length.size == 1 else length[places]


def idler_map(build: Build, idler: str, sold: Sequence[float] = (), step: float = STEP) -> IdlerMap:
    """The map of an idler's places for the build's own belt, or for any of the `sold` lengths.

    `sold` holds lengths [m] as marked the way the build's own belt is.
    """
    belt = next(belt for belt in build.belt if idler in belt.run)
    places = Places(build, belt, idler, tuple(sold) or (belt.length.value,))
    low, high = window(build, belt)
    areas = traced(grid_over(low, high, step), places.allowed)
    if not areas:
        step *= FINER
        areas = traced(grid_over(low, high, step), places.allowed)
    best, forgives = _most_forgiving(areas)
    found = next(each for each in build.idler if each.name == idler)
    return IdlerMap(
        idler=idler,
        moves="centre" if found.arm is None else "pivot",
        areas=areas,
        best=best,
        forgives=forgives,
        lengths=places.lengths_at(best),
        missed=step,
    )


def places_of(build: Build, idler: str) -> IdlerMap:
    """The map of an idler that the builder named, for the build's own belt.

    Raises BuildFileError where no belt runs on an idler of that name.
    """
    known = [each.name for each in build.idler if any(each.name in b.run for b in build.belt)]
    if idler not in known:
        there = ", ".join(repr(name) for name in known) or "none"
        raise BuildFileError(f"No belt runs on an idler called {idler!r}; there are: {there}.")
    return idler_map(build, idler)


def strict_ids(build: Build, belt: Belt) -> frozenset[str]:
    """The findings whose limits a place has to keep in full: the gaps wanted, and the grip."""
    gaps = (f"clearance.{belt.name}.{part.name}" for part in build.obstacle)
    own = (f"clearance.{belt.name}.itself", f"clearance.{belt.name}.wheels")
    return frozenset({*gaps, *own, f"belt.{belt.name}.grip"})


def _pivot(idler: Idler) -> tuple[Quantity, Quantity]:
    assert idler.arm is not None
    return idler.arm.pivot


def centres(build: Build, belt: Belt) -> Array:
    """Where the pulleys and idlers of a run stand, a row each [m]."""
    shafts = {shaft.name: shaft.at for shaft in build.shaft}
    places = {pulley.name: shafts[pulley.shaft] for pulley in build.pulley}
    for idler in build.idler:
        places[idler.name] = idler.at if idler.at is not None else _pivot(idler)
    return np.array([[quantity.value for quantity in places[name]] for name in belt.run])


def window(build: Build, belt: Belt) -> tuple[tuple[float, float], tuple[float, float]]:
    """The rectangle in which places are looked for [m]."""
    stand = centres(build, belt)
    low, high = stand.min(axis=0) - ROOM, stand.max(axis=0) + ROOM
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def _most_forgiving(areas: Sequence[Area]) -> tuple[tuple[float, float] | None, float]:
    """The middle of the largest circle that lies in a piece of the region, and its radius."""
    from shapely import Polygon, maximum_inscribed_circle

    best, forgives = None, 0.0
    for area in areas:
        polygon = Polygon(area.outline, area.holes)
        if not polygon.is_valid:
            polygon = polygon.buffer(0)
        line = maximum_inscribed_circle(polygon, tolerance=1e-5)
        if line.length > forgives:
            (x, y), _ = line.coords
            best, forgives = (float(x), float(y)), float(line.length)
    return best, forgives
