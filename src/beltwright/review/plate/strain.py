"""What a plate bears and takes up, as numbers: the belt's pull on it, its stress, its slot."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Idler
from beltwright.build.plate import Plate
from beltwright.physics.arrays import Array
from beltwright.physics.belt.force import Load, shaft_load
from beltwright.physics.belt.path import belt_path
from beltwright.physics.plate.bracket import bracket_stress, spread_width
from beltwright.physics.plate.cuts import Corner, width_left
from beltwright.review.belt.force import pulls, shaft_loads
from beltwright.review.belt.layout import belt_layout
from beltwright.review.belt.length import belt_take_up, growth
from beltwright.review.belt.spring import arm_spring, sprung_idler
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal
from beltwright.review.plate.plates import (
    Drilled,
    Pair,
    corners_of,
    direction_on,
    drilled,
    idler_named,
    on_machine,
    shaft_carried,
)
from beltwright.tables.plates import PlateMaterial, plate_material

STATIONS = 5
"""Cross-sections looked at between what is carried and the fixing, both ends among them."""


class Bending(NamedTuple):
    """How the belt strains a plate through one of its holes.

    carried    hole that is pulled
    force      on its bolt [N]
    lever      from it to the nearest fixing, along the plate [m]
    stand_off  from the middle of the plate to the belt [m]
    width      of metal where the stress is worst, build as written [m]
    metal      what the plate is of
    used       worst stress over the yield strength [1]
    """

    carried: Drilled
    force: Array
    lever: Array
    stand_off: Array
    width: float
    metal: PlateMaterial
    used: Array


class Reach(NamedTuple):
    """What a slot takes up of a belt's length, and what is asked of it [m].

    slot   path that the slot adds from its first to its other end
    arm    path that the belt's own arm has left
    asked  growth of the belt
    """

    belt: str
    slot: Array
    arm: Array
    asked: Array


def carrying(case: Case, plate: Plate) -> tuple[Drilled, ...]:
    """The holes of a plate that carry something."""
    return tuple(each for each in drilled(case, plate) if each.hole.carries is not None)


def belts_on(case: Case, name: str) -> tuple[Belt, ...]:
    """The belts that run over an idler, or over a pulley of a shaft."""
    wheels = _wheels_of(case, name)
    return tuple(belt for belt in case.build.belt if wheels & set(belt.run))


def bending(case: Case, plate: Plate, carried: Drilled) -> Bending:
    """How the belt strains a plate through the hole of what it carries."""
    work = ("plate_bending", plate.name, carried.hole.name)
    return case.once(work, lambda: _bending(case, plate, carried))


def reach(case: Case, plate: Plate, carried: Drilled) -> Reach:
    """What the slot of a carried wheel takes up of its belt, the rest standing still."""
    name, cut = _name(carried), carried.cut
    belts = belts_on(case, name)
    if not belts:
        raise _no_belt(name)
    belt = belts[0]
    layout = belt_layout(case, belt)
    wheels = _wheels_of(case, name)
    place = next(i for i, wheel in enumerate(belt.run) if wheel in wheels)
    x, y = on_machine(case, plate, (cut.end_x, cut.end_y))
    idler = idler_named(case, name)
    if idler is not None and idler.arm is not None:  # the idler goes with the pivot of its arm
        from_x, from_y = on_machine(case, plate, (cut.start_x, cut.start_y))
        x, y = layout.path.run.x[place] + x - from_x, layout.path.run.y[place] + y - from_y
    there = belt_path(layout.path.run.moved(place, x, y), layout.path.sense)
    return Reach(
        belt.name,
        np.atleast_1d(np.fmax(there.length - layout.path.length, 0.0)),
        _arm_left(case, belt),
        np.atleast_1d(growth(case, belt)),
    )


def _arm_left(case: Case, belt: Belt) -> Array:
    """What the belt's own arm still takes up, 0 where it has none."""
    mover = belt_layout(case, belt).mover
    if mover is None or not isinstance(mover.of, Idler):
        return np.zeros(1)
    return np.atleast_1d(np.maximum(belt_take_up(case, belt).stretch, 0.0))


def _bending(case: Case, plate: Plate, carried: Drilled) -> Bending:
    metal = _metal(plate)
    forces = [direction_on(case, plate, (load.x, load.y)) for load in _loads(case, carried)]
    ways = [_way(case, plate, carried, end) for end in _ends(carried)]
    strains = [_strain(case, plate, carried, way, force) for way in ways for force in forces]
    worst = max(strains, key=lambda one: nominal(one.stress))
    stress = np.max(np.broadcast_arrays(*(one.stress for one in strains)), axis=0)
    return Bending(
        carried,
        np.atleast_1d(np.hypot(*worst.force)),
        np.atleast_1d(worst.lever),
        _stand_off(case, plate, carried),
        worst.width,
        metal,
        np.atleast_1d(stress / metal.yield_strength),
    )


def _thickness(case: Case, plate: Plate) -> Array:
    return case.need(
        plate.thickness,
        f"plate.{plate.name}.thickness",
        'Close a caliper on the sheet and write it, for example thickness = "6 mm".',
    )


def _stand_off(case: Case, plate: Plate, carried: Drilled) -> Array:
    return case.need(
        carried.hole.stand_off,
        f"plate.{plate.name}.hole.{carried.hole.name}.stand_off",
        "Measure from the middle of the plate's thickness to the middle of the belt, square to the "
        'plate, and write it, for example stand_off = "25 mm".',
    )


class _Way(NamedTuple):
    """The way from a pulled bolt to the nearest fixing, in cross-sections of the plate.

    along   from the fixings to the bolt [1]
    far     of each cross-section from the bolt [m], shape (stations, ...)
    width   of the metal that bears there [m], shape (stations, ...)
    """

    along: Pair
    far: Array
    width: Array


class _Strain(NamedTuple):
    force: Pair
    lever: Array
    width: float
    stress: Array


def _way(case: Case, plate: Plate, carried: Drilled, at: Corner) -> _Way:
    along, lever = _lever(case, plate, at)
    far = np.linspace(0.0, 1.0, STATIONS).reshape(-1, 1) * lever
    width = np.minimum(
        _metal_across(case, plate, (at[0] - far * along[0], at[1] - far * along[1]), along),
        spread_width(far, carried.diameter),
    )
    return _Way(along, far, width)


def _strain(case: Case, plate: Plate, carried: Drilled, way: _Way, force: Pair) -> _Strain:
    """The worst stress on the way."""
    thickness, off = _thickness(case, plate), _stand_off(case, plate, carried)
    ahead = force[0] * way.along[0] + force[1] * way.along[1]
    aside = force[1] * way.along[0] - force[0] * way.along[1]
    stress = bracket_stress(ahead, aside, way.far, off, way.width, thickness).together
    nominal = stress[:, 0]
    if not np.isfinite(nominal).all():
        raise NotKnownError(
            f"plate.{plate.name}.outline",
            f"First put its edges right: see “Nearest hole to the edge, {plate.name}”.",
            "As it is drawn, there is no metal all the way from what it carries to its fixing.",
        )
    worst = int(np.argmax(nominal))
    narrow = float(np.broadcast_to(way.width, stress.shape)[worst, 0])
    return _Strain(force, way.far[-1], narrow, stress.max(axis=0))


def _metal_across(case: Case, plate: Plate, at: Corner, along: Pair) -> Array:
    """How wide the plate is across the way to its fixing [m]."""
    cuts = [each.cut for each in drilled(case, plate)]
    return width_left(at, along, corners_of(case, plate), cuts)


def _lever(case: Case, plate: Plate, at: Corner) -> tuple[Pair, Array]:
    """The way from the fixings to a bolt, and how far it stands beyond the nearest of them."""
    fixings = [each.cut for each in drilled(case, plate) if each.hole.carries is None]
    if not fixings:
        raise NotKnownError(
            f"plate.{plate.name}.hole",
            "Write the holes that bolt it to the frame, each with its place and its diameter.",
        )
    middles = [
        (0.5 * (cut.start_x + cut.end_x), 0.5 * (cut.start_y + cut.end_y)) for cut in fixings
    ]
    x, y = (_mean([middle[axis] for middle in middles]) for axis in (0, 1))
    dx, dy = at[0] - x, at[1] - y
    far = np.maximum(np.hypot(dx, dy), np.finfo(np.float64).tiny)
    along = np.asarray(dx / far), np.asarray(dy / far)
    beyond = [(at[0] - a) * along[0] + (at[1] - b) * along[1] for a, b in middles]
    return along, np.maximum(np.min(np.broadcast_arrays(*beyond), axis=0), 0.0)


def _mean(values: Sequence[Array | float]) -> Array:
    return np.asarray(sum(values) / len(values))


def _ends(carried: Drilled) -> list[Corner]:
    """Where the bolt may sit: both ends of a slot."""
    cut = carried.cut
    ends: list[Corner] = [(cut.start_x, cut.start_y)]
    return [*ends, (cut.end_x, cut.end_y)] if carried.hole.slot else ends


def _metal(plate: Plate) -> PlateMaterial:
    if plate.material is None:
        raise NotKnownError(
            f"plate.{plate.name}.material",
            'Say what it is cut from, for example material = "unknown steel": a magnet sticks to '
            "steel, a file cuts aluminium softly.",
        )
    return plate_material(plate.material)


def _loads(case: Case, carried: Drilled) -> list[Load]:
    """The belt's pull on what is carried; on the pivot of a sprung arm, with the spring's too.

    The spring may hook level with the plate, so the belt's pull alone is looked at as well.
    """
    name = _name(carried)
    belts = belts_on(case, name)
    if not belts:
        raise _no_belt(name)
    idler = idler_named(case, name)
    if idler is None:
        shaft = shaft_carried(case, name).name
        return [_together([shaft_loads(case, belt)[shaft] for belt in belts])]
    alone = _together([_idler_load(case, belt, idler) for belt in belts])
    sprung = [belt for belt in belts if sprung_idler(case, belt) == idler]
    if not sprung:
        return [alone]
    return [alone, _together([alone, _spring_load(case, sprung[0], idler)])]


def _idler_load(case: Case, belt: Belt, idler: Idler) -> Load:
    """The belt's pull on an idler, engine at its best torque."""
    place = belt.run.index(idler.name)
    spans, found = belt_layout(case, belt).path.spans, pulls(case, belt)
    peak = found.at_peak()
    before, after = spans[place - 1], spans[place]
    return shaft_load(
        peak[place - 1],
        (before.heading_x, before.heading_y),
        peak[place],
        (after.heading_x, after.heading_y),
        found.spans.centrifugal,
    )


def _spring_load(case: Case, belt: Belt, idler: Idler) -> Load:
    """The spring's pull on its arm, in drive."""
    assert idler.arm is not None
    assert idler.arm.spring is not None
    spring, pivot = idler.arm.spring, idler.arm.pivot
    angle = belt_layout(case, belt).arm_angle
    c, s = np.cos(angle), np.sin(angle)
    along, left = (case.si(each) for each in spring.arm_hook)
    frame_x, frame_y = (case.si(each) for each in spring.frame_hook)
    dx = frame_x - (case.si(pivot[0]) + along * c - left * s)
    dy = frame_y - (case.si(pivot[1]) + along * s + left * c)
    pull = arm_spring(case, belt).driving.pull / np.hypot(dx, dy)
    return Load(pull * dx, pull * dy)


def _together(loads: Sequence[Load]) -> Load:
    return Load(
        np.asarray(sum(load.x for load in loads)), np.asarray(sum(load.y for load in loads))
    )


def _wheels_of(case: Case, name: str) -> set[str]:
    """An idler by itself, or the pulleys of a shaft or of the shaft of a pulley."""
    if idler_named(case, name):
        return {name}
    shaft = shaft_carried(case, name).name
    return {pulley.name for pulley in case.build.pulley if pulley.shaft == shaft}


def _name(carried: Drilled) -> str:
    assert carried.hole.carries is not None
    return carried.hole.carries


def _no_belt(name: str) -> NotKnownError:
    return NotKnownError(
        f"belt.{name}.run",
        f"Name the {name} in the run of the belt that goes over it.",
        f"No belt of the build goes over the {name}.",
    )
