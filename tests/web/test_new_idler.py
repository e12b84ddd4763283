"""The search for a place for one more idler over the page: started, watched, shown, put in."""

import time
import tomllib
from pathlib import Path
from typing import Any

import pytest

from beltwright.options import new_idler
from beltwright.web.door import TOKEN_HEADER

AT = "/builds/orchard/new-idler"
BELT = "traction belt"


@pytest.fixture(autouse=True)
def coarse(monkeypatch: pytest.MonkeyPatch) -> None:
    """Larger steps, so that the tests are quick."""
    defaults = new_idler.new_idler.__defaults__
    assert defaults is not None
    monkeypatch.setattr(
        new_idler.new_idler, "__defaults__", (*defaults[:-3], 0.012, *defaults[-2:])
    )


def _begun(tab: Any, outside: str = "") -> tuple[str, str]:
    version = tab.get("/builds/orchard")["version"]
    body = {"version": version, "belt": BELT, "outside": outside}
    return version, tab.post(AT, body, 202)["job"]


def _done(tab: Any, job: str) -> dict[str, Any]:
    while True:
        shown: dict[str, Any] = tab.get(f"{AT}/{job}")
        if shown["state"] != "running":
            return shown
        time.sleep(0.05)


def test_places_are_found_shown_and_put_in(tab: Any, folder: Path) -> None:
    before = (folder / "orchard.toml").read_text()
    version, job = _begun(tab, " 80 mm ")
    shown = _done(tab, job)
    assert shown["state"] == "finished", shown["reason"]
    found = shown["found"]
    assert found["outside"] == "80 mm"
    assert found["says"][-1] == "Places narrower than 12 mm may have been missed."
    place = found["places"][0]
    assert place["title"].startswith(f"After the {place['after']}")
    assert any("the hole may be" in line for line in place["says"])
    laid = tab.get(f"{AT}/{job}/places/1")
    assert 'id="idler-map"' in laid["scene"]
    assert laid["seen_from"] == "above"
    error = tab.post(f"{AT}/{job}/apply", {"version": version, "option": 99}, 404)["error"]
    assert "no place 99" in error["reason"]
    saved = tab.post(f"{AT}/{job}/apply", {"version": version, "option": 1})
    values = tomllib.loads(saved["text"])
    assert values["idler"][-1]["at"] == place["at"]
    run = values["belt"][0]["run"]
    assert run[run.index("new idler") - 1] == place["after"]
    undone = tab.post("/builds/orchard/undo", {"version": saved["version"]})
    assert undone["text"] == before
    tab.post(f"{AT}/{job}/apply", {"version": "0", "option": 1}, 409)


@pytest.mark.parametrize(
    ("belt", "outside", "status"),
    [(BELT, "wide", 422), (BELT, "-3 in", 422), ("fan belt", "", 404)],
)
def test_what_can_not_be_looked_for_is_refused(
    tab: Any, belt: str, outside: str, status: int
) -> None:
    version = tab.get("/builds/orchard")["version"]
    error = tab.post(AT, {"version": version, "belt": belt, "outside": outside}, status)["error"]
    assert (outside or belt) in error["reason"]
    tab.post(AT, {"version": "0", "belt": BELT}, 409)


def test_it_can_be_stopped_and_is_no_search_for_options(tab: Any) -> None:
    version, job = _begun(tab)
    tab.post(f"{AT}/{job}/apply", {"version": version, "option": 1}, 409)
    assert tab.client.get(f"/api/builds/orchard/choose/{job}").status_code == 404
    stopped = tab.client.delete(f"/api{AT}/{job}", headers={TOKEN_HEADER: tab.token})
    assert stopped.status_code == 200
    shown = _done(tab, job)
    assert shown["state"] == "stopped"
    assert not shown["found"]["finished"]
