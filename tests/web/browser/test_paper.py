"""The page on paper, and the sheets that it leads to."""

import io
import unicodedata
from typing import Any

import numpy as np
import pypdfium2 as pdfium
import pytest
from playwright.sync_api import expect
from pypdf import PdfReader

pytestmark = pytest.mark.browser


def _printed(tab: Any) -> bytes:
    printed: bytes = tab.page.pdf(format="A4", prefer_css_page_size=True)
    return printed


def _words(printed: bytes) -> str:
    text = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(printed)).pages)
    return _plain(text)


def _plain(text: str) -> str:
    """Without line breaks, ligatures and hair spaces, which differ on paper."""
    return " ".join(unicodedata.normalize("NFKC", text).split())


def test_the_page_prints_the_drawing_and_the_findings(opened: Any) -> None:
    """What is not sound is printed in full, also where it is folded on the screen."""
    tab = opened()
    tab.page.emulate_media(media="print")
    for hidden in (".bar", ".tools", "#charts"):
        expect(tab.page.locator(hidden)).to_be_hidden()
    rows = tab.page.evaluate(
        "[...document.querySelectorAll('.finding')].map(row => [row.dataset.verdict,"
        " row.querySelector('.shown').textContent, row.querySelector('.body').textContent])"
    )
    words = _words(_printed(tab))
    for told in (
        "Orchard crate hauler: check",
        "guide idler",
        "Caution.",
        "What had to be assumed",
    ):
        assert told in words
    for verdict, shown, body in rows:
        assert _plain(shown) in words
        meaning = _plain(body.partition("Working and source")[0])
        if verdict != "sound":
            assert meaning[-40:] in words


@pytest.mark.parametrize("where", ["check", "make"])
def test_the_print_is_white_and_nothing_is_cut_off(opened: Any, where: str) -> None:
    tab = opened(f"/b/orchard/{where}", color_scheme="dark")
    if where == "check":
        tab.page.locator("#charts-title").scroll_into_view_if_needed()
        expect(tab.page.locator("#charts canvas").first).to_be_visible()
    printed = _printed(tab)
    for page in pdfium.PdfDocument(printed):
        grey = np.asarray(page.render(scale=1.0).to_pil().convert("L"))
        assert np.median(grey) == 255
        inked = np.flatnonzero((grey < 200).any(axis=0)) / grey.shape[1]
        assert inked.min() > 0.03, "the margin is 12 mm of 210"
        assert inked.max() < 0.97
    text = "".join(page.extract_text() for page in PdfReader(io.BytesIO(printed)).pages)
    assert "Caution." in text


def test_the_sheets_open_on_the_chosen_paper(opened: Any) -> None:
    tab = opened("/b/orchard/make")
    tab.page.locator("#paper").select_option("Letter")
    links = tab.page.locator(".sheet-link")
    assert links.count() >= 2
    for place in range(links.count()):
        address = links.nth(place).get_attribute("href")
        assert "paper=Letter" in address
        sheet = tab.page.request.get(tab.page.url.partition("/b/")[0] + address)
        assert sheet.body().startswith(b"%PDF")


def test_what_says_stop_is_told_before_the_sheets(opened: Any, editor: Any) -> None:
    editor("engine.governor", "removed")
    tab = opened("/b/orchard/make")
    told = tab.page.locator(".caution").first
    expect(told).to_contain_text("Not yet.")
    told.get_by_role("link").first.click()
    expect(tab.page.locator(".finding details[open]").first).to_be_in_viewport()
