"""Builds in the folder: new, copied, compared, as they were earlier."""

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from beltwright.build.editing import set_value

pytestmark = pytest.mark.browser


def test_a_build_is_copied_changed_and_compared(opened: Any, folder: Path) -> None:
    tab = opened("/")
    tab.page.get_by_role("button", name="Duplicate").click()
    tab.page.locator("#asked-name").fill("orchard, shorter belt")
    tab.page.keyboard.press("Enter")
    expect(tab.page.locator("#asked-form .error")).to_contain_text("A name takes letters")
    tab.page.locator("#asked-name").fill("shorter belt")
    tab.page.keyboard.press("Enter")
    tab.page.wait_for_url("**/b/shorter%20belt/check")
    copy = folder / "shorter belt.toml"
    copy.write_text(set_value(copy.read_text(), "pulley.engine pulley.outside", "70 mm"))
    tab.page.goto(tab.page.url.partition("/b/")[0])
    tab.page.get_by_role("button", name="Side by side").click()
    expect(tab.page.get_by_role("img")).to_have_count(2)
    row = tab.page.get_by_role("row", name="Top speed, governed")
    expect(row).to_contain_text("−")


def test_a_new_build_starts_at_measure(opened: Any, folder: Path) -> None:
    tab = opened("/")
    tab.page.locator("#new-name").fill("pond rake")
    tab.page.get_by_role("button", name="Start it").click()
    tab.page.wait_for_url("**/b/pond%20rake/measure")
    assert (folder / "pond rake.toml").exists()


def test_an_earlier_version_is_looked_at_and_stands_again(
    opened: Any, file: Path, editor: Any
) -> None:
    editor("machine.slope", "20 %")
    before = file.read_text()
    tab = opened("/b/orchard/measure")
    tab.open_table("machine")
    entry = tab.field("machine.slope").locator("input").first
    entry.fill("12 %")
    entry.press("Tab")
    tab.expect_saved()
    tab.page.get_by_role("link", name="Earlier versions").click()
    versions = tab.page.locator(".versions a")
    expect(tab.page.locator(".versions")).to_contain_text("machine.slope")
    versions.last.click()
    expect(tab.page.locator("#earlier pre")).to_contain_text('slope = "20 %"')
    assert tab.page.url.endswith("/history"), "it is shown beside the list"
    tab.page.get_by_role("button", name="Let this one stand again").click()
    tab.page.wait_for_url("**/check")
    assert file.read_text() == before


def test_a_folder_without_a_build_teaches(opened: Any, file: Path) -> None:
    file.unlink()
    tab = opened("/")
    expect(tab.page.get_by_text("No build file is here yet")).to_be_visible()


def test_a_build_without_a_belt_teaches(opened: Any, file: Path) -> None:
    file.write_text('format = 1\nname = "Bare"\n')
    tab = opened()
    expect(tab.page.get_by_text("There is no belt to draw yet")).to_be_visible()


def test_the_list_stands_at_once_and_counts_follow(opened: Any, folder: Path) -> None:
    (folder / "half typed.toml").write_text("format = 1\nname = \n")
    tab = opened("/")
    rows = tab.page.locator(".builds li")
    orchard = rows.filter(has=tab.page.get_by_role("link", name="Orchard crate hauler"))
    expect(orchard.locator(".state")).to_have_text(re.compile(r"\d+ stop.*\d+ sound"))
    expect(rows.filter(has_text="half typed.toml")).to_contain_text("can't be used as it stands")
