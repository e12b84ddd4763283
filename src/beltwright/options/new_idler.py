"""One more idler: in every span of a belt's run and on either side, with every belt near it."""

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from threading import Event
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.build.model import Build
from beltwright.build.walking import units_of
from beltwright.options.idler_offer import (
    LEAST,
    Going,
    NewIdler,
    Nowhere,
    Offer,
    is_of,
    rank,
    spoils,
    turns,
)
from beltwright.options.idler_place import IdlerMap, Places, strict_ids, window
from beltwright.options.idler_region import grid_over, stepped
from beltwright.options.idler_sweep import Sweep, Sweeping, finer, most_room
from beltwright.options.one_more_idler import (
    NearBelt,
    Wanted,
    Way,
    belts_near,
    wanted_idler,
    ways,
    with_idler,
    with_parts,
)
from beltwright.quantity import Kind, Units
from beltwright.review.belt.wheels import belt_wheels
from beltwright.review.case import Case, NotKnownError
from beltwright.review.finding import Finding
from beltwright.review.review import SAMPLES, Review, review

COARSE = 0.006
"""Step of the grid that looks for places; a strip that is narrower may slip through it [m]."""

POINTS = 5_000
"""Places in a piece that is looked at once more [1]."""

FINEST = 0.0005
"""Finest of these steps [m]."""

TURNS, RINGS = 64, 41
"""Directions and distances in which a hole that is off is tried [1]."""

SWEPT = 0.5
"""Share of the work on one way that its sweep takes, for telling how far it is [1]."""


class _Place(NamedTuple):
    """A place, written into the build."""

    build: Build
    at: tuple[str, str]
    map: IdlerMap


class _StoppedError(Exception):
    """The search was asked to end."""


@dataclass
class _Search:
    build: Build
    belt: Belt
    wanted: Wanted
    units: Units
    before: Review
    report: Callable[[Going], None]
    stopping: Event
    step: float
    samples: int
    offers: list[Offer] = field(default_factory=list)
    nowhere: list[Nowhere] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.belts = belts_near(self.belt)
        self.ways = list(ways(self.belt))
        self.broken = [f for f in self.before.findings if _is_broken(f, self.belt)]

    def run(self) -> bool:
        """Try every way; gives whether none was left out."""
        try:
            belt_wheels(Case(self.build), self.belt)
        except NotKnownError as missing:
            self.nowhere = [Nowhere(way, "not known", (str(missing),)) for way in self.ways]
            return True
        try:
            for number, way in enumerate(self.ways):
                self._tell(number, way, 0.0)
                self._try(number, way)
        except (_StoppedError, KeyboardInterrupt):
            return False
        return True

    def _tell(self, number: int, way: Way, share: float) -> None:
        if self.stopping.is_set():
            raise _StoppedError
        self.report(Going((number + share) / len(self.ways), way, len(self.offers)))

    def _try(self, number: int, way: Way) -> None:
        build, name = with_idler(self.build, self.belt, way, self.wanted.outside)
        places = self._places(build, name, tuple(each.length for each in self.belts))
        try:
            hoped = {each.id for each in self.broken} - strict_ids(build, places.belt)
            sweeping = Sweeping(places, frozenset(hoped))
            grid = grid_over(*window(build, places.belt), self.step)
            sweep = sweeping.over(grid, lambda share: self._tell(number, way, SWEPT * share))
        except NotKnownError as missing:
            self.nowhere.append(Nowhere(way, "not known", (str(missing),)))
            return
        found: list[Offer | Nowhere] = []
        for place in _worth_a_closer_look(sweep):
            self._tell(number, way, SWEPT)
            found.append(self._offered(way, sweep, place))
        offers = [each for each in found if isinstance(each, Offer)]
        self.offers += offers
        if not offers:
            none = [each for each in found if isinstance(each, Nowhere)]
            self.nowhere.append(none[-1] if none else _stopped(way, sweep))

    def _places(
        self,
        build: Build,
        name: str,
        lengths: tuple[float, ...],
        wanted: frozenset[str] = frozenset(),
    ) -> Places:
        belt = next(each for each in build.belt if each.name == self.belt.name)
        return Places(build, belt, name, lengths, wanted)

    def _offered(self, way: Way, sweep: Sweep, number: int) -> Offer | Nowhere:
        """The best place with one belt, as it would be written; or what is against it."""
        belt, found = self.belts[number], self._closer(way, sweep, number)
        if found is None:
            return Nowhere(way, "narrow", ())
        mends, worsens = turns(self.before, review(found.build, self.samples))
        if spoils(mends, worsens, self.belt):
            return Nowhere(way, "spoils", tuple(turn.title for turn in worsens))
        return Offer(
            way=way,
            at=found.at,
            forgives=found.map.forgives,
            belt=belt,
            to_buy=self._to_buy(way, belt),
            mends=mends,
            worsens=worsens,
            map=found.map,
            build=found.build,
        )

    def _closer(self, way: Way, sweep: Sweep, number: int) -> _Place | None:
        """The place that forgives most with one belt, in finer steps and as it would be written;
        None where no hole can be drilled near enough."""
        belt = self.belts[number]
        build, name = with_idler(self.build, self.belt, way, self.wanted.outside)
        places = self._places(build, name, (belt.length,), sweep.mends)
        grid = finer(sweep.kept[number], sweep.grid, POINTS, FINEST)
        x, y = np.meshgrid(grid.x, grid.y)
        kept = places.allowed(x.ravel(), y.ravel()).reshape(x.shape)
        room, (row, column) = most_room(kept)
        at = tuple(self.units.show(float(v), Kind.LENGTH) for v in (grid.x[column], grid.y[row]))
        length = belt.text if belt.size else None
        written = with_parts(
            with_idler(self.build, self.belt, way, self.wanted.outside, (at[0], at[1]), length)[0],
            self.belt,
            belt,
            name,
            way,
            self.wanted,
        )
        place = _place_of(written)
        forgives = _forgiven(places, place, (room + 1.0) * grid.step)
        if forgives < LEAST:
            return None
        found = IdlerMap(
            idler=name,
            moves="centre",
            areas=stepped(grid, kept),
            best=place,
            forgives=forgives,
            lengths=(belt.length,),
            missed=grid.step,
        )
        return _Place(written, (at[0], at[1]), found)

    def _to_buy(self, way: Way, belt: NearBelt) -> tuple[str, ...]:
        idler = () if self.wanted.lies_there(way.side) else ("idler",)
        return (*idler, "belt") if belt.size else idler


def new_idler(
    build: Build,
    belt_name: str,
    outside: str = "",
    report: Callable[[Going], None] = lambda _: None,
    stopping: Event | None = None,
    step: float = COARSE,
    samples: int = SAMPLES,
    before: Review | None = None,
) -> NewIdler:
    """Where one more idler helps a belt; set `stopping` (or press Ctrl-C) to end it early.

    `before` is the review of the build as it is, with as many samples, where that is there already.

    Only places come back that the review of the build, written so, does not stop and that mend
    something or make nothing worse.

    Raises ValueError where the diameter is none.
    """
    began = time.monotonic()
    units = units_of(build)
    belt = next(each for each in build.belt if each.name == belt_name)
    search = _Search(
        build=build,
        belt=belt,
        wanted=wanted_idler(build, units, outside),
        units=units,
        before=before or review(build, samples),
        report=report,
        stopping=stopping or Event(),
        step=step,
        samples=samples,
    )
    finished = search.run()
    return NewIdler(
        belt=belt,
        wanted=search.wanted,
        belts=search.belts,
        broken=tuple(finding.title for finding in search.broken),
        offers=tuple(sorted(search.offers, key=partial(rank, bool(search.broken)))),
        nowhere=tuple(search.nowhere),
        finished=finished,
        seconds=time.monotonic() - began,
        missed=step,
    )


def _is_broken(finding: Finding, belt: Belt) -> bool:
    """Whether a finding of the belt is past its limit, as the build is written."""
    limit, value = finding.limit, finding.value
    if not is_of(belt, finding.id) or limit is None or value is None:
        return False
    low = limit.at_least is not None and value < limit.at_least
    return low or (limit.at_most is not None and value > limit.at_most)


def _worth_a_closer_look(sweep: Sweep) -> list[int]:
    """The belt with which the hole may be off most, and the present one."""
    room = [most_room(kept)[0] for kept in sweep.kept]
    best = int(np.argmax(room))
    return [number for number in sorted({0, best}) if room[number] > 0.0]


def _stopped(way: Way, sweep: Sweep) -> Nowhere:
    titles = sweep.nearest.titles
    return Nowhere(way, "stopped" if titles else "no run", titles)


def _forgiven(places: Places, at: tuple[float, float], most: float) -> float:
    """How far round a place all is allowed [m]."""
    turns = np.linspace(0.0, 2.0 * np.pi, TURNS, endpoint=False)
    far = np.linspace(0.0, most, RINGS)
    x = at[0] + far[:, np.newaxis] * np.cos(turns)
    y = at[1] + far[:, np.newaxis] * np.sin(turns)
    kept = places.allowed(x.ravel(), y.ravel()).reshape(x.shape).all(axis=1)
    rings = int(np.logical_and.accumulate(kept).sum())
    return float(far[rings - 1]) if rings else 0.0


def _place_of(build: Build) -> tuple[float, float]:
    at = build.idler[-1].at
    assert at is not None
    return at[0].value, at[1].value
