"""Scenes as DXF at true size in millimetres, for a drawing program or a cutting table.

The scene is inked at 1:1 as for paper; every line becomes a line, an arc or a circle of its own
kind, a closed path one closed contour, so that a table can follow it. Layers have plain names.
"""

from __future__ import annotations

from collections.abc import Iterable
from io import StringIO
from math import degrees, pi, tan
from typing import TYPE_CHECKING

from beltwright.drawing.ink import Anchor, Area, Colour, Group, Ink, Letters, Stroke
from beltwright.drawing.line_kinds import FINE_PEN, LineKind, Pen
from beltwright.drawing.path import FULL_TURN, Arc, Path, Piece
from beltwright.drawing.shapes import Scene
from beltwright.drawing.view import View

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

HOLES = "holes"
"""The layer of holes, and the id of the group whose circles stand on it."""

TEXT = "text"

LAYERS: dict[LineKind, str] = {
    LineKind.VISIBLE: "outline",
    LineKind.THIN: "dimensions",
    LineKind.HIDDEN: "hidden edges",
    LineKind.CENTRE: "centre lines",
    LineKind.PHANTOM: "other position",
}
"""The layer of each kind of line."""

_DASHED = (LineKind.HIDDEN, LineKind.CENTRE, LineKind.PHANTOM)
_RELEASE = "R2010"  # read everywhere, and its lettering holds every sign
_MILLIMETRES = 4
_METRIC = 1
_COLOURS = {"outline": 7, HOLES: 1, "centre lines": 5, "dimensions": 8, TEXT: 8}
_OTHER_COLOUR = 9
_SAME_PLACE = 1e-6  # ends nearer than this meet [mm]


def dxf(scene: Scene, pen: Pen = FINE_PEN) -> bytes:
    """The scene at 1:1 as a DXF file."""
    from ezdxf.filemanagement import new

    document = new(_RELEASE)
    document.header["$INSUNITS"] = _MILLIMETRES
    document.header["$MEASUREMENT"] = _METRIC
    _make_layers(document, pen)
    _write(document.modelspace(), [scene.inked(View(1.0), pen)], on_holes=False)
    out = StringIO()
    document.write(out)
    return document.encode(out.getvalue())


def _make_layers(document: Drawing, pen: Pen) -> None:
    for kind in _DASHED:
        dashes = pen.dashes(kind)
        strokes = [length if i % 2 == 0 else -length for i, length in enumerate(dashes)]
        document.linetypes.add(kind.value.upper(), [sum(dashes), *strokes])
    for kind, name in LAYERS.items():
        linetype = kind.value.upper() if kind in _DASHED else "CONTINUOUS"
        document.layers.add(name, color=_COLOURS.get(name, _OTHER_COLOUR), linetype=linetype)
    for name in (HOLES, TEXT):
        document.layers.add(name, color=_COLOURS[name])


def _write(space: Modelspace, pieces: Iterable[Ink], on_holes: bool) -> None:
    for piece in pieces:
        match piece:
            case Stroke():
                _stroke(space, piece, on_holes)
            case Area() if piece.colour is Colour.INK:  # arrowheads; tints are for paper
                for outline in piece.outlines:
                    _contour(space, outline, LAYERS[LineKind.THIN])
            case Letters():
                _letters(space, piece)
            case Group():
                _write(space, piece.pieces, on_holes or piece.id == HOLES)


def _stroke(space: Modelspace, stroke: Stroke, on_holes: bool) -> None:
    layer = HOLES if on_holes and stroke.kind is LineKind.VISIBLE else LAYERS[stroke.kind]
    pieces = stroke.path.pieces
    if len(pieces) == 1 and isinstance(pieces[0], Arc):
        _arc(space, pieces[0], layer)
    elif len(pieces) == 1:
        space.add_line(pieces[0].start, pieces[0].end, dxfattribs={"layer": layer})
    else:
        _contour(space, stroke.path, layer)


def _arc(space: Modelspace, arc: Arc, layer: str) -> None:
    attributes = {"layer": layer}
    if abs(arc.sweep) >= FULL_TURN:
        space.add_circle(arc.centre, arc.radius, dxfattribs=attributes)
        return
    begin, end = degrees(arc.begin), degrees(arc.begin + arc.sweep)
    low, high = (begin, end) if arc.sweep > 0.0 else (end, begin)
    space.add_arc(arc.centre, arc.radius, low, high, dxfattribs=attributes)


def _contour(space: Modelspace, path: Path, layer: str) -> None:
    """One polyline whose bulges are the arcs, closed where the path is."""
    corners = [corner for piece in path.pieces for corner in _corners(piece)]
    if not path.closed:
        corners.append((*path.pieces[-1].end, 0.0))
    space.add_lwpolyline(corners, format="xyb", close=path.closed, dxfattribs={"layer": layer})


def _corners(piece: Piece) -> list[tuple[float, float, float]]:
    """Where a piece begins, with the bulge that leads on: the tangent of a quarter of its sweep."""
    if isinstance(piece, Arc):
        return [(*part.start, tan(part.sweep / 4.0)) for part in piece.split(pi / 2.0)]
    return [(*piece.start, 0.0)] if piece.length > _SAME_PLACE else []


def _letters(space: Modelspace, letters: Letters) -> None:
    from ezdxf.enums import TextEntityAlignment

    sides: dict[Anchor, TextEntityAlignment] = {
        "start": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "end": TextEntityAlignment.RIGHT,
    }
    attributes = {"layer": TEXT, "rotation": degrees(letters.angle)}
    words = letters.text.replace("⌀", "%%c")  # the format's own sign, which every font there has
    text = space.add_text(words, height=letters.height, dxfattribs=attributes)
    text.set_placement(letters.at, align=sides[letters.anchor])
