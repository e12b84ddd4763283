"""The drawn strip is the reckoned strip: its length, its thickness, its place."""

from pathlib import Path

import numpy as np
import pytest
from shapely import Polygon

from beltwright.build.reading import read_build, read_text
from beltwright.drawing.line_kinds import LineKind
from beltwright.drawing.path import Straight
from beltwright.review.case import Case
from beltwright.review.guard.bent import bent
from beltwright.views.layout.drawn_guard import drawn_guard, middle, strip_path
from beltwright.views.layout.drawn_layout import DrawnWheel
from beltwright.views.layout.gathering import drawn_layouts
from beltwright.views.layout.shapes import guard_shape

EXAMPLE = Path(__file__).parents[3] / "examples" / "orchard-hauler" / "build.toml"


def test_the_edge_of_the_strip_closes_and_holds_its_area() -> None:
    case = Case(read_build(EXAMPLE))
    shape = bent(case, case.build.guard[0])
    path = strip_path(shape)
    for piece, following in zip(path.pieces, [*path.pieces[1:], path.pieces[0]], strict=True):
        assert piece.end == pytest.approx(following.start, abs=1e-12)
    # an arc of a strip is as large as its middle line times its thickness
    flats, turned = float(shape.flat.flats.sum(axis=0)[0]), float(np.abs(shape.angles).sum())
    area = 0.002 * (flats + turned * (0.002 + 0.5 * 0.002))
    drawn = Polygon(path.sampled())
    assert drawn.is_valid
    # arcs are sampled as chords
    assert drawn.area == pytest.approx(area, rel=2e-3)


def test_its_ends_are_square() -> None:
    case = Case(read_build(EXAMPLE))
    path = strip_path(bent(case, case.build.guard[0]))
    thin = [p for p in path.pieces if isinstance(p, Straight) and p.length < 0.0021]
    assert [piece.length for piece in thin] == pytest.approx([0.002, 0.002])


def test_the_layout_shows_the_strip() -> None:
    (layout,) = drawn_layouts(Case(read_build(EXAMPLE)))
    (guard,) = layout.guards
    shape = guard_shape(guard)
    assert shape.kind is LineKind.VISIBLE
    assert ("key", "guard.engine keeper") in shape.data


def test_a_wheel_that_lies_above_the_strip_hides_it() -> None:
    """The input pulley is laid over the engine's, once lower and once higher than the strip."""
    text = EXAMPLE.read_text(encoding="utf-8")
    for height, hidden in (("344 mm", False), ("420 mm", True)):
        case = Case(read_text(text.replace('height = "344 ± 3 mm"', f'height = "{height}"')))
        shape = bent(case, case.build.guard[0])
        over = DrawnWheel("input pulley", "pulley", middle(shape), 0.1, 0.01, 0, "")
        guard = drawn_guard(case, shape, (over,))
        assert guard.hidden is hidden
        assert (guard_shape(guard).kind is LineKind.HIDDEN) is hidden


def test_a_guard_without_form_is_left_off_the_drawing() -> None:
    text = EXAMPLE.read_text(encoding="utf-8").replace('thickness = "2 mm", width', "width")
    (layout,) = drawn_layouts(Case(read_text(text)))
    assert layout.guards == ()
