"""A linkage as it is seen along each of its pivots: neutral thick, both ends of the travel thin."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, pi, sin
from typing import NamedTuple

import numpy as np

from beltwright.build.linkage import Linkage
from beltwright.drawing.dimensions import LinearDimension, RadialDimension
from beltwright.drawing.extent import bounds
from beltwright.drawing.free_place import Occupied, freest
from beltwright.drawing.ink import Colour, Ink
from beltwright.drawing.lettering import shortened, text_width
from beltwright.drawing.line_kinds import FINE_PEN, LineKind
from beltwright.drawing.path import Point, direction, distance
from beltwright.drawing.shapes import (
    CentreMark,
    Circle,
    Line,
    Polyline,
    Scene,
    Shape,
    Text,
    Together,
)
from beltwright.drawing.view import View
from beltwright.physics.angle import within_half_turn
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.linkage.swing import Vector, along, rod_end
from beltwright.physics.linkage.train import follow
from beltwright.quantity import Kind
from beltwright.review.angle_words import degrees
from beltwright.review.case import Case, NotKnownError
from beltwright.review.linkage.motion import (
    PLANES,
    hand_neutral,
    hand_travel,
    reach,
    written_train,
)
from beltwright.review.nominal import nominal

SEEN_FROM = {"cross": "the right", "upright": "above", "along": "behind"}

PIVOT, EYE = 0.005, 0.0035
"""Radii at which the bolt of a pivot and the eye of a rod are drawn [m]."""

_STEPS = 33  # points along an arc of travel
_TICK = 3.0  # length of the mark of a position [mm]
_AWAY = 6.0  # the dimension line stands off by this much [mm]
_LONGEST = 24.0  # names of positions are cut to this [mm]
_TURNS = [i * pi / 6.0 for i in (2, 10, 4, 8, 1, 11, 5, 7, 3, 9, 0, 6)]
_REACHES = (8.0, 14.0, 22.0)


class Standing(NamedTuple):
    """Where both ends of the rod stand at one angle of the hand lever, in a view [m]."""

    lever: Point
    arm: Point


class LinkageView(NamedTuple):
    """A linkage as it is seen along a pivot, in the build as written.

    axis      how that pivot lies
    pivots    of lever and arm [m of the view]
    neutral   where the rod stands in neutral
    ends      where it stands at both ends of the travel, as far as they are known and reached
    travel    both ends of the rod over the travel
    places    each position of the arm: its name, and where the rod then stands
    """

    axis: str
    pivots: Standing
    neutral: Standing
    ends: tuple[Standing, ...]
    travel: tuple[Standing, ...]
    places: tuple[tuple[str, Standing], ...]


def linkage_views(case: Case, linkage: Linkage) -> list[LinkageView]:
    """The view along the lever's pivot, and along the arm's where it lies otherwise.

    Raises NotKnownError where a place, a hole or a neutral angle is not measured yet.
    """
    axes = dict.fromkeys((linkage.lever.axis, linkage.arm.axis))
    return [_view(case, linkage, axis) for axis in axes]


def _view(case: Case, linkage: Linkage, axis: str) -> LinkageView:
    link = written_train(case, linkage)[-1].link
    start = hand_neutral(case, linkage)[:1]
    over = _hand_angles(case, linkage)
    names, hands = _position_angles(case, linkage)
    ends = [each for end in over[[0, -1]] for each in _standing(case, linkage, axis, end)]
    # a rod that fits nowhere is drawn as one that would
    put = Standing(
        _seen(rod_end(link.lever, link.neutral), axis),
        _seen(rod_end(link.arm, link.arm_neutral), axis),
    )
    return LinkageView(
        axis,
        Standing(_seen(link.lever.pivot, axis), _seen(link.arm.pivot, axis)),
        next(iter(_standing(case, linkage, axis, start[0])), put),
        tuple(ends),
        tuple(each for hand in over for each in _standing(case, linkage, axis, hand)),
        tuple(
            (name, each)
            for name, hand in zip(names, hands, strict=True)
            for each in _standing(case, linkage, axis, hand)
        ),
    )


def _hand_angles(case: Case, linkage: Linkage) -> Array:
    """Angles of the hand lever over its travel; neutral alone where that is not known [rad]."""
    try:
        low, high = hand_travel(case, linkage)
    except NotKnownError:
        return hand_neutral(case, linkage)[:1]
    return np.linspace(low.flat[0], high.flat[0], _STEPS)


def _position_angles(case: Case, linkage: Linkage) -> tuple[list[str], Array]:
    """The names of the arm's positions and the angles of the hand lever for them [rad]."""
    try:
        hand = reach(case, linkage).hand[:, 0]
    except NotKnownError:
        return [], np.empty(0)
    return [position.name for position in linkage.arm.position], hand


def _standing(case: Case, linkage: Linkage, axis: str, hand: float) -> Iterator[Standing]:
    """Where the rod stands for an angle of the hand lever; nothing where it cannot."""
    train = written_train(case, linkage)
    lever, arm = follow(train, np.array([hand]))
    if np.isfinite(arm[0]):
        link = train[-1].link
        yield Standing(_seen(rod_end(link.lever, lever), axis), _seen(rod_end(link.arm, arm), axis))


def _seen(place: Vector, axis: str) -> Point:
    """A place as it is seen along a pivot: to the right, and up."""
    ahead, beside = PLANES[axis]
    return nominal(along(place, ahead)), nominal(along(place, beside))


def linkage_shapes(view: LinkageView) -> list[Shape]:
    """The linkage from the bottom up, without any lettering."""
    return [
        Together(
            [
                *_travel_arcs(view),
                *(line for each in view.ends for line in _lines(view, each, LineKind.PHANTOM)),
                *(Circle(at, EYE, kind=LineKind.THIN) for each in view.ends for at in each),
            ],
            title="both ends of its travel",
        ),
        Together(list(_lines(view, view.neutral, LineKind.VISIBLE)), title="in neutral"),
        Together(
            [
                *(Circle(at, PIVOT, filling=Colour.TINT) for at in view.pivots),
                *(CentreMark(at, PIVOT) for at in view.pivots),
                *(Circle(at, EYE, filling=Colour.PAPER) for at in view.neutral),
            ],
            title="pivots and eyes",
        ),
    ]


def _travel_arcs(view: LinkageView) -> Iterator[Shape]:
    if len(view.travel) > 1:
        yield Polyline([each.lever for each in view.travel], kind=LineKind.THIN)
        yield Polyline([each.arm for each in view.travel], kind=LineKind.THIN)


def _lines(view: LinkageView, standing: Standing, kind: LineKind) -> Iterator[Shape]:
    """Lever, rod and arm at one angle."""
    yield Line(view.pivots.lever, standing.lever, kind=kind)
    yield Line(standing.lever, standing.arm, kind=kind)
    yield Line(view.pivots.arm, standing.arm, kind=kind)


def linkage_lettering(
    case: Case, linkage: Linkage, seen: LinkageView, view: View, drawn: Sequence[Ink], room: float
) -> list[Shape]:
    """Sizes, names and positions, where there is room: `room` [mm] round what is drawn."""
    (x0, y0), (x1, y1) = bounds(drawn)
    occupied = Occupied(((x0 - room, y0 - room), (x1 + room, y1 + room)), drawn)
    axes = linkage.lever.axis, linkage.arm.axis
    square = [end for end in (0, 1) if axes[end] == seen.axis]
    shapes = [
        _rod_size(case, linkage, seen),
        *(mark for end in square for mark in _position_marks(seen, view, end)),
    ]
    occupied.add([shape.inked(view, FINE_PEN) for shape in shapes])
    link = written_train(case, linkage)[-1].link
    named = [
        f"{name}, hole at {_shown(case, swing.radius)}{_swing_words(seen, end)}"
        if end in square
        else name
        for end, (name, swing) in enumerate((("lever", link.lever), ("arm", link.arm)))
    ]
    names = [
        freest(list(_pivot_names(at, name)), view, FINE_PEN, occupied)
        for at, name in zip(seen.pivots, named, strict=True)
    ]
    return [*shapes, *names]


def _rod_size(case: Case, linkage: Linkage, seen: LinkageView) -> Shape:
    """The rod from eye to eye, on the side away from the pivots, beyond the names there."""
    lever, arm = seen.neutral
    length = _shown(case, written_train(case, linkage)[-1].link.length)
    away = -_side(seen.pivots.lever, lever, arm)
    names = [_name_width(name) for name, _ in seen.places]
    return LinearDimension(
        lever, arm, f"{length} eye to eye", away * (_AWAY + _TICK + max(names, default=0.0))
    )


def _side(point: Point, start: Point, end: Point) -> float:
    """+1 where a point lies to the left of the way from start to end, −1 to its right."""
    turn = (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
    return 1.0 if turn >= 0.0 else -1.0


def _shown(case: Case, value: ArrayLike) -> str:
    return case.units.show(nominal(value), Kind.LENGTH)


def _name_width(name: str) -> float:
    """Width that the name of a position takes [mm]."""
    height = FINE_PEN.lettering
    return text_width(shortened(name, _LONGEST, height), height)


def _position_marks(seen: LinkageView, view: View, end: int) -> Iterator[Shape]:
    """A short line across the arc at every position; its name where the next leaves room."""
    mm, pivot = 1.0 / view.mm_per_metre, seen.pivots[end]
    stands = [(name, each[end]) for name, each in seen.places]
    for number, (name, at) in enumerate(stands):
        heading = direction(pivot, at)
        start, stop = EYE, EYE + _TICK * mm
        yield Line(_out(at, heading, start), _out(at, heading, stop), kind=LineKind.THIN)
        beside = min((distance(at, other) for _, other in stands if other != at), default=np.inf)
        if number in (0, len(stands) - 1) or beside > 1.4 * FINE_PEN.lettering * mm:
            yield _along_ray(at, heading, stop + mm, name, mm)


def _out(at: Point, heading: float, by: float) -> Point:
    return at[0] + by * cos(heading), at[1] + by * sin(heading)


def _along_ray(at: Point, heading: float, by: float, text: str, mm: float) -> Shape:
    """Lettering that runs out along a ray, or in along it where it would stand on its head."""
    upright = cos(heading) >= -1e-9
    angle = heading if upright else heading + pi
    x, y = _out(at, heading, by)
    drop = 0.5 * FINE_PEN.lettering * mm
    foot = (x + drop * sin(angle), y - drop * cos(angle))
    text = shortened(text, _LONGEST, FINE_PEN.lettering)
    return Text(foot, text, "start" if upright else "end", angle=angle, colour=Colour.QUIET)


def _pivot_names(at: Point, name: str) -> Iterator[Shape]:
    """A name on a leader to a pivot, nearest first, at any turn."""
    for reach_ in _REACHES:
        for turn in _TURNS:
            yield RadialDimension(at, PIVOT, turn, name, reach=reach_)


def _swing_words(seen: LinkageView, end: int) -> str:
    """How far a lever or arm swings over the travel, where both ends of it are reached."""
    if len(seen.ends) < 2:
        return ""
    pivot = seen.pivots[end]
    one, other = (direction(pivot, each[end]) for each in seen.ends)
    return f", swings {degrees(abs(float(within_half_turn(one - other))))}"


def linkage_scene(
    case: Case, linkage: Linkage, seen: LinkageView, view: View, room: float
) -> Scene:
    """One view of a linkage with its lettering."""
    shapes = linkage_shapes(seen)
    ink = [shape.inked(view, FINE_PEN) for shape in shapes]
    return Scene(
        (*shapes, *linkage_lettering(case, linkage, seen, view, ink, room)),
        f"{linkage.name}, seen from {SEEN_FROM[seen.axis]}",
        f"Lever, rod and arm of the {linkage.name}, seen from {SEEN_FROM[seen.axis]}: neutral "
        "thick, both ends of the travel thin.",
    )
