"""What comes of looking for a place for one more idler: places, and where there is none."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, log2
from typing import Literal, NamedTuple

from beltwright.build.driveline import Belt
from beltwright.build.model import Build
from beltwright.options.idler_place import IdlerMap
from beltwright.options.one_more_idler import NearBelt, Wanted, Way
from beltwright.options.referee import MONEY
from beltwright.review.finding import WORST_FIRST, Verdict
from beltwright.review.review import Review

LEAST = 0.0005
"""A place that forgives less is none: no hole is drilled nearer by hand [m]."""

NOT_SOUND = (Verdict.STOP, Verdict.MARGINAL)


class Turn(NamedTuple):
    """A finding that another verdict is given to: from which (None where it is new), to which."""

    id: str
    title: str
    before: Verdict | None
    after: Verdict


@dataclass(frozen=True)
class Offer:
    """A place where one more idler may stand.

    way       where in the run
    at        its centre, as it is written in the build file
    forgives  how far off the hole may be [m]
    belt      the belt to use
    to_buy    what has to be bought: "idler", "belt"
    mends     findings that turn sound, or at least from stop to marginal
    worsens   findings that turn for the worse, and new ones that are not sound
    map       the other places in the same piece of the region
    build     the build with the idler, the belt and their parts in it
    """

    way: Way
    at: tuple[str, str]
    forgives: float
    belt: NearBelt
    to_buy: tuple[str, ...]
    mends: tuple[Turn, ...]
    worsens: tuple[Turn, ...]
    map: IdlerMap
    build: Build


class Nowhere(NamedTuple):
    """A way that offers no place.

    why     "stopped" by limits, of which those are named that stop the place that comes nearest;
            it "spoils" more than it mends, and what; only "narrow" places; "no run" for any belt;
            or "not known"
    titles  of the findings, or what is not known
    """

    way: Way
    why: Literal["stopped", "spoils", "narrow", "no run", "not known"]
    titles: tuple[str, ...]


@dataclass(frozen=True)
class Going:
    """How far the search is: share done [1], where it looks, and how many places it found."""

    share: float
    way: Way
    found: int


@dataclass(frozen=True)
class NewIdler:
    """What a search found.

    belt      the belt that it was for
    wanted    the idler that was tried
    belts     the belts that were tried, the present one first
    broken    titles of what is not sound about the belt now
    offers    places, best first
    nowhere   ways without a place
    finished  whether every way was tried
    missed    width of the strips that may have slipped through [m]
    """

    belt: Belt
    wanted: Wanted
    belts: tuple[NearBelt, ...]
    broken: tuple[str, ...]
    offers: tuple[Offer, ...]
    nowhere: tuple[Nowhere, ...]
    finished: bool
    seconds: float
    missed: float


NOT_SOUND = (Verdict.STOP, Verdict.MARGINAL)


def rank(needs: bool, offer: Offer) -> tuple[float, ...]:
    """What mends nothing that needs it stands last; then what forgives twice as much stands before
    what forgives half, whatever else it does."""
    sound = sum(turn.after is Verdict.SOUND for turn in offer.mends)
    return (
        needs and not offer.mends,
        -floor(log2(offer.forgives / LEAST)),
        -sound,
        -len(offer.mends),
        len(offer.worsens),
        len(offer.to_buy),
        -offer.forgives,
    )


def turns(before: Review, after: Review) -> tuple[tuple[Turn, ...], tuple[Turn, ...]]:
    """What an idler mends of what was marginal or stopped, and what it makes worse or brings."""
    was = {finding.id: finding.verdict for finding in before.findings}
    found = [
        Turn(f.id, f.title, was.get(f.id), f.verdict)
        for f in after.findings
        if not f.id.startswith(MONEY)
    ]
    mends = (
        turn
        for turn in found
        if turn.before in NOT_SOUND and turn.after is not Verdict.NOT_KNOWN and _better_by(turn) > 0
    )
    worsens = (
        turn
        for turn in found
        if (turn.before is None and turn.after in NOT_SOUND)
        or (turn.before is not None and _better_by(turn) < 0)
    )
    return tuple(mends), tuple(worsens)


def spoils(mends: Sequence[Turn], worsens: Sequence[Turn], belt: Belt) -> bool:
    """Whether an idler does more harm than good: it stops something, or makes more worse than it
    mends where that is no stop, or mends nothing of its belt."""
    if not worsens:
        return False
    good = [turn for turn in mends if is_of(belt, turn.id)]
    outweighed = len(worsens) > len(mends) and all(t.before is not Verdict.STOP for t in good)
    return not good or outweighed or any(turn.after is Verdict.STOP for turn in worsens)


def is_of(belt: Belt, id_: str) -> bool:
    """Whether a finding is one of a belt."""
    return id_.startswith((f"belt.{belt.name}.", f"clearance.{belt.name}."))


def _better_by(turn: Turn) -> int:
    assert turn.before is not None
    return WORST_FIRST.index(turn.after) - WORST_FIRST.index(turn.before)
