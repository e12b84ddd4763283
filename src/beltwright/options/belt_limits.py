"""The limits of every belt, as the review holds them.

Whether a belt of some length can be made tight is asked twice.  Once cheaply: without the belt's
length, the shortest and the longest belt that the idler arm or the slot can take are known, and
every belt outside them goes at once.  And once in full, with the path worked out.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

import numpy as np

from beltwright.build.driveline import Belt, Idler
from beltwright.build.model import Build
from beltwright.options.limit import Limit
from beltwright.physics.arrays import Array
from beltwright.physics.belt.fit import fit_to_length
from beltwright.physics.belt.moving import MovingPulley
from beltwright.physics.belt.run import Run
from beltwright.review.belt.layout import belt_run
from beltwright.review.belt.mover import Mover, mover_of
from beltwright.review.belt.wheels import belt_wheels, run_round
from beltwright.review.case import Case
from beltwright.tables.belts import pitch_length

NO_LENGTH = np.zeros(1)
"""A belt of no length: what it is short of is the shortest belt that goes round."""


@dataclass(frozen=True)
class Reach:
    """The pitch lengths that a belt's arm or slot can take.

    shortest  goes round with the clutch down [m]
    longest   is tight at the stop [m]; infinite where that end of the travel says nothing
    """

    shortest: Array
    longest: Array


def belt_limits(build: Build) -> Iterator[Limit]:
    """What the belts of a build are held to."""
    for belt in build.belt:
        if takes_up(build, belt):
            yield from _length_limits(belt)
    for belt in build.belt:
        yield Limit(
            f"belt.{belt.name}.run",
            "leaves the belt no usable run",
            partial(_usable, belt),
            at_least=_one,
            full=True,
        )


def _length_limits(belt: Belt) -> Iterator[Limit]:
    length = partial(_pitch_length, belt)
    yield Limit(
        f"belt.{belt.name}.run",
        "is too short to go round, even with the clutch down",
        length,
        at_least=lambda case: reach_of(belt, case).shortest,
    )
    yield Limit(
        f"belt.{belt.name}.run",
        "stays loose, even with the idler at its stop",
        length,
        at_most=lambda case: reach_of(belt, case).longest,
    )


def takes_up(build: Build, belt: Belt) -> bool:
    """Whether one idler arm with a written stop takes up this belt.

    Where no stop is written, which way the arm swings depends on the belt, so that nothing can be
    said without it.
    """
    arms = [idler.arm for idler in build.idler if idler.name in belt.run and idler.arm is not None]
    return len(arms) == 1 and arms[0].furthest is not None and arms[0].driving == "by belt length"


def reach_of(belt: Belt, case: Case) -> Reach:
    """The lengths that suit a belt's arm, of those that one with a written stop takes up."""
    return case.once(("options.reach", belt.name), lambda: _worked_reach(belt, case))


def _worked_reach(belt: Belt, case: Case) -> Reach:
    wheels = belt_wheels(case, belt)
    run = run_round(wheels)
    mover = mover_of(case, belt, wheels, run, NO_LENGTH)
    assert mover is not None
    assert isinstance(mover.of, Idler)
    bare = fit_to_length(run, mover.place, mover.mount, mover.loose, mover.tight, NO_LENGTH)
    return Reach(-bare.released.slack, _longest(run, mover, bare.path.sense))


def _longest(run: Run, mover: Mover, sense: Array) -> Array:
    """The path at the stop, where it still grows there: a longer belt is then never tight."""
    with np.errstate(invalid="ignore", divide="ignore"):
        stop = MovingPulley(run, mover.place, sense).reach(mover.mount.motion(mover.tight))
        rising = stop.rate * np.subtract(mover.tight, mover.loose) > 0.0
    says_nothing = np.isnan(stop.length) | (stop.touches & ~rising)
    return np.where(says_nothing, np.inf, np.where(stop.touches, stop.length, -np.inf))


def _pitch_length(belt: Belt, case: Case) -> Array:
    return np.asarray(pitch_length(belt.section, case.si(belt.length), belt.length_is))


def _usable(belt: Belt, case: Case) -> Array:
    return belt_run(case, belt).usable.astype(np.float64)


def _one(_: Case) -> Array:
    return np.ones(1)
