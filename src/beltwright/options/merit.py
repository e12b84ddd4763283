"""What options are compared by, and in which steps a difference counts."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.quantity import Kind


@dataclass(frozen=True)
class Merit:
    """One thing that options are compared by.

    name    as it is asked for and written
    title   as it heads a column
    kind    what it is measured in
    better  "less" or "more"
    step    differences smaller than this can't be told apart in a shop, and don't count [SI]
    """

    name: str
    title: str
    kind: Kind
    better: Literal["less", "more"]
    step: float


COST = Merit("cost", "Cost", Kind.MONEY, "less", 0.01)
PARTS = Merit("parts", "Parts to buy", Kind.RATIO, "less", 1.0)
OVERSPEED = Merit("overspeed", "Overspeed", Kind.RATIO, "less", 0.001)
GRIP = Merit("grip", "Grip margin", Kind.RATIO, "more", 0.01)
CLEARANCE = Merit("clearance", "Nearest clearance", Kind.LENGTH, "more", 0.0005)

MERITS = (COST, PARTS, OVERSPEED, GRIP, CLEARANCE)
"""In the order in which options are ranked."""


def scores(merits: tuple[Merit, ...], values: Array) -> Array:
    """Values turned so that less is better, and counted in whole steps.

    `values` has a row for each candidate and a column for each merit; what is not known (NaN) is
    no better and no worse than anything.
    """
    steps = np.array([merit.step for merit in merits])
    turned = np.array([1.0 if merit.better == "less" else -1.0 for merit in merits])
    return np.asarray(np.round(np.nan_to_num(values) / steps) * turned)
