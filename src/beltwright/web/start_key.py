"""The secret in the address that the command opens: no other user of the machine gets in."""

import hmac
import secrets
import threading
from collections.abc import Callable


class StartKey:
    """The key that is valid now: it lets one browser in, then another takes its place.

    An address can be read by others, as in the list of running programs, so a key is good once.
    """

    def __init__(self) -> None:
        self.when_taken: Callable[[], None] = lambda: None
        self._lock = threading.Lock()
        self._renew()

    @property
    def plain(self) -> str:
        """The key as it stands in the address."""
        return self._key

    def take(self, given: str) -> bool:
        """Whether this is the key; a key that was taken is spent."""
        with self._lock:
            if not hmac.compare_digest(given.encode(), self._key.encode()):
                return False
            self._renew()
        self.when_taken()
        return True

    def _renew(self) -> None:
        self._key = secrets.token_urlsafe(16)
