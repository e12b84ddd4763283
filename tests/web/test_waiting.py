"""A review that takes long says so, and its page comes by itself."""

import threading
from pathlib import Path
from typing import Any

import pytest

from beltwright.review.review import Review, review
from beltwright.web import pages, standing


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> threading.Event:
    """Holds every review back until it is set, as very many parts in the belt's way would."""
    go_on = threading.Event()

    def slow(*given: Any) -> Review:
        go_on.wait(30.0)
        return review(*given)

    monkeypatch.setattr(standing, "review", slow)
    monkeypatch.setattr(pages, "PATIENCE", 0.2)
    return go_on


def test_a_page_whose_review_takes_long_says_so_and_comes(
    client: Any, held: threading.Event
) -> None:
    first = client.get("/b/orchard/check")
    assert first.status_code == 202
    assert "is being worked out" in first.text
    held.set()
    while (page := client.get("/b/orchard/check")).status_code == 202:
        pass
    assert page.status_code == 200
    assert "Stopping distance from top speed" in page.text


def test_what_a_script_asks_for_is_waited_for(client: Any, held: threading.Event) -> None:
    threading.Timer(0.6, held.set).start()
    answer = client.get("/b/orchard/check", headers={"HX-Request": "true"})
    assert answer.status_code == 200


def test_a_build_that_is_not_there_is_told_at_once(client: Any, held: threading.Event) -> None:
    assert client.get("/b/nothing/check").status_code == 404
    held.set()


def test_a_file_that_goes_away_meanwhile_is_told_on_the_next_look(
    client: Any, held: threading.Event, folder: Path
) -> None:
    assert client.get("/b/orchard/check").status_code == 202
    (folder / "orchard.toml").unlink()
    held.set()
    assert client.get("/b/orchard/check").status_code == 404
