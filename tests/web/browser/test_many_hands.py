"""Two pages and an editor at one file: nothing is lost, all is told."""

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

MEASURE = "/b/orchard/measure"


def _type(tab: Any, text: str) -> None:
    entry = tab.field("machine.slope").locator("input").first
    entry.fill(text)
    entry.press("Tab")


def test_two_pages_at_once_see_each_other_and_lose_nothing(opened: Any, file: Path) -> None:
    one, other = opened(MEASURE), opened(MEASURE)
    for tab in (one, other):
        tab.open_table("machine")
    _type(one, "18 %")
    one.expect_saved()
    seen = other.field("machine.slope").locator("input").first
    expect(seen).to_have_value("18 %")
    expect(other.page.locator("#notice")).to_contain_text("changed elsewhere")
    entry = other.field("machine.descent").locator("input").first
    with other.page.expect_response("**/edit") as answer:
        entry.fill("90 m")
        entry.press("Tab")
    assert answer.value.ok
    expect(one.field("machine.descent").locator("input").first).to_have_value("90 m")
    assert 'slope = "18 %"' in file.read_text()
    assert 'descent = "90 m"' in file.read_text()


def test_an_editors_change_shows_at_once(opened: Any, editor: Any) -> None:
    tab = opened()
    name = tab.page.locator(".of")
    editor("name", "Apple cart")
    expect(tab.page.locator("#title-block")).to_contain_text("Apple cart")
    expect(name).to_be_visible()
    tab.page.get_by_role("button", name="Undo").click()
    expect(tab.page.locator("#title-block")).to_contain_text("Orchard crate hauler")


def test_what_changed_is_told_whoever_changed_it(opened: Any, editor: Any) -> None:
    tab = opened()
    changed, top = tab.page.locator("#changes"), tab.page.locator("#changed")
    expect(changed).to_be_hidden()
    editor("pulley.engine pulley.outside", "70 mm")
    expect(changed).to_contain_text("Top speed")
    expect(tab.finding("speed.top").locator(".turned")).to_contain_text("−")
    slower = top.text_content()
    tab.page.get_by_role("button", name="Undo").click()
    expect(tab.finding("speed.top").locator(".turned")).to_contain_text("+")
    assert top.text_content() != slower
    tab.page.get_by_role("button", name="Redo").click()
    expect(top).to_have_text(str(slower))
    tab.page.reload()
    expect(top).to_have_text(str(slower))


def test_what_was_changed_at_another_place_is_told_at_check(opened: Any) -> None:
    tab = opened(MEASURE)
    tab.open_table("machine")
    _type(tab, "30 %")
    tab.expect_saved()
    tab.page.get_by_role("link", name="Check").click()
    expect(tab.page.locator("#changes")).to_be_visible()


def test_a_page_that_has_not_seen_a_change_overwrites_nothing(
    opened: Any, file: Path, editor: Any
) -> None:
    tab = opened(MEASURE)
    tab.page.context.route("**/events", lambda route: route.abort())
    tab.page.reload()
    tab.open_table("machine")
    editor("machine.slope", "11 %")
    _type(tab, "25 %")
    expect(tab.field("machine.slope").locator(".error")).to_contain_text("changed since")
    assert 'slope = "11 %"' in file.read_text()


def test_a_file_that_cannot_be_read_says_where_and_comes_back(
    opened: Any, file: Path, editor: Any
) -> None:
    good = file.read_text()
    tab = opened()
    editor("machine.slope", "20 bananas")
    expect(tab.page.locator(".problems")).to_contain_text("bananas")
    expect(tab.page.locator(".problems")).to_contain_text("machine.slope")
    file.write_text(good)
    expect(tab.page.locator(".problems")).to_have_count(0)


def test_a_file_that_was_spoilt_is_put_right_by_undo(opened: Any, file: Path, editor: Any) -> None:
    good = file.read_text()
    tab = opened()
    expect(tab.page.locator("#undo")).to_be_disabled()
    editor("machine.slope", "20 bananas")
    expect(tab.page.locator(".problems")).to_be_visible()
    tab.page.get_by_role("button", name="Undo").click()
    expect(tab.page.locator(".problems")).to_have_count(0)
    expect(tab.page.locator("#undo")).to_be_disabled()
    assert file.read_text() == good


def test_a_line_for_news_that_was_refused_is_tried_again(opened: Any, editor: Any) -> None:
    tab = opened("/")
    refused: list[str] = []

    def refuse_once(route: Any) -> None:
        if refused:
            route.continue_()
        else:
            refused.append(route.request.url)
            route.fulfill(status=404, json={})

    tab.page.context.route("**/events", refuse_once)
    tab.page.goto(f"{tab.page.url}b/orchard/check")
    expect(tab.page.locator("#title-block")).to_be_visible()
    editor("name", "Apple cart")
    expect(tab.page.locator("#title-block")).to_contain_text("Apple cart")
    assert refused
