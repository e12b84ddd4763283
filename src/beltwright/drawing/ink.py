"""What stands on a sheet of paper, in millimetres from its lower left corner, y upwards.

Everything that is drawn ends as these few pieces, so that the screen, the printed sheet and the
true-size template cannot differ. The writers (`svg`, `pdf`) know nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import Literal

from beltwright.drawing.line_kinds import FINE_PEN, LineKind, Pen
from beltwright.drawing.path import Path, Point


class Colour(Enum):
    """What a colour is for; `palette` says how it looks on each paper."""

    INK = "ink"
    QUIET = "quiet"
    PAPER = "paper"
    TINT = "tint"
    BELT = "belt"
    ACCENT = "accent"
    SOUND = "sound"
    MARGINAL = "marginal"
    STOP = "stop"
    NOT_KNOWN = "not-known"
    MARGINAL_RIM = "marginal-rim"


Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line along a path."""

    path: Path
    kind: LineKind = LineKind.VISIBLE
    colour: Colour = Colour.INK
    pen: Pen = FINE_PEN
    phase: float = 0.0
    """How far into its dashes the line starts [mm]."""


@dataclass(frozen=True, slots=True)
class Area:
    """The inside of one or more closed paths; a path inside another is a hole."""

    outlines: tuple[Path, ...]
    colour: Colour


@dataclass(frozen=True, slots=True)
class Letters:
    """One line of lettering."""

    text: str
    at: Point
    height: float
    """Height of a capital [mm]."""
    anchor: Anchor = "start"
    angle: float = 0.0
    """[rad], turning left."""
    bold: bool = False
    colour: Colour = Colour.INK
    clear: bool = False
    """Whether lines underneath are interrupted."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A PNG picture in a rectangle."""

    png: bytes = field(repr=False)
    corner: Point
    width: float
    height: float
    title: str


@dataclass(frozen=True, slots=True)
class Group:
    """Pieces that belong together, with an id and a spoken title if they are worth naming."""

    pieces: tuple[Ink, ...]
    id: str = ""
    title: str = ""
    data: tuple[tuple[str, str], ...] = ()
    """What the screen is to know of it: ("drag", "pulley.….at.0 pulley.….at.1") and the like."""


@dataclass(frozen=True, slots=True)
class Window:
    """Pieces shifted over the paper and shown inside a rectangle only."""

    pieces: tuple[Ink, ...]
    shift: Point
    corner: Point
    width: float
    height: float


Ink = Stroke | Area | Letters | Picture | Group | Window


@dataclass(frozen=True, slots=True)
class Page:
    """One sheet of paper and what stands on it."""

    width: float
    height: float
    ink: tuple[Ink, ...]
    title: str
    description: str = ""
