"""Why candidates were turned away, told for whole families of them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from beltwright.build.model import Build
from beltwright.options.limit import Truth
from beltwright.options.option import Choice
from beltwright.options.scale import Mark, scale
from beltwright.options.tally import Counts, Tally

ALL = 0.9995
"""A share that is shown as 100 %."""


@dataclass(frozen=True)
class Rejection:
    """One reason why candidates were turned away.

    id         the finding that turned them away
    why        what they do, after "every … belt": "is slower than the goal"
    count      how many candidates it turned away
    share      the same as a share of all of them [1]
    sentences  the options of which nothing is left, mostly by this reason
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
    """A sentence for each run of options of which nothing is left, with the reason's place."""
    if not len(reasons):
        return
    each = candidates / len(choice)
    emptied: Truth = counts.sum(axis=0) > each - 0.5
    mostly = counts.argmax(axis=0)
    for marks in scale(build, choice).values():
        verdicts = [(int(mostly[m.option]) if emptied[m.option] else -1) for m in marks]
        start = 0
        for number, run in groupby(verdicts):
            stop = start + len(list(run))
            places = [mark.option for mark in marks[start:stop]]
            share = counts[number, places].sum() / (each * len(places))
            # where nothing fits at all, only what one limit rules out alone says anything
            if number >= 0 and (share >= ALL or not emptied.all()):
                yield number, _sentence(marks, start, stop, _parted(reasons[number])[1], share)
            start = stop


def _sentence(marks: Sequence[Mark], start: int, stop: int, why: str, share: float) -> str:
    which = f"{marks[start].noun}{_range(marks, start, stop)}"
    if share >= ALL:
        return f"Every {which} {why}."
    return f"No {which} fits: in {share:.0%} of the cases it {why}."


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
