"""Shapes are inked where the machine has them, in the right kind of line."""

import pytest

from beltwright.drawing.ink import Area, Colour, Group, Letters, Stroke
from beltwright.drawing.line_kinds import DASHES, FINE_PEN, LineKind, Pen
from beltwright.drawing.path import Arc as ArcPiece
from beltwright.drawing.path import circle
from beltwright.drawing.shapes import (
    Arc,
    Band,
    CentreMark,
    Circle,
    HatchedRegion,
    Line,
    Polygon,
    Polyline,
    Scene,
    Text,
)
from beltwright.drawing.sheet import A3, A4, LETTER, border, drawing_frame
from beltwright.drawing.view import View


def strokes(group: Group) -> list[Stroke]:
    return [piece for piece in group.pieces if isinstance(piece, Stroke)]


def test_a_belt_has_its_true_width() -> None:
    band = Band(circle((0.0, 0.0), 0.1), left=0.003, right=0.005)
    faces = [s.path.pieces[0] for s in strokes(band.inked(View(1.0), FINE_PEN))]
    radii = [face.radius for face in faces if isinstance(face, ArcPiece)]
    assert radii == pytest.approx([97.0, 105.0])


def test_paper_hides_what_lies_underneath() -> None:
    group = Circle((0, 0), 0.1, filling=Colour.PAPER).inked(View(1.0), FINE_PEN)
    assert isinstance(group.pieces[0], Area)


def test_centre_lines_cross_on_a_long_dash() -> None:
    for radius in (0.01, 0.05, 0.2):
        for line in strokes(CentreMark((0, 0), radius).inked(View(1.0), FINE_PEN)):
            pattern = FINE_PEN.dashes(LineKind.CENTRE)
            at_the_middle = (line.path.length / 2.0 + line.phase) % sum(pattern)
            assert at_the_middle == pytest.approx(pattern[0] / 2.0)


def test_line_widths_are_two_to_one() -> None:
    """ISO 128-2:2020: wide and narrow lines are as 2 to 1."""
    assert FINE_PEN.wide == 2.0 * FINE_PEN.narrow
    assert all(len(dashes) % 2 == 0 for dashes in DASHES.values())


def test_a_scene_knows_how_far_it_reaches() -> None:
    scene = Scene(
        (
            Line((0, 0), (1, 0)),
            Polyline([(0, 0), (0, -0.5)]),
            Polygon([(0, 0), (1, 1), (2, 0)]),
            Arc((0, 0), 3.0, 0.0, 0.1),
            HatchedRegion([circle((-1, 0), 0.5)]),
            Text((0, 4), "far"),
        ),
        "Everything",
    )
    assert scene.bounds() == ((-1.5, -0.5), (3.0, 4.0))


def test_an_empty_scene_has_no_place() -> None:
    with pytest.raises(ValueError, match="nothing"):
        Scene((), "Empty").bounds()


def test_lettering_is_as_high_as_its_pen_says() -> None:
    (text,) = (
        Text((0, 0), "1/2 in").inked(View(1.0), Pen(wide=0.7, narrow=0.35, lettering=3.5)).pieces
    )
    assert isinstance(text, Letters)
    assert text.height == 3.5
    assert text.text == "¹⁄₂ in"


@pytest.mark.parametrize("paper", [A4, A4.turned(), A3, LETTER, LETTER.turned()])
def test_borders_leave_the_filing_margin(paper: object) -> None:
    """ISO 5457:1999: 20 mm on the filing side, 10 mm elsewhere."""
    assert isinstance(paper, type(A4))
    frame = drawing_frame(paper)
    assert (frame.x, frame.y) == (20.0, 10.0)
    assert frame.x + frame.width == pytest.approx(paper.width - 10.0)
    outline = strokes(border(paper))[0]
    assert outline.path.bounds()[1] == pytest.approx((paper.width - 10.0, paper.height - 10.0))
