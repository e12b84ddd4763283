"""What is too large, too slow, or not what it says it is."""

import socket
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from beltwright.web import safety
from beltwright.web.door import TOKEN_HEADER
from beltwright.web.safety import Bound, Safety


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", ""])
def test_only_json_is_taken(tab: Any, kind: str) -> None:
    headers = {TOKEN_HEADER: tab.token, "Content-Type": kind}
    answer = tab.client.post("/api/builds", content=b'{"name": "x"}', headers=headers)
    assert answer.status_code == 415


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"[]",
        b"null",
        b'{"name": 3}',
        b'{"name": ""}',
        b'{"name": "x", "other": 1}',
        b'{"name": "\\ud800"}',
        b"\xff\xfe",
        b'{"name": NaN}',
        b"[" * 100_000,
    ],
)
def test_json_that_is_not_asked_for_is_refused(tab: Any, folder: Path, body: bytes) -> None:
    headers = {TOKEN_HEADER: tab.token, "Content-Type": "application/json"}
    answer = tab.client.post("/api/builds", content=body, headers=headers)
    assert answer.status_code == 422
    assert answer.json()["error"]["problems"]
    assert [file.name for file in folder.glob("*.toml")] == ["orchard.toml"]


def _pieces(count: int) -> Iterator[bytes]:
    for _ in range(count):
        yield b" " * 65_536


def test_a_body_over_the_bound_is_refused_before_it_is_read(tab: Any) -> None:
    headers = {TOKEN_HEADER: tab.token, "Content-Type": "application/json"}
    declared = {**headers, "Content-Length": str(10**12)}
    answer = tab.client.post("/api/builds", content=b"{}", headers=declared)
    assert answer.status_code == 413


def test_a_body_that_does_not_say_its_size_is_cut_off(served: Any) -> None:
    """Sent in pieces without a length, as a careless or hostile sender would."""
    answer = _raw(served, _pieces(safety.WORDS.size // 65_536 + 2), pause=0.0)
    assert b" 413 " in answer.splitlines()[0]


def test_a_body_that_trickles_in_is_cut_off(served: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Safety, "bound_for", lambda *_: Bound(safety.WORDS.size, 0.2))
    begun = time.monotonic()
    answer = _raw(served, (b" " for _ in range(100)), pause=0.05)
    assert b" 408 " in answer.splitlines()[0]
    assert time.monotonic() - begun < 4.0


def _raw(served: Any, pieces: Iterator[bytes], pause: float) -> bytes:
    """Sends a chunked body piece by piece until the server answers; gives the answer."""
    host = served.address.removeprefix("http://")
    name, port = host.split(":")
    with socket.create_connection((name, int(port)), 10) as line:
        cookie = "; ".join(f"{name}={value}" for name, value in served.cookies.items())
        token = _token(line, host, cookie)
        line.sendall(
            (
                f"POST /api/builds HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n"
                f"{TOKEN_HEADER}: {token}\r\nContent-Type: application/json\r\n"
                "Transfer-Encoding: chunked\r\n\r\n"
            ).encode()
        )
        line.setblocking(False)
        answer = b""
        for piece in pieces:
            answer = _peek(line)
            if answer:
                break
            line.setblocking(True)
            try:
                line.sendall(b"%x\r\n%b\r\n" % (len(piece), piece))
            except (BrokenPipeError, ConnectionResetError):
                break
            time.sleep(pause)
            line.setblocking(False)
        line.setblocking(True)
        return answer or line.recv(65_536)


def _peek(line: socket.socket) -> bytes:
    try:
        return line.recv(65_536)
    except BlockingIOError:
        return b""


def _token(line: socket.socket, host: str, cookie: str) -> str:
    """The token of a page that was just loaded."""
    line.sendall(f"GET / HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n\r\n".encode())
    page = b""
    while b"</html>" not in page:
        page += line.recv(65_536)
    return page.decode().partition('name="token" content="')[2].partition('"')[0]


@pytest.mark.parametrize(
    "name",
    [
        "../orchard",
        "..",
        ".",
        "a/b",
        "a\\b",
        "/etc/passwd",
        ".hidden",
        "a\0b",
        "con",
        "NUL.x",
        "x" * 61,
        " x",
        "x.",
        "",
        "\u202eevil",
        "a\nb",
    ],
)
def test_no_name_leads_out_of_the_folder(tab: Any, folder: Path, name: str) -> None:
    version = tab.get("/builds/orchard")["version"]
    everything = set(folder.parent.rglob("*"))
    tab.post("/builds", {"name": name}, 422)
    tab.post("/builds/orchard/duplicate", {"version": version, "name": name}, 422)
    assert set(folder.parent.rglob("*")) == everything


@pytest.mark.parametrize(
    "path",
    [
        "/api/builds/..%2f..%2fetc%2fpasswd",
        "/api/builds/%2e%2e",
        "/api/builds/.beltwright",
        "/api/builds/orchard/history/..%2f..%2forchard",
        "/static/../app.py",
        "/static/%2e%2e/app.py",
        "/static/..%2fapp.py",
        "/b/..%2forchard/check",
        "/b/orchard/..%2fcheck",
        "/api/builds/%00",
    ],
)
def test_no_address_leads_out_of_the_folder(client: TestClient, folder: Path, path: str) -> None:
    (folder.parent / "secret.toml").write_text("format = 1\n")
    assert client.get(path).status_code == 404


def test_a_link_out_of_the_folder_is_not_followed(tab: Any, folder: Path, tmp_path: Path) -> None:
    outside = tmp_path.parent / f"{tmp_path.name}-outside.toml"
    outside.write_text('format = 1\nname = "outside"\n')
    (folder / "linked.toml").symlink_to(outside)
    assert [row["name"] for row in tab.get("/builds")] == ["orchard"]
    tab.post("/builds", {"name": "linked"}, 409)
    assert outside.read_text() == 'format = 1\nname = "outside"\n'


def test_a_name_is_taken_once(tab: Any, folder: Path) -> None:
    made = tab.post("/builds", {"name": "second cart"}, 201)
    assert made["name"] == "second cart"
    assert made["problems"] == []
    tab.post("/builds", {"name": "second cart"}, 409)
    version = tab.get("/builds/orchard")["version"]
    copy = tab.post("/builds/orchard/duplicate", {"version": version, "name": "third"}, 201)
    assert copy["text"] == (folder / "orchard.toml").read_text()
    tab.post("/builds/orchard/duplicate", {"version": version, "name": "third"}, 409)


def test_builds_in_folders_of_their_own_are_found(tab: Any, folder: Path) -> None:
    for name in ("orchard", "other"):
        (folder / name).mkdir()
        (folder / name / "build.toml").write_text((folder / "orchard.toml").read_text())
    (folder / "pyproject.toml").write_text("[tool]\n")
    names = [row["name"] for row in tab.get("/builds")]
    assert names == ["orchard", "orchard (folder)", "other"]
    assert tab.edit("story", "new", name="other")["file"] == "other/build.toml"
