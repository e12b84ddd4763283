"""One family's candidates tried: cheap limits, the whole belt path, then the whole review."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from beltwright.options.ease import NOT_EASED, Ease
from beltwright.options.family import Family
from beltwright.options.front import Candidate
from beltwright.options.limit import Held, Limit, Truth, held_in
from beltwright.options.merit import COST, PARTS, Merit
from beltwright.options.plan import Plan, plan
from beltwright.options.referee import Referee
from beltwright.options.rows import Rows, parts_of, together
from beltwright.options.spending import Spending
from beltwright.options.tally import Tally
from beltwright.options.walk import CANDIDATES, CENT_PART, WHOLE, Share, Walk
from beltwright.physics.arrays import Array


@dataclass(frozen=True)
class Fitting:
    """Candidates that break nothing (or no more than limits are eased), and their merits.

    excess  the largest share of a bound by which each breaks a goal or a stop [1]
    """

    candidates: list[Candidate]
    excess: Array
    merits: dict[Merit, Array]


@dataclass
class Trial:
    """The candidates of one family, tried against everything that the review holds them to.

    family  the candidates
    limits  what is judged before the review is
    tally   what was turned away, and why
    money   what is spent before anything is chosen
    share   which part of the family to try
    ease    by how much limits may be broken
    """

    family: Family
    limits: Sequence[Limit]
    tally: Tally
    money: Spending
    share: Share = WHOLE
    ease: Ease = NOT_EASED
    fitting: int = 0
    plan: Plan = field(init=False)
    referee: Referee = field(init=False)

    def __post_init__(self) -> None:
        self.plan = plan(self.family, self.limits)
        self.referee = Referee(self.plan.family, self.ease)

    @property
    def disposed(self) -> int:
        """How many candidates were looked at or ruled out."""
        return self.fitting + sum(self.tally.total.values())

    def run(self) -> Iterator[Fitting | None]:
        """Try every candidate, block by block; gives what fits, None after a block without."""
        walk = Walk(self.plan, self.tally, self.money.spare, self.share, self.ease)
        waiting: list[Rows] = []
        for rows in walk.blocks():
            left = self._tried(rows)
            if len(left):
                waiting.append(left)
            if sum(len(block) for block in waiting) >= CANDIDATES:
                yield from (self._reviewed(part) for part in self._drained(waiting))
                waiting = []
            else:
                yield None
        yield from (self._reviewed(part) for part in self._drained(waiting))

    def _drained(self, waiting: Sequence[Rows]) -> Iterator[Rows]:
        if waiting:
            yield from parts_of(together(waiting), CANDIDATES)

    def _tried(self, rows: Rows) -> Rows:
        """The rows that keep the limits which need the whole belt path."""
        case = self.plan.family.case(rows.places)
        broken = []
        for limit in self.plan.limits:
            if limit.full:
                kept = self.ease.keeps(held_in(limit, case), limit.goal)
                broken.append((limit.reason, ~np.broadcast_to(kept, len(rows))))
        return self._without(rows, broken)

    def _without(self, rows: Rows, broken: Sequence[tuple[str, Truth]]) -> Rows:
        """The rows that break nothing; the others count for the first that they break."""
        left = np.ones(len(rows), dtype=bool)
        for reason, breaks in broken:
            out = left & breaks
            if out.any():
                self.tally.add(reason, self.plan.family, rows.taken(out))
                left &= ~out
        return rows if left.all() else rows.taken(left)

    def _reviewed(self, rows: Rows) -> Fitting:
        judged = self.referee.judge(self.plan.family.case(rows.places))
        count = len(rows)
        broken = [(each.reason, np.broadcast_to(each.by, count)) for each in judged.broken]
        kept = ~np.any([np.zeros(count, dtype=bool), *(b for _, b in broken)], axis=0)
        left = self._without(rows, broken)
        self.fitting += len(left)
        merits = {merit: np.broadcast_to(v, count)[kept] for merit, v in judged.merits.items()}
        merits[COST] = self.money.base + left.price
        merits[PARTS] = self.money.to_buy + left.to_buy
        excess = np.broadcast_to(judged.excess, count)[kept]
        if self.money.budget is not None:
            over = Held(merits[COST], at_most=self.money.budget + CENT_PART).excess()
            excess = np.maximum(excess, over)
        return Fitting(self._candidates(left), excess, merits)

    def _candidates(self, rows: Rows) -> list[Candidate]:
        columns = {
            axis.choice: axis.options[places]
            for axis, places in zip(self.plan.family.axes, rows.places, strict=True)
        }
        table = np.stack([columns[choice] for choice in sorted(columns)], axis=1)
        return [tuple(row) for row in table.tolist()]
