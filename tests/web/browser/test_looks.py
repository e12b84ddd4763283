"""What every view keeps to: it fits, it can be reached and read, it asks nothing of the outside."""

import re
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

PLACES = ["measure", "choose", "check", "make", "prove"]
VIEWS = {
    "builds": "/",
    **{place: f"/b/orchard/{place}" for place in PLACES},
    "history": "/b/orchard/history",
    "compare": "/compare?a=orchard&b=orchard",
    "refused": "/b/nothing/check",
    "enter": "/enter",  # the last: whoever is let in does not see it
}
PLANES = {"planes": "/b/sweeper/check"}
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
OPENED = "for (const each of document.querySelectorAll('#main details')) each.open = true"


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_view_is_accessible(opened: Any, scheme: str, width: int) -> None:
    """With all that is folded open; the dark scheme differs in its colours alone."""
    tab = opened("/", color_scheme=scheme, viewport={"width": width, "height": 800})
    root = tab.page.url.rstrip("/")
    found = []
    for name in VIEWS:
        _go(tab, root, name)
        _open_up(tab, name)
        only = ["color-contrast"] if scheme == "dark" else WCAG
        results = Axe().run(tab.page, options={"runOnly": only, "resultTypes": ["violations"]})
        found += [
            f"{name}: {each['id']}: {each['nodes'][0]['html'][:160]} ({len(each['nodes'])})"
            for each in results.response["violations"]
        ]
    assert found == []


def _go(tab: Any, root: str, name: str) -> None:
    if name == "enter":
        tab.page.context.clear_cookies()
    tab.page.goto(root + (VIEWS | PLANES)[name])


def _open_up(tab: Any, name: str) -> None:
    if name in ("check", "prove"):
        tab.page.locator("#charts-title").scroll_into_view_if_needed()
        expect(tab.page.locator("#charts canvas").first).to_be_visible()
    tab.page.evaluate(OPENED)
    folded = tab.page.locator("#main details:not([open])")
    expect(folded).to_have_count(0)


@pytest.mark.usefixtures("sweeper")
def test_every_view_fits_a_small_phone_and_a_thumb(opened: Any, phone: dict[str, Any]) -> None:
    tab = opened("/", **phone)
    root = tab.page.url.rstrip("/")
    small = []
    for name in ("planes", *VIEWS):
        _go(tab, root, name)
        tab.page.evaluate(OPENED)
        assert tab.page.evaluate("document.documentElement.scrollWidth") <= 360, name
        small += [f"{name}: {each}" for each in tab.page.evaluate(TOO_SMALL)]
        small += [f"{name}: below its mark: {each}" for each in tab.page.evaluate(BELOW_ITS_MARK)]
    assert small == []


BELOW_ITS_MARK = """() => [...document.querySelectorAll('#main .table > summary .title')]
  .filter((title) => title.getClientRects().length)
  .filter((title) => title.getBoundingClientRect().left
    - title.parentElement.getBoundingClientRect().left < 10)
  .map((title) => title.textContent)"""
"""Titles that have slipped under the mark that opens them."""

LONG = "Donaudampfschifffahrtsgesellschaftskapitänsmützenhaken"
"""One word, as long as a name may be but for a number behind it."""


def test_names_of_one_long_word_fit_a_small_phone(
    opened: Any, phone: dict[str, Any], file: Path
) -> None:
    text = file.read_text()
    names = [name for name in re.findall(r'(?m)^name = "(.*)"$', text) if name != "engine"]
    for number, name in enumerate(sorted(names, key=len, reverse=True)):
        text = text.replace(f'"{name}"', f'"{LONG}{number:02d}"')
        text = text.replace(f'"spring of the {name}"', f'"spring of the {LONG}{number:02d}"')
    file.unlink()
    (file.parent / f"{LONG}.toml").write_text(text)
    tab = opened("/", **phone)
    root = tab.page.url.rstrip("/")
    wide = []
    for address in ("", f"/compare?a={LONG}&b={LONG}", *(f"/b/{LONG}/{it}" for it in PLACES)):
        tab.page.goto(root + address)
        expect(tab.page.get_by_text(LONG).first).to_be_attached()
        tab.page.evaluate(OPENED)
        if tab.page.evaluate("document.documentElement.scrollWidth") > 360:
            wide.append(address)
    assert wide == []


TOO_SMALL = """
[...document.querySelectorAll('button, select, summary, input, textarea, nav a, .home, .sheets a')]
  .filter((each) => each.checkVisibility())
  .map((each) => [each, each.closest('label:has([type=checkbox], [type=radio])') ?? each])
  .map(([each, target]) => [each, target.getBoundingClientRect()])
  .filter(([each, box]) => box.height < 43.5 && !each.closest('[hidden]'))
  .map(([each, box]) => `${each.outerHTML.slice(0, 90)} is ${box.height} px high`)
"""


def test_nothing_is_asked_of_the_outside(opened: Any) -> None:
    tab = opened("/")
    root = tab.page.url.rstrip("/")
    asked: list[str] = []
    tab.page.on("request", lambda request: asked.append(request.url))
    tab.page.goto(f"{root}/b/orchard/check")
    tab.page.locator("#charts-title").scroll_into_view_if_needed()
    expect(tab.page.locator("#charts canvas").first).to_be_visible()
    for name in VIEWS:
        _go(tab, root, name)
    assert asked
    assert [url for url in asked if not url.startswith((root, "data:"))] == []


def test_a_filter_shows_one_topic(opened: Any) -> None:
    tab = opened()
    tab.page.locator("#topic").select_option("Brake")
    expect(tab.finding("brake.stopping_distance")).to_be_visible()
    expect(tab.finding("speed.top")).to_be_hidden()
    topics = tab.page.evaluate(
        "[...document.querySelectorAll('.finding')].filter((each) => each.checkVisibility())"
        ".map((each) => each.dataset.topic)"
    )
    assert set(topics) == {"Brake"}


def test_findings_stand_worst_first_and_say_everything(opened: Any) -> None:
    tab = opened()
    order = ["stop", "marginal", "not known", "sound"]
    verdicts = tab.page.evaluate(
        "[...document.querySelectorAll('.finding')].map(each => each.dataset.verdict)"
    )
    assert verdicts == sorted(verdicts, key=order.index)
    row = tab.finding("brake.stopping_distance")
    row.locator("summary").first.click()
    expect(row.locator(".range")).to_be_visible()
    expect(row.locator(".caution")).to_be_visible()
    row.get_by_text("Working and source").click()
    for word in ("Formula", "With the numbers", "Source"):
        expect(row.get_by_text(word, exact=True)).to_be_visible()


def test_charts_follow_the_build(opened: Any, editor: Any) -> None:
    tab = opened()
    tab.page.locator("#charts-title").scroll_into_view_if_needed()
    expect(tab.page.locator("#charts canvas").first).to_be_visible()
    with tab.page.expect_response("**/charts"):
        editor("pulley.engine pulley.outside", "70 mm")
    tab.page.get_by_text("The numbers", exact=True).first.click()
    expect(tab.page.get_by_role("region", name="Numbers of").first).to_contain_text("gear 1")


def test_motion_can_be_turned_off(opened: Any) -> None:
    tab = opened(reduced_motion="reduce")
    moving = tab.page.evaluate(
        "getComputedStyle(document.querySelector('.finding')).transitionDuration"
    )
    assert moving == "0s"
    assert tab.page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == "auto"
