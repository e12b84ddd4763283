"""The options of which none is at least as good as another in everything."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array

Candidate = tuple[int, ...]
"""The option taken for each choice."""


@dataclass
class Front:
    """Candidates that nothing found so far beats, with their scores (less is better) and values.

    A candidate is left out where another is at least as good in every score; of equals the one
    whose options stand first is kept, so that the order of the search does not matter.
    """

    width: int
    candidates: list[Candidate] = field(default_factory=list)
    scores: Array = field(default_factory=lambda: np.zeros((0, 0)))
    values: list[Array] = field(default_factory=list)

    def __post_init__(self) -> None:
        if not self.candidates:
            self.scores = np.zeros((0, self.width))

    def offer(
        self,
        candidates: Sequence[Candidate],
        scores: Array,
        values: Array | Sequence[Array],
        allowed: Callable[[Candidate], bool] = lambda _: True,
    ) -> None:
        """Take in what is not beaten; `allowed` has the last word on each that would enter."""
        open_ = np.flatnonzero(~self._beaten(scores))
        # the best first, so that few enter that are thrown out again
        for place in sorted(open_.tolist(), key=lambda n: (tuple(scores[n]), candidates[n])):
            candidate = candidates[place]
            if self._refuses(candidate, scores[place]) or not allowed(candidate):
                continue
            self._enter(candidate, scores[place], values[place])

    def _beaten(self, scores: Array) -> NDArray[np.bool_]:
        """Which rows another is better than, and as good in everything else."""
        beaten = np.zeros(len(scores), dtype=bool)
        for mine in self.scores:
            beaten |= np.all(mine <= scores, axis=1) & np.any(mine < scores, axis=1)
        return beaten

    def _refuses(self, candidate: Candidate, score: Array) -> bool:
        as_good = np.all(self.scores <= score, axis=1)
        equal = np.all(self.scores == score, axis=1)
        if np.any(as_good & ~equal):
            return True
        return any(self.candidates[n] <= candidate for n in np.flatnonzero(equal))

    def _enter(self, candidate: Candidate, score: Array, values: Array) -> None:
        stays = ~np.all(score <= self.scores, axis=1)
        self.candidates = [c for c, stay in zip(self.candidates, stays, strict=True) if stay]
        self.candidates.append(candidate)
        self.scores = np.vstack((self.scores[stays], score))
        self.values = [v for v, stay in zip(self.values, stays, strict=True) if stay]
        self.values.append(values)

    def ranked(self, first: int = 0) -> list[int]:
        """The places of the candidates, best first by one score and then by the others in order."""
        order = [first, *(column for column in range(self.width) if column != first)]
        return sorted(
            range(len(self.candidates)),
            key=lambda n: (tuple(self.scores[n][order]), self.candidates[n]),
        )
