"""The search for other parts over the page: started, watched, stopped, applied."""

import threading
import time
from pathlib import Path
from typing import Any

import pytest

from beltwright.web.door import TOKEN_HEADER
from beltwright.web.refusal import Refusal
from beltwright.web.searches import Searches

VARY = [
    {"of": "engine pulley", "what": "outside", "values": [f"{d} mm" for d in range(70, 101, 5)]},
    {"of": "traction belt", "what": "length", "values": [f"{n} in" for n in range(72, 76)]},
]


def _done(tab: Any, job: str) -> dict[str, Any]:
    while True:
        shown: dict[str, Any] = tab.get(f"/builds/orchard/choose/{job}")
        if shown["state"] != "running":
            return shown
        time.sleep(0.05)


def test_an_option_is_found_and_applied(tab: Any, folder: Path) -> None:
    tab.edit("goals", {"top_speed": "5 to 20 km/h"})
    version = tab.edit("choose.vary", VARY)["version"]
    job = tab.post("/builds/orchard/choose", {"version": version}, 202)["job"]
    shown = _done(tab, job)
    assert shown["state"] == "finished", shown["reason"]
    found = shown["found"]
    assert found["candidates"] == 8 * 5
    assert found["disposed"] == found["candidates"]
    assert found["options"], found["relaxation"]
    option = found["options"][0]
    assert set(option["shown"]) == {merit["name"] for merit in found["merits"]}
    assert all(len(column) == len(found["options"]) for column in found["trade_off"].values())
    apply = f"/builds/orchard/choose/{job}/apply"
    tab.post(apply, {"version": version, "option": len(found["options"]) + 1}, 404)
    saved = tab.post(apply, {"version": version, "option": option["number"]})
    for edit in option["edits"]:
        assert edit["text"] in saved["text"]
    stale = {"version": version, "option": option["number"]}
    if saved["version"] != version:
        tab.post(apply, stale, 409)
    assert (folder / "orchard.toml").read_text() == saved["text"]


def test_what_leaves_nothing_open_is_refused(tab: Any, folder: Path) -> None:
    file = folder / "orchard.toml"
    file.write_text(file.read_text().partition("[choose]")[0].partition("[[choose.vary]]")[0])
    version = tab.get("/builds/orchard")["version"]
    tab.post("/builds/orchard/choose", {"version": version}, 422)
    tab.post("/builds/orchard/choose", {"version": "0"}, 409)


@pytest.mark.parametrize("listed", ["../prices.csv", "/etc/passwd", "no such.csv"])
def test_a_price_list_from_elsewhere_is_not_read(tab: Any, folder: Path, listed: str) -> None:
    (folder.parent / "prices.csv").write_text("name,kind,price\nsecret,pulley,1 EUR\n")
    vary = {"of": "engine pulley", "what": "outside", "prices": True}
    version = tab.edit("choose", {"price_list": listed, "vary": [vary]})["version"]
    error = tab.post("/builds/orchard/choose", {"version": version}, 422)["error"]
    assert "secret" not in error["reason"]
    assert "root" not in error["reason"]


def test_a_search_can_be_stopped(tab: Any) -> None:
    wide = [
        {"of": name, "what": "outside", "low": "80 mm", "high": "220 mm", "step": "0.1 mm"}
        for name in ("engine pulley", "input pulley", "guide idler")
    ]
    version = tab.edit("choose.vary", wide)["version"]
    job = tab.post("/builds/orchard/choose", {"version": version}, 202)["job"]
    second = tab.post("/builds/orchard/choose", {"version": version}, 409)
    assert "running" in second["error"]["reason"]
    tab.post(f"/builds/orchard/choose/{job}/apply", {"version": version, "option": 1}, 409)
    headers = {TOKEN_HEADER: tab.token}
    assert tab.client.delete(f"/api/builds/orchard/choose/{job}").status_code == 403
    stopped = tab.client.delete(f"/api/builds/orchard/choose/{job}", headers=headers)
    assert stopped.status_code == 200
    shown = _done(tab, job)
    assert shown["state"] == "stopped"
    assert not shown["found"]["finished"]


def test_a_search_that_breaks_off_says_so_and_lets_the_next_one_start() -> None:
    searches = Searches()

    def breaks(_report: object, _stopping: threading.Event) -> None:
        raise RuntimeError("the saw is blunt")

    search = searches.start("cart", "v", "options", breaks)
    deadline = time.monotonic() + 5.0
    while search.state == "running" and time.monotonic() < deadline:
        time.sleep(0.001)
    assert (search.state, search.reason) == ("failed", "the saw is blunt")
    again = searches.start("cart", "v", "options", lambda _report, _stopping: "found")
    assert searches.find("cart", again.id, "options") is again
    for build, what in (("another", "options"), ("cart", "idler")):
        with pytest.raises(Refusal):
            searches.find(build, again.id, what)
