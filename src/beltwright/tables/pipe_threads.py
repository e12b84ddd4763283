"""Taper pipe threads by name: American (NPT) and ISO 7-1 (R, also sold as BSPT)."""

import re
from functools import cache
from typing import NamedTuple

from beltwright.tables.loading import SI_PER_UNIT, Table, UnlistedError, load

INCH = SI_PER_UNIT["in"]
MILLIMETRE = SI_PER_UNIT["mm"]


class _Printed(NamedTuple):
    name: str
    standard: str
    diameter: float
    turns: float
    hand_length: float
    source: str
    status: str
    useful_length: float = 0.0


class PipeThread(NamedTuple):
    """A standard taper pipe thread [m].

    diameter       outside of the pipe (NPT) or gauge diameter (R)
    hand_length    normal engagement by hand
    useful_length  of R; 0 for NPT, whose standard gives a formula
    """

    name: str
    standard: str
    diameter: float
    pitch: float
    hand_length: float
    useful_length: float
    source: str
    status: str


def pipe_thread_table() -> Table[_Printed]:
    """The table as its standards print it."""
    return load("pipe_threads", _Printed)


@cache
def pipe_threads() -> tuple[PipeThread, ...]:
    """Every taper pipe thread that is known, each standard from small to large."""
    return tuple(_in_si(row) for row in pipe_thread_table())


def pipe_thread(text: str) -> PipeThread:
    """The pipe thread that a builder means: "1/8 NPT", "1/4-18 NPT", "R 1/4", "1/2 BSPT".

    KeyError lists what is known.
    """
    found = re.fullmatch(r"(\d(?:/\d+)?)(?:-[\d.]+)?(NPTF?|R|BSPT)", _plain(text))
    wanted = found and (found[1], "NPT" if found[2].startswith("NPT") else "R")
    for each in pipe_threads():
        if wanted == (each.name.split(" ")[0], each.standard):
            return each
    raise UnlistedError("pipe thread", text, (each.name for each in pipe_threads()))


def is_pipe_thread(text: str) -> bool:
    """Whether a name is meant as a taper pipe thread."""
    return re.search(r"NPT|BSPT|\bR ?\d", text.upper()) is not None


def _plain(text: str) -> str:
    """A name in one spelling: the size first, capitals, no spaces or inch marks."""
    tidy = re.sub(r"[\s\"]|\bIN\b", "", text.upper())
    return re.sub(r"^(R)(.+)$", r"\2\1", tidy)


def _in_si(row: _Printed) -> PipeThread:
    unit = INCH if row.standard == "NPT" else MILLIMETRE
    return PipeThread(
        row.name,
        row.standard,
        row.diameter * unit,
        INCH / row.turns,
        row.hand_length * unit,
        row.useful_length * unit,
        row.source,
        row.status,
    )
