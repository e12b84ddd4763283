"""What the parts cost that no choice changes, and what is left of the budget for the others."""

from collections.abc import Sequence
from dataclasses import dataclass

from beltwright.build.model import Build
from beltwright.options.ease import NOT_EASED, Ease
from beltwright.options.option import Choice
from beltwright.review.money.sums import MAKE


@dataclass(frozen=True)
class Spending:
    """Money before anything is chosen.

    base    what the parts cost that no choice changes, those on the bench included [money]
    to_buy  how many of them are still to be bought [1]
    budget  what the builder wants to spend at most; None without a budget [money]
    spare   what the budget, eased, leaves for the chosen parts; None without one [money]
    """

    base: float
    to_buy: int
    budget: float | None
    spare: float | None


def spending(build: Build, choices: Sequence[Choice], ease: Ease = NOT_EASED) -> Spending:
    """What is spent before anything is chosen."""
    chosen = {choice.use for choice in choices if choice.use}
    fixed = [part for part in build.part if part.have or part.use not in chosen]
    to_buy = sum(1 for part in fixed if not part.have and part.source != MAKE)
    base = sum(part.price.value * part.quantity for part in fixed if part.price is not None)
    goal = build.goals.budget
    if goal is None or goal.high is None:
        return Spending(base, to_buy, None, None)
    eased = goal.high * (1.0 + ease.goals) if goal.high else ease.goals
    return Spending(base, to_buy, goal.high, eased - base)
