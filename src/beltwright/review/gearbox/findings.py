"""The findings on the gearbox, and those on its lip seals."""

from collections.abc import Iterator
from functools import partial

from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.gearbox.at_work import LipSeal, seals
from beltwright.review.gearbox.heat_findings import questions as heat
from beltwright.review.gearbox.pressure import (
    lip_limit,
    rubbing,
)
from beltwright.review.gearbox.pressure_findings import questions as pressure
from beltwright.review.nearness import goes_over
from beltwright.review.nominal import nominal

LIP_NEAR = 0.1
"""Share of a lip's speed limit within which it is watched [1]."""


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the gearbox's heat, oil, pressure and lip seals."""
    if case.build.gearbox is None:
        return
    yield from heat(case)
    yield from pressure(case)
    for index, seal in enumerate(case.build.gearbox.seals):
        yield Ask(
            f"gearbox.seal.{seal.where}",
            f"Shaft speed at the lip seal, {seal.where}",
            partial(_lip, case, index),
        )


def _lip(case: Case, index: int) -> Draft:
    seal: LipSeal = seals(case)[index]
    limit = lip_limit(seal)
    show = case.units.show
    fast = goes_over(seal.speed, limit, LIP_NEAR)
    rubs = show(nominal(rubbing(seal)), Kind.SPEED, case.units.rim())
    return Draft(
        kind=Kind.ROTATION,
        value=seal.speed,
        at_most=limit,
        near=LIP_NEAR,
        worst=Verdict.MARGINAL,
        meaning=f"The shaft rubs under the lip at {rubs}.",
        remedy="Slow the shaft, or fit a seal of fluoro rubber with a spring." if fast else "",
        formula="speed limit = allowed rubbing speed × 2 / diameter",
        working=f"{show(nominal(seal.diameter), Kind.LENGTH)} at "
        f"{show(nominal(seal.speed), Kind.ROTATION)}: {rubs}",
        source="Tribology Handbook, section B23: about 8000 rpm up to 35 mm, 4000 rpm at 75 mm, "
        "15 m/s above",
        leaves_out="a rough, rusty or grooved shaft, dirt, and a lip that has gone hard",
    )
