"""How a browser comes in: by the printed address, once; a phone by the code."""

import io
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import segno
from PIL import Image
from playwright.sync_api import Browser, expect

from beltwright.web.serving import Place, make_server, take_place

pytestmark = pytest.mark.browser


def test_the_printed_address_lets_in_and_drops_its_key(browser: Browser, place: Any) -> None:
    window = browser.new_context()
    page = window.new_page()
    page.goto(place.entrance("/b/orchard/check"))
    assert page.url == f"{place.address}/b/orchard/check"
    expect(page.locator("#findings")).to_be_visible()
    page.goto(place.address)
    expect(page.get_by_role("link", name="Orchard crate hauler")).to_be_visible()
    window.close()


def test_another_user_is_shown_the_way_in_and_a_bookmark_works_again(
    browser: Browser, place: Any
) -> None:
    window = browser.new_context()
    page = window.new_page()
    bookmark = f"{place.address}/b/orchard/check"
    page.goto(bookmark)
    expect(page.get_by_role("heading", name="Open it with its key")).to_be_visible()
    expect(page.get_by_text("Orchard")).to_have_count(0)
    spent = place.entrance()
    window.request.get(spent)
    page.goto(bookmark)
    expect(page.locator("#findings")).to_be_visible()
    window.close()
    late = browser.new_context()
    page = late.new_page()
    page.goto(spent)
    expect(page.get_by_role("alert")).to_contain_text("has been used")
    late.close()


@pytest.fixture
def lan_place(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Place]:
    """A server that is open to the local network, as far as this machine has one."""
    monkeypatch.setattr("beltwright.web.serving.local_address", lambda: "127.0.0.2")
    place = take_place(lan=True, port=0)
    server = make_server(folder, place)
    thread = threading.Thread(target=server.run, kwargs={"sockets": list(place.sockets)})
    thread.start()
    while not server.started:
        time.sleep(0.005)
    yield place
    server.should_exit = True
    thread.join()


@pytest.mark.parametrize("screen", ["light", "dark", "phone"])
def test_the_square_for_the_phones_camera_is_whole_and_says_the_way_in(
    browser: Browser, lan_place: Place, phone: dict[str, Any], screen: str
) -> None:
    """Every module of the code is looked at on the screen (ISO/IEC 18004: 4 light ones around)."""
    wishes = phone if screen == "phone" else {"color_scheme": screen}
    window = browser.new_context(**wishes)
    page = window.new_page()
    page.goto(lan_place.entrance())
    assert lan_place.door.code is not None
    code = lan_place.door.code.plain
    panel = page.get_by_role("region", name="A phone in the shop")
    expect(panel.locator(".code")).to_have_text(f"{code[:4]} {code[4:]}")
    expect(panel.locator(".caution")).to_contain_text("see and change these builds")
    expect(page.get_by_text("reviewing it")).to_have_count(0)  # the list above has its full height
    square = Image.open(io.BytesIO(panel.locator(".qr svg").screenshot())).convert("L")
    wanted = segno.make(f"{lan_place.lan_address}/enter?code={code}", error="m").matrix
    count = len(wanted) + 2 * 4
    middle = (np.arange(count) + 0.5) / count
    rows, columns = (middle * square.height).astype(int), (middle * square.width).astype(int)
    seen = (np.asarray(square)[np.ix_(rows, columns)] < 128).tolist()
    light = [False] * count
    framed = [[False] * 4 + [bool(dark) for dark in row] + [False] * 4 for row in wanted]
    assert seen == [light] * 4 + framed + [light] * 4
    window.close()
