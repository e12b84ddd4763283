"""Walks every candidate of a family in blocks, and cuts whole branches at the cheap limits.

The candidates are a grid: one axis a choice.  The walk chooses along one axis after the other.  As
soon as the numbers of a cheap limit are complete it is judged, and what breaks it goes with
everything that would have followed.  No estimate is involved: a branch is cut only by a limit that
each of its candidates breaks.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import prod

import numpy as np

from beltwright.options.ease import NOT_EASED, Ease
from beltwright.options.family import Axis, Places
from beltwright.options.limit import Limit, Term, Truth, held
from beltwright.options.plan import ROOT, Plan
from beltwright.options.rows import Rows, parts_of, the_root, together
from beltwright.options.tally import Tally
from beltwright.physics.arrays import Array
from beltwright.review.case import Case

BRANCHES = 65_536
"""Branches that are cut side by side; their numbers fit the second-level cache."""

CANDIDATES = 8_192
"""Candidates that are worked out in full side by side, for the same reason."""

BUDGET_REASON = "money.total: costs more than the budget"
CENT_PART = 1e-6
"""What adding prices in another order may change; far below the smallest coin [money]."""

SPREAD = 64
"""Branches for each share of a walk that is shared out, so that the shares weigh alike."""


@dataclass(frozen=True)
class Share:
    """Which part of a walk to do, when it is shared out: number `mine` of `of`."""

    mine: int = 0
    of: int = 1


WHOLE = Share()


@dataclass
class Walk:
    """One walk through a planned family.

    plan   the family and the limits
    tally  where the candidates that are cut are counted
    spare  what may be spent on the chosen parts; None without a budget [money]
    share  which part of the family to walk
    ease   by how much limits may be broken
    """

    plan: Plan
    tally: Tally
    spare: float | None = None
    share: Share = WHOLE
    ease: Ease = NOT_EASED
    tables: dict[Term, Array] = field(default_factory=dict)

    def blocks(self) -> Iterator[Rows]:
        """The candidates that keep every cheap limit, in blocks."""
        axes = self.plan.family.axes
        waiting: list[list[Rows]] = [[] for _ in range(len(axes) + 1)]
        root = self._rooted()
        waiting[0] = [root] if len(root) else []
        while (level := self._next_level(waiting)) is not None:
            rows = together(waiting[level])
            if level == len(axes):
                waiting[level] = []
                yield from parts_of(rows, CANDIDATES)
                continue
            most = max(1, BRANCHES // len(axes[level]))
            rest = rows.part(most, len(rows))
            waiting[level] = [rest] if len(rest) else []
            branches = self._branches(level, rows.part(0, most))
            if len(branches):
                waiting[level + 1].append(branches)

    def _next_level(self, waiting: list[list[Rows]]) -> int | None:
        """The deepest level with a full block, else the first with anything: so blocks stay full
        and no level holds more than two of them."""
        held_rows = [sum(len(rows) for rows in level) for level in waiting]
        for level in range(len(waiting) - 1, -1, -1):
            full = CANDIDATES if level == len(waiting) - 1 else BRANCHES
            if held_rows[level] >= full:
                return level
        return next((level for level, count in enumerate(held_rows) if count), None)

    def _rooted(self) -> Rows:
        root = the_root()
        case = Case(self.plan.family.build)
        known = {term: np.atleast_1d(term(case)) for term in self.plan.terms_at(ROOT)}
        return self._judged(ROOT, Rows(root.places, root.price, root.to_buy, known))

    def _branches(self, level: int, rows: Rows) -> Rows:
        """The rows with every option of their next axis that keeps the limits."""
        axis = self.plan.family.axes[level]
        kept = self._kept_on_grid(level, axis, rows)
        if kept is None:
            parent = np.repeat(np.arange(len(rows), dtype=np.int32), len(axis))
            option = np.tile(np.arange(len(axis), dtype=np.int32), len(rows))
        else:
            parent, option = (found.astype(np.int32) for found in np.nonzero(kept))
        grown = self._grown(level, axis, rows.taken(parent), option)
        return self._judged(level, self._mine(level, grown))

    def _kept_on_grid(self, level: int, axis: Axis, rows: Rows) -> Truth | None:
        """What is left of the grid of rows and options; None where nothing is cut."""
        kept: Truth | None = None
        for reason, keeps in self._grid_limits(level, axis, rows):
            cut = ~np.broadcast_to(keeps, (len(rows), len(axis)))
            if kept is not None:
                cut &= kept
            if cut.any():
                if self._counts_here(level - 1):
                    self.tally.add_grid(reason, self.plan.family, rows, cut)
                kept = ~cut if kept is None else kept & ~cut
        return kept

    def _grid_limits(self, level: int, axis: Axis, rows: Rows) -> Iterator[tuple[str, Truth]]:
        if self.spare is not None:
            least = sum(float(later.price.min()) for later in self.plan.family.axes[level + 1 :])
            most = self.spare - least + CENT_PART
            yield BUDGET_REASON, rows.price[:, np.newaxis] + axis.price <= most
        for limit in self._on_grid(level):
            numbers = held(limit, lambda term: self._on_axes(level, rows, term))
            yield limit.reason, self.ease.keeps(numbers, limit.goal)

    def _on_grid(self, level: int) -> list[Limit]:
        """The limits that the next axis completes by numbers of its own alone."""
        own = frozenset({level})
        return [
            limit
            for limit in self.plan.limits_at(level)
            if all(self.plan.level(t) < level or self.plan.needs[t] == own for t in limit.terms)
        ]

    def _on_axes(self, level: int, rows: Rows, term: Term) -> Array:
        if self.plan.level(term) < level:
            return rows.known[term][:, np.newaxis]
        return self._table(level, term)[np.newaxis, :]

    def _table(self, level: int, term: Term) -> Array:
        """A number that one axis alone decides, for each of its options."""
        if term not in self.tables:
            axis = self.plan.family.axes[level]
            case = Case(self.plan.family.build, replaced=axis.values)
            self.tables[term] = np.broadcast_to(term(case), len(axis))
        return self.tables[term]

    def _grown(self, level: int, axis: Axis, rows: Rows, option: Places) -> Rows:
        price = rows.price + axis.price[option]
        to_buy = rows.to_buy + axis.to_buy[option]
        grown = Rows((*rows.places, option), price, to_buy, dict(rows.known))
        case = self.plan.family.case(grown.places)
        own = frozenset({level})
        for term in self.plan.terms_at(level):
            if self.plan.needs[term] == own:
                grown.known[term] = self._table(level, term)[option]  # type: ignore[index]
            else:
                grown.known[term] = np.broadcast_to(term(case), len(grown))  # type: ignore[index]
        return grown

    def _judged(self, level: int, rows: Rows) -> Rows:
        """The rows that keep the limits which are complete now and could not be judged before."""
        before = [] if level == ROOT else self._on_grid(level)
        for limit in self.plan.limits_at(level):
            if limit in before or not len(rows):
                continue
            numbers = held(limit, rows.known.__getitem__)
            kept = np.broadcast_to(self.ease.keeps(numbers, limit.goal), len(rows))
            if not kept.all():
                if self._counts_here(level):
                    self.tally.add(limit.reason, self.plan.family, rows.taken(~kept))
                rows = rows.taken(kept)
        return rows

    def _split_level(self) -> int:
        """The first level with enough branches to share out."""
        sizes = [len(axis) for axis in self.plan.family.axes]
        wide = (n for n in range(len(sizes)) if prod(sizes[: n + 1]) >= SPREAD * self.share.of)
        return next(wide, len(sizes) - 1)

    def _counts_here(self, level: int) -> bool:
        """Whether this share counts what is cut: above the split, only the first one does."""
        return self.share.mine == 0 or level >= self._split_level()

    def _mine(self, level: int, rows: Rows) -> Rows:
        """The rows of this share; all of them above and below the level of the split."""
        if self.share.of == 1 or level != self._split_level():
            return rows
        number = np.zeros(len(rows), dtype=np.int64)
        for axis, places in zip(self.plan.family.axes, rows.places, strict=False):
            number = number * len(axis) + places
        return rows.taken(number % self.share.of == self.share.mine)
