"""What the review says about guards and keepers: gaps, length, bends, holes, clashes."""

from collections.abc import Iterator
from functools import partial
from math import isinf

import numpy as np

from beltwright.build.guards import Bending, Guard
from beltwright.physics.arrays import Array
from beltwright.physics.sheet_metal.bend import outer_strain, smallest_radius
from beltwright.quantity import Kind
from beltwright.review.angle_words import degrees
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.guard.bent import Bent, bent, jaws, most_bends, widest
from beltwright.review.guard.cautions import CRACK_CAUTION, EDGE_CAUTION, KEEPER_CAUTION
from beltwright.review.guard.clash_findings import questions as clash_questions
from beltwright.review.guard.gaps import LEAST_GAP, GuardGap, guard_gap
from beltwright.review.guard.holes import holes
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal

GEOMETRY = "plane geometry, exact"


def questions(case: Case) -> Iterator[Ask]:
    """The questions about every guard and keeper."""
    for guard in case.build.guard:
        head, name = f"guard.{guard.name}", guard.name
        yield Ask(f"{head}.gap", f"Gap between belt and {name}", partial(_gap, case, guard))
        if not _has_form(case, guard):
            continue
        if guard.kind == "keeper":
            yield Ask(
                f"{head}.widest",
                f"Rise that the {name} leaves the belt",
                partial(_widest, case, guard),
            )
        yield Ask(f"{head}.length", f"Strip that the {name} needs", partial(_length, case, guard))
        yield Ask(
            f"{head}.bends", f"Shortest flat between bends, {name}", partial(_bends, case, guard)
        )
        yield Ask(
            f"{head}.radius", f"Inside radius of the bends, {name}", partial(_radius, case, guard)
        )
        if guard.strip is not None and guard.strip.holes:
            yield Ask(
                f"{head}.holes",
                f"Metal between holes and bends, {name}",
                partial(_holes, case, guard),
            )
        yield from clash_questions(case, guard)


def _has_form(case: Case, guard: Guard) -> bool:
    """Whether a guard can be worked out; what is missing is told once, by its gap."""
    try:
        bent(case, guard)
    except NotKnownError:
        return False
    return True


def _gap(case: Case, guard: Guard) -> Draft:
    shape = bent(case, guard)
    found, keeper = guard_gap(case, shape), guard.kind == "keeper"
    value = found.trembling
    if not keeper and found.flapping is not None:
        value = np.minimum(value, found.flapping)
    show = partial(case.units.show, kind=Kind.LENGTH)
    rubs = found.trembling <= 0.0
    return Draft(
        kind=Kind.LENGTH,
        value=value,
        below_zero="overlap of",
        at_least=LEAST_GAP,
        worst=Verdict.STOP if rubs[0] else Verdict.MARGINAL,
        stops=rubs,
        meaning=_gap_meaning(case, guard, found),
        remedy=_gap_remedy(case, shape, max(LEAST_GAP - nominal(value), 0.0))
        if falls_short(value, LEAST_GAP)
        else "",
        formula="gap = distance of the strip from the belt's middle − half its height − bow",
        working=f"taut {show(nominal(found.taut))}, trembling {show(nominal(found.trembling))}"
        + (
            ""
            if found.at_rest is None or found.flapping is None
            else f"; clutch down {_off(case, found.at_rest)}, all its slack beside the strip "
            f"{_off(case, found.flapping)}"
        ),
        source=f"{GEOMETRY}; 1/16 in at least: common practice, no source",
        leaves_out="bends that come out wrong: hold the strip to the template",
        caution=KEEPER_CAUTION if keeper else EDGE_CAUTION,
        place=shape.middle,
    )


def _gap_remedy(case: Case, shape: Bent, missing: float) -> str:
    """How the strip comes off the belt."""
    if shape.total > shape.wrap:
        wrap = case.units.show(shape.wrap, Kind.ANGLE)
        return f"Let it go round no further than the belt does, {wrap}: the belt runs through it."
    if missing > 0.0:
        more = case.units.show(missing, Kind.LENGTH)
        return f"Write a gap {more} larger, or shorten the straight ends."
    return "Set it with a spacer of the gap's thickness between belt and strip, clutch up."


def _off(case: Case, gap: Array) -> str:
    """How far a loose belt stays off, in words where it does not."""
    return case.units.show(nominal(gap), Kind.LENGTH) if nominal(gap) > 0.0 else "against it"


def _gap_meaning(case: Case, guard: Guard, found: GuardGap) -> str:
    show = partial(case.units.show, kind=Kind.LENGTH)
    driving = nominal(found.trembling)
    told = (
        f"In drive the belt passes the {guard.name} at {show(driving)}."
        if driving > 0.0
        else f"In drive the belt rubs on the {guard.name}."
    )
    if found.at_rest is None or found.flapping is None:
        return told
    if guard.kind == "keeper":
        resting = nominal(found.at_rest)
        return told + (
            f" With the clutch down it stays {show(resting)} off."
            if resting > 0.0
            else " With the clutch down it lies against it, which helps to lift it off its pulley."
        )
    flapping = nominal(found.flapping)
    return told + (
        f" Loose and flapping it stays {show(flapping)} off."
        if flapping > 0.0
        else " Loose and flapping it can strike it."
    )


def _widest(case: Case, guard: Guard) -> Draft:
    shape = bent(case, guard)
    largest, height = widest(shape), shape.layout.section.cross.height
    show = partial(case.units.show, kind=Kind.LENGTH)
    over = max(nominal(largest) - height, 0.0)
    return Draft(
        kind=Kind.LENGTH,
        value=largest,
        at_most=height,
        worst=Verdict.MARGINAL,
        meaning=f"The slack belt can rise {show(nominal(largest))} at the {guard.round}, and is "
        f"{show(height)} thick: it "
        + ("cannot leave its groove there." if over == 0.0 else "can climb out and jump off."),
        remedy=f"Take the gap {show(over)} smaller, or make more bends."
        if over > 0.0
        else "Take the gap a little smaller."
        if falls_short(-largest, -height)
        else "",
        formula="largest gap = gap + (R − r) (1 / cos(A / 2) − 1) ≤ belt's thickness",
        working=f"{show(nominal(shape.gap))} + {show(nominal(largest) - nominal(shape.gap))} "
        f"at a corner of {case.units.show(shape.angle, Kind.ANGLE)}",
        source=f"{GEOMETRY}; less than the belt's thickness: common practice, no source",
        leaves_out="a rim that stands higher than the belt, which holds it too",
        caution=KEEPER_CAUTION,
        place=shape.middle,
    )


def _length(case: Case, guard: Guard) -> Draft:
    shape = bent(case, guard)
    length = shape.flat.length
    at_hand = guard.strip.length if guard.strip else None
    show = partial(case.units.show, kind=Kind.LENGTH)
    flats, allowances = (
        nominal(each.sum(axis=0)) for each in (shape.flat.flats, shape.flat.allowances)
    )
    meaning, remedy = f"Cut a strip of {show(nominal(length))}.", ""
    if at_hand is not None:
        meaning, remedy = _against(case, shape, case.si(at_hand))
    return Draft(
        kind=Kind.LENGTH,
        value=length,
        at_most=None if at_hand is None else case.si(at_hand),
        verdict=Verdict.SOUND if at_hand is None else None,
        near=0.0,
        worst=Verdict.MARGINAL,
        meaning=meaning,
        remedy=remedy,
        formula="length = sum of flats + sum of A (r + K t)",
        working=f"flats {show(flats)} + {len(shape.angles)} bends {show(allowances)}, "
        f"r {show(nominal(shape.radius))}, t {show(nominal(shape.thickness))}, "
        f"K {nominal(shape.k_factor):.3g}",
        source=f"bend allowance; K {_k_source(shape)}",
        leaves_out="bends sharper or rounder than written",
        caution=EDGE_CAUTION,
        place=shape.middle,
    )


def _k_source(shape: Bent) -> str:
    """Where the K that the length was reckoned with comes from."""
    if shape.guard.bending is not None and shape.guard.bending.k_factor is not None:
        return "from a test bend"
    return f"of {shape.metal.name}: {shape.metal.source}, {shape.metal.status}"


def _against(case: Case, shape: Bent, at_hand: Array) -> tuple[str, str]:
    """What a strip at hand has too much or lacks, and what to do about it."""
    show = partial(case.units.show, kind=Kind.LENGTH)
    spare = at_hand - shape.flat.length
    over = nominal(spare)
    if over < 0.0:
        return (
            f"The strip at hand lacks {show(-over)}.",
            f"Shorten the straight ends or feet by {show(-over)} together, or rivet a piece on "
            "where the strip stays straight.",
        )
    told = f"The strip at hand is {show(over)} longer than it must be."
    if falls_short(spare, 0.0, 0.0):
        return told, (
            "Bend the far foot last: what the bends take up shows there, and the foot comes out "
            "that much longer or shorter."
        )
    return told, ""


def _bends(case: Case, guard: Guard) -> Draft:
    shape, way = bent(case, guard), guard.bending or Bending()
    need = jaws(case, guard)
    shortest = shape.flat.flats.min(axis=0)
    show, angle = partial(case.units.show, kind=Kind.LENGTH), degrees
    low, high = (shape.angle * share for share in shape.over_bend)
    most = most_bends(case, shape)
    short = falls_short(shortest, need)
    return Draft(
        kind=Kind.LENGTH,
        value=shortest,
        at_least=need,
        worst=Verdict.MARGINAL,
        meaning=f"{shape.bends} bends of {angle(shape.angle)} round the {guard.round}, "
        f"{show(_pitch(shape))} from mark to mark; the shortest flat is "
        f"{show(nominal(shortest))}. It springs back: bend to about {angle(low)}, at most "
        f"{angle(high)}, let go and look.",
        remedy=""
        if not short
        else f"The jaws allow {most} bends round the {guard.round}: make no more, lengthen the "
        "straight ends and feet that are shorter than the jaws, or use narrower jaws."
        if nominal(shortest) < nominal(need)
        else "Grind the jaws narrower, or make one bend less.",
        formula="flat = 2 R tan(A / 2) − 2 r tan(A / 2); Ai / Af = (2 Rf / t + 1) / (2 Ri / t + 1)",
        working=f"{angle(shape.total)} / {shape.bends}, R {show(nominal(shape.curve))}, "
        f"{way.method} need {show(nominal(need))}"
        if way.method == "pliers"
        else f"{angle(shape.total)} / {shape.bends}, R {show(nominal(shape.curve))}, "
        f"a {way.method} needs {show(nominal(need))}",
        source=f"{GEOMETRY}; springback: Kalpakjian and Schmid, Manufacturing Engineering and "
        "Technology, from memory, and common practice: weak, a guide to begin with",
        leaves_out="how far each hand bend is off, which adds up: check against the template "
        "after each",
        caution=EDGE_CAUTION,
        place=shape.middle,
    )


def _pitch(shape: Bent) -> float:
    """From mark to mark round the pulley [m]; the whole strip where there is one bend."""
    marks = shape.flat.marks[shape.feet_before : shape.feet_before + shape.bends]
    if len(marks) < 2:
        return nominal(shape.flat.length)
    return nominal(marks[1] - marks[0])


def _radius(case: Case, guard: Guard) -> Draft:
    shape = bent(case, guard)
    least = smallest_radius(shape.thickness, shape.metal.least_radius)
    show = partial(case.units.show, kind=Kind.LENGTH)
    strain = nominal(outer_strain(shape.radius, shape.thickness))
    missing = nominal(least) - nominal(shape.radius)
    return Draft(
        kind=Kind.LENGTH,
        value=shape.radius,
        at_least=least,
        worst=Verdict.MARGINAL,
        near=0.0,
        meaning=f"Bent to {show(nominal(shape.radius))} on the inside, the outside of the strip "
        f"stretches by {strain:.0%}; {shape.metal.name} stands a radius of "
        f"{show(nominal(least))}.",
        remedy=f"Bend it round a rod or a rounded jaw of {show(nominal(least))} radius, or take "
        "a softer or thinner strip."
        if missing > 0.0
        else "Round the jaws off a little."
        if falls_short(shape.radius, least, 0.0)
        else "",
        formula="r ≥ c t; strain = 1 / (2 r / t + 1)",
        working=f"{shape.metal.least_radius:.3g} × {show(nominal(shape.thickness))} = "
        f"{show(nominal(least))}",
        source="Kalpakjian and Schmid, Manufacturing Engineering and Technology, table of minimum "
        "bend radii, from memory; tempers between: common practice",
        leaves_out="old strip that was bent before at the same place, rust, nicks at the edge",
        caution=CRACK_CAUTION,
        place=shape.middle,
    )


def _holes(case: Case, guard: Guard) -> Draft:
    shape = bent(case, guard)
    found = holes(case, shape)
    wanted = 2.0 * shape.thickness
    show = partial(case.units.show, kind=Kind.LENGTH)
    clear = np.full(1, found.clear)
    begun = (
        f" Begin {show(found.start)} in from its first end."
        if found.start > 0.0 and found.clear > found.plain
        else ""
    )
    return Draft(
        kind=Kind.LENGTH,
        value=clear,
        says="no bend" if isinf(found.clear) else "",
        at_least=wanted,
        worst=Verdict.MARGINAL,
        meaning=f"The nearest bend keeps {show(found.clear)} from the edge of a hole.{begun}"
        if found.clear > 0.0
        else f"A bend falls on a hole, where the strip kinks and cracks.{begun}",
        remedy="Use the strip from its other end, or move a bend off the hole by hand and "
        "share the difference among its neighbours."
        if falls_short(clear, wanted)
        else "",
        formula="clear = distance from mark to hole − half the hole − half the bend ≥ 2 t",
        working=f"{show(found.clear)} against 2 × {show(nominal(shape.thickness))}",
        source="twice the thickness: common practice, no source",
        leaves_out="holes that are not in the middle of the strip's width",
        caution=CRACK_CAUTION,
        place=shape.middle,
    )
