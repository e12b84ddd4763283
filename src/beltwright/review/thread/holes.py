"""Measured holes and the threads that they should take, as numbers."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from beltwright.build.shop import Hole
from beltwright.physics.arrays import Array
from beltwright.physics.thread.limits import metric_limits, unified_limits
from beltwright.physics.thread.pipe import (
    TaperThread,
    iso_taper,
    mouth_pitch_diameter,
    npt,
    seat_depth,
    tap_drill,
)
from beltwright.physics.thread.share import (
    hole_for_share,
    insert_hole,
    takes_next_size,
    thread_share,
    wall_left,
)
from beltwright.physics.thread.strength import (
    bolt_strip_area,
    nut_strip_area,
    strip_load,
    tensile_area,
    tightening_torque,
    usual_preload,
)
from beltwright.review.case import Case, NotKnownError, unlisted
from beltwright.review.nominal import nominal
from beltwright.tables.loading import UnlistedError
from beltwright.tables.pipe_threads import PipeThread, is_pipe_thread, pipe_thread, pipe_threads
from beltwright.tables.thread_strengths import BoltGrade, ThreadMaterial, bolt_grade
from beltwright.tables.thread_strengths import thread_material as material_row
from beltwright.tables.threads import Thread, thread, threads

LEAST_SHARE = 0.5
"""Least share of thread, shop basis, that is put up with (common practice, no source) [1]."""

GOOD_SHARE = 0.6
"""Share from which a thread is called sound (common practice, no source) [1]."""

TAP_SHARE = 0.75
"""Share that the usual tap drill leaves [1]."""

SHEAR_OF_TENSILE = 0.6
"""Shear strength of bolt steel over its tensile strength (common practice) [1]."""

OVER_DRILL = 1.01
"""How far over its basic size an insert's hole may be drilled (common practice) [1]."""

LEAST_WALL = 0.25
"""Wall beside a thread over its diameter that is put up with (common practice) [1]."""

OILED = 0.15
"""Torque of an oiled screw over its pull times its diameter [1]. Oiled threads are put at 0.15 to
0.18 (Shigley, Mechanical Engineering Design, table 8-15, lubricated: 0.18; from memory, high): the
least is kept, so that the torque told never draws harder. Dry ones take 0.2 and more."""

USUAL_GRADES = {True: "8.8", False: "5"}
"""The bolt that a shop reaches for, metric and inch (assumed)."""


class Strength(NamedTuple):
    """What a screw in a measured hole carries, shape (...).

    strips       pull at which the weaker thread strips [N]
    breaks       pull at which the bolt breaks [N]
    preload      pull to tighten to [N]
    torque       tightening torque for it [N·m]
    engagement   depth at which the bolt would break before the hole strips [m]
    """

    grade: BoltGrade
    material: ThreadMaterial
    strips: Array
    breaks: Array
    preload: Array
    torque: Array
    engagement: Array


class Seat(NamedTuple):
    """How a taper male sits in a measured hole, shape (...).

    entered   how far it goes in by hand [m]
    left      whole thread left after that, to tighten with [m]
    """

    thread: PipeThread
    male: TaperThread
    entered: Array
    left: Array


class Remake(NamedTuple):
    """One way to make a worn hole good: what to cut, and what to drill for it [m]."""

    name: str
    drill: float


def is_pipe(hole: Hole) -> bool:
    """Whether the hole is to take a taper pipe thread."""
    return is_pipe_thread(hole.thread)


def wanted(hole: Hole) -> Thread:
    """The straight thread that the hole should take."""
    try:
        return thread(hole.thread)
    except UnlistedError as unknown:
        raise unlisted(f"hole.{hole.name}.thread", f"thread {hole.thread}", unknown) from None


def tap_hole(hole: Hole) -> float:
    """The usual hole for a tap of the wanted straight thread [m]."""
    size = wanted(hole)
    return float(hole_for_share(TAP_SHARE, size.major, size.pitch))


def share(case: Case, hole: Hole) -> Array:
    """Share of a full thread that the measured hole holds, shop basis [1]."""
    size = wanted(hole)
    return thread_share(case.si(hole.diameter), size.major, size.pitch)


def strength(case: Case, hole: Hole) -> Strength:
    """What a usual bolt in the hole carries."""
    return case.once(("thread.strength", hole.name), lambda: _strength(case, hole))


def seat(case: Case, hole: Hole) -> Seat:
    """How a taper male sits in the hole, its bore taken across the crests at the mouth."""
    try:
        size = pipe_thread(hole.thread)
    except UnlistedError as unknown:
        raise unlisted(f"hole.{hole.name}.thread", f"thread {hole.thread}", unknown) from None
    male = taper(size)
    entered = seat_depth(male, mouth_pitch_diameter(male, case.si(hole.diameter)))
    return Seat(size, male, entered, male.useful_length - entered)


def taper_drill(case: Case, hole: Hole) -> float | None:
    """What to drill before the taper tap [m]; None where the hole is that wide already."""
    drill = float(tap_drill(seat(case, hole).male))
    return drill if _bore(case, hole) < drill else None


def taper(size: PipeThread) -> TaperThread:
    """The dimensions of a taper pipe thread."""
    if size.standard == "NPT":
        return npt(size.diameter, size.pitch, size.hand_length)
    return iso_taper(size.diameter, size.pitch, size.hand_length, size.useful_length)


def larger_threads(case: Case, hole: Hole) -> Iterator[Remake]:
    """Next sizes up that a straight hole will still take, coarse before fine.

    Only threads of the same standard are offered, and only where the metal is thick enough.
    """
    bore, room = _bore(case, hole), _room(case, hole)
    old = wanted(hole)
    larger = [t for t in threads() if t.metric == old.metric and t.major > old.major]
    larger.sort(key=lambda each: (each.major, -each.pitch))
    drills = takes_next_size(
        bore,
        np.array([t.major for t in larger]),
        np.array([t.pitch for t in larger]),
        GOOD_SHARE,
        TAP_SHARE,
    )
    for size, drill in zip(larger, drills, strict=True):
        if np.isfinite(drill):
            yield from _room_for(size.name, float(drill), size.major, bore, room)


def insert_for(case: Case, hole: Hole) -> Iterator[Remake]:
    """A wire insert that brings the wanted thread back, where hole and metal allow it."""
    bore, room = _bore(case, hole), _room(case, hole)
    old = wanted(hole)
    insert = insert_hole(old.major, old.pitch)
    if bore <= float(insert.drill) * OVER_DRILL:
        name = f"a wire insert for {old.name}"
        drill = float(insert.drill)
        yield from _room_for(name, drill, float(insert.tap_major), bore, room)


def pipe_remakes(case: Case, hole: Hole) -> Iterator[Remake]:
    """Larger taper threads of the same standard that the hole will still take."""
    bore, room = _bore(case, hole), _room(case, hole)
    old = pipe_thread(hole.thread)
    for size in pipe_threads():
        if size.standard == old.standard and size.diameter > old.diameter:
            drill = float(tap_drill(taper(size)))
            if drill >= bore:
                yield from _room_for(size.name, drill, size.diameter, bore, room)


def _bore(case: Case, hole: Hole) -> float:
    return nominal(case.si(hole.diameter))


def _room(case: Case, hole: Hole) -> float | None:
    return None if hole.room is None else nominal(case.si(hole.room))


def _strength(case: Case, hole: Hole) -> Strength:
    size = wanted(hole)
    metal = hole.material
    if metal is None:
        raise NotKnownError(
            f"hole.{hole.name}.material",
            'Say what the hole is in, for example material = "aluminium": a magnet sticks to '
            "iron and steel, a file cuts aluminium softly.",
        )
    depth = case.need(
        hole.depth,
        f"hole.{hole.name}.depth",
        "Push a nail down the hole, measure how deep the full bore goes, and write it, for example "
        'depth = "12 mm".',
    )
    row = material_row(metal)
    grade = bolt_grade(USUAL_GRADES[size.metric])
    bore = case.si(hole.diameter)
    limits = (metric_limits if size.metric else unified_limits)(size.major, size.pitch)
    nut = nut_strip_area(limits.bolt_major, limits.nut_pitch, size.pitch, depth, bore)
    bolt = bolt_strip_area(bore, limits.bolt_pitch, size.pitch, depth)
    strips = np.minimum(
        strip_load(nut, row.shear), strip_load(bolt, SHEAR_OF_TENSILE * grade.tensile)
    )
    area = tensile_area(size.major, size.pitch, size.metric)
    preload = usual_preload(grade.proof, area, strips)
    breaks = np.atleast_1d(grade.tensile * area)
    per_depth = np.where(strips > 0.0, strips, np.nan) / depth
    return Strength(
        grade=grade,
        material=row,
        strips=strips,
        breaks=breaks,
        preload=preload,
        torque=tightening_torque(preload, size.major, OILED),
        engagement=breaks / per_depth,
    )


def _room_for(
    name: str, drill: float, major: float, bore: float, room: float | None
) -> Iterator[Remake]:
    """The remake, where the metal round the hole leaves wall enough."""
    if room is None or float(wall_left(major, room + 0.5 * bore)) >= LEAST_WALL * major:
        yield Remake(name, drill)
