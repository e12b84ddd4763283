"""The value, range and limit of an answer in figures: no finer than its range is wide."""

import re
from math import isclose
from typing import NamedTuple

import numpy as np

from beltwright.quantity import Kind, unit_named
from beltwright.quantity.showing import NO_VALUE, STEPS, UNLIMITED
from beltwright.review.case import Case
from beltwright.review.draft import Draft
from beltwright.review.finding import Limit
from beltwright.review.road_words import slope_words

BLANK = NO_VALUE

_TIGHT_SHARE = re.compile(r"(?<=[0-9])%")
_SLOPE = re.compile(r"° \(-?[0-9]+ %\)")
_OF_ARITHMETIC = ("nan", "inf", "-0", "e+", "e-")
_NO_FIGURES = re.compile(
    r"(?<![\w.])(?:(?P<nan>-?nan|-inf)|(?P<inf>inf)|(?P<nought>-0(?:\.0+)?)"
    r"|(?P<power>-?\d(?:\.\d+)?e[+-]\d+))(?![\w.]*\w)"
)
"""Numbers as arithmetic has them and no builder reads them."""


class Figures(NamedTuple):
    """An answer's value with the ends of its range [SI], NaN where it is words, and its limit."""

    case: Case
    draft: Draft
    value: float
    low: float
    high: float
    limit: Limit | None

    def shown(self) -> str:
        """The value, or the words that stand for it."""
        return self.draft.says or self._value(self._step())

    def shown_range(self) -> str:
        """The range, "" where there is none to speak of."""
        kind, low, high = self.draft.kind, self.low, self.high
        if kind is None or low == high or np.isnan(low) or np.isnan(high):
            return ""
        ends = self._ends(kind)
        if ends == self._show(low, kind, self._step()):
            return ""  # both ends are shown by the same figures as the value
        return ends

    def shown_limit(self) -> str:
        """What the value is held to."""
        limit, kind, unit = self.limit, self.draft.kind, self.draft.unit
        if limit is None or kind is None:
            return ""
        least, most = limit.at_least, limit.at_most
        if least is not None and most is not None:
            fine = self._fineness(kind, least, most)
            return self.case.units.show_range(least, most, kind, unit, fine)
        if least is not None:
            return f"at least {self._bound(least, kind)}"
        assert most is not None
        return f"at most {self._bound(most, kind)}"

    def _bound(self, bound: float, kind: Kind) -> str:
        """One limit; of a value that is told as a slope, as a slope too."""
        if _SLOPE.search(self.draft.says) and bound > 0.0:
            return slope_words(bound)
        return self._show(bound, kind, self._fineness(kind, bound))

    def _fineness(self, kind: Kind, *bounds: float) -> float:
        """The least difference of a limit worth showing [SI]: that of the value, but nothing is
        taken off a limit that is a short number as it was given."""
        unit = self.case.units[kind]
        if self.draft.unit:
            unit = unit_named(self.draft.unit, kind)
        numbers = [unit.from_si(bound) for bound in bounds]
        if any(isclose(number, round(number, 1), rel_tol=1e-9) for number in numbers):
            return 0.0
        return self._step()

    def in_words(self, words: str) -> str:
        """Words that tell the value, with as many figures as it is shown with."""
        words = spaced(words)
        if not words or self.draft.kind is None or not np.isfinite(self.value):
            return words
        fine, told = (self._show(self.value, self.draft.kind, step) for step in (0.0, self._step()))
        if fine == told:
            return words
        return re.sub(rf"(?<![\w.,-]){re.escape(fine)}(?!\w)", told, words)

    def _value(self, step: float) -> str:
        kind, value = self.draft.kind, self.value
        if kind is None or np.isnan(value):
            return BLANK
        if np.isinf(value):
            return UNLIMITED if value > 0.0 else BLANK
        if self.draft.below_zero and value < 0.0:
            return f"{self.draft.below_zero} {self._show(-value, kind, step)}"
        return self._show(value, kind, step)

    def _ends(self, kind: Kind) -> str:
        low, high, step = self.low, self.high, self._step()
        if np.isinf(low):
            return f"{self._show(high, kind)} or less" if np.isfinite(high) else "any value"
        if np.isinf(high):
            return f"{self._show(low, kind)} or more, without limit"
        return self.case.units.show_range(low, high, kind, self.draft.unit, step)

    def _step(self) -> float:
        """The least difference worth showing [SI]: a part of the range, or what parts the value
        from its limit; 0 where nothing is known of its range."""
        width = self.high - self.low
        if not np.isfinite(width) or width <= 0.0:
            return 0.0
        bounds = () if self.limit is None else (self.limit.at_least, self.limit.at_most)
        apart = [abs(self.value - bound) for bound in bounds if bound not in (None, self.value)]
        return float(min(width / STEPS, *apart)) if apart else width / STEPS

    def _show(self, value: float, kind: Kind, step: float = 0.0) -> str:
        return self.case.units.show(value, kind, self.draft.unit, step)


def spaced(words: str) -> str:
    """Words with a space before each %, as the values have it (ISO 80000-1, 6.5.4), and with
    what is no number, or one with a power of ten, as it is read out.

    >>> spaced("seals -0 W, 5e+04 N: nan of 20%")
    'seals 0 W, 50000 N: no value of 20 %'
    """
    if any(mark in words for mark in _OF_ARITHMETIC):
        words = _NO_FIGURES.sub(_read_out, words)
    return _TIGHT_SHARE.sub(" %", words)


def _read_out(found: re.Match[str]) -> str:
    """A number of arithmetic as it is read out."""
    if found["nan"]:
        return BLANK
    if found["inf"]:
        return UNLIMITED
    if found["nought"]:
        return "0"
    return np.format_float_positional(float(found["power"]), trim="-")
