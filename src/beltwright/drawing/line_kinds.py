"""The kinds of line of a technical drawing, their widths and their dashes.

Source: ISO 128-2:2020, line types 01, 02, 04 and 05, wide to narrow 2 : 1, dash lengths in
multiples of the line width; ISO 3098-1:2015, lettering heights (both from memory).
"""

from dataclasses import dataclass
from enum import Enum


class LineKind(Enum):
    """What a line means; its width and its dashes follow from that."""

    VISIBLE = "visible"
    """Type 01.2, continuous wide: an edge that is seen, the border of a sheet."""
    THIN = "thin"
    """Type 01.1, continuous narrow: dimensions, leaders, hatching."""
    HIDDEN = "hidden"
    """Type 02.1, dashed narrow: an edge behind something."""
    CENTRE = "centre"
    """Type 04.1, long-dashed dotted narrow: centre lines and the pitch line of a belt."""
    PHANTOM = "phantom"
    """Type 05.1, long-dashed double-dotted narrow: another position of a moving part."""


_GAP, _DOT, _DASH, _LONG_DASH = 3.0, 0.5, 12.0, 24.0

DASHES: dict[LineKind, tuple[float, ...]] = {
    LineKind.VISIBLE: (),
    LineKind.THIN: (),
    LineKind.HIDDEN: (_DASH, _GAP),
    LineKind.CENTRE: (_LONG_DASH, _GAP, _DOT, _GAP),
    LineKind.PHANTOM: (_LONG_DASH, _GAP, _DOT, _GAP, _DOT, _GAP),
}
"""Dash, gap, dash, … of each kind, in multiples of the line width."""


@dataclass(frozen=True, slots=True)
class Pen:
    """One line group: the widths and the lettering that belong together [mm]."""

    wide: float
    narrow: float
    lettering: float

    def width(self, kind: LineKind) -> float:
        """Width of a line of this kind [mm]."""
        return self.wide if kind is LineKind.VISIBLE else self.narrow

    def dashes(self, kind: LineKind) -> tuple[float, ...]:
        """Dash, gap, dash, … of a line of this kind [mm]; empty for a continuous line."""
        return tuple(multiple * self.width(kind) for multiple in DASHES[kind])


FINE_PEN = Pen(wide=0.5, narrow=0.25, lettering=2.5)
"""For A4, Letter and the screen."""
