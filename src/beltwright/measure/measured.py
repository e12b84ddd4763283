"""A measured value with its ±, as it is to stand in the build file."""

import math
from dataclasses import dataclass

from beltwright.quantity import Kind, Unit, default_unit, unit_named

FIGURES = 2
"""Significant figures of a ±; the value is given to the same place."""


@dataclass(frozen=True)
class Measured:
    """One value.

    value   [SI]
    spread  what it may be off by, either way [SI]
    kind    what it is a measure of
    how     how it was found, in one sentence
    notes   what it leaves out, and what would make it surer
    """

    value: float
    spread: float
    kind: Kind
    how: str
    notes: tuple[str, ...] = ()

    def text(self, unit: Unit | None = None) -> str:
        """As it is to stand in the build file.

        >>> Measured(0.118, 0.00104, Kind.LENGTH, "").text()
        '118 ± 1.1 mm'
        """
        chosen = unit or plain_unit(self.kind)
        middle = chosen.from_si(self.value)
        spread = abs(chosen.from_si(self.value + self.spread) - middle)
        if spread <= 0.0 or not math.isfinite(spread):
            return f"{middle:.6g} {chosen.symbol}".strip()
        places = FIGURES - 1 - math.floor(math.log10(spread))
        step = 10.0**-places
        upward = math.ceil(spread / step - 1e-9) * step
        figures = (f"{number:.{max(places, 0)}f}" for number in (_to(middle, step), upward))
        return f"{' ± '.join(_bare(each) for each in figures)} {chosen.symbol}".strip()


def plain_unit(kind: Kind) -> Unit:
    """The unit where the builder has not said; a ratio is a plain number and no share."""
    return unit_named("", kind) if kind is Kind.RATIO else default_unit(kind)


def _to(number: float, step: float) -> float:
    """Whole steps above ten are not cut: a speed of 3304 rpm stays so."""
    return round(number / step) * step if step < 1.0 else round(number)


def _bare(figures: str) -> str:
    return figures.rstrip("0").rstrip(".") if "." in figures else figures
