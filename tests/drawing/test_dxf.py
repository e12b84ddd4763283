"""DXF is read back by the library that audits it, and measured."""

from io import StringIO
from itertools import pairwise
from math import hypot, pi

import pytest
from ezdxf.document import Drawing
from ezdxf.entities.arc import Arc as DxfArc
from ezdxf.entities.line import Line as DxfLine
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.filemanagement import read
from hypothesis import given
from hypothesis import strategies as st

from beltwright.drawing.dimensions import LinearDimension
from beltwright.drawing.dxf import LAYERS, dxf
from beltwright.drawing.line_kinds import LineKind
from beltwright.drawing.path import Arc as ArcPiece
from beltwright.drawing.path import Path, Straight
from beltwright.drawing.shapes import (
    Arc,
    Band,
    CentreMark,
    Circle,
    Curve,
    Line,
    Polygon,
    Scene,
    Shape,
    Text,
    Together,
)

MILLIMETRES = 4
"""$INSUNITS: DXF reference, header variables."""


def read_back(*shapes: Shape) -> Drawing:
    """The scene as the library reads it; its audit finds nothing to mend."""
    document = read(StringIO(dxf(Scene(shapes, "t")).decode("utf-8")))
    audit = document.audit()
    assert audit.errors == []
    assert audit.fixes == []
    return document


def test_it_is_in_millimetres() -> None:
    document = read_back(Line((0.0, 0.0), (1.0, 0.0)))
    assert document.header["$INSUNITS"] == MILLIMETRES
    assert document.header["$MEASUREMENT"] == 1


@given(st.floats(-1.0, 1.0), st.floats(-1.0, 1.0), st.floats(0.001, 0.5))
def test_a_metre_of_the_machine_is_a_thousand(x: float, y: float, radius: float) -> None:
    document = read_back(Circle((x, y), radius), Line((x, y), (x + 0.3, y - 0.4)))
    (circle,) = document.modelspace().query("CIRCLE")
    (line,) = document.modelspace().query("LINE")
    assert (circle.dxf.center.x, circle.dxf.center.y) == pytest.approx((1e3 * x, 1e3 * y))
    assert circle.dxf.radius == pytest.approx(1e3 * radius)
    assert line.dxf.start.distance(line.dxf.end) == pytest.approx(500.0)


@pytest.mark.parametrize("kind", list(LineKind))
def test_each_kind_of_line_has_a_layer_of_its_own(kind: LineKind) -> None:
    document = read_back(Line((0.0, 0.0), (1.0, 0.0), kind=kind))
    (line,) = document.modelspace()
    assert line.dxf.layer == LAYERS[kind]
    assert line.dxf.layer in document.layers
    assert document.layers.get(line.dxf.layer).dxf.linetype in document.linetypes


def test_holes_have_a_layer_of_their_own_but_their_crosses_do_not() -> None:
    hole = Together([Circle((0.0, 0.0), 0.01), CentreMark((0.0, 0.0), 0.01)], id="holes")
    document = read_back(hole, Circle((0.0, 0.0), 0.05))
    layers = {e.dxf.radius: e.dxf.layer for e in document.modelspace().query("CIRCLE")}
    assert layers == {10.0: "holes", 50.0: "outline"}
    assert {e.dxf.layer for e in document.modelspace().query("LINE")} == {"centre lines"}


def test_an_outline_is_one_closed_contour() -> None:
    corners = [(0.0, 0.0), (0.1, 0.0), (0.1, 0.05), (0.0, 0.08)]
    (contour,) = read_back(Polygon(corners)).modelspace()
    assert isinstance(contour, LWPolyline)
    assert contour.closed
    found = [(x, y) for x, y, *_ in contour.get_points()]
    assert found == [pytest.approx((1e3 * x, 1e3 * y)) for x, y in corners]


@pytest.mark.parametrize("sweep", [0.3, pi / 2.0, pi, -pi, -2.5, 5.0])
def test_arcs_keep_their_ends_and_their_middle(sweep: float) -> None:
    wanted = ArcPiece((30.0, 40.0), 25.0, 0.7, sweep)
    (arc,) = read_back(Arc((0.03, 0.04), 0.025, 0.7, sweep)).modelspace()
    assert isinstance(arc, DxfArc)
    ends = {(round(p.x, 6), round(p.y, 6)) for p in (arc.start_point, arc.end_point)}
    assert ends == {tuple(round(v, 6) for v in end) for end in (wanted.start, wanted.end)}
    middle = arc.dxf.center
    assert (middle.x, middle.y) == pytest.approx((30.0, 40.0))
    span = (arc.dxf.end_angle - arc.dxf.start_angle) % 360.0
    assert span == pytest.approx(abs(sweep) * 180.0 / pi)


def test_a_slot_is_as_long_as_its_path() -> None:
    """Bulges are arcs: the length along the contour, flattened finely, is the path's own."""
    far, near = ArcPiece((0.04, 0.0), 0.005, -pi / 2, pi), ArcPiece((0.0, 0.0), 0.005, pi / 2, pi)
    path = Path((far, Straight(far.end, near.start), near, Straight(near.end, far.start)), True)
    (slot,) = read_back(Curve(path)).modelspace()
    assert isinstance(slot, LWPolyline)
    points = [point for piece in slot.virtual_entities() for point in _along(piece)]
    length = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in points)
    # flattening keeps within 0.1 µm of each arc
    assert length == pytest.approx(1e3 * path.length, abs=1e-3)


def _along(piece: object) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    if isinstance(piece, DxfLine):
        return [((piece.dxf.start.x, piece.dxf.start.y), (piece.dxf.end.x, piece.dxf.end.y))]
    assert isinstance(piece, DxfArc)
    steps = list(piece.flattening(1e-4))
    return [((a.x, a.y), (b.x, b.y)) for a, b in pairwise(steps)]


def test_both_faces_of_a_belt_are_there_and_its_tint_is_not() -> None:
    ring = Path((ArcPiece((0.0, 0.0), 0.1, 0.0, 2.0 * pi),), closed=True)
    document = read_back(Band(ring, 0.004, 0.003))
    radii = sorted(e.dxf.radius for e in document.modelspace())
    assert radii == [pytest.approx(96.0), pytest.approx(103.0)]


def test_lettering_and_arrows_stand_apart_from_what_is_cut() -> None:
    document = read_back(
        LinearDimension((0.0, 0.0), (0.1, 0.0), "100", 10.0), Text((0.0, 0.0), "⌀8 ½")
    )
    texts = {e.dxf.text: e for e in document.modelspace().query("TEXT")}
    assert {"100", "%%c8 ½"} == set(texts)
    assert {e.dxf.layer for e in texts.values()} == {"text"}
    others = [e for e in document.modelspace() if e.dxftype() != "TEXT"]
    assert {e.dxf.layer for e in others} == {"dimensions"}


def test_a_turn_of_lettering_is_kept() -> None:
    document = read_back(Text((0.01, 0.02), "up", angle=pi / 2.0))
    (text,) = document.modelspace()
    assert text.dxf.rotation == pytest.approx(90.0)
