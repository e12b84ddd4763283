"""How well evenly spaced lines fit the spectrum of each stretch: the spacing of an engine's lines.

The sound of an engine repeats with its cycle, so all its lines are whole multiples of one
frequency, whichever of them are loud and even where the lowest is missing, as behind the small
loudspeaker or microphone of a phone. A spacing is good where the spectrum stands high on its lines
and low half-way between them: twice the right spacing has lines half-way, and half of it has
nothing on every other line.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from beltwright.measure.spectrum import HIGHEST, Spectrum
from beltwright.physics.arrays import Array

LINES = 30
"""Lines that are looked at; higher ones blur as the speed wanders [1]."""

GRID = 0.002
"""From one spacing that is tried to the next, as a share of it [1]."""

HEARD = 4.0
"""How far lines must stand out together; noise alone stays under 3 [neper]."""

SAME = 0.06
"""Spacings this close are one speed that wanders [1]."""


@dataclass(frozen=True)
class Spacing:
    """The steady spacing of lines, and where it was heard.

    at      the stretches that have it, shape (n,) [s]
    hertz   the spacing in each of them, shape (n,) [Hz]
    share   of the stretches with sound that have it [1]
    """

    at: Array
    hertz: Array
    share: float


def spacing(heard: Spectrum, lowest: float, highest: float) -> Spacing:
    """Find the spacing that most stretches share, between two limits [Hz]; it may be in none."""
    tried, comb = _comb(heard.height.shape[1], heard.step, lowest, highest)
    score = heard.height[heard.loud] @ comb
    at = heard.start[heard.loud]
    best = score.argmax(axis=-1)
    sure = score.max(axis=-1) > HEARD
    if not sure.any():
        return Spacing(at[:0], at[:0], 0.0)
    middle = _most_shared(best[sure], tried.size)
    reach = int(SAME / GRID)
    low, high = max(middle - reach, 1), min(middle + reach + 1, tried.size - 1)
    peak = low + score[:, low:high].argmax(axis=-1)
    steady = (score[np.arange(at.size), peak] > HEARD) & (low < peak) & (peak < high - 1)
    hertz = tried[0] * np.exp(GRID * (peak + _between(score, peak)))
    return Spacing(at[steady], hertz[steady], float(steady.mean()))


@lru_cache(maxsize=4)
def _comb(bins: int, step: float, lowest: float, highest: float) -> tuple[Array, Array]:
    """The spacings that are tried, and what each takes from which bin, shape (bins, spacings)."""
    tried = lowest * np.exp(GRID * np.arange(int(np.log(highest / lowest) / GRID) + 1))
    comb = np.zeros((bins, tried.size))
    line = np.arange(1, LINES + 1)[:, None]
    inside = (line + 0.5) * tried < HIGHEST - 2.0 * step
    weight = inside / np.sqrt(np.maximum(inside.sum(axis=0), 1))
    column = np.broadcast_to(np.arange(tried.size), inside.shape)
    for offset, sign in ((0.0, 1.0), (0.5, -1.0)):
        place = np.where(inside, (line + offset) * tried / step, 0.0)
        below = place.astype(int)
        share = place - below
        np.add.at(comb, (below, column), sign * weight * (1.0 - share))
        np.add.at(comb, (below + 1, column), sign * weight * share)
    return tried, comb


def _most_shared(best: np.ndarray, size: int) -> int:
    """The place around which most of the best spacings lie."""
    count = np.bincount(best, minlength=size).astype(float)
    near = np.convolve(count, np.bartlett(2 * int(SAME / GRID) + 1), mode="same")
    return int(near.argmax())


def _between(score: Array, peak: np.ndarray) -> Array:
    """Where the top lies between the places that were tried: that of a parabola through three."""
    row = np.arange(peak.size)
    left, top, right = (score[row, np.clip(peak + d, 0, score.shape[1] - 1)] for d in (-1, 0, 1))
    bend = left - 2.0 * top + right
    shift = np.divide(0.5 * (left - right), bend, out=np.zeros_like(bend), where=bend < 0.0)
    held: Array = np.clip(shift, -0.5, 0.5)
    return held
