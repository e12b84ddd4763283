"""A real Chromium in front of a real server over a folder with the example."""

import re
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page, expect, sync_playwright

from beltwright.build.editing import set_value

CHROMIUM = Path("/usr/bin/chromium")
LARGE = {"width": 1440, "height": 900}

VERSION = "JSON.parse(document.getElementById('build-data').textContent).version"

Opens = Callable[..., "Tab"]


class Tab:
    """A tab with the page in it, and what hands do there."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def thing(self, name: str) -> Locator:
        """A thing of the drawing that can be moved."""
        return self.page.locator(f'#scene [data-drag][data-name="{name}"]').first

    def drag(self, name: str, forward: float, left: float) -> None:
        """Drags a thing by so many millimetres of the machine and holds it there."""
        expect(self.thing(name)).to_be_visible()
        box = self.thing(name).bounding_box()
        assert box is not None
        pixels = self.page.evaluate("document.querySelector('#scene > svg').getScreenCTM().a")
        # a little off the middle, as a hand does it
        x, y = box["x"] + box["width"] / 2 + 4, box["y"] + box["height"] / 2 + 4
        self.page.mouse.move(x, y)
        self.page.mouse.down()
        self.page.mouse.move(x + forward * pixels, y - left * pixels, steps=8)

    def drop(self) -> None:
        """Lets go of what is dragged, and waits until that is saved."""
        seen = self.version()
        self.page.mouse.up()
        self.page.wait_for_function(f"seen => {VERSION} !== seen", arg=seen)

    def version(self) -> str:
        """The version of the file that the page shows."""
        version: str = self.page.evaluate(VERSION)
        return version

    def finding(self, id_: str) -> Locator:
        """A finding in the list."""
        return self.page.locator(f'.finding[data-finding="{id_}"]')

    def field(self, key: str) -> Locator:
        """The row of a value in the forms."""
        return self.page.locator(f'[data-field="{key}"]').first

    def open_table(self, *names: str) -> None:
        """Opens a table of the forms, and the ones inside it."""
        for depth in range(len(names)):
            slug = ".".join(names[: depth + 1]).replace(" ", "-")
            self.page.locator(f'[id="table-{slug}"] > summary').click()

    def expect_saved(self) -> None:
        """Waits until something can be undone."""
        expect(self.page.locator("#undo")).to_be_enabled()


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """The system's own Chromium; without its sandbox, because tests often run as root.

    It ends with its file of tests, because its event loop would stand in the way of the others.
    """
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(
            executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"]
        )
        yield chromium
        chromium.close()


@pytest.fixture
def complaints() -> Iterator[list[str]]:
    """What scripts and console complained of; in the end there is to be nothing."""
    said: list[str] = []
    yield said
    assert said == []


@pytest.fixture
def opened(browser: Browser, served: Any, complaints: list[str]) -> Iterator[Opens]:
    """Opens a place of the example in a window of its own."""
    windows = []

    def open_place(place: str = "/b/orchard/check", **wishes: Any) -> Tab:
        window = browser.new_context(**{"viewport": LARGE, **wishes})
        windows.append(window)
        window.add_cookies(
            [
                {"name": name, "value": value, "url": served.address}
                for name, value in served.cookies.items()
            ]
        )
        page = window.new_page()
        page.set_default_timeout(8_000)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("console", lambda said: _note(complaints, said.type, said.text))
        page.goto(served.address + place)
        return Tab(page)

    yield open_place
    for window in windows:
        window.close()


def _note(complaints: list[str], kind: str, text: str) -> None:
    """A server that refuses, or is gone, is no fault of the page; all else is."""
    refused = re.match(r"Failed to load resource: .*(4\d\d|ERR_\w+)", text)
    if kind in {"error", "warning"} and not refused:
        complaints.append(text)


@pytest.fixture
def phone() -> dict[str, Any]:
    """A small phone."""
    return {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}


@pytest.fixture
def file(folder: Path) -> Path:
    """The build file that the page edits."""
    return folder / "orchard.toml"


@pytest.fixture
def editor(file: Path) -> Callable[[str, str], None]:
    """Someone with a text editor, who changes a value of the file, whatever it was."""

    def write(key: str, text: str) -> None:
        file.write_text(set_value(file.read_text(), key, text))

    return write


@pytest.fixture
def written(file: Path) -> Callable[..., Any]:
    """What stands in the file at a path."""

    def at(*path: str | int) -> Any:
        here: Any = tomllib.loads(file.read_text())
        for step in path:
            here = here[step]
        return here

    return at
