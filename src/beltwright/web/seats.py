"""Who may change a build: a signed cookie for each browser, and the page's token that goes with it.

The key lives as long as the program runs. A cookie proves that this program gave it out; the
token on the page is worked out from the cookie, so another site that makes a browser send its
cookie still can't know the token.
"""

import hashlib
import hmac
import secrets


class Seats:
    """Gives out cookies and checks them and their tokens."""

    def __init__(self, port: int) -> None:
        self.cookie_name = f"beltwright-{port}"
        self._key = secrets.token_bytes(32)

    def issue(self) -> str:
        """A new cookie."""
        seat = secrets.token_urlsafe(18)
        return f"{seat}.{self._sign('seat', seat)}"

    def holds(self, cookie: str | None) -> bool:
        """Whether this program gave out the cookie."""
        seat, dot, signed = (cookie or "").partition(".")
        return bool(dot) and _same(signed, self._sign("seat", seat))

    def token(self, cookie: str) -> str:
        """The token for the pages of that cookie."""
        return self._sign("page", cookie)

    def fits(self, cookie: str | None, token: str | None) -> bool:
        """Whether cookie and token belong together."""
        if cookie is None or token is None or not self.holds(cookie):
            return False
        return _same(token, self.token(cookie))

    def _sign(self, what: str, text: str) -> str:
        signed = hmac.new(self._key, f"{what}:{text}".encode(), hashlib.sha256)
        return signed.hexdigest()


def _same(one: str, other: str) -> bool:
    return hmac.compare_digest(one.encode(), other.encode())
