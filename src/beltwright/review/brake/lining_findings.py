"""What the review says about the pressure on the brake's lining."""

from collections.abc import Iterator
from functools import partial

from beltwright.quantity import Kind
from beltwright.review.brake.braking import described, pad_force
from beltwright.review.brake.lining import (
    PADS,
    Pressed,
    allowed,
    lining_pressure,
    lining_size,
)
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.nearness import goes_over
from beltwright.review.nominal import nominal
from beltwright.tables.brake_linings import (
    CAUTION_OLD_LINING,
    LiningPressure,
    brake_lining_pressures,
)

FORMULAS = {
    "disc": "p = F × (outer + inner) / 2 / (pad × inner × (outer − inner)), at the inner edge of a "
    "pad that is bedded in",
    "drum": "p of the leading shoe, from F c = ∫ p (normal − friction) over the lining",
    "band": "p = pull / (width × radius) at the tight end, pull × e^(friction × wrap)",
}


def questions(case: Case) -> Iterator[Ask]:
    """The question about a lining whose size is known."""
    if lining_size(described(case)) is not None:
        yield Ask("brake.lining_pressure", "Pressure on the brake lining", partial(_pressed, case))


def _pressed(case: Case) -> Draft:
    brake, row, most = described(case), allowed(case), lining_pressure(case)
    found = most.pressure
    size = lining_size(brake)
    assert size is not None
    over, show = goes_over(found, row.pressure), partial(case.units.show, kind=Kind.PRESSURE)
    return Draft(
        kind=Kind.PRESSURE,
        value=found,
        at_most=row.pressure,
        worst=Verdict.MARGINAL,
        meaning=f"{_when(most)}. {_kind(case, row)} is made for "
        f"{show(row.pressure)} at most"
        + (": pressed harder it wears fast, glazes and crumbles." if over else "."),
        remedy=_remedy(case, row, nominal(found), nominal(case.si(size))) if over else "",
        formula=FORMULAS[brake.kind]
        + "; times what locks the wheels over the brake's torque, where that is less",
        working=f"at most {case.units.show(nominal(pad_force(case)), Kind.FORCE)} on "
        f"{case.units.show(nominal(case.si(size)), Kind.LENGTH)} of "
        f"{'pad' if brake.kind == 'disc' else 'width'}: {show(nominal(found))}",
        source=f"Shigley's Mechanical Engineering Design, sections 16-2, 16-4 and 16-5; lining: "
        f"{row.source} ({row.status})",
        leaves_out="a new lining that touches at its ends alone, rivets, grooves and a drum that "
        "is out of round",
        caution=CAUTION_OLD_LINING,
    )


def _when(most: Pressed) -> str:
    """How hard the pedal is pressed then."""
    if most.locks_first:
        return "Where it is pressed most, just before the wheels lock on dry asphalt, fully laden"
    return "Where it is pressed most, the pedal pressed as in an emergency"


def _kind(case: Case, row: LiningPressure) -> str:
    """The lining as the table has it, and whether the builder said so."""
    if described(case).material == row.name:
        return f"A lining of the kind “{row.name}”"
    return f"A lining of unknown kind, taken as “{row.name}”,"


def _remedy(case: Case, row: LiningPressure, pressed: float, size: float) -> str:
    brake = described(case)
    stronger = [
        other.name
        for other in brake_lining_pressures()
        if other.pressure > max(pressed, row.pressure)
        and (brake.kind == "disc" or other.name != PADS)
    ]
    kinds = f", or take a lining that stands it ({', '.join(stronger)})" if stronger else ""
    named = "" if brake.material == row.name else " Name the kind of lining first."
    # the pressure falls as the lining grows
    least = size * max(pressed / row.pressure, 1.0)
    return f"Fit {_larger(case, least)}{kinds}.{named}"


def _larger(case: Case, least: float) -> str:
    """A lining as large as is wanted, where there is one that large, or a larger brake."""
    brake = described(case)
    radius = brake.outer if brake.kind == "disc" else brake.radius
    assert radius is not None
    wanted = case.units.show(least, Kind.LENGTH, step=1e-3)
    if brake.kind == "disc":
        larger, whole = f"pads at least {wanted} long", "a larger disc"
    else:
        larger, whole = f"a lining at least {wanted} wide", "a larger drum"
    return whole if least > nominal(case.si(radius)) else f"{larger} or {whole}"
