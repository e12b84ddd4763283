"""A folder with a build, and the page over it without a network in between."""

import re
import shutil
import threading
import time
import warnings
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx
import pytest
from starlette.exceptions import StarletteDeprecationWarning

from beltwright.web import pages
from beltwright.web.app import make_app
from beltwright.web.door import TOKEN_HEADER, Door
from beltwright.web.one_time_code import OneTimeCode
from beltwright.web.safety import Safety
from beltwright.web.seats import Seats
from beltwright.web.serving import Place, make_server, take_place

with warnings.catch_warnings():
    # the client works with httpx as well as with its successor, and says so with a warning
    warnings.simplefilter("ignore", StarletteDeprecationWarning)
    from starlette.testclient import TestClient

EXAMPLES = Path(__file__).parents[2] / "examples"
EXAMPLE = EXAMPLES / "orchard-hauler" / "build.toml"
BLOWER = Path(__file__).parents[1] / "blower.toml"
PORT = 8765
HERE = f"http://127.0.0.1:{PORT}"
LAN = f"http://192.168.7.20:{PORT}"


class Page:
    """A browser tab: keeps its cookie, sends its token."""

    def __init__(self, client: TestClient) -> None:
        self.client = client
        found = re.search(r'name="token" content="([0-9a-f]+)"', client.get("/").text)
        assert found is not None
        self.token = found[1]

    def get(self, address: str) -> Any:
        """What the API says, read as JSON."""
        answer = self.client.get(f"/api{address}")
        assert answer.status_code == 200, answer.text[:400]
        return answer.json()

    def post(self, address: str, body: object, expect: int = 200) -> Any:
        """Sends JSON with the token."""
        headers = {TOKEN_HEADER: self.token}
        answer = self.client.post(f"/api{address}", json=body, headers=headers)
        assert answer.status_code == expect, answer.text[:400]
        return answer.json()

    def edit(self, key: str, text: object, expect: int = 200, name: str = "orchard") -> Any:
        """Edits what stands now."""
        version = self.get(f"/builds/{name}")["version"]
        body = {"version": version, "edits": [{"key": key, "text": text}]}
        return self.post(f"/builds/{name}/edit", body, expect)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with the example in it."""
    shutil.copy(EXAMPLE, tmp_path / "orchard.toml")
    return tmp_path


@pytest.fixture(autouse=True)
def patience(monkeypatch: pytest.MonkeyPatch) -> None:
    """A loaded machine is to be waited for, but where a test asks what a page says meanwhile."""
    monkeypatch.setattr(pages, "PATIENCE", 60.0)


@pytest.fixture
def sweeper(folder: Path) -> Path:
    """A build in the folder with belts at two heights and one that stands upright."""
    file = folder / "sweeper.toml"
    file.write_text((EXAMPLES / "path-sweeper" / "build.toml").read_text() + BLOWER.read_text())
    return file


@pytest.fixture
def door() -> Door:
    """The door of a page that is open to this machine only."""
    return Door(frozenset({f"127.0.0.1:{PORT}", f"localhost:{PORT}"}), Seats(PORT))


@pytest.fixture
def app(folder: Path, door: Door) -> Safety:
    """The page for this machine."""
    return make_app(folder, door)


@pytest.fixture
def stranger(app: Safety) -> Iterator[TestClient]:
    """A browser on this machine that was not let in, as of another user."""
    with TestClient(app, HERE, client=("127.0.0.1", 50_000)) as client:
        yield client


@pytest.fixture
def client(stranger: TestClient, door: Door) -> TestClient:
    """A browser on this machine that came in with the key."""
    assert stranger.get(f"/enter?key={door.key.plain}").status_code == 200
    return stranger


@pytest.fixture
def tab(client: TestClient) -> Page:
    """A browser on this machine with the page open."""
    return Page(client)


@pytest.fixture
def lan_door() -> Door:
    """The door of a page that is open to the local network."""
    hosts = {f"127.0.0.1:{PORT}", f"192.168.7.20:{PORT}"}
    return Door(frozenset(hosts), Seats(PORT), OneTimeCode())


@pytest.fixture
def lan_app(folder: Path, lan_door: Door) -> Safety:
    """The page for the local network."""
    return make_app(folder, lan_door, LAN)


@dataclass(frozen=True)
class Served:
    """A real server: its address, and the cookie of a browser that was let in."""

    address: str
    cookies: dict[str, str]


@pytest.fixture
def let_in() -> Callable[[str], Served]:
    """Goes in by the address that the command prints."""

    def enter(entrance: str) -> Served:
        with httpx.Client(follow_redirects=True) as browser:
            seen = browser.get(entrance)
            assert "key=" not in str(seen.url)
            return Served(f"http://{seen.url.netloc.decode()}", dict(browser.cookies))

    return enter


@pytest.fixture
def place(folder: Path) -> Iterator[Place]:
    """Where a real server over the folder listens."""
    place = take_place(lan=False, port=0)
    server = make_server(folder, place)
    thread = threading.Thread(target=server.run, kwargs={"sockets": list(place.sockets)})
    thread.start()
    while not server.started:
        time.sleep(0.005)
    yield place
    server.should_exit = True
    thread.join()


@pytest.fixture
def served(place: Place, let_in: Callable[[str], Served]) -> Served:
    """A real server over the folder, and a browser's cookie for it; no build was looked at yet."""
    return let_in(place.entrance("/static/mark.svg"))
