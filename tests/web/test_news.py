"""Pages hear of every change, whoever made it."""

import asyncio
import json
import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import Queue
from typing import Any

import httpx
import pytest

from beltwright.build.saving import version_of
from beltwright.web.door import TOKEN_HEADER
from beltwright.web.news import News

SOON = 5.0
"""Ten looks at the file; a slow machine may miss a few."""


def _listen(served: Any, heard: "Queue[str]", most: int) -> None:
    """Passes on each new version, until so many were heard."""
    versions: list[str] = []
    address = f"{served.address}/api/builds/orchard/events"
    with httpx.stream("GET", address, cookies=served.cookies, timeout=30.0) as events:
        for line in events.iter_lines():
            if not line.startswith("data:"):
                continue
            version = json.loads(line[5:])["version"]
            if version not in versions:
                versions.append(version)
                heard.put(version)
            if len(versions) == most:
                return


def test_a_page_hears_what_an_editor_and_another_page_changed(served: Any, folder: Path) -> None:
    heard: Queue[str] = Queue()
    listener = threading.Thread(target=_listen, args=(served, heard, 3))
    listener.start()
    file = folder / "orchard.toml"
    first = heard.get(timeout=SOON)
    assert first == version_of(file.read_text())
    file.write_text(file.read_text() + "# by an editor\n")
    second = heard.get(timeout=SOON)
    assert second == version_of(file.read_text())
    with httpx.Client(base_url=served.address, cookies=served.cookies) as other:
        token = other.get("/").text.partition('name="token" content="')[2].partition('"')[0]
        body = {"version": second, "edits": [{"key": "story", "text": "by a page"}]}
        answer = other.post("/api/builds/orchard/edit", json=body, headers={TOKEN_HEADER: token})
        assert answer.status_code == 200
        assert heard.get(timeout=SOON) == answer.json()["version"]
    listener.join(SOON)
    assert not listener.is_alive()


def test_who_lags_hears_only_the_last_news() -> None:
    async def listen() -> list[str | None]:
        news = News()
        heard = news.listen("cart", heartbeat=0.01)
        first = await anext(heard)
        for version in ("a", "b", "c"):
            news.tell("cart", version)
            news.tell("another", version)
        said = [first, await anext(heard), await anext(heard)]
        await heard.aclose()
        assert news.listeners("cart") == 0
        return said

    # a thread of its own: the browser's tests leave a running loop in this one
    with ThreadPoolExecutor(1) as aside:
        assert aside.submit(lambda: asyncio.run(listen())).result() == [None, "c", None]


@pytest.mark.parametrize("address", ["/api/builds/nothing/events", "/api/builds/nothing"])
def test_there_is_no_news_of_what_is_not_there(served: Any, address: str) -> None:
    answer = httpx.get(f"{served.address}{address}", cookies=served.cookies)
    assert answer.status_code == 404
    assert answer.json()["error"]["status"] == 404
