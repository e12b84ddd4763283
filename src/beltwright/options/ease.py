"""How far limits are eased when nothing fits, to find what comes nearest."""

from dataclasses import dataclass
from math import inf

import numpy as np

from beltwright.options.limit import Held, Truth


@dataclass(frozen=True)
class Ease:
    """By which share of its bound a limit may be broken.

    goals  for what the builder wishes for, the budget included [1]
    stops  for what can hurt someone or wreck a part; only ever eased to name the nearest miss [1]
    """

    goals: float = 0.0
    stops: float = 0.0

    def keeps(self, numbers: Held, goal: bool) -> Truth:
        """Whether each candidate keeps a limit that is eased so."""
        share = self.goals if goal else self.stops
        if share == 0.0:
            return numbers.kept()
        if goal and share == inf:
            return np.ones(1, dtype=bool)
        return np.asarray(numbers.excess() <= share)


NOT_EASED = Ease()

STEPS = (0.02, 0.05, 0.1, 0.2, 0.5, 1.0)
"""Shares that are tried one after the other [1]."""
