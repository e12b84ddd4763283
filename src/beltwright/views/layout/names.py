"""Names on the belt layout: each stands where it covers least of the drawing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import islice
from math import atan2, copysign, cos, pi, radians, sin
from types import MappingProxyType

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
    DrawnPlate,
    DrawnRod,
    DrawnStrand,
    DrawnWheel,
)

_TURNS = [radians(degrees) for degrees in (0, 30, -30, 60, -60, 95, -95, 130, -130)]
_REACHES = (8.0, 15.0, 24.0)
_STRAND_ROOM = 1.6  # lettering beside a belt stands off by this much [mm]
_STRAND_SHARES = (0.5, 0.3, 0.7)


Places = Mapping[str, int]
"""Which of the places that it may have each name has, by what it names."""


def layout_names(
    layout: DrawnLayout,
    view: View,
    occupied: Callable[[], Occupied],
    held: Places = MappingProxyType({}),
) -> tuple[list[Shape], Places]:
    """Narrow gaps, names of parts in the way, wheels and guards, tight and slack; their places.

    A name whose place is `held` stays there, so that names do not hop about while something
    moves; the others go where they cover least of what is `occupied`, which is asked for them.
    """
    choices = _choices(layout, view)
    places = {what: held[what] for what in choices if what in held}
    names = {what: next(islice(choices[what], place, None)) for what, place in places.items()}
    free = [what for what in choices if what not in names]
    if free:
        taken = occupied()
        taken.add(name.inked(view, FINE_PEN) for name in names.values())
    for what in free:
        candidates = list(choices[what])
        names[what] = freest(candidates, view, FINE_PEN, taken)
        places[what] = candidates.index(names[what])
    return [names[what] for what in choices], places


def _choices(layout: DrawnLayout, view: View) -> dict[str, Iterator[Shape]]:
    """The places that each name may have, the best first."""
    middle = _middle([wheel.at for wheel in layout.wheels])
    strands = [(belt, strand) for belt in layout.belts for strand in belt.strands]
    return {
        **{f"gap {gap.finding}": _gap_dimensions(gap) for gap in layout.gaps},
        **{f"part {part.name}": _part_names(part, view) for part in layout.parts},
        **{f"wheel {wheel.name}": _wheel_names(wheel, middle) for wheel in layout.wheels},
        **{f"plate {plate.name}": _part_names(plate, view) for plate in layout.plates},
        **{f"rod {rod.name}": _rod_names(rod, view) for rod in layout.rods},
        **{f"guard {guard.name}": _guard_names(guard, view) for guard in layout.guards},
        **{
            f"strand {number}": _strand_names(strand, belt, view)
            for number, (belt, strand) in enumerate(strands)
            if strand.pull is not None
        },
    }


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


def _part_names(part: DrawnPart | DrawnPlate, view: View) -> Iterator[Shape]:
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


def _rod_names(rod: DrawnRod, view: View) -> Iterator[Shape]:
    """The name along the rod, on either side of it."""
    yield from _along(*rod.lines[0], _STRAND_ROOM / view.mm_per_metre, rod.name, view)


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
    half = max(belt.left, belt.right) + _STRAND_ROOM / view.mm_per_metre
    yield from _along(strand.start, strand.end, half, strand.pull, view)


def _along(start: Point, end: Point, half: float, name: str, view: View) -> Iterator[Shape]:
    """A name along a line, this far off it on either side."""
    (x0, y0), (x1, y1) = start, end
    reading = (atan2(y1 - y0, x1 - x0) + pi / 2.0) % pi - pi / 2.0
    for share in _STRAND_SHARES:
        x, y = x0 + share * (x1 - x0), y0 + share * (y1 - y0)
        for off in (half, -half - FINE_PEN.lettering / view.mm_per_metre):
            at = (x - off * sin(reading), y + off * cos(reading))
            yield Text(at, name, angle=reading, colour=Colour.QUIET)


def _middle(points: list[Point]) -> Point:
    xs, ys = zip(*points, strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys)
