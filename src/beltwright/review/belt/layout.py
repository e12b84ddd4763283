"""Where every belt of a build runs in both clutch positions, as numbers."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.build.driveline import Belt, Idler, Pulley
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.belt.fault import path_faults
from beltwright.physics.belt.fit import Fit, Released, fit_to_length, released_belt
from beltwright.physics.belt.loop import BeltPath
from beltwright.physics.belt.path import belt_path
from beltwright.physics.belt.run import Run
from beltwright.review.belt.mover import Mover, mover_of
from beltwright.review.belt.sold import belt_length
from beltwright.review.belt.wheels import BeltWheel, belt_plane, belt_wheels, run_round
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.routes import engine_direction_missing, routes
from beltwright.review.driveline.stages import belt_pulleys, runs_flat, twisted
from beltwright.review.nominal import nominal
from beltwright.tables.belts import Section, section

BELT_SPACING = 1.2
"""Distance between belts side by side over the width of one [1]; grooves of classical sheaves stand
1.12 to 1.2 belt widths apart (RMA IP-20, from memory)."""

Strand = Literal["tight", "slack", "between"]


@dataclass(frozen=True)
class Layout:
    """How a belt runs with the clutch up; everything by place in the run.

    belt          the belt
    section       its section's tables
    plane         "upright" shafts: seen from above; "cross" shafts: seen from the right
    wheels        the pulleys and idlers
    pitch_length  of the belt [m]
    path          in drive; NaN where there is none
    fit           a value of `Fit` a candidate: whether the belt's length suits the mover
    faults        the sum of `PathFault` a candidate
    mover         the idler arm or the slot that takes up the belt's length, if there is one
    position      of the mover in drive [rad or m]
    driver        place of the pulley that drives the belt, if the engine reaches it
    along         +1 where the belt travels in the order of the run, -1 against it, 0 not known
    """

    belt: Belt
    section: Section
    plane: Literal["upright", "cross"]
    wheels: tuple[BeltWheel, ...]
    pitch_length: Array
    path: BeltPath
    fit: NDArray[np.uint8]
    faults: NDArray[np.uint8]
    mover: Mover | None
    position: Array
    driver: int | None
    along: int

    @cached_property
    def usable(self) -> NDArray[np.bool_]:
        """Whether the belt runs, a candidate each."""
        return np.atleast_1d((self.fit == Fit.FITS) & (self.faults == 0))

    @cached_property
    def swinging(self) -> int | None:
        """Place of the idler whose arm takes up the belt's length, if there is one."""
        on_arm = self.mover is not None and isinstance(self.mover.of, Idler)
        return self.mover.place if self.mover is not None and on_arm else None

    @property
    def width(self) -> float:
        """Over all belts that run side by side [m]."""
        return self.section.cross.top_width * (1.0 + BELT_SPACING * (self.belt.count - 1))

    def wheel_heights(self, place: int) -> tuple[Array, Array]:
        """Between which heights a wheel turns, as thick as a belt is wide, or how far left on a
        shaft that lies across; everywhere, where that is not written [m]."""
        height = self.wheels[place].height
        if height is None:
            return np.full(1, -np.inf), np.full(1, np.inf)
        half = 0.5 * self.section.cross.top_width
        return height - half, height + half

    def where_it_runs(self, value: Array) -> Array:
        """A value with the samples in which the belt has no run set to the build as written.

        That they have none is told once, by the finding of the run.
        """
        whole = np.atleast_1d(value)
        return whole if np.all(self.usable) else np.where(self.usable, whole, whole[0])

    @property
    def travel(self) -> int:
        """+1 where the belt travels in the order of the run, -1 against it.

        Raises NotKnownError where the engine does not reach the belt.
        """
        if self.along == 0 and self.driver is not None:
            raise engine_direction_missing()
        if self.along == 0:
            raise NotKnownError(
                f"belt.{self.belt.name}",
                "Let its run name a pulley on a shaft that the engine turns.",
                f"Nothing turns the {self.belt.name}.",
            )
        return self.along

    @property
    def arm_angle(self) -> Array:
        """Angle of the clutch arm in drive [rad].

        Raises NotKnownError where no idler of the belt swings on an arm.
        """
        if self.mover is None or not isinstance(self.mover.of, Idler):
            raise NotKnownError(
                f"belt.{self.belt.name}.run",
                "Describe the arm of the idler that tightens it, with its pivot, length and "
                "released angle.",
                f"No idler of the {self.belt.name} swings on an arm.",
            )
        return self.position

    def stands(self, place: int) -> tuple[float, float, float]:
        """Where a wheel of the run stands, clutch up: x forward, y left, z up [m]."""
        run = self.path.run
        return self.on_machine(run.x[place], run.y[place], self.wheels[place].height)

    def on_machine(
        self, x: ArrayLike, y: ArrayLike, height: ArrayLike | None
    ) -> tuple[float, float, float]:
        """A place of the belt's plane on the machine: x forward, y left, z up [m].

        `height` is that of the wheels: on shafts that lie across, how far left it stands. What is
        not written counts as 0.
        """
        along, aside = nominal(x), nominal(y)
        up = 0.0 if height is None else nominal(height)
        return (along, up, aside) if self.plane == "cross" else (along, aside, up)

    def strand(self, place: int) -> Strand:
        """How the span that leaves a pulley pulls in drive, clutch up."""
        return _strands(self)[place]


class Loose(NamedTuple):
    """How a belt lies with the clutch down.

    belt     slack, and how far it would lift off every pulley
    with_    the path with the idler where it then stands
    without  the path that leaves it out, where the run has other pulleys enough
    """

    belt: Released
    with_: BeltPath
    without: BeltPath | None

    def path(self, candidate: int = 0) -> BeltPath:
        """The path that one candidate has."""
        touches = bool(np.atleast_1d(self.belt.touches).flat[0 if _one(self.belt) else candidate])
        return self.with_ if touches or self.without is None else self.without


def belt_layout(case: Case, belt: Belt) -> Layout:
    """How a belt runs with the clutch up.

    Raises NotKnownError where the build as written leaves it no run; with candidates it never
    does, and `usable` tells those that have none.
    """
    layout = belt_run(case, belt)
    if not case.replaced and not layout.usable[0]:
        raise NotKnownError(
            f"belt.{belt.name}.run",
            f"First put its run right: see “Run of the {belt.name}”.",
            f"As the build is written, the run of the {belt.name} does not go round.",
        )
    return layout


def belt_run(case: Case, belt: Belt) -> Layout:
    """How a belt runs, or would run, whether it can or not."""
    return case.once(("belt_run", belt.name), lambda: _belt_run(case, belt))


def loose_belt(case: Case, belt: Belt) -> Loose:
    """How a belt lies with the clutch down.

    Raises NotKnownError where no idler of it swings on an arm.
    """
    return case.once(("loose_belt", belt.name), lambda: _loose_belt(case, belt))


def _belt_run(case: Case, belt: Belt) -> Layout:
    if not runs_flat(case, belt):
        raise twisted(belt)
    wheels = belt_wheels(case, belt)
    run = run_round(wheels)
    length = belt_length(case, belt)
    mover = mover_of(case, belt, wheels, run, length)
    driver = _driver(case, belt)
    plane = belt_plane(case, belt)
    if mover is None or mover.fixed:
        path, position = _path_as_written(run, mover)
        fit = np.zeros(1, dtype=np.uint8)
    else:
        fitted = fit_to_length(run, mover.place, mover.mount, mover.loose, mover.tight, length)
        path, position, fit = fitted.path, fitted.position, fitted.fit
    return Layout(
        belt=belt,
        section=section(belt.section),
        plane=plane,
        wheels=wheels,
        pitch_length=length,
        path=path,
        fit=fit,
        faults=path_faults(path),
        mover=mover,
        position=position,
        driver=driver,
        along=0 if driver is None else _along(case, belt, driver, path),
    )


def _path_as_written(run: Run, mover: Mover | None) -> tuple[BeltPath, Array]:
    """The path where nothing waits for the belt's length."""
    if mover is None:
        return belt_path(run), np.full(1, np.nan)
    motion = mover.mount.motion(mover.driving)
    return belt_path(run.moved(mover.place, motion.x, motion.y)), mover.driving


def _driver(case: Case, belt: Belt) -> int | None:
    """The place of the pulley that the engine reaches first."""
    reached = [
        (len(routes(case)[pulley.shaft].stages), belt.run.index(pulley.name))
        for pulley in belt_pulleys(case, belt)
        if pulley.shaft in routes(case)
    ]
    return min(reached)[1] if reached else None


def _along(case: Case, belt: Belt, driver: int, path: BeltPath) -> int:
    """Whether the belt travels in the order of its run.

    An inside pulley turns the way the belt goes round. Shafts are told to turn as their plane is
    seen: x-y from above, x-z from the right.
    """
    pulley = next(p for p in belt_pulleys(case, belt) if p.name == belt.run[driver])
    side = 1 if pulley.runs_on == "inside" else -1
    try:
        turns = routes(case)[pulley.shaft].sense
    except NotKnownError:
        return 0
    return turns * side * (1 if nominal(path.sense) > 0.0 else -1)


def _loose_belt(case: Case, belt: Belt) -> Loose:
    layout = belt_run(case, belt)
    mover = layout.mover
    if mover is None or not isinstance(mover.of, Idler):
        raise NotKnownError(
            f"belt.{belt.name}.run",
            "Describe the arm of the clutch idler, with its pivot, length and released angle.",
            f"No idler of the {belt.name} swings on an arm, so that nothing lets it go.",
        )
    run, sense = layout.path.run, layout.path.sense
    motion = mover.mount.motion(mover.loose)
    found = released_belt(run, mover.place, mover.mount, mover.loose, layout.pitch_length, sense)
    without = belt_path(run.without(mover.place), sense) if len(run) > 2 else None
    return Loose(found, belt_path(run.moved(mover.place, motion.x, motion.y), sense), without)


def _one(released: Released) -> bool:
    return np.size(released.touches) == 1


def _strands(layout: Layout) -> tuple[Strand, ...]:
    """Tell the spans beside the driver, each up to the first driven pulley, by the travel.

    The belt leaves its driver slack and comes back to it tight; span i leaves wheel i in the order
    of the run.
    """
    count = len(layout.wheels)
    named: list[Strand] = ["between"] * count
    if layout.along != 0:
        for place in _to_first_driven(layout, layout.along):
            named[place] = "slack"
        for place in _to_first_driven(layout, -layout.along):
            named[place] = "tight"
    return tuple(named)


def _to_first_driven(layout: Layout, way: int) -> Iterator[int]:
    """Go through the spans from the driver to the first driven pulley, one way round."""
    assert layout.driver is not None
    count, place = len(layout.wheels), layout.driver
    while True:
        yield place if way > 0 else (place - 1) % count
        place = (place + way) % count
        if isinstance(layout.wheels[place].of, Pulley):
            return
