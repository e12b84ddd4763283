"""Rulers that prove the print scale: 100 mm and 4 in."""

from beltwright.drawing.ink import Group, Ink, Letters, Stroke
from beltwright.drawing.line_kinds import FINE_PEN, LineKind, Pen
from beltwright.drawing.paper_units import INCH
from beltwright.drawing.path import Path, Point, Straight

RULER_HEIGHT = 6.5
"""Room that one ruler takes upwards from its base line [mm]."""

_LONG, _MIDDLE, _SHORT = 3.0, 2.2, 1.4
_FIGURES = 1.8


def metric_ruler(at: Point, pen: Pen = FINE_PEN) -> Group:
    """A 100 mm ruler from its zero, in steps of 5 mm, with its first 10 mm in millimetres."""
    pieces: list[Ink] = [_base(at, 100.0, pen)]
    for mm in (*range(10), *range(10, 101, 5)):
        tick = _LONG if mm % 50 == 0 else _MIDDLE if mm % 10 == 0 else _SHORT
        pieces.append(_tick(at, float(mm), tick, mm % 100 == 0, pen))
        if mm % 50 == 0:
            pieces.append(_figure(at, float(mm), f"{mm} mm" if mm else "0"))
    return Group(tuple(pieces), title="Ruler, 100 mm long when printed at true size")


def inch_ruler(at: Point, pen: Pen = FINE_PEN) -> Group:
    """A 4 in ruler from its zero, in quarters, with its first inch in sixteenths."""
    pieces: list[Ink] = [_base(at, 4.0 * INCH, pen)]
    for sixteenth in (*range(16), *range(16, 65, 4)):
        tick = _LONG if sixteenth % 16 == 0 else _MIDDLE if sixteenth % 4 == 0 else _SHORT
        along = sixteenth / 16.0 * INCH
        pieces.append(_tick(at, along, tick, sixteenth % 64 == 0, pen))
        if sixteenth % 16 == 0:
            inches = sixteenth // 16
            pieces.append(_figure(at, along, f"{inches} in" if inches == 4 else str(inches)))
    return Group(tuple(pieces), title="Ruler, 4 in long when printed at true size")


def _base(at: Point, length: float, pen: Pen) -> Stroke:
    return Stroke(Path((Straight(at, (at[0] + length, at[1])),)), LineKind.THIN, pen=pen)


def _tick(at: Point, along: float, height: float, end: bool, pen: Pen) -> Stroke:
    x, y = at[0] + along, at[1]
    kind = LineKind.VISIBLE if end else LineKind.THIN
    return Stroke(Path((Straight((x, y), (x, y + height)),)), kind, pen=pen)


def _figure(at: Point, along: float, text: str) -> Letters:
    return Letters(text, (at[0] + along, at[1] + _LONG + 0.9), _FIGURES, "middle")
