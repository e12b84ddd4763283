"""Takes the pictures of the page for the handbook: every view in light, dark and on a phone.

Run it from the project's folder: python tools/take_screenshots.py [WORD ...]
With words, only the views whose name holds one of them.
"""

import shutil
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page, sync_playwright

from beltwright.web.serving import Place, make_server, take_place

ROOT = Path(__file__).parents[1]
PICTURES = ROOT / "docs" / "pictures" / "page"
CHROMIUM = "/usr/bin/chromium"

HAULER = "/b/orchard-hauler"
VIEWS = {
    "builds": "/",
    "measure": f"{HAULER}/measure",
    "choose": f"{HAULER}/choose",
    "check": f"{HAULER}/check",
    "make": f"{HAULER}/make",
    "prove": f"{HAULER}/prove",
    "history": f"{HAULER}/history",
    "compare": "/compare?a=orchard-hauler&b=path-sweeper",
    "sweeper": "/b/path-sweeper/check",
}
SCREENS: dict[str, dict[str, Any]] = {
    "light": {"viewport": {"width": 1360, "height": 860}, "color_scheme": "light"},
    "dark": {"viewport": {"width": 1360, "height": 860}, "color_scheme": "dark"},
    "phone": {
        "viewport": {"width": 360, "height": 780},
        "color_scheme": "light",
        "has_touch": True,
        "is_mobile": True,
        "device_scale_factor": 1.5,
    },
}


def main(words: list[str]) -> None:
    """Take the pictures, and say where they are."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    with _served() as place, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        for screen, wishes in SCREENS.items():
            for name in _take(browser, place, screen, wishes, words):
                print(name.relative_to(ROOT))
        browser.close()


def _take(
    browser: Browser, place: Place, screen: str, wishes: dict[str, Any], words: list[str]
) -> Iterator[Path]:
    window = browser.new_context(**wishes)
    page = window.new_page()
    page.goto(place.entrance(f"{HAULER}/check"))  # a phone says once that it is one
    page.wait_for_timeout(500)
    for view, path in VIEWS.items():
        file = PICTURES / f"{view}-{screen}.png"
        if words and not any(word in file.stem for word in words):
            continue
        page.goto(place.address + path)
        _ready(page, view)
        page.screenshot(path=file)
        yield file
    window.close()


def _ready(page: Page, view: str) -> None:
    """Opens what the picture is to show."""
    if view == "check":
        page.locator(".finding summary").first.click()
    if view == "measure":
        for table in ("wheels", "engine"):
            page.locator(f"#table-{table} > summary").click()
        page.locator("#how-wheels\\.roll_out summary").click()
        page.locator("#field-wheels\\.roll_out").scroll_into_view_if_needed()
    if view == "choose":
        page.get_by_role("button", name="guide idler").click()
        page.locator("#scene .idler-map").wait_for(state="attached", timeout=60_000)
        page.get_by_role("button", name="Look for options").click()
        page.locator("tr[data-option], #search-found p").first.wait_for(timeout=60_000)
        page.locator("#search").evaluate("search => search.scrollIntoView()")
    page.wait_for_timeout(300)


@contextmanager
def _served() -> Iterator[Place]:
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made) / "shop"
        shutil.copytree(ROOT / "examples", folder, ignore=shutil.ignore_patterns("*.md", ".*"))
        place = take_place(lan=False, port=0)
        server = make_server(folder, place)
        serving = threading.Thread(target=server.run, kwargs={"sockets": list(place.sockets)})
        serving.start()
        while not server.started:
            time.sleep(0.01)
        try:
            yield place
        finally:
            server.should_exit = True
            serving.join()


if __name__ == "__main__":
    main(sys.argv[1:])
