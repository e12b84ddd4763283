"""What a search found."""

from collections.abc import Mapping
from dataclasses import dataclass

from beltwright.options.front import Candidate
from beltwright.options.merit import Merit
from beltwright.options.option import Edit
from beltwright.options.referee import Standing
from beltwright.options.rejection import Rejection
from beltwright.options.relaxation import Relaxation


@dataclass(frozen=True)
class Found:
    """One option that fits, and that no other beats in everything.

    taken   the option for each choice, in words, by the choice's name
    merits  what it is compared by [SI or money]
    edits   what it changes in the build file
    """

    candidate: Candidate
    taken: Mapping[str, str]
    merits: Mapping[Merit, float]
    edits: tuple[Edit, ...]


@dataclass(frozen=True)
class Outcome:
    """What a search found.

    found        the options that fit, best first
    candidates   how many candidates there are
    disposed     how many of them were looked at or ruled out
    seconds      how long it took
    finished     whether every candidate was disposed of; else it was stopped
    standing     stops that no choice changes
    rejections   why candidates were turned away, most common first
    relaxation   what would let something fit, where nothing does
    """

    found: tuple[Found, ...]
    candidates: int
    disposed: int
    seconds: float
    finished: bool
    standing: tuple[Standing, ...]
    rejections: tuple[Rejection, ...]
    relaxation: Relaxation | None
