"""What the review says of rods, levers and arms that come near to belts and pulleys."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.linkage import Linkage
from beltwright.quantity import Kind
from beltwright.review.angle_words import degrees
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.linkage.drive_room import (
    NearestDrive,
    heights_known,
    nearest_drive,
    over_all,
)
from beltwright.review.linkage.words import caution, middle
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal

ROOM = 0.01
"""Gap that a rod or lever keeps from what turns [m] (assumed, no source)."""

_FORMULA = (
    "gap = least distance of the middle line from belt or rim over the travel − half the thickness"
)
_SOURCE = "geometry of straight pieces; a wheel as thick as its belt: assumed"
_LEFT_OUT = (
    "bent rods, lock nuts, hubs; belts that stand upright, and those whose height is not written"
)
_WINDS = (
    " What a running belt or pulley catches it winds up or throws: turn the engine by hand first."
)


def questions(case: Case, linkage: Linkage) -> Iterator[Ask]:
    """The question about belts and pulleys that a rod may run into."""
    if heights_known(case):
        yield Ask(
            f"linkage.{linkage.name}.drive",
            f"Room between the {linkage.name} and belts and pulleys",
            partial(_drive, case, linkage),
        )


def _drive(case: Case, linkage: Linkage) -> Draft:
    near = nearest_drive(case, linkage)
    return _clear_of_all(case, linkage) if near is None else _near(case, linkage, near)


def _clear_of_all(case: Case, linkage: Linkage) -> Draft:
    """What is said where every belt lies well over or under rod, lever and arm."""
    over = over_all(case, linkage)
    shown = case.units.show(over, Kind.LENGTH) if np.isfinite(over) else "nothing of known height"
    return Draft(
        holds=np.ones(1, dtype=bool),
        says="clear of them",
        meaning=f"Over its whole travel it keeps {shown} above or below every belt and pulley."
        if np.isfinite(over)
        else "No belt or pulley whose height is written is in its way.",
        formula="gap = heights of rod, lever and arm against those of belts and pulleys",
        working=f"least height between them: {shown}",
        source=_SOURCE,
        leaves_out=_LEFT_OUT,
        caution=caution(linkage),
        place=middle(case, linkage),
    )


def _near(case: Case, linkage: Linkage, near: NearestDrive) -> Draft:
    show = partial(case.units.show, kind=Kind.LENGTH)
    gap = nominal(near.gap)
    return Draft(
        kind=Kind.LENGTH,
        value=near.gap,
        below_zero="overlap of",
        at_least=ROOM,
        near=0.0,
        worst=Verdict.STOP if gap <= 0.0 else Verdict.MARGINAL,
        stops=near.gap <= 0.0,
        meaning=f"The {near.piece} {'runs into' if gap <= 0.0 else 'comes nearest to'} the "
        f"{near.name}, with the lever at {degrees(near.hand)}.",
        remedy=_remedy(case, near) if falls_short(near.gap, ROOM, 0.0) else "",
        formula=_FORMULA,
        working=f"{show(gap)} at {', '.join(show(at) for at in near.place)}",
        source=f"{_SOURCE}; room of {show(ROOM)}: assumed, no source",
        leaves_out=_LEFT_OUT,
        caution=caution(linkage) + _WINDS,
        place=near.place,
    )


def _remedy(case: Case, near: NearestDrive) -> str:
    by = case.units.show(max(ROOM - nominal(near.gap), 0.0), Kind.LENGTH)
    how = ", or set a joggle into it, its eyes as far apart as before" * (near.piece == "rod")
    own = (
        ""
        if near.name in (belt.name for belt in case.build.belt)
        else f" If the {near.name} is part of this linkage, name it under belongs."
    )
    return (
        f"Bring the {near.piece} {by} away from the {near.name} there: pass it over or under{how}."
        f"{own}"
    )
