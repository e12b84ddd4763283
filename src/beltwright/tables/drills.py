"""Twist drills: number, letter, fraction and metric sizes, and the nearest to a wanted hole."""

from bisect import bisect_left
from fractions import Fraction
from functools import cache
from typing import NamedTuple

from beltwright.tables.loading import SI_PER_UNIT, Table, load

INCH = SI_PER_UNIT["in"]
LARGEST_FRACTION = 64
"""Fractional drills are listed up to 1 in, in sixty-fourths."""

LARGEST_METRIC = 250
"""Metric drills are listed up to 25 mm, in tenths."""


class _Printed(NamedTuple):
    name: str
    diameter: float
    source: str
    status: str


class Drill(NamedTuple):
    """A drill that is sold: its name and diameter [m], and whether it is metric."""

    name: str
    diameter: float
    metric: bool


def drill_table() -> Table[_Printed]:
    """Number and letter drills as their standard prints them."""
    return load("drills", _Printed)


@cache
def drills() -> tuple[Drill, ...]:
    """Every drill from 1 mm up, thin to thick."""
    named = [Drill(row.name, row.diameter, False) for row in drill_table()]
    fractions = [
        Drill(f"{Fraction(n, 64)} in", n / 64 * INCH, False) for n in range(1, LARGEST_FRACTION + 1)
    ]
    metric = [Drill(f"{n / 10:g} mm", n / 10000, True) for n in range(10, LARGEST_METRIC + 1)]
    return tuple(sorted(named + fractions + metric, key=lambda drill: drill.diameter))


def nearest_drill(diameter: float, metric: bool) -> Drill:
    """The drill nearest to a wanted hole [m], out of the metric or out of the inch drills."""
    kind = _drills_of(metric)
    at = bisect_left(kind, diameter, key=lambda drill: drill.diameter)
    around = kind[max(at - 1, 0) : at + 1]
    return min(around, key=lambda drill: abs(drill.diameter - diameter))


@cache
def _drills_of(metric: bool) -> tuple[Drill, ...]:
    return tuple(drill for drill in drills() if drill.metric == metric)
