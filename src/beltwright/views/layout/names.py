"""Names on the belt layout: each stands where it covers least of the drawing."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, copysign, cos, pi, radians, sin

from beltwright.drawing.dimensions import LinearDimension, RadialDimension
from beltwright.drawing.free_place import Occupied, freest
from beltwright.drawing.ink import Anchor, Colour
from beltwright.drawing.line_kinds import FINE_PEN, LineKind
from beltwright.drawing.path import Point
from beltwright.drawing.shapes import Line, Shape, Text, Together
from beltwright.drawing.view import View
from beltwright.views.layout.drawn_layout import (
    DrawnBelt,
    DrawnGap,
    DrawnGuard,
    DrawnLayout,
    DrawnPart,
    DrawnStrand,
    DrawnWheel,
)

_TURNS = [radians(degrees) for degrees in (0, 30, -30, 60, -60, 95, -95, 130, -130)]
_REACHES = (8.0, 15.0, 24.0)
_STRAND_ROOM = 1.6  # lettering beside a belt stands off by this much [mm]
_STRAND_SHARES = (0.5, 0.3, 0.7)


def layout_names(layout: DrawnLayout, view: View, occupied: Occupied) -> list[Shape]:
    """Narrow gaps, names of parts in the way, wheels and guards, tight and slack."""
    middle = _middle([wheel.at for wheel in layout.wheels])
    choices = [
        *([*_gap_dimensions(gap)] for gap in layout.gaps),
        *([*_part_names(part, view)] for part in layout.parts),
        *([*_wheel_names(wheel, middle)] for wheel in layout.wheels),
        *([*_guard_names(guard, view)] for guard in layout.guards),
        *(
            [*_strand_names(strand, belt, view)]
            for belt in layout.belts
            for strand in belt.strands
            if strand.pull is not None
        ),
    ]
    return [freest(choice, view, FINE_PEN, occupied) for choice in choices]


def _wheel_names(wheel: DrawnWheel, middle: Point) -> Iterator[Shape]:
    """Name and size on a leader, best away from the middle of the drive."""
    outwards = atan2(wheel.at[1] - middle[1], wheel.at[0] - middle[0])
    for reach in _REACHES:
        for turn in _TURNS:
            yield RadialDimension(
                wheel.at,
                wheel.rim,
                outwards + turn,
                f"{wheel.name} ⌀{wheel.size}",
                reach=reach,
                data=(("key", f"{wheel.owner}.{wheel.name}.outside"),),
                title=f"{wheel.name}, outside diameter {wheel.size}",
            )


def _gap_dimensions(gap: DrawnGap) -> Iterator[Shape]:
    """The nearest distance of a belt and a part, across the gap or a little beside it."""
    for offset in (0.0, 6.0, -6.0, 12.0, -12.0):
        for start, end in (
            (gap.belt_point, gap.part_point),
            (gap.part_point, gap.belt_point),
        ):
            yield LinearDimension(
                start,
                end,
                gap.text,
                offset,
                data=(("finding", gap.finding),),
                title=f"gap {gap.text}",
            )


def _part_names(part: DrawnPart, view: View) -> Iterator[Shape]:
    """The name below, above, right or left of its part, or in its middle."""
    xs, ys = zip(*part.corners, strict=True)
    x, y = (min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0
    mm = 1.0 / view.mm_per_metre
    height, gap = FINE_PEN.lettering * mm, 1.5 * mm
    yield Text((x, min(ys) - gap - height), part.name)
    yield Text((x, max(ys) + gap), part.name)
    yield Text((max(xs) + gap, y - height / 2.0), part.name, "start")
    yield Text((min(xs) - gap, y - height / 2.0), part.name, "end")
    yield Text((x, y - height / 2.0), part.name)


def _guard_names(guard: DrawnGuard, view: View) -> Iterator[Shape]:
    """The name on a leader, away from the pulley that the guard goes round."""
    mm = 1.0 / view.mm_per_metre
    for reach in _REACHES:
        for turn in _TURNS:
            way = guard.outwards + turn
            x, y = guard.middle
            end = (x + reach * mm * cos(way), y + reach * mm * sin(way))
            anchor: Anchor = "start" if cos(way) >= 0.0 else "end"
            yield Together(
                [
                    Line(guard.middle, end, kind=LineKind.THIN),
                    Text((end[0] + copysign(mm, cos(way)), end[1] - mm), guard.name, anchor),
                ],
                title=guard.title,
            )


def _strand_names(strand: DrawnStrand, belt: DrawnBelt, view: View) -> Iterator[Shape]:
    """Tight or slack, along the strand on either side of it."""
    assert strand.pull is not None
    mm = 1.0 / view.mm_per_metre
    reading = (strand.heading + pi / 2.0) % pi - pi / 2.0
    half = max(belt.left, belt.right) + _STRAND_ROOM * mm
    for share in _STRAND_SHARES:
        x, y = strand.at(share)
        for off in (half, -half - FINE_PEN.lettering * mm):
            at = (x - off * sin(reading), y + off * cos(reading))
            yield Text(at, strand.pull, angle=reading, colour=Colour.QUIET)


def _middle(points: list[Point]) -> Point:
    xs, ys = zip(*points, strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys)
