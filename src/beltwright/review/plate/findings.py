"""What the review says about plates and brackets: metal round their holes, slots, stress."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.plate import Plate
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal
from beltwright.review.plate.plates import (
    Closest,
    Drilled,
    closest_edge,
    closest_holes,
    drilled,
    on_machine,
)
from beltwright.review.plate.room import plane_of
from beltwright.review.plate.room_findings import questions as room_questions
from beltwright.review.plate.strain import Bending, bending, carrying, reach
from beltwright.review.road_words import stress_words

EDGE_LEAST, EDGE_GOOD = 1.5, 2.0
"""From the middle of a hole to the edge over its diameter: least, and for a bracket that shakes
(common practice) [1]."""

EDGE_STOP = 1.0
"""Nearer than this a bolt tears out of the edge (assumed) [1]."""

CLEAR_LEAST, CLEAR_GOOD = 1.0, 5 / 3
"""Metal between two holes over the larger diameter: least and preferred (AISC 360, J3.3) [1]."""

YIELD_WATCH = 0.5
"""Share of the yield strength from which a bracket is watched: a belt jerks (common practice)."""

SPACING_SOURCE = (
    "AISC 360, section J3.3 and table J3.4 (bolts in steelwork, from memory, high); twice the "
    "diameter for what shakes: common practice, no source"
)
CAUTION = (
    "A bracket that gives way throws the belt off, or the idler out. Guard it, wear goggles and "
    "clamp the plate to drill it, and look for cracks and loose bolts after the first hour."
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the plates of a build."""
    for plate in case.build.plate:
        head = f"plate.{plate.name}"
        if plate.hole:
            yield Ask(
                f"{head}.edge",
                f"Nearest hole to the edge, {plate.name}",
                partial(_edge, case, plate),
            )
        if len(plate.hole) > 1:
            yield Ask(
                f"{head}.webs", f"Metal between holes, {plate.name}", partial(_webs, case, plate)
            )
        if any(hole.carries and hole.slot for hole in plate.hole):
            yield Ask(f"{head}.reach", f"Slot of the {plate.name}", partial(_reach, case, plate))
        if any(hole.carries for hole in plate.hole):
            yield Ask(
                f"{head}.bending", f"Strain on the {plate.name}", partial(_bending, case, plate)
            )
        yield from room_questions(case, plate)


def _edge(case: Case, plate: Plate) -> Draft:
    found = closest_edge(case, plate)
    return _spaced(
        case,
        plate,
        found,
        least=EDGE_LEAST,
        good=EDGE_GOOD,
        meaning=_edge_meaning(case, found),
        remedy=f"{_carried_words(plate, found)}Make the plate larger there, or move it so that "
        f"{_mm(case, EDGE_GOOD * found.diameter)} are left from the middle of the hole to the "
        "edge.",
        formula="from the middle of the hole to the nearest edge ≥ 1.5 d; 2 d where it shakes",
    )


def _edge_meaning(case: Case, found: Closest) -> str:
    (name,) = found.names
    if found.metal <= 0.0:
        return f"The hole {name} does not lie inside of the plate."
    return (
        f"The hole {name} stands {_mm(case, found.metal)} from the edge, "
        f"{found.metal / found.diameter:.1f} times its diameter."
    )


def _carried_words(plate: Plate, found: Closest) -> str:
    carries = next((h.carries for h in plate.hole if h.name in found.names and h.carries), None)
    return f"It stands where the {carries} is. " if carries else ""


def _webs(case: Case, plate: Plate) -> Draft:
    found = closest_holes(case, plate)
    one, other = found.names
    left = (
        f"Between {one} and {other} {_mm(case, found.metal)} of metal are left."
        if found.metal > 0.0
        else f"The holes {one} and {other} run into each other."
    )
    return _spaced(
        case,
        plate,
        found,
        least=CLEAR_LEAST,
        good=CLEAR_GOOD,
        meaning=left,
        remedy=f"Move them until {_mm(case, CLEAR_GOOD * found.diameter)} are left between them.",
        formula="metal between two holes ≥ d of the larger; 2⅔ d between centres is better",
    )


def _spaced(
    case: Case,
    plate: Plate,
    found: Closest,
    *,
    least: float,
    good: float,
    meaning: str,
    remedy: str,
    formula: str,
) -> Draft:
    """The least metal beside a hole, in its own diameters; shown for the worst as written."""
    metal, limit = found.share * found.diameter, least * found.diameter
    short = falls_short(metal, limit, good / least - 1.0)
    tears = found.share < EDGE_STOP if least > EDGE_STOP else found.share <= 0.0
    return Draft(
        kind=Kind.LENGTH,
        unit=_fine_unit(case),
        value=metal,
        below_zero="overlap of",
        at_least=limit,
        near=good / least - 1.0,
        worst=Verdict.STOP if tears[0] else Verdict.MARGINAL,
        stops=tears,
        meaning=meaning,
        remedy=remedy if short else "",
        formula=formula,
        working=f"{' and '.join(found.names)}: {_mm(case, found.metal)} / "
        f"{_mm(case, found.diameter)} = {found.share[0]:.2f}",
        source=SPACING_SOURCE,
        leaves_out="torn or burnt edges; washers that hang over; a weld beside the hole",
        caution=CAUTION if short else "",
        place=_spot(case, plate, found.names[0]),
    )


def _reach(case: Case, plate: Plate) -> Draft:
    slotted = next(each for each in carrying(case, plate) if each.hole.slot)
    found = reach(case, plate, slotted)
    have = found.slot + found.arm
    slot, arm, asked = (_mm(case, nominal(part)) for part in (found.slot, found.arm, found.asked))
    with_arm = f", and the arm has {arm} left" if nominal(found.arm) > 0.0 else ""
    return Draft(
        kind=Kind.LENGTH,
        value=have,
        at_least=found.asked,
        near=0.0,
        worst=Verdict.MARGINAL,
        meaning=f"From one end of the slot of {slotted.hole.name} to the other takes up {slot} of "
        f"the {found.belt}{with_arm}; it grows by {asked} as it wears.",
        remedy="Make the slot longer, or let it run square to the chord of the belt over that "
        "wheel, where it takes up most."
        if falls_short(have, found.asked, 0.0)
        else "",
        formula="path at the other end of the slot − path here + what the arm has left ≥ growth "
        "of the belt",
        working=f"{slot} + {arm} = {_mm(case, nominal(have))} against {asked}",
        source="plane geometry of common tangents, exact; growth: see the belt's take-up",
        leaves_out="what the bolt slips in its slot: set a stop screw against it",
        place=_spot(case, plate, slotted.hole.name),
    )


def _bending(case: Case, plate: Plate) -> Draft:
    all_found = [bending(case, plate, each) for each in carrying(case, plate)]
    found = max(all_found, key=lambda one: nominal(one.used))
    used = np.max(np.broadcast_arrays(*(one.used for one in all_found)), axis=0)
    over = goes_over(used, 1.0, 1.0 - YIELD_WATCH)
    show = case.units.show
    return Draft(
        kind=Kind.RATIO,
        unit="%",
        value=used,
        at_most=1.0,
        near=1.0 - YIELD_WATCH,
        worst=Verdict.STOP,
        meaning=f"At the engine's best torque {show(nominal(found.force), Kind.FORCE)} on "
        f"{found.carried.hole.name} strain it to {used[0]:.0%} of what bends it for good."
        + (" It would stay bent." if used[0] > 1.0 else ""),
        remedy=_bending_remedy(case, plate, found, used) if over else "",
        formula="√((F∥/(b t) + 6 F∥ e/(b t²) + 6 F⊥ l/(t b²))² + 3 (F⊥ e (3 + 1.8 t/b)/(b t²) + "
        "1.5 F⊥/(b t))²) / yield",
        working=_bending_working(case, plate, found),
        source="Shigley, Mechanical Engineering Design, 8th edition, sections 3-10 to 3-12 and "
        "5-5; width that bears: AISC Manual, part 9 (from memory, high); "
        f"yield: {found.metal.source} ({found.metal.status}); watched from half of it: common "
        "practice, no source",
        leaves_out="cracks, welds, flame-cut edges and notches, which break it early; shaking over "
        "many hours; whether the frame under it is as stiff; other pulls on the same shaft",
        caution=CAUTION,
        place=_spot(case, plate, found.carried.hole.name),
    )


def _bending_working(case: Case, plate: Plate, found: Bending) -> str:
    show = case.units.show
    assert plate.thickness is not None
    return (
        f"{show(nominal(found.force), Kind.FORCE)}, {_mm(case, nominal(found.stand_off))} off "
        f"the plate, {_mm(case, nominal(found.lever))} beyond the nearest fixing, "
        f"{_mm(case, found.width)} × {_mm(case, nominal(case.si(plate.thickness)))} of metal: "
        f"{stress_words(case, nominal(found.used) * found.metal.yield_strength)} of "
        f"{stress_words(case, found.metal.yield_strength)} ({found.metal.material})"
    )


def _bending_remedy(case: Case, plate: Plate, found: Bending, used: Array) -> str:
    """Out of its own plane a plate's stress falls with the square of its thickness."""
    assert plate.thickness is not None
    thick = nominal(case.si(plate.thickness)) * float(np.sqrt(used[0] / YIELD_WATCH))
    return (
        f"Take sheet of {_mm(case, thick)}, bring the plate nearer to the belt than "
        f"{_mm(case, nominal(found.stand_off))}, or hold the bolt's other end with a second plate."
    )


def _spot(case: Case, plate: Plate, name: str) -> tuple[float, float, float] | None:
    """Where a hole lies on the machine, for a plate whose plane is known."""
    plane = plane_of(case, plate)
    if plane is None:
        return None
    hole: Drilled = next(each for each in drilled(case, plate) if each.hole.name == name)
    x, y = on_machine(case, plate, (hole.cut.start_x, hole.cut.start_y))
    along, aside = nominal(x), nominal(y)
    return (along, aside, 0.0) if plane == "upright" else (along, 0.0, aside)


def _fine_unit(case: Case) -> str:
    """Holes are marked with a rule or a caliper: decimals of an inch, or millimetres."""
    return "in" if case.units[Kind.LENGTH].symbol in ("in", "ft") else "mm"


def _mm(case: Case, size: float) -> str:
    return case.units.show(size, Kind.LENGTH, _fine_unit(case))
