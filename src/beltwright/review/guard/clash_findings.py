"""What the review says of what a guard stands too near to."""

from collections.abc import Iterator
from functools import partial

from beltwright.build.guards import Guard
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.guard.bent import bent
from beltwright.review.guard.cautions import EDGE_CAUTION
from beltwright.review.guard.clash import Clash, clashes
from beltwright.review.guard.gaps import LEAST_GAP
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal

LEAST_ROOM = 0.003
"""Room that a strip keeps from what turns or swings [m] (assumed)."""

STANDING_ROOM = 0.001
"""Room that a strip keeps from what stands still [m] (assumed)."""


def questions(case: Case, guard: Guard) -> Iterator[Ask]:
    """One question for everything that a guard comes near to."""
    for clash in clashes(case, bent(case, guard)):
        yield Ask(
            f"guard.{guard.name}.clash.{clash.name}",
            f"Room between the {guard.name} and the {clash.name}",
            partial(_clash, case, guard, clash),
        )


def _clash(case: Case, guard: Guard, clash: Clash) -> Draft:
    show = partial(case.units.show, kind=Kind.LENGTH)
    gap = nominal(clash.gap)
    moves = clash.what in ("pulley", "idler", "belt")
    room = _room(guard, clash)
    anywhere = " anywhere on its way" if clash.what in ("idler", "arm") else ""
    sideways = _sideways(case, guard, clash)
    return Draft(
        kind=Kind.LENGTH,
        value=clash.gap,
        below_zero="overlap of",
        at_least=room,
        worst=Verdict.STOP if moves and gap <= 0.0 else Verdict.MARGINAL,
        meaning=f"The {guard.name} stays {show(gap)} from the {clash.name}{anywhere}."
        if gap > 0.0
        else f"Seen from the right the {guard.name} and the {clash.name} overlap."
        if sideways
        else f"The {guard.name} stands in the way of the {clash.name}.",
        remedy=_clash_remedy(case, guard, clash, room) if falls_short(clash.gap, room) else "",
        formula="gap = distance of the strip − outside radius, or half the arm's width",
        working=f"narrowest: {show(gap)}",
        source=f"plane geometry, exact; {show(room)}: "
        + ("common practice" if clash.name == guard.round else "assumed")
        + ", no source",
        leaves_out="at what height the arm swings"
        if clash.what == "arm"
        else "where both stand across the machine: they are taken to stand in line"
        if sideways
        else "tolerances of the places; bolts and nuts",
        caution=EDGE_CAUTION,
        place=bent(case, guard).middle,
    )


def _sideways(case: Case, guard: Guard, clash: Clash) -> bool:
    """Whether a guard and what stands still near it may stand side by side, seen from above."""
    shape = bent(case, guard)
    unknown = shape.layout.plane == "cross" and shape.layout.wheels[shape.place].height is None
    return unknown and clash.what in ("part", "guard")


def _room(guard: Guard, clash: Clash) -> float:
    """Room that a strip keeps from something [m]; its own rim it was set to with a spacer."""
    if clash.name == guard.round:
        return LEAST_GAP
    return STANDING_ROOM if clash.what in ("part", "guard") else LEAST_ROOM


def _clash_remedy(case: Case, guard: Guard, clash: Clash, room: float) -> str:
    missing = room - nominal(clash.gap)
    more = case.units.show(missing, Kind.LENGTH) if missing > 0.0 else "a little"
    if clash.name == guard.round:
        if clash.what == "idler":
            return 'Screw it to the arm, and write fixed_to = "arm".'
        return f"Take the gap {more} larger: the rim stands higher than the belt."
    if _sideways(case, guard, clash):
        return (
            f"Look from above whether both stand side by side, and write how far left the "
            f'{guard.round} runs, for example across = "-140 mm". Where they stand in line, let '
            "the guard go round less of the wrap or shorten that end."
        )
    if clash.what in ("idler", "arm"):
        return "Let it go round less of the wrap, shorten that end, or let the arm pass below it."
    return f"Let it go round less of the wrap or shorten that end, so that it has {more} more room."
