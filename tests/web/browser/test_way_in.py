"""How a browser comes in: by the printed address, once; a phone by the code."""

from typing import Any

import pytest
from playwright.sync_api import Browser, expect

pytestmark = pytest.mark.browser


def test_the_printed_address_lets_in_and_drops_its_key(browser: Browser, place: Any) -> None:
    window = browser.new_context()
    page = window.new_page()
    page.goto(place.entrance("/b/orchard/check"))
    assert page.url == f"{place.address}/b/orchard/check"
    expect(page.locator("#findings")).to_be_visible()
    page.goto(place.address)
    expect(page.get_by_role("link", name="Orchard crate hauler")).to_be_visible()
    window.close()


def test_another_user_is_shown_the_way_in_and_a_bookmark_works_again(
    browser: Browser, place: Any
) -> None:
    window = browser.new_context()
    page = window.new_page()
    bookmark = f"{place.address}/b/orchard/check"
    page.goto(bookmark)
    expect(page.get_by_role("heading", name="Open it with its key")).to_be_visible()
    expect(page.get_by_text("Orchard")).to_have_count(0)
    spent = place.entrance()
    window.request.get(spent)
    page.goto(bookmark)
    expect(page.locator("#findings")).to_be_visible()
    window.close()
    late = browser.new_context()
    page = late.new_page()
    page.goto(spent)
    expect(page.get_by_role("alert")).to_contain_text("has been used")
    late.close()
