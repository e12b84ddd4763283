"""How near the belt comes to a guard in both clutch positions, as numbers.

The strip is set to the belt with a spacer, so only the tolerances of the gap and of the pulley
count, not those of the places of shafts: how the belt runs is taken from the build as written.
"""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.physics.belt.mount import Arm
from beltwright.physics.outline import Outline
from beltwright.review.belt.clearance import band_as_written, driving_plan, loose_plan
from beltwright.review.belt.layout import loose_belt
from beltwright.review.case import Case, NotKnownError
from beltwright.review.guard.bent import Bent, strip_outline

LEAST_GAP = 0.0015
"""A strip keeps about 1/16 in from the running belt [m] (common practice, no source)."""


class GuardGap(NamedTuple):
    """The smallest gap between a belt and a guard, a sample each [m].

    taut       in drive
    trembling  in drive, the slack spans trembling
    at_rest    clutch down, the belt drawn taut round what it still touches; None without a clutch
    flapping   clutch down, all slack gathered in the span beside the guard
    """

    taut: Array
    trembling: Array
    at_rest: Array | None
    flapping: Array | None


def guard_gap(case: Case, shape: Bent) -> GuardGap:
    """How near the belt comes to a guard."""
    return case.once(("guard_gap", shape.guard.name), lambda: _guard_gap(case, shape))


def _guard_gap(case: Case, shape: Bent) -> GuardGap:
    outline, layout = strip_outline(shape), shape.layout
    scatter = (shape.gap - shape.gap[:1]) - (shape.face - shape.face[:1])
    driving = driving_plan(layout, band_as_written(layout, layout.path), outline)
    taut, trembling = driving.taut + scatter, driving.trembling + scatter
    try:
        loose = loose_belt(case, shape.belt)
    except NotKnownError:
        return GuardGap(taut, trembling, None, None)
    slack = np.atleast_1d(loose.belt.slack)[:1]
    if shape.guard.fixed_to == "arm":
        outline = _swung(shape, outline)
    down = loose_plan(band_as_written(layout, loose.path()), slack, outline)
    return GuardGap(taut, trembling, down.at_rest + scatter, down.flapping + scatter)


def _swung(shape: Bent, outline: Outline) -> Outline:
    """A strip that is screwed to its idler's arm, with the clutch down."""
    mover = shape.layout.mover
    assert mover is not None
    assert isinstance(mover.mount, Arm)
    turn = np.atleast_1d(mover.loose)[:1] - np.atleast_1d(shape.layout.position)[:1]
    pivot_x, pivot_y = (np.atleast_1d(at)[:1] for at in (mover.mount.pivot_x, mover.mount.pivot_y))
    x, y = outline.x - pivot_x, outline.y - pivot_y
    return Outline(
        pivot_x + x * np.cos(turn) - y * np.sin(turn),
        pivot_y + x * np.sin(turn) + y * np.cos(turn),
        outline.low,
        outline.high,
    )
