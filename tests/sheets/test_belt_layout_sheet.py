"""The true-size sheet marks what has to be punched, in its place."""

from io import BytesIO
from itertools import combinations
from math import hypot
from pathlib import Path

import pytest
from pypdf import PdfReader

from beltwright.build.reading import read_build, read_text
from beltwright.drawing.ink import Group, Ink, Stroke, Window
from beltwright.drawing.path import Arc
from beltwright.drawing.pdf import pdf
from beltwright.drawing.tiles import UNPRINTABLE
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.finding import Verdict
from beltwright.review.review import Review, review
from beltwright.sheets.belt_layout_sheet import belt_layout_sheets

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"
FAR = 'at = ["18 m", "15 m"]'
RING = 2.0
"""Radius of the ring round a place to punch [mm]."""


@pytest.fixture(scope="module")
def found() -> Review:
    return review(read_build(EXAMPLE), 0)


def rings(pieces: tuple[Ink, ...]) -> list[tuple[float, float]]:
    """Centres of the punch rings [mm of the drawing]."""
    centres: list[tuple[float, float]] = []
    for piece in pieces:
        if isinstance(piece, Group | Window):
            centres += rings(piece.pieces)
        elif isinstance(piece, Stroke):
            arc = piece.path.pieces[0]
            if isinstance(arc, Arc) and arc.radius == pytest.approx(RING):
                centres.append(arc.centre)
    return centres


def test_punch_marks_stand_at_true_size(found: Review) -> None:
    build = found.build
    page = belt_layout_sheets(Case(build), found, "2031-05-04")[-1]
    window = page.ink[0]
    assert isinstance(window, Window)
    drawing = window.pieces[0]
    assert isinstance(drawing, Group)
    marks = rings(drawing.pieces)
    engine, box = (
        next(s for s in build.shaft if s.name == name) for name in ("engine", "gearbox input")
    )
    apart = hypot(*(1e3 * (engine.at[i].value - box.at[i].value) for i in (0, 1)))
    spread = [hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(marks, 2)]
    assert any(gap == pytest.approx(apart, abs=0.5) for gap in spread)
    assert len(marks) == 4


def test_the_first_sheet_says_what_it_is_for_and_what_blocks_it(found: Review) -> None:
    pages = belt_layout_sheets(Case(found.build), found, "2031-05-04")
    reader = PdfReader(BytesIO(pdf(pages, "Belt layout")))
    text = " ".join(" ".join(page.extract_text().split()) for page in reader.pages[:3])
    assert "centre punch" in text
    assert "Caution:" in text
    for finding in found.findings:
        if finding.id.startswith(("belt.", "clearance.")) and finding.verdict is Verdict.STOP:
            assert finding.title in text
    distance = found.units.show(0.0, Kind.LENGTH).split()[-1]
    assert distance in text


def test_true_size_pages_keep_off_the_unprintable_edge(found: Review) -> None:
    for page in belt_layout_sheets(Case(found.build), found, "2031-05-04"):
        for piece in page.ink:
            if isinstance(piece, Window):
                assert piece.corner[0] >= UNPRINTABLE
                assert piece.corner[0] + piece.width <= page.width - UNPRINTABLE + 1e-9


def test_a_shaft_that_stands_far_off_is_told_and_not_printed() -> None:
    head, tail = EXAMPLE.read_text(encoding="utf-8").split("[[shaft]]", 1)
    place = next(line for line in tail.splitlines() if line.startswith("at = "))
    far = read_text(f"{head}[[shaft]]{tail.replace(place, FAR, 1)}")
    pages = belt_layout_sheets(Case(far), review(far, 0), "2031-05-04")
    assert len(pages) < 20
    first = PdfReader(BytesIO(pdf(pages[:1], "far"))).pages[0].extract_text()
    assert "Not printed at true size" in " ".join(first.split())
