"""What there is to draw of a belt drive: wheels, arms, belts in both clutch positions, parts in
the way. All of it is the nominal build, in metres of the plane in which the belts run."""

from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from beltwright.drawing.path import Path, Point, direction

Drag = tuple[str, str]
"""The two keys of the build file that a place is made of; "" for a direction that has none."""

Strand = Literal["tight", "slack"]


class DrawnWheel(NamedTuple):
    """A pulley or idler.

    `turns` is +1 where it turns counter-clockwise on the drawing, -1 clockwise, 0 not known;
    `drag` is empty for one that stands where its arm puts it.
    """

    name: str
    owner: Literal["pulley", "idler"]
    at: Point
    rim: float
    shaft: float
    turns: int
    size: str
    drag: Drag | None = None


class DrawnArm(NamedTuple):
    """The arm of an idler: pivot, both ends of its travel, and the spring's hooks."""

    name: str
    pivot: Point
    drag: Drag
    driving: Point | None
    released: Point
    hooks: tuple[Point, Point] | None = None


class DrawnStrand(NamedTuple):
    """A straight part of a belt in the way that it runs, and how it pulls in drive."""

    start: Point
    end: Point
    pull: Strand | None

    @property
    def heading(self) -> float:
        """The way it runs [rad]."""
        return direction(self.start, self.end)

    def at(self, share: float) -> Point:
        """The point at a share of its length."""
        (x0, y0), (x1, y1) = self.start, self.end
        return x0 + share * (x1 - x0), y0 + share * (y1 - y0)


class DrawnBelt(NamedTuple):
    """A belt: its pitch line in drive and with the clutch down, and its width to either side.

    `left` and `right` [m] look along the line.
    """

    name: str
    title: str
    driving: Path | None
    released: Path | None
    left: float
    right: float
    strands: tuple[DrawnStrand, ...] = ()


class DrawnHandle(NamedTuple):
    """A corner or edge of a part, by which it is drawn out."""

    name: str
    at: Point
    drag: Drag


class DrawnPart(NamedTuple):
    """Something in the belt's way."""

    name: str
    corners: tuple[Point, ...]
    handles: tuple[DrawnHandle, ...]


class DrawnGap(NamedTuple):
    """The nearest distance of a belt and something else, and the finding that speaks of it."""

    belt_point: Point
    part_point: Point
    text: str
    finding: str


class DrawnGuard(NamedTuple):
    """A guard or keeper: the edge of its strip, the middle of its arc and the way outwards from
    there [rad]; hidden where a wheel lies above it."""

    name: str
    title: str
    outline: Path
    middle: Point
    outwards: float
    hidden: bool


class DrawnHole(NamedTuple):
    """A hole of a plate, or one end of a slot."""

    at: Point
    radius: float


class DrawnPlate(NamedTuple):
    """A plate or bracket; hidden but where it is known to lie above every belt."""

    name: str
    corners: tuple[Point, ...]
    holes: tuple[DrawnHole, ...]
    handles: tuple[DrawnHandle, ...]
    hidden: bool


class DrawnRod(NamedTuple):
    """The rod of a linkage with its lever and its arm, in neutral; hidden where it is known to lie
    under every belt."""

    name: str
    lines: tuple[tuple[Point, Point], ...]
    joints: tuple[Point, ...]
    hidden: bool


@dataclass(frozen=True)
class DrawnLayout:
    """Everything in one plane."""

    seen_from: Literal["above", "the right"]
    wheels: tuple[DrawnWheel, ...]
    arms: tuple[DrawnArm, ...] = ()
    released_wheels: tuple[DrawnWheel, ...] = ()
    belts: tuple[DrawnBelt, ...] = ()
    parts: tuple[DrawnPart, ...] = ()
    gaps: tuple[DrawnGap, ...] = ()
    slots: tuple[tuple[Point, Point], ...] = field(default=())
    guards: tuple[DrawnGuard, ...] = ()
    plates: tuple[DrawnPlate, ...] = ()
    rods: tuple[DrawnRod, ...] = ()
