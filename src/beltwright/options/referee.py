"""Holds candidates to every finding of the review, as arrays, and reads their merits off it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from beltwright.build.model import Build
from beltwright.options.ease import NOT_EASED, Ease
from beltwright.options.family import Family
from beltwright.options.limit import Held, Truth
from beltwright.options.merit import CLEARANCE, GRIP, OVERSPEED, Merit
from beltwright.physics.arrays import Array
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.judging import verdict_of
from beltwright.review.review import review
from beltwright.review.topics import FIRST_DRIVE, TOPICS

NOT_A_PART = (".itself", ".flap", ".wheels")
"""Findings of clearance that are no gap between belt and part."""

MONEY = "money."
"""Money is counted with the parts of each candidate, not with those of the build file."""


@dataclass(frozen=True)
class Standing:
    """A stop that no choice can change: told, and held against no candidate."""

    id: str
    title: str


class Broken(NamedTuple):
    """A limit that some candidates break: its finding, how it is told, and which do."""

    id: str
    title: str
    reason: str
    by: Truth


@dataclass(frozen=True)
class Judged:
    """What the review says of a block of candidates.

    broken  every limit that some break
    excess  the largest share of a bound by which each candidate breaks a goal or a stop [1]
    merits  what they are compared by, for those merits that the review knows
    """

    broken: tuple[Broken, ...]
    excess: Array
    merits: dict[Merit, Array]


class Referee:
    """The findings of a family that its choices can change.

    family  the candidates
    ease    by how much limits may be broken
    strict  findings whose limit is to be kept even where breaking it would be no stop
    """

    def __init__(
        self, family: Family, ease: Ease = NOT_EASED, strict: frozenset[str] = frozenset()
    ) -> None:
        self.family = family
        self.strict = strict
        self.ease = ease
        self.goals = goal_ids(family.build)
        self.standing: list[Standing] = []
        self.asks: list[str] = []
        case = Case(family.build)
        for ask in asks_of(case):
            self._sort(case, ask)

    def _sort(self, case: Case, ask: Ask) -> None:
        with case.watching() as used:
            try:
                draft = ask.answer()
            except NotKnownError:
                draft = None
        changes = not used.isdisjoint(self.family.keys)
        if draft is None:
            if changes:
                self.asks.append(ask.id)
        elif changes and self._counts(ask.id, draft):
            self.asks.append(ask.id)
        elif (not changes or draft.verdict is not None) and verdict_of(draft) is Verdict.STOP:
            # a plain statement, as that nothing covers a belt, stands whatever is chosen
            self.standing.append(Standing(ask.id, ask.title))

    def _counts(self, id_: str, draft: Draft) -> bool:
        return self._holds_to(id_, draft) or _merit(id_, draft)[0] is not None

    def _holds_to(self, id_: str, draft: Draft) -> bool:
        limited = draft.holds is not None or draft.at_least is not None or draft.at_most is not None
        stops = draft.stops is not None or draft.worst is Verdict.STOP
        return limited and (stops or id_ in self.goals or id_ in self.strict)

    def _numbers(self, id_: str, draft: Draft) -> Held:
        """What is held; a broken limit that is no stop counts only where it is asked for."""
        if draft.holds is not None:
            return Held(np.where(draft.holds, 0.0, np.nan))
        assert draft.value is not None
        if draft.stops is None or id_ in self.goals or id_ in self.strict:
            return Held(draft.value, draft.at_least, draft.at_most)
        spared = ~np.asarray(draft.stops)
        return Held(
            draft.value,
            None if draft.at_least is None else np.where(spared, -np.inf, draft.at_least),
            None if draft.at_most is None else np.where(spared, np.inf, draft.at_most),
            np.isfinite(draft.value) | spared,
        )

    def _breaks(self, ask: Ask) -> str:
        word = "misses the goal of" if ask.id in self.goals else "is stopped by"
        return f"{word} “{ask.title}”"

    def judge(self, case: Case) -> Judged:
        """What the review says of every candidate of a case."""
        broken: list[Broken] = []
        found: dict[Merit, list[Array]] = {}
        excess = np.zeros(1)
        wanted = frozenset(self.asks)
        for ask in asks_of(case):
            if ask.id not in wanted:
                continue
            try:
                draft = ask.answer()
            except NotKnownError:
                continue
            if draft.verdict is None and self._holds_to(ask.id, draft):
                numbers = self._numbers(ask.id, draft)
                excess = np.maximum(excess, numbers.excess())
                kept = self.ease.keeps(numbers, ask.id in self.goals)
                if not kept.all():
                    reason = f"{ask.id}: {self._breaks(ask)}"
                    broken.append(Broken(ask.id, ask.title, reason, ~kept))
            merit, values = _merit(ask.id, draft)
            if merit is not None and values is not None:
                found.setdefault(merit, []).append(values)
        return Judged(
            tuple(broken), excess, {merit: _worst(merit, v) for merit, v in found.items()}
        )


def goal_ids(build: Build) -> frozenset[str]:
    """The findings that the builder's goals limit: an option has to meet them.

    The climb counts on the usual ground, which stands first.
    """
    goals = build.goals
    held = {
        "speed.top": goals.top_speed,
        "speed.crawl": goals.crawl_speed,
        "brake.stopping_distance": goals.stop_within,
        **{f"climb.{name}": goals.climb for name in build.machine.ground[:1]},
    }
    return frozenset(id_ for id_, goal in held.items() if goal is not None)


def asks_of(case: Case) -> Iterator[Ask]:
    """Every question of the review but those of money, and of drives of the build as it was."""
    for topic, questions in TOPICS.items():
        if topic != FIRST_DRIVE:
            yield from (ask for ask in questions(case) if not _is_money(ask.id))


def stops_of(build: Build) -> dict[str, str]:
    """What the review stops in a build as it is written, by id, with its title."""
    found = review(build, samples=0).findings
    stops = [f for f in found if f.verdict is Verdict.STOP and f.topic != FIRST_DRIVE]
    return {f.id: f.title for f in stops if not _is_money(f.id)}


def _is_money(id_: str) -> bool:
    return id_.startswith(MONEY)


def _merit(id_: str, draft: Draft) -> tuple[Merit | None, Array | None]:
    if draft.value is None:
        return None, None
    if id_ == "gearbox.overspeed":
        return OVERSPEED, draft.value
    if id_.startswith("clearance.") and not id_.endswith(NOT_A_PART):
        return CLEARANCE, draft.value
    if id_.startswith("belt.") and id_.endswith(".grip") and draft.at_least is not None:
        return GRIP, np.asarray(draft.value / draft.at_least - 1.0)
    return None, None


def _worst(merit: Merit, values: Sequence[Array]) -> Array:
    worst = np.minimum if merit.better == "more" else np.maximum
    result = np.asarray(values[0], dtype=float)
    for more in values[1:]:
        result = np.asarray(worst(result, more))
    return result
