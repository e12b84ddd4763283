"""A recording beside the engine's speeds, and the sheet of paper that is tapped on a photo."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import soundfile
from axe_playwright_python.sync_playwright import Axe
from PIL import Image, ImageDraw
from playwright.sync_api import Locator, expect

pytestmark = pytest.mark.browser

RATE = 16_000
SHEET = [(900.0, 300.0), (900.0, 720.0), (306.0, 720.0), (306.0, 300.0)]
"""Corners of a sheet of A4 at two pixels a millimetre, front left first."""

ENGINE = (1100.0, 500.0)
"""Where the engine's shaft lies in the photo."""


@pytest.fixture
def engine(tmp_path: Path) -> Callable[[float], Path]:
    """A recording of a single four-stroke at a speed."""

    def record(rpm: float) -> Path:
        time = np.arange(6 * RATE) / RATE
        lines = np.arange(2, 40)[:, None]
        sound = np.cos(2 * np.pi * lines * rpm / 120.0 * time + lines**2).sum(axis=0)
        file = tmp_path / "engine.wav"
        soundfile.write(file, 0.3 * sound / np.abs(sound).max(), RATE)
        return file

    return record


@pytest.fixture
def photo(tmp_path: Path) -> Path:
    """A photo from straight above with a sheet of paper in it."""
    picture = Image.new("RGB", (1600, 1200), (120, 130, 110))
    ImageDraw.Draw(picture).polygon(SHEET, fill="white")
    file = tmp_path / "drive.png"
    picture.save(file)
    return file


def _listen(tab: Any, key: str, file: Path) -> Locator:
    tab.open_table("engine")
    recording: Locator = tab.page.locator(f'[id="recording-{key}"]')
    recording.locator("summary").click()
    recording.locator("input[type=file]").set_input_files(file)
    recording.get_by_role("button", name="Listen to it").click()
    return recording


def test_a_recording_is_heard_and_put_in(
    opened: Any, engine: Callable[[float], Path], written: Callable[..., Any]
) -> None:
    tab = opened("/b/orchard/measure")
    recording = _listen(tab, "engine.no_load", engine(3400.0))
    expect(recording.locator(".heard b")).to_have_count(2)
    before = written("engine", "no_load")
    expect(recording.locator(".heard b").first).to_contain_text("rpm")
    assert written("engine", "no_load") == before, "nothing is written unasked"
    said = recording.locator(".heard b").first.inner_text()
    recording.locator("[data-puts]").first.click()
    tab.expect_saved()
    assert written("engine", "no_load") == said
    assert float(said.split(" ")[0]) == pytest.approx(3400.0, rel=0.003)
    expect(tab.field("engine.no_load").locator("[data-key]")).to_have_value(
        said.split(" ±")[0] + " rpm"
    )


def test_what_is_no_recording_is_told_beside_it(opened: Any, tmp_path: Path) -> None:
    broken = tmp_path / "voice.m4a"
    broken.write_bytes(b"\0\0\0 ftypM4A " + bytes(200))
    tab = opened("/b/orchard/measure")
    recording = _listen(tab, "engine.idle", broken)
    expect(recording.locator(".error")).to_contain_text("not a recording that can be read")


def _tap_all(tab: Any, file: Path, by_touch: bool) -> None:
    """Taps the corners and the shaft where they lie in the photo."""
    tab.page.locator("#photo-how > summary").click()
    tab.page.locator("#photo-file").set_input_files(file)
    image = tab.page.locator("#photo-taps img")
    expect(image).to_be_visible()
    tab.page.wait_for_function("document.querySelector('#photo-taps img').naturalWidth === 1600")
    for x, y in [*SHEET, ENGINE]:
        image.scroll_into_view_if_needed()
        box = image.bounding_box()
        assert box is not None
        place = box["x"] + x * box["width"] / 1600, box["y"] + y * box["height"] / 1200
        if by_touch:
            tab.page.touchscreen.tap(*place)
        else:
            tab.page.mouse.click(*place)


def _check(tab: Any) -> None:
    """The engine's shaft lies under the engine's shaft: 905 mm forwards, 20 mm to the right."""
    image = tab.page.locator("#photo-under image")
    expect(image).to_be_attached()
    x, y, width = (float(image.get_attribute(name)) for name in ("x", "y", "width"))
    assert width == pytest.approx(800.0, rel=0.03)
    assert x + ENGINE[0] / 2 == pytest.approx(905.0, abs=20.0)
    assert y + ENGINE[1] / 2 == pytest.approx(20.0, abs=20.0)


def test_a_tapped_photo_lies_under_the_drawing(opened: Any, photo: Path) -> None:
    tab = opened("/b/orchard/measure")
    tab.page.locator("#photo-how > summary").click()
    tab.page.locator("#photo-how > summary").click()
    _tap_all(tab, photo, by_touch=False)
    expect(tab.page.locator("#photo-next")).to_contain_text("All is tapped")
    tab.page.get_by_role("button", name="Lay it under").click()
    _check(tab)
    tab.page.reload()
    _check(tab)


def test_a_mark_is_moved_with_the_keys(opened: Any, photo: Path) -> None:
    tab = opened("/b/orchard/measure")
    _tap_all(tab, photo, by_touch=False)
    mark = tab.page.locator("#photo-taps .tap").first
    mark.focus()
    before = mark.evaluate("each => parseFloat(each.style.left)")
    for key in ("ArrowRight", "Shift+ArrowRight"):
        tab.page.keyboard.press(key)
    after = mark.evaluate("each => parseFloat(each.style.left)")
    assert after - before == pytest.approx(100.0 * 11 / 1600, rel=1e-3)


def test_a_photo_is_tapped_on_a_phone(opened: Any, phone: dict[str, Any], photo: Path) -> None:
    tab = opened("/b/orchard/measure", **phone)
    _tap_all(tab, photo, by_touch=True)
    assert tab.page.evaluate("document.documentElement.scrollWidth") <= 360
    results = Axe().run(tab.page, context="#photo-form")
    assert [each["id"] for each in results.response["violations"]] == []
    tab.page.get_by_role("button", name="Lay it under").click()
    _check(tab)


def test_a_photo_that_is_not_tapped_is_refused(opened: Any, photo: Path) -> None:
    tab = opened("/b/orchard/measure")
    tab.page.locator("#photo-how > summary").click()
    tab.page.locator("#photo-file").set_input_files(photo)
    tab.page.get_by_role("button", name="Lay it under").click()
    expect(tab.page.locator("#photo .error")).to_contain_text("Tap the four corners")


def test_a_mark_follows_a_finger_a_quarter_as_far(opened: Any, photo: Path) -> None:
    tab = opened("/b/orchard/measure")
    _tap_all(tab, photo, by_touch=False)
    mark = tab.page.locator("#photo-taps .tap").nth(2)
    box = mark.bounding_box()
    before = mark.evaluate("each => parseFloat(each.style.left)")
    tab.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    tab.page.mouse.down()
    tab.page.mouse.move(box["x"] + box["width"] / 2 + 20, box["y"] + box["height"] / 2)
    tab.page.mouse.up()
    wide = tab.page.locator("#photo-taps img").bounding_box()["width"]
    after = mark.evaluate("each => parseFloat(each.style.left)")
    assert after - before == pytest.approx(100.0 * 5 / wide, rel=0.05)
