"""Belts that lie in several planes, each looked at and moved where it is seen."""

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

CHECK = "/b/sweeper/check"


def _at(file: Path, table: str, name: str) -> list[float]:
    rows = tomllib.loads(file.read_text())[table]
    at = next(row["at"] for row in rows if row["name"] == name)
    return [float(re.match(r"-?[\d.]+", text)[0]) for text in at]  # type: ignore[index]


def _look(tab: Any, words: str) -> None:
    with tab.page.expect_response(re.compile(r"/api/builds/sweeper\?view=")):
        tab.page.get_by_role("radio", name=words).check()


def test_a_belt_that_stands_upright_is_looked_at_and_moved(opened: Any, sweeper: Path) -> None:
    tab = opened(CHECK)
    expect(tab.thing("engine pulley")).to_be_visible()
    expect(tab.thing("blower pulley")).to_have_count(0)
    _look(tab, "the right")
    expect(tab.thing("blower pulley")).to_be_visible()
    expect(tab.thing("engine pulley")).to_have_count(0)
    expect(tab.page.locator("#title-block")).to_contain_text("Rink path sweeper")
    x, z = _at(sweeper, "shaft", "blower")
    tab.drag("blower pulley", 5, 8)
    expect(tab.page.locator("#live")).to_contain_text("blower pulley at")
    expect(tab.thing("engine pulley")).to_have_count(0)
    tab.drop()
    expect(tab.thing("blower pulley")).to_be_visible()
    assert _at(sweeper, "shaft", "blower") == pytest.approx([x + 5, z + 8], abs=2)
    tab.thing("blower pulley").focus()
    tab.page.keyboard.press("Enter")
    expect(tab.page.locator("#editor-fields")).to_contain_text("z, up")
    tab.page.keyboard.press("Escape")
    expect(tab.thing("blower pulley")).to_be_focused()


def test_from_the_side_the_top_of_a_part_is_drawn_up_and_its_length_stays(
    opened: Any, sweeper: Path
) -> None:
    before = tomllib.loads(sweeper.read_text())["obstacle"]
    tab = opened(CHECK)
    _look(tab, "the right")
    tab.drag("left frame rail, top", 30, 12)
    tab.drop()
    rail, was = (
        next(part for part in parts if part["name"] == "left frame rail")
        for parts in (tomllib.loads(sweeper.read_text())["obstacle"], before)
    )
    assert rail["outline"] == was["outline"]
    assert rail["from_height"] == was["from_height"]
    assert rail["to_height"] == "392 mm"


@pytest.mark.usefixtures("sweeper")
def test_keys_alone_switch_the_view_and_the_next_page_keeps_it(opened: Any) -> None:
    tab = opened(CHECK)
    tab.page.get_by_role("radio", name="above, all").focus()
    tab.page.keyboard.press("ArrowRight")
    expect(tab.thing("input pulley")).to_have_count(0)
    expect(tab.thing("engine pulley")).to_be_visible()
    expect(tab.page.get_by_role("radio", name="at 420 mm")).to_be_focused()
    tab.page.get_by_role("link", name="Measure").click()
    expect(tab.page.get_by_role("radio", name="at 420 mm")).to_be_checked()
    expect(tab.thing("input pulley")).to_have_count(0)


@pytest.mark.usefixtures("sweeper")
def test_two_pages_look_at_two_planes(opened: Any) -> None:
    one, other = opened(CHECK), opened(CHECK)
    _look(one, "the right")
    _look(other, "at 361 mm")
    expect(other.thing("engine pulley")).to_have_count(0)
    other.drag("input pulley", 8, 8)
    other.drop()
    expect(other.thing("input pulley")).to_be_visible()
    expect(one.page.locator("#notice")).to_contain_text("changed elsewhere")
    expect(one.thing("blower pulley")).to_be_visible()
    expect(one.page.get_by_role("radio", name="the right")).to_be_checked()


@pytest.mark.usefixtures("sweeper")
def test_the_map_of_an_idler_turns_the_drawing_to_its_plane(opened: Any) -> None:
    tab = opened("/b/sweeper/choose")
    tab.page.get_by_role("button", name="blower idler").click()
    # 5 s of work, many times that on a busy machine
    expect(tab.page.locator("#scene .idler-map")).to_be_attached(timeout=90_000)
    expect(tab.page.get_by_role("radio", name="the right")).to_be_checked()
    tab.page.get_by_role("radio", name="above, all").check()
    expect(tab.thing("engine pulley")).to_be_visible()
    expect(tab.page.locator("#scene .idler-map")).to_have_count(0)


def test_a_build_with_one_plane_has_nothing_to_choose(opened: Any) -> None:
    tab = opened()
    expect(tab.thing("engine pulley")).to_be_visible()
    expect(tab.page.get_by_role("radio", name="above")).to_have_count(0)
