"""Looking for options, picking one and taking it; the map of an idler; parts and money."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

CHOOSE = "/b/orchard/choose"
OPEN = """
[[choose.vary]]
of = "engine pulley"
what = "outside"
values = ["70 mm", "75 mm", "80 mm", "85 mm", "90 mm", "95 mm", "100 mm"]

[[choose.vary]]
of = "traction belt"
what = "length"
values = ["72 in", "73 in", "74 in", "75 in"]
"""


@pytest.fixture
def leaving_open(file: Path) -> Path:
    """The build with an engine pulley and a belt that may be others, and any top speed."""
    text = file.read_text().partition("[choose]")[0].partition("[[choose.vary]]")[0]
    speed = next(line for line in text.splitlines() if line.startswith("top_speed"))
    file.write_text(text.replace(speed, 'top_speed = "5 to 20 km/h"') + OPEN)
    return file


def test_an_option_is_found_picked_on_the_chart_and_taken(opened: Any, leaving_open: Path) -> None:
    tab = opened(CHOOSE)
    tab.page.get_by_role("button", name="Look for options").click()
    rows = tab.page.locator("tr[data-option]")
    expect(rows.first).to_be_visible(timeout=20_000)
    expect(tab.page.locator("#search-found")).to_contain_text("Caution.")
    expect(tab.page.locator("#search-found .plot canvas")).to_be_visible()
    rows.last.get_by_role("radio").check()
    expect(rows.last).to_have_class("picked")
    taken = tab.page.locator("tr[data-parts-of]").last.inner_text()
    with tab.page.expect_response("**/apply"):
        tab.page.get_by_role("button", name="Take the picked one").click()
    expect(tab.page.locator("#search-progress")).to_contain_text("stands in the build file")
    pulley = tomllib.loads(leaving_open.read_text())["pulley"][0]
    assert f"outside diameter of the engine pulley: {pulley['outside']}" in taken


def test_nothing_left_open_says_what_to_do(opened: Any, leaving_open: Path) -> None:
    leaving_open.write_text(leaving_open.read_text().partition("[[choose.vary]]")[0])
    tab = opened(CHOOSE)
    tab.page.get_by_role("button", name="Look for options").click()
    expect(tab.page.locator("#search-progress")).to_contain_text("Nothing is left open")
    tab.page.locator("#new-choose\\.vary > summary").click()
    form = tab.page.locator('form[data-adds="choose.vary"]')
    form.locator('[data-key="choose.vary.of"]').fill("engine pulley")
    form.locator('[data-key="choose.vary.what"]').fill("outside")
    form.locator('[data-key="choose.vary.values"]').fill("109 mm, 114 mm")
    with tab.page.expect_response("**/edit"):
        form.get_by_role("button", name="Add").click()
    expect(tab.page.get_by_text("Outside diameter of the engine pulley")).to_be_visible()
    vary = tomllib.loads(leaving_open.read_text())["choose"]["vary"]
    assert vary == [{"of": "engine pulley", "what": "outside", "values": ["109 mm", "114 mm"]}]


def test_a_pulley_is_left_open_by_a_press(opened: Any, leaving_open: Path, editor: Any) -> None:
    leaving_open.write_text(leaving_open.read_text().partition("[[choose.vary]]")[0])
    editor("pulley.engine pulley.outside", "114 ± 0.5 mm")
    tab = opened(CHOOSE)
    name = "Outside diameter of the engine pulley"
    tab.page.get_by_role("button", name=name).click()
    expect(tab.page.get_by_role("button", name=name)).to_have_count(0)
    vary = tomllib.loads(leaving_open.read_text())["choose"]["vary"]
    assert vary[-1] == {
        "of": "engine pulley",
        "what": "outside",
        "low": "90 mm",
        "high": "145 mm",
        "step": "5 mm",
    }


def test_the_places_of_an_idler_are_hatched_on_the_drawing(opened: Any) -> None:
    tab = opened(CHOOSE)
    button = tab.page.get_by_role("button", name="guide idler")
    button.click()
    expect(tab.page.locator("#map-words")).to_contain_text("guide idler", timeout=20_000)
    expect(tab.page.locator("#scene .idler-map")).to_be_attached()
    expect(button).to_have_attribute("aria-pressed", "true")
    with tab.page.expect_response("**/edit") as answer:
        tab.page.get_by_role("button", name="Put it there").click()
    assert answer.value.ok
    tab.expect_saved()
    button.click()
    expect(tab.page.locator("#scene .idler-map")).to_have_count(0)


def test_one_more_idler_is_looked_for_shown_and_put_in(opened: Any, file: Path) -> None:
    tab = opened(CHOOSE)
    more = tab.page.locator("#more")
    more.get_by_label("Its outside diameter").fill("wide")
    look = more.get_by_role("button", name="Look along the traction belt")
    look.click()
    expect(more.get_by_role("status")).to_contain_text("has no number")
    more.get_by_label("Its outside diameter").fill("80 mm")
    look.click()
    expect(more.get_by_role("progressbar")).to_be_visible()
    first = more.locator("[data-place]").first
    expect(first).to_contain_text("the hole may be", timeout=60_000)
    expect(more).to_contain_text("Caution.")
    show = first.get_by_role("button", name="Show on the drawing")
    show.click()
    expect(tab.page.locator("#scene .idler-map")).to_be_attached()
    show.click()
    expect(tab.page.locator("#scene .idler-map")).to_have_count(0)
    with tab.page.expect_response("**/apply"):
        first.get_by_role("button", name="Put it in").click()
    expect(more.get_by_role("status")).to_contain_text("Undo brings back")
    assert "new idler" in tomllib.loads(file.read_text())["belt"][0]["run"]
    tab.expect_saved()
    tab.page.locator("#undo").click()
    expect(tab.page.locator("#map")).not_to_contain_text("new idler")
    assert "new idler" not in tomllib.loads(file.read_text())["belt"][0]["run"]


def test_a_price_and_a_tick_change_the_money(opened: Any, file: Path) -> None:
    tab = opened(CHOOSE)
    money = tab.page.locator("#money").inner_text()
    price = tab.page.locator('.parts [data-key$=".price"]').first
    with tab.page.expect_response("**/edit"):
        price.fill("39 EUR")
        price.press("Tab")
    expect(tab.page.locator("#money")).not_to_have_text(money)
    tick = tab.page.locator('.parts [data-key$=".have"]').first
    was = tick.is_checked()
    with tab.page.expect_response("**/edit"):
        tick.click()
    tab.expect_saved()
    assert tomllib.loads(file.read_text())["part"][0]["have"] is not was
