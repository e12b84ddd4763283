"""Tiles cover the drawing, overlap evenly, and carry the same crosses."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.drawing.extent import bounds, touches
from beltwright.drawing.ink import Group, Letters, Stroke, Window
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.path import Arc
from beltwright.drawing.shapes import Line, Scene
from beltwright.drawing.sheet import A4, LETTER, Paper
from beltwright.drawing.tile_pages import true_size_pages
from beltwright.drawing.tiles import FOOT, OVERLAP, UNPRINTABLE, Tile, tiling
from beltwright.drawing.view import View

lengths = st.floats(1.0, 3000.0)
papers = st.sampled_from([A4, LETTER])


@given(lengths, lengths, st.floats(-1000, 1000), papers)
def test_tiles_cover_the_box(width: float, height: float, x: float, paper: Paper) -> None:
    tiles = tiling(((x, -5.0), (x + width, height - 5.0)), paper).tiles
    windows = [tile.window for tile in tiles]
    assert min(w.x for w in windows) <= x
    assert max(w.x + w.width for w in windows) >= x + width
    assert min(w.y for w in windows) <= -5.0
    assert max(w.y + w.height for w in windows) >= height - 5.0


@given(lengths, lengths, papers)
def test_neighbours_overlap_exactly(width: float, height: float, paper: Paper) -> None:
    laid = tiling(((0.0, 0.0), (width, height)), paper)
    for tile in laid.tiles:
        if tile.column:
            left = laid.tile(tile.column - 1, tile.row).window
            assert left.x + left.width - tile.window.x == pytest.approx(OVERLAP)
        if tile.row:
            above = laid.tile(tile.column, tile.row - 1).window
            assert tile.window.y + tile.window.height - above.y == pytest.approx(OVERLAP)


@given(lengths, lengths, papers)
def test_no_fewer_tiles_would_do(width: float, height: float, paper: Paper) -> None:
    box = ((0.0, 0.0), (width, height))
    laid = tiling(box, paper)
    window = laid.tile(0, 0).window
    if laid.columns > 1:
        shorter = (laid.columns - 1) * (window.width - OVERLAP) + OVERLAP
        assert shorter < width + 6.0 + 1e-6
    if laid.rows > 1:
        shorter = (laid.rows - 1) * (window.height - OVERLAP) + OVERLAP
        assert shorter < height + 6.0 + 1e-6


def test_tiles_are_named_by_column_and_row() -> None:
    laid = tiling(((0.0, 0.0), (9000.0, 400.0)))
    names = [tile.name for tile in laid.tiles]
    assert names[:3] == ["A1", "B1", "C1"]
    assert "AA1" in names
    assert len(set(names)) == len(names)


def test_a_small_drawing_takes_one_sheet() -> None:
    (page,) = true_size_pages(Scene((Line((0, 0), (0.1, 0.05)),), "Bracket"))
    assert page.title == "Bracket"


def test_sheets_without_ink_are_not_printed() -> None:
    pages = true_size_pages(Scene((Line((0, 0), (1.0, 1.0)),), "Diagonal"))
    laid = tiling(((0, 0), (1000, 1000)))
    assert 1 < len(pages) - 1 < len(laid.tiles)


def test_both_sheets_of_a_joint_print_the_same_crosses() -> None:
    pages = true_size_pages(Scene((Line((0, 0), (0.4, 0.0)),), "Long line"))
    _, left, right = pages
    spots = []
    for page in (left, right):
        window = page.ink[0]
        assert isinstance(window, Window)
        circles = [
            piece.path.pieces[0].centre
            for piece in window.pieces
            if isinstance(piece, Stroke) and isinstance(piece.path.pieces[0], Arc)
        ]
        assert len(circles) == 2
        spots.append(circles)
        for x, y in circles:  # within what the sheet shows
            assert window.corner[0] <= x + window.shift[0] <= window.corner[0] + window.width
            assert window.corner[1] <= y + window.shift[1] <= window.corner[1] + window.height
    assert spots[0] == [pytest.approx(spot) for spot in spots[1]]


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_nothing_is_printed_in_the_unprintable_edge(paper: Paper, scene: Scene) -> None:
    for page in true_size_pages(scene, paper):
        (x0, y0), (x1, y1) = bounds(page.ink)
        assert x0 >= UNPRINTABLE
        assert y0 >= UNPRINTABLE
        assert x1 <= page.width - UNPRINTABLE
        assert y1 <= page.height - UNPRINTABLE


def test_the_drawing_keeps_clear_of_the_foot(scene: Scene) -> None:
    for page in true_size_pages(scene)[1:]:
        window = page.ink[0]
        assert isinstance(window, Window)
        assert window.corner[1] == UNPRINTABLE + FOOT


def test_ink_is_found_where_it_is() -> None:
    ink = Scene((Line((0, 0), (0.1, 0.1)),), "Line").inked(View(1.0), FINE_PEN)
    assert touches([ink], ((40, 40), (60, 60)))
    assert not touches([ink], ((60, 0), (100, 40)))
    assert touches([Group((Letters("Note", (5, 5), 2.5),))], ((6, 6), (7, 7.2)))


def test_nothing_drawn_has_no_extent() -> None:
    with pytest.raises(ValueError, match="nothing"):
        bounds([])


def test_a_tile_knows_its_place() -> None:
    laid = tiling(((0.0, 0.0), (600.0, 600.0)))
    tile = laid.tiles[-1]
    assert isinstance(tile, Tile)
    assert (tile.column, tile.row) == (laid.columns - 1, laid.rows - 1)
