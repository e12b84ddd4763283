"""A finding: one answered question about the build, as data."""

from enum import StrEnum
from typing import Any, NamedTuple

from beltwright.quantity import Kind, Quantity


class Verdict(StrEnum):
    """How a finding stands; never shown by colour alone."""

    STOP = "stop"
    MARGINAL = "marginal"
    NOT_KNOWN = "not known"
    SOUND = "sound"


WORST_FIRST = (Verdict.STOP, Verdict.MARGINAL, Verdict.NOT_KNOWN, Verdict.SOUND)


class Limit(NamedTuple):
    """What a value is held to [SI], either side of which may be open."""

    at_least: float | None = None
    at_most: float | None = None


class Explained(NamedTuple):
    """One cause that would explain what was read on a drive.

    what    the input that may be wrong
    needed  what it would have to be, and what the plan takes
    likely  how likely that is
    check   what tells it from the others
    line    of the build file with which the plan then agrees, "" where no line says it
    key     and
    value   what to put at which place for that, as the page sends it
    """

    what: str
    needed: str
    likely: str
    check: str
    line: str
    key: str
    value: Any


class Finding(NamedTuple):
    """One answered question, with everything that a reader needs to doubt it."""

    id: str
    title: str
    topic: str
    verdict: Verdict
    kind: Kind | None
    value: float | None
    low: float | None
    high: float | None
    limit: Limit | None
    shown: str
    shown_range: str
    shown_limit: str
    meaning: str
    remedy: str
    formula: str
    working: str
    source: str
    leaves_out: str
    caution: str
    assumed: tuple[str, ...]
    inputs: tuple[str, ...]
    place: tuple[float, float, float] | None
    causes: tuple[Explained, ...] = ()


class Assumption(NamedTuple):
    """A number that the builder did not give and the review had to suppose."""

    key: str
    quantity: Quantity
    why: str


class Measurement(NamedTuple):
    """An input worth measuring better, and what it would settle."""

    key: str
    what: str
    how: str
    share: float
    settles: tuple[str, ...]
