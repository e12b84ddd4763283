"""The search for what fits best, and what to give up where nothing fits."""

import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from math import inf, prod
from threading import Event

from beltwright.build.model import Build
from beltwright.options.assembly import edits_of, taken
from beltwright.options.ease import STEPS, Ease
from beltwright.options.front import Candidate
from beltwright.options.hunt import Hunt
from beltwright.options.merit import COST, MERITS
from beltwright.options.option import Choice
from beltwright.options.outcome import Found, Outcome
from beltwright.options.progress import Progress, Report
from beltwright.options.rejection import rejections
from beltwright.options.relaxation import Relaxation, relaxation_to
from beltwright.options.sharing import StoppedEarly, shared_hunt

OFTEN = 0.2
"""Time between two reports [s]."""

ALONE = 2.0
"""Searches that take no longer than this stay in one process [s]."""

WORTH = 6.0
"""Time left that makes more processes worth their start [s]."""


@dataclass
class Watch:
    """Times a search, reports how far it is, and says when to stop."""

    candidates: int
    report: Report
    stopping: Event
    began: float = field(default_factory=time.monotonic)
    reported: float = 0.0
    stopped: bool = False

    @property
    def seconds(self) -> float:
        """Time since the search began."""
        return time.monotonic() - self.began

    def stop(self, disposed: int, fitting: int) -> bool:
        """Report from time to time; gives whether to stop."""
        if self.seconds - self.reported >= OFTEN:
            self.reported = self.seconds
            self.report(self.progress(disposed, fitting))
        self.stopped = self.stopping.is_set()
        return self.stopped

    def progress(self, disposed: int, fitting: int) -> Progress:
        """How far it is."""
        return Progress(disposed, self.candidates, fitting, self.seconds)


def search(
    build: Build,
    choices: Sequence[Choice],
    report: Report = lambda _: None,
    stopping: Event | None = None,
    processes: int = 1,
    by: str = COST.name,
) -> Outcome:
    """Everything that the build leaves open, disposed of: the best that fits, and why not the rest.

    `choices` are those of `offering.choices`; `by` names the merit to rank by first.  Set
    `stopping` (or press Ctrl-C) to end it early with the best so far.
    """
    watch = Watch(prod(len(choice) for choice in choices), report, stopping or Event())
    hunt = _hunted(build, choices, watch, processes)
    first = next(place for place, merit in enumerate(MERITS) if merit.name == by)
    nearest = None
    if not hunt.front.candidates and not watch.stopped:
        nearest = _nearest(build, choices, watch)
    watch.report(watch.progress(hunt.disposed, len(hunt.front.candidates)))
    return Outcome(
        found=tuple(_found(choices, hunt, place) for place in hunt.front.ranked(first)),
        candidates=watch.candidates,
        disposed=hunt.disposed,
        seconds=watch.seconds,
        finished=not watch.stopped,
        standing=tuple(hunt.standing or ()),
        rejections=rejections(build, choices, hunt.tally, watch.candidates),
        relaxation=nearest,
    )


def _hunted(build: Build, choices: Sequence[Choice], watch: Watch, processes: int) -> Hunt:
    hunt = Hunt(build, choices)

    def stop(now: Hunt) -> bool:
        if watch.stop(now.disposed, len(now.front.candidates)):
            return True
        left = watch.progress(now.disposed, 0).seconds_left
        return processes > 1 and watch.seconds > ALONE and left is not None and left > WORTH

    try:
        if hunt.run(stop) or watch.stopped:
            return hunt
        return shared_hunt(build, choices, watch.stop, processes)
    except StoppedEarly as early:
        watch.stopped = True
        return early.hunt
    except KeyboardInterrupt:
        watch.stopped = True
        return hunt


def _nearest(build: Build, choices: Sequence[Choice], watch: Watch) -> Relaxation | None:
    """What would let something fit: goals first; stops are eased only to name the nearest miss.

    The widest easing goes first, to see whether the narrower ones are worth a pass.
    """
    goals = [Ease(goals=share) for share in (*STEPS, inf)]
    stops = [Ease(goals=inf, stops=share) for share in STEPS]
    for row in (goals, stops):
        if not _eased(build, choices, row[-1], watch).front.candidates:
            continue
        for ease in row:
            found = _eased(build, choices, ease, watch).front.candidates
            if found:
                return relaxation_to(build, choices, found[0], ease)
    return None


def _eased(build: Build, choices: Sequence[Choice], ease: Ease, watch: Watch) -> Hunt:
    """A pass with limits eased; ended early, it holds what was found so far."""
    hunt = Hunt(build, choices, ease=ease)
    if watch.stopped:
        return hunt
    try:
        hunt.run(lambda now: watch.stop(now.disposed, 0))
    except KeyboardInterrupt:
        watch.stopped = True
    return hunt


def _found(choices: Sequence[Choice], hunt: Hunt, place: int) -> Found:
    candidate: Candidate = hunt.front.candidates[place]
    return Found(
        candidate=candidate,
        taken={choice.name: option.label for choice, option in taken(choices, candidate)},
        merits=dict(zip(MERITS, hunt.front.values[place].tolist(), strict=True)),
        edits=tuple(edits_of(choices, candidate)),
    )
