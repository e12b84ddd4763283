"""Who may ask for what: the rules that every request is held to before all else."""

import ipaddress
from dataclasses import dataclass, field

from starlette.requests import HTTPConnection

from beltwright.web.one_time_code import OneTimeCode
from beltwright.web.refusal import Refusal
from beltwright.web.seats import Seats
from beltwright.web.start_key import StartKey

READS = frozenset({"GET", "HEAD"})
ENTRANCE = "/enter"
_OPEN_TO_ALL = (ENTRANCE, "/static/")
TOKEN_HEADER = "X-Beltwright-Token"


@dataclass(frozen=True)
class Door:
    """The addresses that the page answers to, its seats, and the ways to get one.

    hosts   names and ports as they stand in a browser's address line
    code    for phones; None unless the page is open to the local network
    key     for browsers on this machine, in the address that the command prints
    """

    hosts: frozenset[str]
    seats: Seats
    code: OneTimeCode | None = None
    key: StartKey = field(default_factory=StartKey)

    def refusal(self, request: HTTPConnection, method: str) -> Refusal | None:
        """Why the request is refused, or None."""
        path = request.url.path
        if request.headers.get("host", "").lower() not in self.hosts:
            return Refusal(403, "Open the page at the address that the command printed.")
        if not self._near(request):
            return Refusal(403, "The page answers to this machine only.")
        if not self.may_look(request) and not path.startswith(_OPEN_TO_ALL):
            return Refusal(401, _way_in(request))
        if _from_elsewhere(request, method):
            return Refusal(403, "Another site asked for this. Use the page itself.")
        if method not in READS and path != ENTRANCE and not self._token_fits(request):
            return Refusal(403, "This page is from an earlier start. Load it again.")
        return None

    def may_look(self, request: HTTPConnection) -> bool:
        """Whether the browser came in with the key or the code of this start."""
        return self.seats.holds(self.cookie(request))

    def may_hand_out_code(self, request: HTTPConnection) -> bool:
        """Only who was let in at this machine sees the code."""
        return self.code is not None and at_this_machine(request) and self.may_look(request)

    def cookie(self, request: HTTPConnection) -> str | None:
        """The cookie that the browser sent."""
        return request.cookies.get(self.seats.cookie_name)

    def _near(self, request: HTTPConnection) -> bool:
        if at_this_machine(request):
            return True
        return self.code is not None and _on_local_network(request)

    def _token_fits(self, request: HTTPConnection) -> bool:
        return self.seats.fits(self.cookie(request), request.headers.get(TOKEN_HEADER))


def _peer(request: HTTPConnection) -> ipaddress.IPv4Address | ipaddress.IPv6Address | None:
    try:
        return ipaddress.ip_address(request.client.host) if request.client else None
    except ValueError:
        return None


def at_this_machine(request: HTTPConnection) -> bool:
    """Whether the asker's browser runs on this machine."""
    peer = _peer(request)
    return peer is not None and peer.is_loopback


def _way_in(request: HTTPConnection) -> str:
    if at_this_machine(request):
        return "Open the address that stands last in the window where the page was started."
    return "Enter the code that the computer shows."


def _on_local_network(request: HTTPConnection) -> bool:
    peer = _peer(request)
    return peer is not None and (peer.is_private or peer.is_link_local)


def _from_elsewhere(request: HTTPConnection, method: str) -> bool:
    """Whether another site made the browser ask.

    A browser names the asking site in Origin on every change, and in Sec-Fetch-Site on everything;
    following a link from elsewhere to a page is fine.
    """
    origin = request.headers.get("origin")
    if origin is not None and origin != f"{request.url.scheme}://{request.headers['host']}":
        return True
    site = request.headers.get("sec-fetch-site", "same-origin")
    if site in {"same-origin", "none"}:
        return False
    followed_link = request.headers.get("sec-fetch-mode") == "navigate"
    return method not in READS or not followed_link
