"""Runs the page: on this machine only, or on the local network with a code."""

import gc
import socket
import threading
import time
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

from beltwright.web.door import ENTRANCE, Door
from beltwright.web.local_network import local_address
from beltwright.web.one_time_code import OneTimeCode
from beltwright.web.seats import Seats

if TYPE_CHECKING:
    import uvicorn

LOOPBACK = "127.0.0.1"
USUAL_PORT = 8765
"""Tried first, so that a bookmark keeps working; any free one is taken where it is in use."""

MOST_CONNECTIONS = 128
"""Twenty pages with a few lines each; more is not a shop."""


BACKLOG = 128


class CannotServeError(Exception):
    """The page can't be served as asked."""


@dataclass(frozen=True)
class Place:
    """Where the page listens, and who gets in."""

    sockets: tuple[socket.socket, ...]
    port: int
    door: Door
    lan_address: str = ""

    @property
    def address(self) -> str:
        """The address for a browser on this machine."""
        return f"http://{LOOPBACK}:{self.port}"

    @property
    def code(self) -> str:
        """The code for the next phone, "" where none gets in."""
        return self.door.code.shown if self.door.code else ""

    def entrance(self, to: str = "/") -> str:
        """The address that lets one browser in, to a page."""
        return f"{self.address}{ENTRANCE}?key={self.door.key.plain}&to={quote(to)}"

    def landing(self, file: Path) -> str:
        """The address that lets one browser in, to one build's page."""
        return self.entrance(f"/b/{quote(file.stem)}")


def take_place(lan: bool, port: int | None = None) -> Place:
    """Takes a port on this machine, with `lan` also on its address in the local network."""
    first = _listening_socket(LOOPBACK, port)
    taken = int(first.getsockname()[1])
    hosts = {f"{LOOPBACK}:{taken}", f"localhost:{taken}"}
    seats = Seats(taken)
    if not lan:
        return Place((first,), taken, Door(frozenset(hosts), seats))
    address = local_address()
    if address is None:
        first.close()
        raise CannotServeError("This machine is on no local network. Join one, or leave out --lan.")
    second = _bound(address, taken)
    door = Door(frozenset(hosts | {f"{address}:{taken}"}), seats, OneTimeCode())
    return Place((first, second), taken, door, f"http://{address}:{taken}")


def make_server(folder: Path, place: Place) -> "uvicorn.Server":
    """The server for a folder; it logs no addresses, because a code may stand in one."""
    import uvicorn

    from beltwright.web.app import make_app

    config = uvicorn.Config(
        make_app(folder, place.door, place.lan_address),
        http="h11",
        ws="none",
        log_level="warning",
        access_log=False,
        proxy_headers=False,
        server_header=False,
        limit_concurrency=MOST_CONNECTIONS,
        timeout_graceful_shutdown=1,
    )
    return uvicorn.Server(config)


def serve(server: "uvicorn.Server", place: Place, then: Callable[[], None]) -> None:
    """Serves until stopped; `then` is called once the page answers.

    What was loaded so far stays for good, so the garbage collector need not look at it again:
    its looks through all modules would hold up one drag in twenty.
    """
    gc.freeze()
    threading.Thread(target=_once_started, args=(server, then), daemon=True).start()
    server.run(sockets=list(place.sockets))


def open_browser(address: str) -> None:
    """Opens the page in the browser that the machine uses."""
    webbrowser.open(address)


def _once_started(server: "uvicorn.Server", then: Callable[[], None]) -> None:
    while not server.started and not server.should_exit:
        time.sleep(0.005)
    if server.started:
        then()


def _listening_socket(host: str, port: int | None) -> socket.socket:
    if port is not None:
        return _bound(host, port)
    try:
        return _bound(host, USUAL_PORT)
    except CannotServeError:
        return _bound(host, 0)


def _bound(host: str, port: int) -> socket.socket:
    # named as TCP, or asyncio would let Nagle's algorithm hold short answers back for 40 ms
    bound = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        bound.bind((host, port))
        bound.listen(BACKLOG)
    except (OSError, OverflowError):
        bound.close()
        raise CannotServeError(f"Port {port} can't be had. Leave --port out.") from None
    return bound
