"""The PDF opened again, rendered and measured."""

from io import BytesIO

import numpy as np
import pypdfium2
import pytest
from numpy.typing import NDArray
from PIL import Image
from pypdf import PdfReader
from pypdf.generic import DictionaryObject

from beltwright.drawing.ink import Letters, Page, Picture, Stroke
from beltwright.drawing.line_kinds import FINE_PEN
from beltwright.drawing.path import Path, Straight, circle
from beltwright.drawing.pdf import pdf
from beltwright.drawing.shapes import Scene
from beltwright.drawing.sheet import A4, LETTER, Paper
from beltwright.drawing.tile_pages import true_size_pages
from beltwright.drawing.tiles import FOOT, UNPRINTABLE
from beltwright.drawing.view import View

DPI = 600
PIXEL = 25.4 / DPI
"""[mm]"""


def rendered(data: bytes, number: int) -> NDArray[np.bool_]:
    """The dark pixels of a page, rows from the bottom."""
    document = pypdfium2.PdfDocument(data)
    grey = np.asarray(document[number].render(scale=DPI / 72, grayscale=True).to_numpy())
    document.close()
    return np.asarray(grey.reshape(grey.shape[:2])[::-1] < 128)


def runs(dark: NDArray[np.bool_]) -> list[float]:
    """Middles of runs of dark pixels [mm]."""
    edges = np.flatnonzero(np.diff(np.r_[False, dark, False].astype(np.int8)))
    return [float((a + b) / 2.0 * PIXEL) for a, b in edges.reshape(-1, 2)]


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_rulers_measure_what_they_say(paper: Paper, scene: Scene) -> None:
    data = pdf(true_size_pages(scene, paper), scene.title)
    for number in (0, 1, 2):
        page = rendered(data, number)
        left, low = UNPRINTABLE + 3.0, UNPRINTABLE + 1.0
        for base, length in ((low + 6.5 + 3.0, 100.0), (low, 101.6)):
            row = page[round((base + 2.6) / PIXEL)]  # crosses the long ticks only
            window = row[: round((left + 110.0) / PIXEL)].copy()
            ticks = runs(window)
            assert ticks[0] == pytest.approx(left, abs=0.1)
            assert ticks[-1] - ticks[0] == pytest.approx(length, abs=0.1)


def test_pages_have_the_size_of_their_paper(scene: Scene) -> None:
    pages = true_size_pages(scene, LETTER)
    reader = PdfReader(BytesIO(pdf(pages, scene.title)))
    assert len(reader.pages) == len(pages)
    for made, page in zip(pages, reader.pages, strict=True):
        assert float(page.mediabox.width) / 72 * 25.4 == pytest.approx(made.width, abs=0.01)
        assert float(page.mediabox.height) / 72 * 25.4 == pytest.approx(made.height, abs=0.01)
    assert reader.metadata is not None
    assert reader.metadata.title == "Belt layout"
    preferences = reader.root_object["/ViewerPreferences"].get_object()
    assert isinstance(preferences, DictionaryObject)
    assert str(preferences["/PrintScaling"]) == "/None"


def test_crosses_of_neighbours_lie_on_one_another(scene: Scene) -> None:
    """Cut two rendered sheets at their joint and compare what both show of the overlap."""
    pages = true_size_pages(scene)
    titles = [page.title for page in pages]
    left, right = (titles.index(f"Belt layout, sheet {name}") for name in ("B2", "C2"))
    data = pdf(pages, scene.title)
    one, other = rendered(data, left), rendered(data, right)
    overlap, edge = 12.0, UNPRINTABLE
    bottom, top = (round(y / PIXEL) for y in (edge + FOOT + 1.0, pages[0].height - edge - 1.0))
    first = round((pages[0].width - edge - overlap) / PIXEL)
    second = round(edge / PIXEL)
    width = round(overlap / PIXEL)
    a = one[bottom:top, first : first + width]
    b = other[bottom:top, second : second + width]
    assert a.any()
    columns_a, columns_b = a.sum(axis=0), b.sum(axis=0)
    middle = width // 2
    joint_a = int(np.argmax(columns_a[middle - 40 : middle + 40]))
    joint_b = int(np.argmax(columns_b[middle - 40 : middle + 40]))
    assert abs(joint_a - joint_b) * PIXEL <= 0.1


def test_a_circle_is_round_and_true() -> None:
    page = rendered(pdf([Page(210, 297, (Stroke(circle((100, 150), 80)),), "Circle")], "C"), 0)
    across = runs(page[round(150 / PIXEL)])
    upwards = runs(page[:, round(100 / PIXEL)])
    assert across[-1] - across[0] == pytest.approx(160.0, abs=0.1)
    assert upwards[-1] - upwards[0] == pytest.approx(160.0, abs=0.1)


def test_text_stays_text_with_all_our_signs() -> None:
    said = "±×°½≤≥⌀−⁵⁄₈ 12 km/h …"
    data = pdf([Page(210, 297, (Letters(said, (20, 100), 3.5),), "Signs")], "Signs")
    assert said in PdfReader(BytesIO(data)).pages[0].extract_text()


def test_capitals_are_as_high_as_asked() -> None:
    data = pdf([Page(50, 50, (Letters("H", (20, 20), 7.0),), "H")], "H")
    rows = np.flatnonzero(rendered(data, 0).any(axis=1))
    assert (rows[-1] - rows[0] + 1) * PIXEL == pytest.approx(7.0, abs=0.1)


def test_a_letter_that_the_font_lacks_does_not_stop_the_print() -> None:
    data = pdf([Page(50, 50, (Letters("車 🛠", (20, 20), 3.5),), "Rare")], "Rare")
    assert len(PdfReader(BytesIO(data)).pages) == 1


def test_the_same_pages_give_the_same_bytes(scene: Scene) -> None:
    page = Page(297, 210, (scene.inked(View(0.2, (80.0, 100.0)), FINE_PEN),), "Belt")
    assert pdf([page], "Belt") == pdf([page], "Belt")


def test_a_picture_lies_where_it_should() -> None:
    out = BytesIO()
    Image.new("RGB", (8, 8), "black").save(out, "PNG")
    picture = Picture(out.getvalue(), (10, 20), 30, 15, "Black")
    dark = rendered(pdf([Page(60, 60, (picture,), "P")], "P"), 0)
    rows, columns = np.flatnonzero(dark.any(axis=1)), np.flatnonzero(dark.any(axis=0))
    assert [columns[0] * PIXEL, (columns[-1] + 1) * PIXEL] == pytest.approx([10, 40], abs=0.1)
    assert [rows[0] * PIXEL, (rows[-1] + 1) * PIXEL] == pytest.approx([20, 35], abs=0.1)


def test_a_document_without_pages_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one page"):
        pdf([], "Nothing")


def test_lines_are_as_wide_as_their_kind() -> None:
    line = Stroke(Path((Straight((10, 25), (40, 25)),)), pen=FINE_PEN)
    column = rendered(pdf([Page(50, 50, (line,), "L")], "L"), 0)[:, round(25 / PIXEL)]
    assert column.sum() * PIXEL == pytest.approx(0.5, abs=2 * PIXEL)
