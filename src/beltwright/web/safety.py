"""What stands between the network and the page: the door, bounds on what is sent, safe headers."""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import HTTPConnection
from starlette.responses import RedirectResponse, Response
from starlette.types import Message, Receive, Scope, Send

from beltwright.web.door import ENTRANCE, READS, Door
from beltwright.web.refusal import Refusal, as_json

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "connect-src 'self'",
        "manifest-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
"""Nothing from anywhere else, nothing written into the page as a script."""

HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
    "Cache-Control": "no-store",
}


@dataclass(frozen=True)
class Bound:
    """How much may be sent, and how long sending may take."""

    size: int
    seconds: float


WORDS = Bound(2 * 1024 * 1024, 15.0)
"""Edits and forms: a build file is at most 1 MiB, escaped in JSON at most twice that."""

FILE = Bound(24 * 1024 * 1024, 60.0)
"""A photo of a 12-megapixel phone is 3 to 8 MB, a minute of sound 5 to 10 MB; a slow shop network
takes half a minute."""

FILES = ("/photo", "/recording")
"""Ends of the addresses that take a file."""


class Safety:
    """Wraps the application."""

    def __init__(self, app: Starlette, door: Door) -> None:
        self.app = app
        self.door = door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuses, or passes on with bounds and headers."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            await send({"type": "websocket.close", "code": 1008})
            return
        method = scope["method"]
        bound = self.bound_for(scope["path"])
        refused = self.door.refusal(HTTPConnection(scope), method) or _too_large(scope, bound)
        send = _with_headers(send, scope["path"])
        if refused is not None:
            await _answer(refused, scope)(scope, receive, send)
            return
        await self.app(scope, receive if method in READS else _bounded(receive, bound), send)

    def bound_for(self, path: str) -> Bound:
        """What may be sent to an address."""
        return FILE if path.endswith(FILES) else WORDS


def _answer(refused: Refusal, scope: Scope) -> Response:
    """The refusal; who follows the address from the screen is led to the entrance."""
    if refused.status_code == 401 and not scope["path"].startswith("/api"):
        asked = HTTPConnection(scope).url
        to = f"{asked.path}?{asked.query}" if asked.query else asked.path
        return RedirectResponse(f"{ENTRANCE}?to={quote(to)}", 303)
    return as_json(refused)


def _too_large(scope: Scope, bound: Bound) -> Refusal | None:
    length = Headers(scope=scope).get("content-length", "0")
    return _size_refusal(bound) if length.isdigit() and int(length) > bound.size else None


def _size_refusal(bound: Bound) -> Refusal:
    return Refusal(413, f"This is too large. The most is {bound.size // (1024 * 1024)} MB.")


def _bounded(receive: Receive, bound: Bound) -> Receive:
    """The same body, refused once it is too large or takes too long."""
    received = 0
    ended = False
    started: float | None = None

    async def receive_bounded() -> Message:
        nonlocal received, ended, started
        if ended:
            return await receive()
        clock: Callable[[], float] = asyncio.get_running_loop().time
        started = clock() if started is None else started
        try:
            message = await asyncio.wait_for(receive(), started + bound.seconds - clock())
        except TimeoutError:
            raise Refusal(408, "Sending took too long. Try again.") from None
        received += len(message.get("body", b""))
        ended = not message.get("more_body", False)
        if received > bound.size:
            raise _size_refusal(bound)
        return message

    return receive_bounded


def _with_headers(send: Send, path: str) -> Send:
    lasting = {"Cache-Control": "no-cache"} if path.startswith("/static/") else {}

    async def send_with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in (HEADERS | lasting).items():
                headers.setdefault(name, value)
        await send(message)

    return send_with_headers
