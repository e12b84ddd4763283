"""Plates with their holes in place, as numbers: what is carried moves its hole."""

from itertools import combinations
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Idler, Shaft
from beltwright.build.fields import Point
from beltwright.build.plate import Plate, PlateHole
from beltwright.physics.arrays import Array
from beltwright.physics.plate.cuts import Corner, Cut, edge_distance, web_between
from beltwright.review.belt.wheels import shaft_of
from beltwright.review.case import Case, NotKnownError, unlisted
from beltwright.review.nominal import nominal
from beltwright.tables.loading import UnlistedError
from beltwright.tables.threads import thread

Pair = tuple[Array, Array]


class Drilled(NamedTuple):
    """A hole of a plate: where it is cut [m of the plate] and its diameter [m]."""

    hole: PlateHole
    cut: Cut
    diameter: Array


class Closest(NamedTuple):
    """The hole, or the pair of holes, with the least metal beside it.

    names      of the holes, worst in the build as written
    metal      that is left there [m]
    diameter   that it is counted in [m]
    share      metal over diameter, the least of all holes, shape (...) [1]
    """

    names: tuple[str, ...]
    metal: float
    diameter: float
    share: Array


def corners_of(case: Case, plate: Plate) -> list[Corner]:
    """The corners of a plate in order, from its lower left one [m]."""
    if plate.outline is not None:
        return [(case.si(x), case.si(y)) for x, y in plate.outline]
    assert plate.rectangle is not None
    width, height = (case.si(side) for side in plate.rectangle)
    none = np.zeros(1)
    return [(none, none), (width, none), (width, height), (none, height)]


def drilled(case: Case, plate: Plate) -> tuple[Drilled, ...]:
    """The holes of a plate in their places."""
    return case.once(("plate_holes", plate.name), lambda: _drilled(case, plate))


def on_machine(case: Case, plate: Plate, at: Corner) -> Pair:
    """Where a point of a placed plate lies on the machine [m]."""
    assert plate.at is not None
    x, y = _turned(at, _angle(case, plate))
    return case.si(plate.at[0]) + x, case.si(plate.at[1]) + y


def direction_on(case: Case, plate: Plate, direction: Corner) -> Pair:
    """A direction or a force of the machine as the plate sees it, its size unchanged."""
    return _turned(direction, -_angle(case, plate))


def idler_named(case: Case, name: str) -> Idler | None:
    """The idler of that name, if it is one."""
    return next((idler for idler in case.build.idler if idler.name == name), None)


def shaft_carried(case: Case, name: str) -> Shaft:
    """The shaft of that name, or the one that a pulley of that name sits on."""
    pulley = next((pulley for pulley in case.build.pulley if pulley.name == name), None)
    if pulley is not None:
        return shaft_of(case, pulley)
    found = next((shaft for shaft in case.build.shaft if shaft.name == name), None)
    if found is None:
        raise NotKnownError(
            f"shaft.{name}.at",
            f"Measure where the shaft “{name}” stands and describe it, for example at = "
            '["180 mm", "30 mm"].',
        )
    return found


def closest_edge(case: Case, plate: Plate) -> Closest:
    """The hole with the least metal between its middle and an edge, in its own diameters."""
    corners = corners_of(case, plate)
    return _closest(
        [
            ((each.hole.name,), edge_distance(each.cut, corners), each.diameter)
            for each in drilled(case, plate)
        ]
    )


def closest_holes(case: Case, plate: Plate) -> Closest:
    """The two holes with the least metal between them, in diameters of the larger."""
    return _closest(
        [
            (
                (one.hole.name, other.hole.name),
                web_between(one.cut, other.cut),
                np.maximum(one.diameter, other.diameter),
            )
            for one, other in combinations(drilled(case, plate), 2)
        ]
    )


def _closest(found: list[tuple[tuple[str, ...], Array, Array]]) -> Closest:
    shares = [np.atleast_1d(metal / diameter) for _, metal, diameter in found]
    names, metal, diameter = found[int(np.argmin([share[0] for share in shares]))]
    least = np.min(np.broadcast_arrays(*shares), axis=0)
    return Closest(names, nominal(metal), nominal(diameter), least)


def _drilled(case: Case, plate: Plate) -> tuple[Drilled, ...]:
    return tuple(_hole(case, plate, hole) for hole in plate.hole)


def _hole(case: Case, plate: Plate, hole: PlateHole) -> Drilled:
    x, y = _place(case, plate, hole)
    diameter = _diameter(case, plate, hole)
    run_x, run_y = _pair(case, hole.slot) if hole.slot else (np.zeros(1), np.zeros(1))
    return Drilled(hole, Cut(x, y, x + run_x, y + run_y, 0.5 * diameter), diameter)


def _diameter(case: Case, plate: Plate, hole: PlateHole) -> Array:
    if hole.diameter is not None:
        return case.si(hole.diameter)
    assert hole.thread is not None
    try:
        return np.full(1, thread(hole.thread).major)
    except UnlistedError as unknown:
        key = f"plate.{plate.name}.hole.{hole.name}.thread"
        raise unlisted(key, f"thread {hole.thread}", unknown) from None


def _place(case: Case, plate: Plate, hole: PlateHole) -> Pair:
    """Where a hole begins on its plate [m]."""
    if hole.place is not None:
        return _pair(case, hole.place)
    assert hole.carries is not None
    assert plate.at is not None
    x, y = _pair(case, _centre(case, hole.carries))
    corner_x, corner_y = _pair(case, plate.at)
    return direction_on(case, plate, (x - corner_x, y - corner_y))


def _centre(case: Case, name: str) -> Point:
    """Where what is carried is bolted: the pivot of an arm, a centre otherwise."""
    idler = idler_named(case, name)
    if idler is None:
        return shaft_carried(case, name).at
    at = idler.at if idler.arm is None else idler.arm.pivot
    assert at is not None
    return at


def _pair(case: Case, point: Point) -> Pair:
    return case.si(point[0]), case.si(point[1])


def _angle(case: Case, plate: Plate) -> Array:
    return np.zeros(1) if plate.turned is None else case.si(plate.turned)


def _turned(direction: Corner, angle: Array) -> Pair:
    c, s = np.cos(angle), np.sin(angle)
    x, y = direction
    return np.asarray(c * x - s * y), np.asarray(s * x + c * y)
