"""`beltwright open`: what it says, what it refuses."""

import signal
import socket
import subprocess
import sys
from pathlib import Path

import httpx
import pytest

from beltwright.cli import main
from beltwright.web.serving import LOOPBACK, CannotServeError, take_place

RUN = "import sys; from beltwright.cli import main; sys.exit(main())"


def test_it_says_where_the_page_is_lets_browsers_in_and_stops_when_told(folder: Path) -> None:
    command = [sys.executable, "-c", RUN, "open", str(folder / "orchard.toml"), "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as server:
        assert server.stdout is not None
        first = server.stdout.readline().decode().split()[-1]
        assert _came_in(first)
        assert not _came_in(first)
        assert b"one browser" in server.stdout.readline()
        assert _came_in(server.stdout.readline().decode().split()[-1])
        server.send_signal(signal.SIGINT)
        _, errors = server.communicate(timeout=10)
    assert errors.decode() in {"", "Stopped.\n"}


def _came_in(address: str) -> bool:
    with httpx.Client(follow_redirects=True) as browser:
        page = browser.get(address)
        while page.status_code == 202:  # a loaded machine is still at the review
            page = browser.get(str(page.url))
        return page.status_code == 200 and "Orchard crate hauler" in page.text


def test_no_secret_and_no_address_is_logged(folder: Path) -> None:
    command = [sys.executable, "-c", RUN, "open", str(folder), "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT) as server:
        assert server.stdout is not None
        way_in = server.stdout.readline().decode().split()[-1]
        assert _came_in(way_in)
        address = way_in.partition("/enter")[0]
        httpx.get(f"{address}/enter?code=SECRET23")
        httpx.get(f"{address}/enter?key=SECRET45")
        httpx.get(f"{address}/api/nothing")
        server.send_signal(signal.SIGINT)
        rest, _ = server.communicate(timeout=10)
    assert b"SECRET" not in rest
    assert b"GET" not in rest
    assert way_in.partition("key=")[2].partition("&")[0].encode() not in rest


@pytest.mark.parametrize("where", ["no such folder", "orchard.toml/deeper"])
def test_a_folder_that_is_not_there_is_refused(
    folder: Path, where: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["open", str(folder / where), "--no-browser"]) == 2
    assert "There is no folder" in capsys.readouterr().err


@pytest.mark.parametrize("port", ["1", "70000", "-1"])
def test_a_port_that_cant_be_had_is_refused(
    folder: Path, port: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def in_use(*_: object) -> None:
        raise OSError

    if port == "1":
        monkeypatch.setattr(socket.socket, "bind", in_use)
    assert main(["open", str(folder), "--no-browser", "--port", port]) == 2
    assert "can't be had" in capsys.readouterr().err


def test_it_listens_on_this_machine_only() -> None:
    place = take_place(lan=False, port=0)
    assert [each.getsockname()[0] for each in place.sockets] == [LOOPBACK]
    assert place.door.code is None
    for each in place.sockets:
        # asyncio sends short answers at once only where the socket says that it is TCP
        assert each.proto == socket.IPPROTO_TCP
        each.close()


def test_two_starts_take_two_ports() -> None:
    places = [take_place(lan=False), take_place(lan=False)]
    assert len({place.port for place in places}) == 2
    for place in places:
        for each in place.sockets:
            each.close()


def test_without_a_network_there_is_no_page_for_phones(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("beltwright.web.serving.local_address", lambda: None)
    with pytest.raises(CannotServeError, match="no local network"):
        take_place(lan=True, port=0)


def test_for_phones_it_listens_on_the_local_address_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("beltwright.web.serving.local_address", lambda: "127.0.0.2")
    place = take_place(lan=True, port=0)
    assert [each.getsockname()[0] for each in place.sockets] == [LOOPBACK, "127.0.0.2"]
    assert f"127.0.0.2:{place.port}" in place.door.hosts
    assert place.code
    for each in place.sockets:
        each.close()
