"""The sheet of guards opened again, rendered and measured: what is marked is what was reckoned."""

from io import BytesIO
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from numpy.typing import NDArray
from pypdf import PdfReader
from shapely import LineString

from beltwright.build.reading import read_build, read_text
from beltwright.drawing.ink import Window
from beltwright.drawing.pdf import pdf
from beltwright.drawing.sheet import A4, LETTER, Paper
from beltwright.review.case import Case
from beltwright.review.guard.bent import Bent, bent
from beltwright.review.review import Review, review
from beltwright.sheets.guard_sheet import guard_sheets
from beltwright.views.layout.drawn_guard import strip_path

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"
DPI = 600
PIXEL = 25.4 / DPI
"""[mm]"""
FLAT, FORM = 2, 3
"""The page of the flat strip and that of the bent form; two pages of words stand before."""


@pytest.fixture(scope="module")
def found() -> Review:
    return review(read_build(EXAMPLE), 0)


@pytest.fixture(scope="module")
def printed(found: Review) -> bytes:
    return pdf(guard_sheets(Case(found.build), found, "2031-05-04"), "guards")


@pytest.fixture(scope="module")
def shape(found: Review) -> Bent:
    return bent(Case(found.build), found.build.guard[0])


def rendered(data: bytes, number: int) -> NDArray[np.bool_]:
    """The dark pixels of a page, rows from the bottom."""
    document = pypdfium2.PdfDocument(data)
    grey = np.asarray(document[number].render(scale=DPI / 72, grayscale=True).to_numpy())
    document.close()
    return np.asarray(grey.reshape(grey.shape[:2])[::-1] < 128)


def runs(dark: NDArray[np.bool_]) -> list[tuple[float, float]]:
    """Middles and lengths of runs of dark pixels [mm]."""
    edges = np.flatnonzero(np.diff(np.r_[False, dark, False].astype(np.int8))).reshape(-1, 2)
    return [(float((a + b) / 2.0 * PIXEL), float((b - a) * PIXEL)) for a, b in edges]


def long_rows(page: NDArray[np.bool_], least: float) -> list[float]:
    """Heights of the level lines that are at least this long [mm], the lowest first."""
    rows = np.array([max((long for _, long in runs(row)), default=0.0) > least for row in page])
    return [middle for middle, _ in runs(rows)]


def words(data: bytes) -> str:
    """All the text of a document."""
    pages = PdfReader(BytesIO(data)).pages
    return " ".join(" ".join(page.extract_text().split()) for page in pages)


def test_the_flat_strip_is_marked_at_true_size(printed: bytes, shape: Bent) -> None:
    page = rendered(printed, FLAT)
    length = 1e3 * float(shape.flat.length[0])
    low, high = long_rows(page, length - 1.0)[-2:]
    assert high - low == pytest.approx(25.0, abs=0.1)
    row = [at for at, _ in runs(page[round((high - 3.5) / PIXEL)])]
    left, *marks = row
    # the last two lines are the end of the strip at hand, 2.9 mm short, and that of the guard
    *marks, right = [at for at in marks if abs(at - left - 270.0) > 0.2]
    assert right - left == pytest.approx(length, abs=0.1)
    reckoned = 1e3 * shape.flat.marks[:, 0]
    assert np.array(marks) - left == pytest.approx(reckoned, abs=0.1)


def test_the_bent_form_is_drawn_at_true_size(printed: bytes, found: Review, shape: Bent) -> None:
    """Along a level line through the pulley's middle: its rim, then both faces of the strip."""
    window = guard_sheets(Case(found.build), found, "2031-05-04")[FORM].ink[0]
    assert isinstance(window, Window)
    run, at = shape.layout.path.run, shape.place
    x, y = (1e3 * float(np.ravel(value[at])[0]) for value in (run.x, run.y))
    outline = LineString([(1e3 * px, 1e3 * py) for px, py in strip_path(shape).sampled()])
    crossings = outline.intersection(LineString([(x, y), (x + 200.0, y)]))
    faces = sorted(point.x - x for point in crossings.geoms)
    rim = 1e3 * float(np.ravel(shape.layout.wheels[at].rim)[0])
    row = rendered(printed, FORM)[round((y + window.shift[1]) / PIXEL)]
    lines = [middle - x - window.shift[0] for middle, _ in runs(row)]
    assert min(lines) == pytest.approx(-rim, abs=0.1)
    beyond = [line for line in lines if line > rim + 1.0]
    assert beyond[:2] == pytest.approx(faces, abs=0.1)


def test_the_words_tell_every_mark_and_every_caution(printed: bytes, found: Review) -> None:
    case, told = Case(found.build), words(printed)
    flat = bent(case, found.build.guard[0]).flat
    for place in flat.marks[:, 0]:
        assert f"{1e3 * place:.1f} mm" in told
    for caution in ("spark plug", "gloves", "safety glasses", "sharp edges", "keeper is no guard"):
        assert caution in told
    assert "lacks" in told
    for tool in ("Marker pen", "steel rule", "square", "pliers"):
        assert tool in told


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_every_page_is_on_its_paper(found: Review, paper: Paper) -> None:
    pages = guard_sheets(Case(found.build), found, "2031-05-04", paper)
    sizes = {frozenset((page.width, page.height)) for page in pages}
    assert sizes == {frozenset((paper.width, paper.height))}


def test_a_long_strip_goes_over_several_sheets() -> None:
    text = EXAMPLE.read_text(encoding="utf-8").replace(
        'ends = ["10 mm", "15 mm"]', 'ends = ["200 mm", "180 mm"]'
    )
    long = read_text(text)
    pages = guard_sheets(Case(long), review(long, 0), "2031-05-04")
    titles = [page.title for page in pages if "flat strip" in page.title]
    assert len(titles) > 2
    assert titles[0].endswith("map of the sheets")


def test_a_guard_without_thickness_is_told_in_words_alone() -> None:
    text = EXAMPLE.read_text(encoding="utf-8")
    bare = read_text(text.replace('thickness = "2 mm", width', "width"))
    pages = guard_sheets(Case(bare), review(bare, 0), "2031-05-04")
    assert all("flat strip" not in page.title for page in pages)
    assert "caliper" in words(pdf(pages, "guards"))
