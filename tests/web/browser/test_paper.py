"""The page on paper, and the sheets that it leads to."""

import io
from typing import Any

import pytest
from playwright.sync_api import expect
from pypdf import PdfReader

pytestmark = pytest.mark.browser


def test_the_page_prints_the_drawing_and_the_findings(opened: Any) -> None:
    tab = opened(color_scheme="dark")
    tab.page.emulate_media(media="print")
    expect(tab.page.locator(".bar")).to_be_hidden()
    expect(tab.page.locator(".tools")).to_be_hidden()
    assert (
        tab.page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    )
    printed = PdfReader(io.BytesIO(tab.page.pdf(format="A4", prefer_css_page_size=True)))
    text = "".join(page.extract_text() for page in printed.pages)
    for words in ("Stopping from top speed", "Orchard crate hauler", "guide idler", "Caution."):
        assert words in text


def test_the_sheets_open_on_the_chosen_paper(opened: Any) -> None:
    tab = opened("/b/orchard/make")
    tab.page.locator("#paper").select_option("Letter")
    links = tab.page.locator(".sheet-link")
    assert links.count() == 2
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
