"""Which sold belts a run takes, and what would let one fit where none does, in words."""

from functools import partial

import numpy as np

from beltwright.build.driveline import Belt, Idler, Pulley
from beltwright.quantity import Kind
from beltwright.review.belt.layout import belt_run
from beltwright.review.belt.length import growth, lengths_taken, sold_between
from beltwright.review.case import Case
from beltwright.review.nominal import nominal
from beltwright.tables.belts import SoldLength, sold_lengths

LIFT = 0.001
"""Mean gap by which a slack belt must be able to stand off its grooves to let go [m] (assumed)."""

FAULT_REMEDY = (
    "Check the places and diameters with a tape, write the run in the order in which the belt goes "
    "round, and say of each idler whether it runs on the back or the inside."
)
SWAPPED_REMEDY = (
    "Swap the angles released and furthest of the arm, or let the idler press on the other side of "
    "the belt."
)


def another_belt(case: Case, belt: Belt) -> str:
    """The sold belts that the run takes; where there is none, what would let one fit."""
    return fitting_belts(case, belt) or _fitting_one(case, belt)


def fitting_belts(case: Case, belt: Belt) -> str:
    """The sold belts that a run takes; on a clutch arm those that also let go, and can grow too
    if there are such."""
    least, longest = shortest(case, belt), nominal(lengths_taken(case, belt).longest)
    sold = sold_between(belt, least, longest - nominal(growth(case, belt)))
    sold = sold or sold_between(belt, least, longest)
    if not sold:
        return ""
    if len(sold) == 1:
        return f"Of the sold belts only {sold[0].size} fits this run."
    return f"Sold belts from {sold[0].size} to {sold[-1].size} fit this run."


def shortest(case: Case, belt: Belt) -> float:
    """The shortest pitch length that goes on, and lets go where an arm is the clutch [m]."""
    lets_go = LIFT * 2.0 * np.pi if _on_arm(case, belt) else 0.0
    return nominal(lengths_taken(case, belt).shortest) + lets_go


def longer_belt(case: Case, belt: Belt, more: float) -> str:
    """A belt that is longer by at least this [m] and still fits, as what else may be done."""
    length = nominal(belt_run(case, belt).pitch_length)
    sold = sold_between(belt, length + more, nominal(lengths_taken(case, belt).longest))
    differ = _near_by(belt, length).tolerance
    if more < differ:
        show = partial(case.units.show, kind=Kind.LENGTH)
        return (
            f". It lacks {show(more)}, and belts of one size differ by up to {show(2.0 * differ)}: "
            "lay a tape round yours, or try another of its size"
        )
    return f", or use {sold[0].size}" if sold else ""


def _fitting_one(case: Case, belt: Belt) -> str:
    least, longest = shortest(case, belt), nominal(lengths_taken(case, belt).longest)
    if not np.isfinite(least + longest):
        return FAULT_REMEDY
    if least > longest and nominal(lengths_taken(case, belt).shortest) > longest:
        return SWAPPED_REMEDY
    show = partial(case.units.show, kind=Kind.LENGTH)
    near = _near_by(belt, 0.5 * (least + longest))
    over = near.pitch_length - longest
    two = sum(isinstance(wheel.of, Pulley) for wheel in belt_run(case, belt).wheels) == 2
    shafts = "set the two shafts half of that" if two else "set its shafts"
    if over > 0.0:
        off, ways = f"{show(over)} too long", f"{shafts} further apart"
        swing = "let the arm swing further into the belt"
    else:
        off, ways = f"{show(least - near.pitch_length)} too short", f"{shafts} closer together"
        swing = "let the arm swing further off the belt"
    arm = f", or {swing}" if _on_arm(case, belt) else ""
    return (
        f"No sold belt fits as it stands. The nearest, {near.size}, is {off}: {ways}{arm}."
        f"{_short_travel(case, belt, near)}"
    )


def _short_travel(case: Case, belt: Belt, near: SoldLength) -> str:
    """What is said of an arm that takes up less than two belts of one size differ."""
    taken = lengths_taken(case, belt)
    travel = nominal(taken.longest) - nominal(taken.shortest)
    if not _on_arm(case, belt) or travel >= 2.0 * near.tolerance:
        return ""
    show = partial(case.units.show, kind=Kind.LENGTH)
    return (
        f" All its swing takes up {show(travel)}, and belts of one size differ by up to "
        f"{show(2.0 * near.tolerance)}: set the arm's pivot nearer to the belt, or make it longer."
    )


def _on_arm(case: Case, belt: Belt) -> bool:
    mover = belt_run(case, belt).mover
    return mover is not None and isinstance(mover.of, Idler)


def _near_by(belt: Belt, length: float) -> SoldLength:
    return min(sold_lengths(belt.section), key=lambda one: abs(one.pitch_length - length))
