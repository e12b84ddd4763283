"""The drawing under mouse, finger and keys."""

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Response, expect

pytestmark = pytest.mark.browser

ROOM = "clearance.traction belt.steering shaft"


def _guide(file: Path) -> list[str]:
    idlers = tomllib.loads(file.read_text())["idler"]
    at: list[str] = next(idler["at"] for idler in idlers if idler["name"] == "guide idler")
    return at


def _over_the_steering_shaft(file: Path) -> tuple[float, float]:
    """How far the guide idler goes to press the belt 5 mm into the steering shaft below it."""
    build = tomllib.loads(file.read_text())
    shaft = next(part for part in build["obstacle"] if part["name"] == "steering shaft")
    idler = next(idler for idler in build["idler"] if idler["name"] == "guide idler")
    xs, ys = zip(*((_millimetres(x), _millimetres(y)) for x, y in shaft["outline"]), strict=True)
    x, y = map(_millimetres, idler["at"])
    radius = _millimetres(idler["outside"]) / 2
    return (min(xs) + max(xs)) / 2 - x, max(ys) + radius - 5 - y


def _millimetres(text: str) -> float:
    found = re.match(r"-?[\d.]+", text)
    assert found is not None
    return float(found[0])


def test_a_drag_into_an_obstacle_turns_the_finding_and_undo_turns_it_back(
    opened: Any, file: Path
) -> None:
    before, x = file.read_text(), _millimetres(_guide(file)[0])
    tab = opened()
    expect(tab.finding(ROOM)).not_to_have_attribute("data-verdict", "stop")
    forward, left = _over_the_steering_shaft(file)
    tab.drag("guide idler", forward, left)
    expect(tab.page.locator("#live")).to_contain_text("guide idler at")
    expect(tab.page.locator("#live")).to_contain_text("worse")
    assert file.read_text() == before, "nothing is saved while it is held"
    tab.drop()
    expect(tab.finding(ROOM)).to_have_attribute("data-verdict", "stop")
    expect(tab.page.locator("#changes")).to_contain_text("steering shaft")
    assert _millimetres(_guide(file)[0]) == pytest.approx(x + forward, abs=2)
    assert "±" in _guide(file)[0]
    tab.page.keyboard.press("Control+z")
    expect(tab.page.locator("#redo")).to_be_enabled()
    expect(tab.finding(ROOM)).not_to_have_attribute("data-verdict", "stop")
    assert file.read_text() == before
    tab.page.keyboard.press("Control+Shift+z")
    expect(tab.finding(ROOM)).to_have_attribute("data-verdict", "stop")


def test_while_it_moves_only_what_moves_is_drawn_and_all_is_told_once_the_hand_rests(
    opened: Any,
) -> None:
    tab = opened()
    answers: list[dict[str, Any]] = []

    def hear(answer: Response) -> None:
        if "/try" in answer.url:
            answers.append(answer.json())

    tab.page.on("response", hear)
    tab.drag("guide idler", 30, 0)
    wrap = tab.page.locator('.finding[data-topic="Belt"].changing')
    expect(wrap.first).to_be_visible()
    moved = tab.page.locator('#scene [data-name="guide idler"]').get_attribute("transform")
    tab.page.keyboard.press("Escape")
    assert answers[0]["groups"].keys() & {"pulleys", "driving"}
    assert answers[0]["scene"] == ""
    assert answers[0]["changes"] is None
    assert len({row["topic"] for row in answers[-1]["changes"]}) > 2
    assert moved is None, "it was drawn where the hand holds it"


def test_what_comes_back_to_its_place_is_drawn_as_it_stood(opened: Any) -> None:
    tab = opened()
    groups = "[...document.querySelectorAll('#scene g[id]')].map(group => group.outerHTML)"
    stood = tab.page.evaluate(groups)
    box = tab.thing("guide idler").bounding_box()
    tab.drag("guide idler", 120, 0)
    expect(tab.page.locator('.finding[data-topic="Belt"].changing').first).to_be_visible()
    assert tab.page.evaluate(groups) != stood
    tab.page.mouse.move(box["x"] + box["width"] / 2 + 4, box["y"] + box["height"] / 2 + 4)
    tab.page.wait_for_function(f"stood => {groups}.join() === stood.join()", arg=stood)


def test_a_drag_snaps_to_the_step_that_is_chosen(opened: Any, file: Path) -> None:
    tab = opened()
    tab.page.locator("#step").select_option("10")
    tab.drag("guide idler", 7, 0)
    tab.drop()
    assert _millimetres(_guide(file)[0]) % 10 == 0


def test_every_kind_of_thing_can_be_dragged(opened: Any, file: Path) -> None:
    tab = opened()
    for name in ("engine pulley", "pivot of the clutch idler"):
        before = file.read_text()
        tab.drag(name, 6, 6)
        tab.drop()
        expect(tab.page.locator("#live")).to_be_hidden()
        assert file.read_text() != before


def test_escape_puts_back_what_the_arrow_keys_moved(opened: Any, file: Path) -> None:
    before = file.read_text()
    tab = opened()
    tab.thing("guide idler").focus()
    tab.page.keyboard.press("ArrowRight")
    expect(tab.page.locator("#live")).to_be_visible()
    tab.page.keyboard.press("Escape")
    expect(tab.page.locator("#live")).to_be_hidden()
    expect(tab.page.locator(".finding.changing")).to_have_count(0)
    tab.page.wait_for_timeout(1_100)
    assert file.read_text() == before


def test_keys_alone_reach_a_thing_move_it_and_type_its_place(opened: Any, file: Path) -> None:
    x, y = map(_millimetres, _guide(file))
    tab = opened()
    tab.page.locator("#board").focus()
    for _ in range(40):
        tab.page.keyboard.press("Tab")
        if tab.page.evaluate("document.activeElement.dataset.name") == "guide idler":
            break
    tab.page.keyboard.press("ArrowRight")
    tab.page.keyboard.press("Shift+ArrowUp")
    tab.expect_saved()
    assert [_millimetres(at) for at in _guide(file)] == [x + 1, y + 10]
    expect(tab.thing("guide idler")).to_be_focused()
    tab.page.keyboard.press("Enter")
    expect(tab.page.locator("#edit-0")).to_be_focused()
    tab.page.keyboard.type("17 1/4 in")
    tab.page.keyboard.press("Enter")
    expect(tab.page.locator("#editor")).to_be_hidden()
    assert _guide(file)[0].startswith("17 1/4 in ±")


def test_a_bad_unit_is_told_beside_the_number_and_nothing_is_written(
    opened: Any, file: Path
) -> None:
    before = file.read_text()
    tab = opened()
    tab.thing("guide idler").focus()
    tab.page.keyboard.press("Enter")
    tab.page.locator("#edit-1").fill("124 stone")
    tab.page.keyboard.press("Enter")
    expect(tab.page.locator("#editor-error")).to_contain_text("stone")
    expect(tab.page.locator("#edit-1")).to_have_attribute("aria-invalid", "true")
    assert file.read_text() == before


def test_a_dimension_is_edited_where_it_stands(opened: Any, file: Path) -> None:
    tab = opened()
    tab.page.locator('#names [data-key="idler.guide idler.outside"] text').click()
    box = tab.page.locator("#editor").bounding_box()
    name = tab.page.locator('#names [data-key="idler.guide idler.outside"]').bounding_box()
    assert abs(box["x"] - name["x"] - name["width"]) < 40
    tab.page.locator("#edit-0").fill("72 mm")
    tab.page.locator("#edit-0 ~ .tolerance").fill("1/32 in")
    tab.page.keyboard.press("Enter")
    tab.expect_saved()
    assert 'outside = "72 mm ± 1/32 in"' in file.read_text()


def test_what_is_pointed_at_says_what_it_measures(opened: Any, file: Path) -> None:
    x, y = _guide(file)
    tab = opened()
    tip = tab.page.locator("#tip")
    tab.thing("guide idler").hover()
    expect(tip).to_contain_text(f"guide idler: x {x}, y {y}, outside ")
    tab.page.mouse.move(2, 2)
    expect(tip).to_be_hidden()
    tab.thing("engine pulley").focus()
    expect(tip).to_contain_text("engine pulley: x ")


def test_wheel_and_keys_change_what_is_seen(opened: Any) -> None:
    tab = opened()

    def width() -> float:
        seen: float = tab.page.evaluate(
            "document.querySelector('#scene > svg').viewBox.baseVal.width"
        )
        return seen

    whole = width()
    tab.page.locator("#board").hover()
    tab.page.mouse.wheel(0, -400)
    tab.page.wait_for_function(
        "was => document.querySelector('#scene > svg').viewBox.baseVal.width < was", arg=whole
    )
    tab.page.locator("#board").focus()
    closer = width()
    tab.page.keyboard.press("-")
    assert width() > closer
    tab.page.keyboard.press("0")
    assert width() == pytest.approx(whole)


def test_a_balloon_opens_its_finding_and_points_at_it(opened: Any) -> None:
    tab = opened()
    balloon = tab.page.locator("#balloons [data-finding]").first
    id_ = balloon.get_attribute("data-finding")
    balloon.locator("text").click()
    row = tab.finding(id_)
    expect(row.locator("details").first).to_have_attribute("open", "")
    expect(row).to_be_in_viewport()
    row.locator("summary").first.hover()
    expect(tab.page.locator(f'#balloons [data-finding="{id_}"]')).to_have_class(
        re.compile("pointed")
    )


def test_a_thumb_beside_a_pulley_still_means_it(opened: Any, phone: dict[str, Any]) -> None:
    tab = opened(**phone)
    tab.page.reload()  # from the second page on the server knows that it is a phone
    tab.page.locator("#scene").scroll_into_view_if_needed()
    box = tab.thing("guide idler").bounding_box()
    tab.page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2 - 10)
    expect(tab.page.locator("#editor")).to_be_visible()
    expect(tab.page.locator("#editor h2")).to_have_text("guide idler")


def test_two_fingers_bring_the_drawing_closer(opened: Any, phone: dict[str, Any]) -> None:
    tab = opened(**phone)
    fingers = tab.page.context.new_cdp_session(tab.page)
    tab.page.locator("#board").scroll_into_view_if_needed()
    box = tab.page.locator("#board").bounding_box()
    x, y = box["x"] + 150, box["y"] + 60
    before = tab.page.evaluate("document.querySelector('#scene > svg').viewBox.baseVal.width")

    def touch(kind: str, apart: float) -> None:
        points = [{"x": x - apart, "y": y, "id": 1}, {"x": x + apart, "y": y, "id": 2}]
        given = [] if kind == "touchEnd" else points
        fingers.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": given})

    touch("touchStart", 20)
    for apart in (30, 40, 60):
        touch("touchMove", apart)
    touch("touchEnd", 60)
    tab.page.wait_for_function(
        "was => document.querySelector('#scene > svg').viewBox.baseVal.width < was / 1.8",
        arg=before,
    )


def test_a_thing_goes_with_the_hand_before_the_rest_is_worked_out(opened: Any) -> None:
    tab = opened()
    tab.page.route("**/try*", lambda _: None)  # the answer never comes
    before = tab.thing("guide idler").bounding_box()
    tab.drag("guide idler", 40.0, 25.0)
    after = tab.thing("guide idler").bounding_box()
    pixels = tab.page.evaluate("document.querySelector('#scene > svg').getScreenCTM().a")
    assert after["x"] - before["x"] == pytest.approx(40.0 * pixels, abs=1.0 * pixels + 0.5)
    assert before["y"] - after["y"] == pytest.approx(25.0 * pixels, abs=1.0 * pixels + 0.5)
    tab.page.keyboard.press("Escape")
    tab.page.mouse.up()
    again = tab.thing("guide idler").bounding_box()
    assert (again["x"], again["y"]) == pytest.approx((before["x"], before["y"]), abs=0.5)
