"""One pass through everything that a build leaves open, or a share of it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from beltwright.build.model import Build
from beltwright.options.assembly import assembled
from beltwright.options.ease import NOT_EASED, Ease
from beltwright.options.family import Family, families
from beltwright.options.front import Candidate, Front
from beltwright.options.limits import limits_of
from beltwright.options.merit import MERITS, scores
from beltwright.options.option import Choice
from beltwright.options.referee import Standing, stops_of
from beltwright.options.spending import spending
from beltwright.options.tally import Tally
from beltwright.options.trial import Fitting, Trial
from beltwright.options.walk import WHOLE, Share
from beltwright.physics.arrays import Array

EXCESS_STEP = 1e-4
"""Differences in how far limits are broken that count, as a share of the bound [1]."""


@dataclass
class Hunt:
    """A pass through everything that a build leaves open.

    build    the build file
    choices  what is left open in it
    share    which part to search, when the work is shared out
    ease     by how much limits may be broken; what is found is then ordered by that alone
    """

    build: Build
    choices: Sequence[Choice]
    share: Share = WHOLE
    ease: Ease = NOT_EASED
    front: Front = field(init=False)
    tally: Tally = field(init=False)
    standing: list[Standing] | None = None
    fitting: int = 0

    def __post_init__(self) -> None:
        self.tally = Tally.of(self.choices)
        self.front = Front(len(MERITS) if self.ease == NOT_EASED else 1)

    @property
    def disposed(self) -> int:
        """How many candidates were looked at or ruled out so far."""
        return self.fitting + sum(self.tally.total.values())

    def run(self, stop: Callable[["Hunt"], bool]) -> bool:
        """Search on until `stop` says so after a block; gives whether all was searched."""
        for family in families(self.build, self.choices):
            trial = self._trial(family)
            self._note_standing(trial.referee.standing)
            before = self.fitting
            for fitting in trial.run():
                self.fitting = before + trial.fitting
                if fitting is not None and fitting.candidates:
                    self._offer(trial, fitting)
                if stop(self):
                    return False
        return True

    def join(self, other: "Hunt") -> None:
        """Take in what another share of the same pass found."""
        self.front.offer(other.front.candidates, other.front.scores, other.front.values)
        self.tally.join(other.tally)
        self.fitting += other.fitting
        self._note_standing(other.standing or [])

    def _trial(self, family: Family) -> Trial:
        money = spending(self.build, self.choices, self.ease)
        limits = limits_of(family.build)
        return Trial(family, limits, self.tally, money, self.share, self.ease)

    def _note_standing(self, standing: Sequence[Standing]) -> None:
        """A stop stands whatever is chosen only if it does so in every family."""
        known = standing if self.standing is None else self.standing
        self.standing = [stop for stop in known if stop in standing]

    def _offer(self, trial: Trial, fitting: Fitting) -> None:
        apart = {stop.id for stop in trial.referee.standing}

        def reviewed(candidate: Candidate) -> bool:
            """The review itself has the last word."""
            if self.ease.stops:
                return True
            return stops_of(assembled(self.build, self.choices, candidate)).keys() <= apart

        values = _values(fitting)
        score = scores(MERITS, values) if self.ease == NOT_EASED else _by_excess(fitting)
        self.front.offer(fitting.candidates, score, values, reviewed)


def _values(fitting: Fitting) -> Array:
    """The merits of each; one that can't be told (no spring, no grip) is NaN for all."""
    count = len(fitting.candidates)
    columns = [np.broadcast_to(fitting.merits.get(merit, np.nan), count) for merit in MERITS]
    return np.stack(columns, axis=1)


def _by_excess(fitting: Fitting) -> Array:
    return np.round(fitting.excess / EXCESS_STEP)[:, np.newaxis]
