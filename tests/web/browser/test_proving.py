"""The first drive on the page: a reading goes into the file, and comes back with its causes."""

import shutil
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

PROVE = "/b/orchard/prove"
SWEEPER = Path(__file__).parents[3] / "examples" / "path-sweeper" / "build.toml"


@pytest.fixture
def sweeper(folder: Path) -> str:
    """A build that was driven, in the folder of the page."""
    shutil.copy(SWEEPER, folder / "sweeper.toml")
    return "/b/sweeper/prove"


def test_a_reading_is_written_down_without_a_mouse(opened: Any, written: Any) -> None:
    tab = opened(PROVE)
    page = tab.page
    form = page.locator("#read-gears")
    form.locator("summary").first.focus()
    page.keyboard.press("Enter")
    form.locator('[data-key="drive.gear"]').select_option("2")
    form.locator('[data-key="drive.distance"]').fill("20 m")
    form.locator('[data-tolerance-of="drive.distance"]').fill("0.1 m")
    form.locator('[data-key="drive.time"]').fill("21 s")
    form.get_by_label("belt squeals").focus()
    page.keyboard.press("Space")
    with page.expect_response("**/edit*"):
        form.get_by_role("button", name="Write it down").press("Enter")
    row = page.locator("#proved-drive\\.gear\\.speed")
    expect(row).to_contain_text("marginal")
    expect(page.locator("#proved-drive\\.gear\\.belt-squeals")).to_be_visible()
    assert written("drive") == [
        {
            "name": "gear",
            "gear": "2",
            "distance": "20 ± 0.1 m",
            "time": "21 s",
            "signs": ["belt squeals"],
        }
    ]
    # the next one has a name of its own
    expect(form.locator('[data-key="drive.name"]')).to_have_attribute("value", "gear 2")


def test_what_is_wrong_is_told_beside_its_field(opened: Any, file: Path) -> None:
    before = file.read_text()
    tab = opened(PROVE)
    form = tab.page.locator("#read-stopping")
    form.locator("summary").first.click()
    form.locator('[data-key="drive.stopped_in"]').fill("far")
    with tab.page.expect_response("**/edit*"):
        form.get_by_role("button", name="Write it down").click()
    expect(form.locator('[data-field="drive.stopped_in"] .error')).to_contain_text("no number")
    assert file.read_text() == before


def test_causes_open_on_demand_and_their_line_can_be_written(
    opened: Any, sweeper: str, folder: Path
) -> None:
    tab = opened(sweeper)
    why = tab.page.locator("#why-drive\\.after-the-ramp\\.press")
    button = why.get_by_role("button", name="pull of the engine belt at rest")
    expect(button).to_be_hidden()
    why.locator("summary").click()
    with tab.page.expect_response("**/edit*"):
        button.click()
    expect(tab.page.locator("#proved-drive\\.after-the-ramp\\.press")).to_contain_text("sound")
    assert 'tension = "275 ± ' in (folder / "sweeper.toml").read_text()


def test_a_drive_can_be_taken_out(opened: Any, sweeper: str, folder: Path) -> None:
    tab = opened(sweeper)
    tab.page.locator("#drives-written > summary").click()
    with tab.page.expect_response("**/edit*"):
        tab.page.get_by_role("button", name="Take out after the ramp").click()
    expect(tab.page.locator("#proved-drive\\.after-the-ramp\\.press")).to_have_count(0)
    assert "after the ramp" not in (folder / "sweeper.toml").read_text().partition("[[drive]]")[2]


def test_a_driven_build_fits_a_small_phone(opened: Any, sweeper: str, phone: Any) -> None:
    tab = opened(sweeper, **phone)
    tab.page.evaluate(
        "document.querySelectorAll('#main details').forEach((each) => { each.open = true; })"
    )
    assert tab.page.evaluate("document.documentElement.scrollWidth") <= 360
    low = tab.page.evaluate(
        "[...document.querySelectorAll('.sign, .proved summary, [data-writes], [data-removes]')]"
        ".map((each) => each.getBoundingClientRect().height).filter((height) => height < 43.5)"
    )
    assert low == []
