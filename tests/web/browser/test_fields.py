"""The forms: what is typed goes into the file, what is wrong is told beside it."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

MEASURE = "/b/orchard/measure"


def test_a_bad_unit_is_told_beside_its_field_and_nothing_is_written(
    opened: Any, file: Path
) -> None:
    before = file.read_text()
    tab = opened(MEASURE)
    tab.open_table("machine")
    entry = tab.field("machine.wheelbase").locator("input").first
    entry.fill("12 stone")
    entry.press("Tab")
    error = tab.field("machine.wheelbase").locator(".error")
    expect(error).to_contain_text('"stone" is not a unit')
    expect(error).to_contain_text("For example")
    expect(entry).to_have_attribute("aria-invalid", "true")
    expect(entry).to_have_value("12 stone")
    assert file.read_text() == before


def test_a_value_is_kept_as_typed_and_the_focus_stays(opened: Any, file: Path, editor: Any) -> None:
    editor("machine.wheelbase", "1235 ± 5 mm")
    lines = len(file.read_text().splitlines())
    tab = opened(MEASURE)
    tab.open_table("machine")
    entry = tab.field("machine.wheelbase").locator("input").first
    spread = tab.field("machine.wheelbase").locator(".tolerance")
    expect(entry).to_have_value("1235 mm")
    expect(spread).to_have_value("5 mm")
    with tab.page.expect_response("**/edit"):
        entry.fill("48 5/8 in")
        entry.press("Tab")
    tab.expect_saved()
    expect(spread).to_be_focused()
    assert 'wheelbase = "48 5/8 in ± 5 mm"' in file.read_text()
    with tab.page.expect_response("**/edit"):
        spread.fill("1/8 in")
        spread.press("Tab")
    tab.expect_saved()
    assert 'wheelbase = "48 5/8 ± 1/8 in"' in file.read_text()
    assert len(file.read_text().splitlines()) == lines
    expect(tab.page.locator("#table-machine")).to_have_attribute("open", "")


def test_a_place_is_written_as_a_whole(opened: Any, file: Path) -> None:
    tab = opened(MEASURE)
    tab.open_table("shaft", "gearbox input")
    parts = tab.field("shaft.gearbox input.slot_to").locator("[data-key]")
    parts.nth(0).fill("160 mm")
    parts.nth(0).press("Tab")
    expect(tab.page.locator("#notice")).to_contain_text("other coordinates")
    with tab.page.expect_response("**/edit"):
        parts.nth(1).fill("30 mm")
        parts.nth(1).press("Tab")
    tab.expect_saved()
    shafts = tomllib.loads(file.read_text())["shaft"]
    assert shafts[1]["slot_to"] == ["160 mm", "30 mm"]


def test_emptying_a_field_takes_the_value_out(opened: Any, file: Path) -> None:
    tab = opened(MEASURE)
    tab.open_table("machine")
    entry = tab.field("machine.descent").locator("input").first
    with tab.page.expect_response("**/edit"):
        entry.fill("")
        entry.press("Tab")
    tab.expect_saved()
    assert "descent" not in tomllib.loads(file.read_text())["machine"]


def test_an_obstacle_is_added_and_taken_out(opened: Any, file: Path) -> None:
    before = file.read_text()
    tab = opened(MEASURE)
    tab.open_table("obstacle")
    new = tab.page.locator("#new-obstacle")
    new.locator("summary").first.click()
    new.get_by_role("button", name="Add").click()
    expect(new.locator('[data-field="obstacle.name"] .error')).to_contain_text("needed")
    new.locator('[data-key="obstacle.name"]').fill("fuel line")
    new.locator('[data-key="obstacle.outline"]').fill(
        "300 mm, 200 mm\n320 mm, 200 mm\n320 mm, 220 mm"
    )
    with tab.page.expect_response("**/edit"):
        new.get_by_role("button", name="Add").click()
    expect(tab.page.locator("#table-obstacle\\.fuel-line")).to_be_visible()
    expect(tab.page.locator('#scene [data-name="fuel line"]').first).to_be_attached()
    tab.page.locator("#table-obstacle\\.fuel-line > summary").click()
    with tab.page.expect_response("**/edit"):
        tab.page.get_by_role("button", name="Take out fuel line").click()
    expect(tab.page.locator("#table-obstacle\\.fuel-line")).to_have_count(0)
    assert tomllib.loads(file.read_text()) == tomllib.loads(before)


def test_a_missing_value_teaches_how_to_measure_it(opened: Any) -> None:
    tab = opened(MEASURE)
    tab.open_table("wheels")
    how = tab.field("wheels.roll_out").locator("details.how")
    how.locator("summary").click()
    expect(how.get_by_role("img")).to_be_visible()
    expect(how).to_contain_text("Chalk the tyre")


def test_a_link_to_a_field_opens_it(opened: Any) -> None:
    tab = opened(f"{MEASURE}#field-idler.guide-idler.outside")
    expect(tab.field("idler.guide idler.outside")).to_be_in_viewport()


def test_every_value_of_the_file_stands_in_a_field(opened: Any, file: Path) -> None:
    tab = opened(MEASURE)
    shown = tab.page.evaluate(
        "[...document.querySelectorAll('#forms [data-field]')].map(field => field.dataset.field)"
    )
    missing = [key for key in _keys(tomllib.loads(file.read_text())) if key not in set(shown)]
    assert missing == []


def _keys(values: Any, before: str = "") -> list[str]:
    """The dotted keys of what stands in a file, tables opened and lists of values not."""
    found = []
    for name, value in values.items():
        key = f"{before}{name}"
        if key in {"format", "choose", "part"}:
            continue
        if isinstance(value, dict):
            found += _keys(value, f"{key}.")
        elif isinstance(value, list) and value and isinstance(value[0], dict):
            for index, row in enumerate(value):
                found += _keys(row, f"{key}.{row.get('name', index)}.")
        else:
            found.append(key)
    return found
