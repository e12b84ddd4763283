"""What takes long says that it is at work."""

import threading
from typing import Any

import pytest
from playwright.sync_api import expect

from beltwright.review.review import Review, review
from beltwright.web import pages, standing

pytestmark = pytest.mark.browser


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> threading.Event:
    """Holds every review back until it is set."""
    go_on = threading.Event()

    def slow(*given: Any) -> Review:
        go_on.wait(30.0)
        return review(*given)

    monkeypatch.setattr(standing, "review", slow)
    return go_on


def test_a_first_view_that_takes_long_says_so_and_comes_by_itself(
    opened: Any, held: threading.Event, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pages, "PATIENCE", 0.2)
    tab = opened()
    expect(tab.page.get_by_role("status").first).to_contain_text("worked out anew")
    expect(tab.page.locator("#waited")).to_contain_text("At work for 1 s")
    monkeypatch.setattr(pages, "PATIENCE", 60.0)
    held.set()
    expect(tab.finding("speed.top")).to_be_attached(timeout=20_000)


def test_a_change_that_takes_long_says_so_until_it_is_done(
    opened: Any, held: threading.Event
) -> None:
    held.set()
    tab = opened("/b/orchard/measure")
    expect(tab.page.locator("#forms")).to_be_visible()
    tab.open_table("machine")
    held.clear()
    entry = tab.field("machine.slope").locator("input").first
    entry.fill("18 %")
    entry.press("Tab")
    expect(tab.page.locator("#notice")).to_have_text("Working it out …")
    held.set()
    tab.expect_saved()
    expect(tab.page.locator("#notice")).to_be_hidden()
