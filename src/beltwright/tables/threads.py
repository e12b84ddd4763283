"""Straight threads by name: unified coarse and fine, metric coarse and fine."""

import re
from functools import cache
from typing import NamedTuple

from beltwright.tables.loading import SI_PER_UNIT, Table, UnlistedError, load

INCH = SI_PER_UNIT["in"]
MILLIMETRE = SI_PER_UNIT["mm"]


class _Printed(NamedTuple):
    name: str
    series: str
    major: float
    turns_or_pitch: float
    metric: bool
    source: str
    status: str


class Thread(NamedTuple):
    """A standard thread: major diameter and pitch [m]."""

    name: str
    series: str
    major: float
    pitch: float
    metric: bool
    source: str
    status: str


def thread_table() -> Table[_Printed]:
    """The table as its standards print it."""
    return load("threads", _Printed)


@cache
def threads() -> tuple[Thread, ...]:
    """Every thread that is known, inch sizes first."""
    return tuple(_in_si(row) for row in thread_table())


def thread(text: str) -> Thread:
    """The thread that a builder means: "M10", "M10x1.25", "3/8-16 UNC", "5/16 UNF", "#10-24".

    A metric size without a pitch is the coarse one. KeyError lists what is known.
    """
    found = _by_name().get(_plain(text))
    if found is None:
        raise UnlistedError("thread", text, (each.name for each in threads()))
    return found


@cache
def _by_name() -> dict[str, Thread]:
    """The threads by each of their names; where two share one, the first has it."""
    return {name: each for each in reversed(threads()) for name in _names(each)}


def _names(each: Thread) -> set[str]:
    plain = _plain(each.name)
    if each.metric:
        size = plain.split("X", maxsplit=1)[0]
        return {plain, size} if each.series == "coarse" else {plain}
    size = plain.split("-", maxsplit=1)[0]
    return {plain, f"{plain}{each.series}", f"{size}{each.series}"}


def _plain(text: str) -> str:
    """A name in one spelling: capitals, x for ×, no spaces, no "No."."""
    tidy = text.upper().replace("×", "X").replace("NO.", "#").replace("*", "X")
    return re.sub(r"(?<=X)(\d+)\.0+$", r"\1", re.sub(r"[\s\"]|IN\b", "", tidy))


def _in_si(row: _Printed) -> Thread:
    if row.metric:
        major, pitch = row.major * MILLIMETRE, row.turns_or_pitch * MILLIMETRE
    else:
        major, pitch = row.major * INCH, INCH / row.turns_or_pitch
    return Thread(row.name, row.series, major, pitch, row.metric, row.source, row.status)
