"""True-size pages: a drawing over as many sheets as it needs, with a map of them.

Both sheets of a joint print the same joint line and the same crosses at the same place of the
drawing, so that the crosses lie on one another when the sheets are joined right. Each sheet
carries its name, the map and two rulers.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from beltwright.drawing.extent import bounds, touches
from beltwright.drawing.ink import Area, Colour, Group, Ink, Letters, Page, Stroke, Window
from beltwright.drawing.lettering import LINE_PITCH, shortened, wrap
from beltwright.drawing.line_kinds import FINE_PEN, LineKind, Pen
from beltwright.drawing.path import Path, Point, Straight, circle, rectangle
from beltwright.drawing.rulers import RULER_HEIGHT, inch_ruler, metric_ruler
from beltwright.drawing.shapes import Scene
from beltwright.drawing.sheet import A4, Frame, Paper
from beltwright.drawing.tiles import FOOT, OVERLAP, UNPRINTABLE, Tile, Tiling, tiling
from beltwright.drawing.view import View

HOW_TO_PRINT = "Print at actual size, 100 %. Lay a steel rule on both rulers before you cut."
HOW_TO_JOIN = (
    "Trim one sheet of each joint on its dashed line, lay cross on cross, and tape. "
    "Measure once across the whole drawing before you cut metal."
)

_CROSS = 4.0  # half-length of a cross
_CROSS_SPOTS = (0.15, 0.85)  # where on a joint its crosses stand
_RULERS_WIDTH = 118.0
_SMALL = 1.8
_BODY = 2.5
_NAME = 5.0


def true_size_pages(
    scene: Scene, paper: Paper = A4, pen: Pen = FINE_PEN, on_map: Scene | None = None
) -> list[Page]:
    """The scene at 1:1: one sheet if it fits, else a map and as many sheets as carry ink.

    `on_map` is what the map shows in place of the scene, whose lettering is meant for 1:1.
    """
    ink = scene.inked(View(1.0), pen)
    box = bounds([ink])
    laid = tiling(box, paper)
    printed = [tile for tile in laid.tiles if _carries_ink(tile, ink)]
    pages = [_tile_page(scene, laid, tile, printed, ink, pen) for tile in printed]
    if len(printed) == 1:
        return pages
    return [_map_page(on_map or scene, laid, printed, box, pen), *pages]


def _carries_ink(tile: Tile, ink: Group) -> bool:
    frame = tile.window
    return touches([ink], ((frame.x, frame.y), (frame.x + frame.width, frame.y + frame.height)))


def _tile_page(
    scene: Scene, laid: Tiling, tile: Tile, printed: Sequence[Tile], ink: Group, pen: Pen
) -> Page:
    corner = (UNPRINTABLE, UNPRINTABLE + FOOT)
    frame = tile.window
    shown = Window(
        (ink, *_joints(laid, tile, printed, pen)),
        (corner[0] - frame.x, corner[1] - frame.y),
        corner,
        frame.width,
        frame.height,
    )
    several = len(printed) > 1
    return Page(
        laid.paper.width,
        laid.paper.height,
        (shown, *_foot(scene, laid, tile, printed, pen)),
        f"{scene.title}, sheet {tile.name}" if several else scene.title,
        scene.description,
    )


def _joints(laid: Tiling, tile: Tile, printed: Sequence[Tile], pen: Pen) -> Iterator[Ink]:
    """Joint line, crosses and the neighbour's name wherever a printed sheet overlaps."""
    places = {(other.column, other.row) for other in printed}
    for columns, rows in ((-1, 0), (1, 0), (0, -1), (0, 1)):
        place = (tile.column + columns, tile.row + rows)
        if place not in places:
            continue
        other = laid.tile(*place)
        start, end = _joint(tile.window, other.window)
        yield Stroke(Path((Straight(start, end),)), LineKind.HIDDEN, Colour.QUIET, pen)
        for share in _CROSS_SPOTS:
            yield from _cross(_between(start, end, share), pen)
        x, y = _between(start, end, 0.5)
        beside = (x + 3.0 * columns, y - 3.0 * rows - _BODY / 2.0)
        yield Letters(other.name, beside, _BODY, "middle", colour=Colour.QUIET, clear=True)


def _joint(window: Frame, other: Frame) -> tuple[Point, Point]:
    """Both ends of the line half-way through the overlap of two sheets."""
    if window.y == other.y:
        x = max(window.x, other.x) + OVERLAP / 2.0
        return (x, window.y), (x, window.y + window.height)
    y = max(window.y, other.y) + OVERLAP / 2.0
    return (window.x, y), (window.x + window.width, y)


def _between(start: Point, end: Point, share: float) -> Point:
    return (
        start[0] + share * (end[0] - start[0]),
        start[1] + share * (end[1] - start[1]),
    )


def _cross(at: Point, pen: Pen) -> Iterator[Ink]:
    """A registration cross in a circle."""
    x, y = at
    for dx, dy in ((_CROSS, 0.0), (0.0, _CROSS)):
        line = Path((Straight((x - dx, y - dy), (x + dx, y + dy)),))
        yield Stroke(line, LineKind.THIN, pen=pen)
    yield Stroke(circle(at, _CROSS / 2.0), LineKind.THIN, pen=pen)


def _foot(
    scene: Scene, laid: Tiling, tile: Tile, printed: Sequence[Tile], pen: Pen
) -> Iterator[Ink]:
    """The strip below the drawing: rulers, the sheet's name, the map and how to print."""
    yield from _rulers(pen)
    x, top = UNPRINTABLE + _RULERS_WIDTH, UNPRINTABLE + FOOT
    right = laid.paper.width - UNPRINTABLE
    if len(printed) > 1:
        cell = _map_cell(laid, 30.0, FOOT - 3.0)
        right -= laid.columns * cell[0]
        yield from _map(laid, printed, (right, UNPRINTABLE), cell, pen, tile)
        right -= 3.0
        yield Letters(tile.name, (x, top - 2.0 - _NAME), _NAME, bold=True)
        top -= 2.0 + _NAME + 1.0
    yield from _paragraph(scene.title, x, top - 1.5, right - x, 2.0, bold=True, most=1)
    yield from _paragraph(HOW_TO_PRINT, x, top - 6.0, right - x, _SMALL, most=3)


def _rulers(pen: Pen) -> Iterator[Ink]:
    left, low = UNPRINTABLE + 3.0, UNPRINTABLE + 1.0
    yield metric_ruler((left, low + RULER_HEIGHT + 3.0), pen)
    yield inch_ruler((left, low), pen)


def _paragraph(
    text: str,
    x: float,
    top: float,
    width: float,
    height: float,
    bold: bool = False,
    most: int = 10,
) -> Iterator[Ink]:
    lines = wrap(text, width, height, bold)
    if len(lines) > most:
        lines = [*lines[: most - 1], " ".join(lines[most - 1 :])]
    for number, line in enumerate(lines):
        at = (x, top - height - number * LINE_PITCH * height)
        yield Letters(shortened(line, width, height, bold), at, height, bold=bold)


def _map_cell(laid: Tiling, width: float, height: float) -> tuple[float, float]:
    """Size of one sheet on a map that keeps within a width and a height."""
    shrink = min(
        width / (laid.columns * laid.paper.width), height / (laid.rows * laid.paper.height)
    )
    return shrink * laid.paper.width, shrink * laid.paper.height


def _map(
    laid: Tiling,
    printed: Sequence[Tile],
    corner: Point,
    cell: tuple[float, float],
    pen: Pen,
    here: Tile,
) -> Iterator[Ink]:
    """A small map of the printed sheets, this one filled."""
    for tile in printed:
        at = (corner[0] + tile.column * cell[0], corner[1] + (laid.rows - 1 - tile.row) * cell[1])
        outline = rectangle(at, *cell)
        if tile == here:
            yield Area((outline,), Colour.INK)
        yield Stroke(outline, LineKind.THIN, pen=pen)


def _map_page(
    scene: Scene, laid: Tiling, printed: Sequence[Tile], box: tuple[Point, Point], pen: Pen
) -> Page:
    """The whole drawing on one sheet, with the sheets that it is printed on laid over it."""
    paper, head = laid.paper, 26.0
    room = Frame(
        UNPRINTABLE,
        UNPRINTABLE + FOOT,
        paper.width - 2.0 * UNPRINTABLE,
        paper.height - 2.0 * UNPRINTABLE - FOOT - head,
    )
    view = _map_view(laid, room)
    top = paper.height - UNPRINTABLE
    ink = (
        scene.inked(view, pen),
        *(mark for tile in printed for mark in _sheet_on_map(tile, view, pen)),
        *_paragraph(scene.title, UNPRINTABLE, top, room.width, _NAME, bold=True, most=1),
        *_paragraph(
            f"{HOW_TO_PRINT} {HOW_TO_JOIN}", UNPRINTABLE, top - 9.0, room.width, _BODY, most=3
        ),
        *_rulers(pen),
        *_paragraph(
            f"Map of {len(printed)} sheets. The drawing is {box[1][0] - box[0][0]:.0f} mm by "
            f"{box[1][1] - box[0][1]:.0f} mm. This sheet is not to scale.",
            UNPRINTABLE + _RULERS_WIDTH,
            UNPRINTABLE + FOOT - 1.5,
            room.width - _RULERS_WIDTH,
            _SMALL,
            most=5,
        ),
    )
    return Page(paper.width, paper.height, ink, f"{scene.title}, map of the sheets")


def _map_view(laid: Tiling, room: Frame) -> View:
    """The view that puts all that the sheets cover in the middle of the room."""
    last = laid.tile(laid.columns - 1, 0).window
    (x0, y0), (x1, y1) = laid.start, (last.x + last.width, last.y + last.height)
    scale = min(room.width / (x1 - x0), room.height / (y1 - y0))
    return View(
        scale,
        (
            room.x + room.width / 2.0 - (x0 + x1) / 2.0 * scale,
            room.y + room.height / 2.0 - (y0 + y1) / 2.0 * scale,
        ),
    )


def _sheet_on_map(tile: Tile, view: View, pen: Pen) -> Iterator[Ink]:
    """Outline and name of a sheet, in the middle of its overlaps."""
    frame, half = tile.window, OVERLAP / 2.0
    corner = (
        view.origin[0] + (frame.x + half) * view.scale,
        view.origin[1] + (frame.y + half) * view.scale,
    )
    width = (frame.width - OVERLAP) * view.scale
    height = (frame.height - OVERLAP) * view.scale
    yield Stroke(rectangle(corner, width, height), LineKind.THIN, Colour.ACCENT, pen)
    at = (corner[0] + 1.5, corner[1] + height - 1.5 - 3.5)
    yield Letters(tile.name, at, 3.5, bold=True, colour=Colour.ACCENT)
