"""Why candidates were turned away, told for whole families of them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from beltwright.build.model import Build
from beltwright.options.limit import Truth
from beltwright.options.limits import limits_of
from beltwright.options.option import Choice
from beltwright.options.scale import Mark, scale
from beltwright.options.tally import Counts, Tally
from beltwright.options.walk import BUDGET_REASON

ALL = 1.0 - 1e-9
"""A share that is all of them but for rounding [1]."""


@dataclass(frozen=True)
class Rejection:
    """One reason why candidates were turned away.

    id         the finding that turned them away
    why        what they do, after "every … belt": "is slower than the goal"
    count      how many candidates it turned away
    share      the same as a share of all of them [1]
    sentences  the options of which it left nothing
    """

    id: str
    why: str
    count: int
    share: float
    sentences: tuple[str, ...]


def rejections(
    build: Build, choices: Sequence[Choice], tally: Tally, candidates: int
) -> tuple[Rejection, ...]:
    """The reasons, most common first; each candidate counts for the first limit that it broke."""
    reasons = sorted(tally.total, key=lambda reason: -tally.total[reason])
    told: dict[str, list[str]] = {reason: [] for reason in reasons}
    for place, choice in enumerate(choices):
        counts = np.array([tally.turned_away[reason][place] for reason in reasons])
        for number, sentence in _sentences(build, choice, reasons, counts, candidates):
            told[reasons[number]].append(sentence)
    return tuple(
        Rejection(
            *_parted(reason),
            tally.total[reason],
            tally.total[reason] / candidates,
            tuple(told[reason]),
        )
        for reason in reasons
    )


def _parted(reason: str) -> tuple[str, str]:
    id_, _, why = reason.partition(": ")
    return id_, why


def _sentences(
    build: Build, choice: Choice, reasons: Sequence[str], counts: Counts, candidates: int
) -> Iterator[tuple[int, str]]:
    """A sentence for each run of options of which nothing is left, with the reason's place.

    An option goes under the last limit that turned something of it away: whatever the other
    limits left of it, that one took.
    """
    if not len(reasons):
        return
    each = candidates / len(choice)
    emptied: Truth = counts.sum(axis=0) > each - 0.5
    order = np.array([_judged_at(build, reason) for reason in reasons])[:, np.newaxis]
    last = np.where(counts > 0.0, order, -1).argmax(axis=0)
    for marks in scale(build, choice).values():
        verdicts = [(int(last[m.option]) if emptied[m.option] else -1) for m in marks]
        start = 0
        for number, run in groupby(verdicts):
            stop = start + len(list(run))
            if number >= 0:
                places = [mark.option for mark in marks[start:stop]]
                alone = counts[number, places].sum() >= ALL * each * len(places)
                why = _parted(reasons[number])[1]
                yield number, _sentence(marks, start, stop, why, bool(alone))
            start = stop


def _judged_at(build: Build, reason: str) -> int:
    """When a limit is judged: the budget, the cheap ones in order, then the whole review."""
    order = [BUDGET_REASON, *(limit.reason for limit in limits_of(build))]
    return order.index(reason) if reason in order else len(order)


def _sentence(marks: Sequence[Mark], start: int, stop: int, why: str, alone: bool) -> str:
    which = f"{marks[start].noun}{_range(marks, start, stop)} {why}."
    return f"Every {which}" if alone else f"Of what the other limits leave, every {which}"


def _range(marks: Sequence[Mark], start: int, stop: int) -> str:
    run = marks[start:stop]
    if len(run) == len(marks):
        return ""
    if any(mark.size is None for mark in run):
        return " " + ", ".join(mark.text for mark in run)
    if len(run) == 1:
        return f" of {run[0].text}"
    if start == 0:
        return f" under {marks[stop].text}"
    if stop == len(marks):
        return f" over {marks[start - 1].text}"
    return f" from {run[0].text} to {run[-1].text}"
