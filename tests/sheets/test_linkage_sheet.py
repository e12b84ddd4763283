"""The linkages' sheet: neutral first, the numbers, arms at true size, what is not measured yet."""

from io import BytesIO
from itertools import combinations
from math import hypot
from pathlib import Path

import pytest
from pypdf import PdfReader

from beltwright.build.model import Build
from beltwright.build.reading import read_build, read_text
from beltwright.drawing.ink import Group, Ink, Page, Stroke, Window
from beltwright.drawing.path import Arc
from beltwright.drawing.pdf import pdf
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.linkage.motion import link_of, reach
from beltwright.review.review import review
from beltwright.sheets.linkage_sheet import linkage_sheets

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"
RING = 2.0
"""Radius of the ring round a place to punch [mm]."""


@pytest.fixture(scope="module")
def build() -> Build:
    return read_build(EXAMPLE)


@pytest.fixture(scope="module")
def pages(build: Build) -> list[Page]:
    return linkage_sheets(Case(build), review(build, 0), "2031-05-04")


def words_of(pages: list[Page]) -> str:
    reader = PdfReader(BytesIO(pdf(pages, "linkages")))
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


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


def test_neutral_is_set_before_the_rod_is_hung_in(pages: list[Page]) -> None:
    words = words_of(pages)
    steps = (
        "Engine off",
        "Set neutral first",
        "Make or screw the rod",
        "Hang the rod in",
        "stop to",
    )
    places = [words.index(step) for step in steps]
    assert places == sorted(places)
    assert "chock both sides of a wheel" in words
    assert "Local codes and licensed practice" in words


def test_every_number_of_the_build_stands_on_it(build: Build, pages: list[Page]) -> None:
    words, case = words_of(pages), Case(build)
    for linkage in build.linkage:
        length = float(link_of(case, linkage).length[0])
        assert case.units.show(length, Kind.LENGTH) in words
        for position in linkage.arm.position:
            assert position.name in words
        assert reach(case, linkage).hand.shape[0] == len(linkage.arm.position)


def test_pivot_and_hole_are_punched_at_true_size(build: Build, pages: list[Page]) -> None:
    found = [
        hypot(a[0] - b[0], a[1] - b[1])
        for page in pages
        for piece in page.ink
        if isinstance(piece, Window)
        for a, b in combinations(rings(piece.pieces), 2)
    ]
    for linkage in build.linkage:
        for part in (linkage.lever, linkage.arm):
            assert part.radius is not None
            wanted = 1e3 * part.radius.value
            assert any(apart == pytest.approx(wanted, abs=1e-6) for apart in found), part


def test_what_is_not_measured_is_asked_for_and_not_drawn() -> None:
    text = 'format = 1\nname = "x"\n[[linkage]]\nname = "rod"\nworks = "clutch"\n'
    bare = read_text(text)
    pages = linkage_sheets(Case(bare), review(bare, 0), "2031-05-04")
    words = words_of(pages)
    assert "Not in the build file yet: where the lever pivot of the rod sits." in words


def test_an_arm_as_long_as_a_room_is_not_printed() -> None:
    text = EXAMPLE.read_text(encoding="utf-8")
    assert text.count('radius = "70 ± 0.5 mm"') == 1
    far = read_text(text.replace('radius = "70 ± 0.5 mm"', 'radius = "7 m"'))
    pages = linkage_sheets(Case(far), review(far, 0), "2031-05-04")
    assert "Not printed at true size" in words_of(pages)
    assert len(pages) < 12
