"""What the review says about measured holes and their threads."""

from collections.abc import Iterator
from functools import partial
from itertools import chain, islice

import numpy as np

from beltwright.build.shop import Hole
from beltwright.physics.arrays import Array
from beltwright.physics.customary import INCH
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short
from beltwright.review.nominal import nominal
from beltwright.review.road_words import stress_words
from beltwright.review.thread.holes import (
    GOOD_SHARE,
    LEAST_SHARE,
    OILED,
    Remake,
    insert_for,
    is_pipe,
    larger_threads,
    pipe_remakes,
    seat,
    share,
    strength,
    tap_hole,
    taper_drill,
    wanted,
)
from beltwright.tables.drills import nearest_drill

WRENCH_TURNS = 1.5
"""Turns that a taper thread wants past hand-tight to seal (common practice, no source)."""

SHOWN_SIZES = 2
TIGHT_SHARE = 0.85
"""Share of thread above which a tap binds and breaks (common practice) [1]."""

THREAD_CAUTION = (
    "A thread that lets go can drop a wheel, a brake or an idler. Wear goggles when drilling, and "
    "never weld or drill a case that held oil or fuel before it is clean."
)


def questions(case: Case) -> Iterator[Ask]:
    """The questions about the holes that the builder has measured."""
    for hole in case.build.hole:
        name = f"thread.{hole.name}"
        if is_pipe(hole):
            title = f"Thread left to tighten, {hole.thread} in {hole.name}"
            yield Ask(f"{name}.seat", title, partial(_seat, case, hole))
        else:
            title = f"Depth of the thread, {hole.thread} in {hole.name}"
            yield Ask(f"{name}.share", title, partial(_share, case, hole))
            yield Ask(
                f"{name}.strength",
                f"Length of the thread, {hole.thread} in {hole.name}",
                partial(_strength, case, hole),
            )


def _share(case: Case, hole: Hole) -> Draft:
    left = share(case, hole)
    size = wanted(hole)
    fine = partial(_fine, case)
    bore = nominal(case.si(hole.diameter))
    return Draft(
        kind=Kind.RATIO,
        value=left,
        says="none" if nominal(left) <= 0.0 else "",
        at_least=LEAST_SHARE,
        near=GOOD_SHARE / LEAST_SHARE - 1.0,
        worst=Verdict.STOP,
        meaning=_share_meaning(nominal(left)),
        remedy=_share_remedy(case, hole, left),
        formula="share = (D − hole) / (1.299 P): full thread is 2 × ¾ H, as shop charts have it",
        working=f"({fine(size.major)} − {fine(bore)}) / (1.299 × {fine(size.pitch)}) = "
        f"{left[0]:.0%}; on the basic profile (1.083 P) the same hole reads {1.2 * left[0]:.0%}",
        source="Machinery's Handbook, 31st edition, tapping, table 2 (shop basis); ASME B1.1 and "
        "ISO 68-1 (basic profile); half a thread as the least is common practice, no source",
        leaves_out="threads that are torn or corroded; an oval or tapered hole: measure it across "
        "its widest",
        caution=THREAD_CAUTION if left[0] < LEAST_SHARE else "",
    )


def _share_meaning(left: float) -> str:
    if left <= 0.0:
        return "The bolt would drop through the hole."
    if left < LEAST_SHARE:
        return "Too little thread is left: it would ride over its crests before it is tight."
    if left < GOOD_SHARE:
        return "It takes light loads; nothing that a person or a brake hangs on."
    if left > TIGHT_SHARE:
        return "The hole is smaller than the tap's drill."
    return "Thread enough."


def _share_remedy(case: Case, hole: Hole, left: Array) -> str:
    if falls_short(left, LEAST_SHARE, GOOD_SHARE / LEAST_SHARE - 1.0):
        return _ways(
            case, chain(islice(larger_threads(case, hole), SHOWN_SIZES), insert_for(case, hole))
        )
    if left[0] > TIGHT_SHARE:
        return f"Drill it to {_drill(case, tap_hole(hole))} before you tap it."
    return ""


def _ways(case: Case, found: Iterator[Remake]) -> str:
    """The ways to make a hole good, in a sentence."""
    ways = [f"{_drill(case, way.drill)} for {way.name}" for way in found]
    if not ways:
        return "No larger thread fits the metal that is left: weld or plug it, or bolt through."
    return f"Drill {', or '.join(ways)}."


def _drill(case: Case, hole: float) -> str:
    """A hole in the builder's unit, and the nearest drill that is sold in it."""
    inches = case.units[Kind.LENGTH].symbol == "in"
    size = f"{hole / INCH:.3f} in" if inches else f"{hole * 1e3:.2f} mm"
    return f"{size} (nearest drill {nearest_drill(hole, metric=not inches).name})"


def _fine(case: Case, size: float) -> str:
    """A size read with a caliper: no tape shows what thread a hole leaves."""
    inches = case.units[Kind.LENGTH].symbol == "in"
    return case.units.show(size, Kind.LENGTH, "in" if inches else "mm")


def _strength(case: Case, hole: Hole) -> Draft:
    found = strength(case, hole)
    depth = case.si(hole.depth) if hole.depth else np.zeros(1)
    show = case.units.show
    torque = show(nominal(found.torque), Kind.TORQUE)
    needed = np.where(np.isfinite(found.engagement), found.engagement, np.inf)
    short = falls_short(depth - needed, 0.0, 0.0)
    return Draft(
        kind=Kind.LENGTH,
        value=np.broadcast_to(depth, np.broadcast_shapes(depth.shape, found.engagement.shape)),
        at_least=needed,
        near=0.0,
        worst=Verdict.MARGINAL,
        meaning=f"Tighten an oiled class {found.grade.grade} screw to {torque} at most"
        + (": the hole strips before the screw breaks." if short else "."),
        remedy=f"Keep to {torque}, let the screw reach the bottom, or fit a longer insert or a nut."
        if short
        else "",
        formula="A = π L D (½ + tan 30° (D − E)/P); strip = A τ; T = K F D, F = min(0.75 proof, "
        "0.5 strip)",
        working=f"strips at {show(nominal(found.strips), Kind.FORCE)} ({found.material.material}, "
        f"shear {stress_words(case, found.material.shear)}), screw breaks at "
        f"{show(nominal(found.breaks), Kind.FORCE)}, tightened to "
        f"{show(nominal(found.preload), Kind.FORCE)} × {OILED:g} × D",
        source="ASME B1.1, appendix B, and FED-STD-H28 (stripping); Shigley, section 8-8 (torque); "
        f"strengths: {found.material.source} ({found.material.status})",
        leaves_out="shaking loads; a bolt that is looser than its class allows; whether the screw "
        "is of that grade: read its head",
    )


def _seat(case: Case, hole: Hole) -> Draft:
    found = seat(case, hole)
    pitch = float(found.male.pitch)
    turns = nominal(found.left) / pitch
    fine = partial(_fine, case)
    entered = nominal(found.entered)
    return Draft(
        kind=Kind.LENGTH,
        value=found.left,
        below_zero="short by",
        at_least=WRENCH_TURNS * pitch,
        near=0.0,
        worst=Verdict.STOP,
        meaning=_seat_meaning(case, hole, turns),
        remedy=_seat_remedy(case, hole),
        formula="left = useful thread − 16 × (bore + h − E0): a taper of 1 in 16 goes 16 times "
        "deeper than a hole is over size",
        working=f"goes in {fine(entered)} by hand (to size: "
        f"{fine(float(found.male.hand_length))}), {fine(float(found.male.useful_length))} of "
        f"thread is whole: {fine(nominal(found.left))} or {turns:.1f} turns are left",
        source=f"{found.thread.source} ({found.thread.status}); one and a half turns with the "
        "wrench is common practice, no source",
        leaves_out="crests that are worn or cut away, which read as a larger bore; in a straight "
        "hole only the turn or two at its mouth seal",
        caution="A fitting that weeps loses the gearbox its oil, and drips on tyre and brake.",
    )


def _seat_meaning(case: Case, hole: Hole, turns: float) -> str:
    found = seat(case, hole)
    if turns < 0.0:
        return "The fitting runs out of thread before it binds: it will never seal."
    if turns < WRENCH_TURNS:
        return f"Only {turns:.1f} turns are left to tighten: it binds too late to seal."
    if found.entered[0] < 0.5 * found.male.hand_length:
        return "The hole is a plain one, or tapped too shallow; it will take the thread."
    return f"{turns:.1f} turns are left to tighten it with sealant."


def _seat_remedy(case: Case, hole: Hole) -> str:
    found = seat(case, hole)
    if falls_short(found.left, WRENCH_TURNS * found.male.pitch, 0.0):
        return _ways(case, islice(pipe_remakes(case, hole), SHOWN_SIZES))
    if found.entered[0] >= 0.5 * found.male.hand_length:
        return ""
    hand = case.units.show(float(found.male.hand_length), Kind.LENGTH)
    drill = taper_drill(case, hole)
    first = f"Drill it {_drill(case, drill)}, then run" if drill is not None else "Run"
    return f"{first} a taper pipe tap in until the fitting enters {hand} by hand."
