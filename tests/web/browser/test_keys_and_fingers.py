"""The page with keys alone, and with fingers alone."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

PLACES = ["measure", "choose", "check", "make", "prove"]
SEEN = """() => {
  const each = document.activeElement;
  if (each === document.body) return null;
  const box = each.getBoundingClientRect();
  const style = getComputedStyle(each);
  return {
    words: (each.ariaLabel ?? each.dataset.name ?? each.textContent).trim().slice(0, 40),
    inside: each.closest("#scene") !== null,
    ringed: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0,
    shown: box.width > 0 && box.bottom > 0 && box.top < innerHeight && box.right > 0
      && box.left < innerWidth,
  };
}"""


@pytest.mark.parametrize("where", PLACES)
def test_tab_goes_through_a_place_with_the_focus_always_seen(opened: Any, where: str) -> None:
    tab = opened(f"/b/orchard/{where}", reduced_motion="reduce")
    expect(tab.thing("engine pulley")).to_be_visible()
    stops = []
    for _ in range(90):
        tab.page.keyboard.press("Tab")
        stop = tab.page.evaluate(SEEN)
        if stop is None:
            break
        stops.append(stop)
    assert [stop["words"] for stop in stops if not (stop["ringed"] and stop["shown"])] == []
    inside = [number for number, stop in enumerate(stops) if stop["inside"]]
    assert inside == list(range(inside[0], inside[-1] + 1)), "the drawing is gone through at once"
    words = [stop["words"] for stop in stops[: inside[0]]]
    assert words[0] == "Skip to the content"
    assert words.index("Builds") < words.index("Skip the drawing") < words.index("Closer")


def test_the_drawing_is_skipped_and_left_by_keys(opened: Any) -> None:
    tab = opened(reduced_motion="reduce")
    skip = tab.page.get_by_role("link", name="Skip the drawing")
    skip.focus()
    tab.page.keyboard.press("Enter")
    tab.page.keyboard.press("Tab")
    expect(tab.page.locator("#topic")).to_be_focused()
    tab.thing("guide idler").focus()
    tab.page.keyboard.press("Escape")
    expect(tab.page.locator("#board")).to_be_focused()
    tab.page.keyboard.press("Escape")
    expect(tab.page.locator("#plan")).to_be_focused()


def test_escape_closes_what_stands_open(opened: Any) -> None:
    tab = opened()
    tab.page.locator("#layers > summary").focus()
    tab.page.keyboard.press("Enter")
    tab.page.keyboard.press("Tab")
    expect(tab.page.locator('[data-layer="released"]')).to_be_focused()
    tab.page.keyboard.press("Escape")
    expect(tab.page.locator("#layers")).not_to_have_attribute("open", "")
    expect(tab.page.locator("#layers > summary")).to_be_focused()
    tab.thing("guide idler").focus()
    tab.page.keyboard.press("Enter")
    expect(tab.page.locator("#editor")).to_be_visible()
    tab.page.keyboard.press("Escape")
    expect(tab.page.locator("#editor")).to_be_hidden()
    expect(tab.thing("guide idler")).to_be_focused()


def test_what_has_the_focus_comes_into_sight(opened: Any) -> None:
    tab = opened()
    tab.page.locator("#board").focus()
    for _ in range(9):
        tab.page.keyboard.press("+")
    tab.thing("engine pulley").focus()
    tab.page.keyboard.press("Tab")
    box, board = (tab.page.locator(each).bounding_box() for each in (":focus", "#board"))
    for start, length in (("x", "width"), ("y", "height")):
        middle = box[start] + box[length] / 2
        assert board[start] < middle < board[start] + board[length]


@pytest.mark.parametrize(
    ("key", "opens"),
    [("belt.traction belt", "length"), ("obstacle.shift lever", "from height")],
)
def test_enter_on_anything_drawn_opens_its_numbers(opened: Any, key: str, opens: str) -> None:
    tab = opened()
    tab.page.locator(f'#scene [data-key="{key}"]').first.focus()
    tab.page.keyboard.press("Enter")
    expect(tab.page.locator("#editor-fields")).to_contain_text(opens)


def test_what_has_no_numbers_on_the_drawing_is_opened_under_measure(opened: Any) -> None:
    tab = opened()
    tab.page.locator('#scene [data-key="guard.engine keeper"]').first.focus()
    tab.page.keyboard.press("Enter")
    tab.page.wait_for_url("**/measure#table-guard.engine-keeper")
    expect(tab.page.locator('[id="table-guard.engine-keeper"] > summary')).to_be_focused()
    expect(tab.page.locator('[id="table-guard.engine-keeper"]')).to_have_attribute("open", "")


class Finger:
    """One finger on a touch screen."""

    def __init__(self, page: Any) -> None:
        self.session = page.context.new_cdp_session(page)

    def stroke(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Puts it down, moves it, lifts it."""
        self._touch("touchStart", *start)
        for share in (0.2, 0.4, 0.6, 0.8, 1.0):
            at = (a + share * (b - a) for a, b in zip(start, end, strict=True))
            self._touch("touchMove", *at)
        self.session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})

    def _touch(self, kind: str, x: float, y: float) -> None:
        points = [{"x": x, "y": y, "id": 1}]
        self.session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


def test_a_finger_moves_the_view_and_moves_a_thing(
    opened: Any, phone: dict[str, Any], file: Path, written: Any
) -> None:
    tab = opened(**phone)
    tab.page.reload()  # from the second page on the server knows that it is a phone
    tab.page.locator("#board").scroll_into_view_if_needed()
    finger, before = Finger(tab.page), file.read_text()
    seen = "document.querySelector('#scene > svg').viewBox.baseVal.x"
    start = tab.page.evaluate(seen)
    board = tab.page.locator("#board").bounding_box()
    x, y = board["x"] + 30, board["y"] + board["height"] - 20
    finger.stroke((x, y), (x + 60, y))
    tab.page.wait_for_function(f"was => {seen} < was - 50", arg=start)
    assert file.read_text() == before
    tab.page.get_by_role("button", name="Whole").tap()
    box, version = tab.thing("guide idler").bounding_box(), tab.version()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    finger.stroke((x, y), (x - 12, y - 8))
    tab.page.wait_for_function(
        "seen => JSON.parse(document.getElementById('build-data').textContent).version !== seen",
        arg=version,
    )
    idlers = {idler["name"]: idler.get("at") for idler in written("idler")}
    was = {idler["name"]: idler.get("at") for idler in tomllib.loads(before)["idler"]}
    assert idlers["guide idler"] != was["guide idler"]
    assert tab.page.evaluate("scrollY") < 200, "the page itself stays where it was"
