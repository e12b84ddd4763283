"""The code that lets a phone in: short, used once, replaced after a few wrong tries."""

import hmac
import secrets
import threading

LETTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""No 0, O, 1, I, L or U: they are misread on a dirty screen."""

LENGTH = 8
"""30**8 = 6.6e11 codes, so five tries find one by luck once in 1.3e11 codes."""

TRIES = 5


class OneTimeCode:
    """The code that is valid now."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._renew()

    @property
    def shown(self) -> str:
        """The code as it is shown: two groups of four."""
        return f"{self._code[:4]} {self._code[4:]}"

    @property
    def plain(self) -> str:
        """The code as it stands in the address."""
        return self._code

    def take(self, typed: str) -> bool:
        """Whether this is the code; a code that was taken is spent."""
        tidy = "".join(typed.upper().split()).replace("-", "")
        with self._lock:
            if hmac.compare_digest(tidy.encode(), self._code.encode()):
                self._renew()
                return True
            self._left -= 1
            if self._left == 0:
                self._renew()
            return False

    def _renew(self) -> None:
        self._code = "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
        self._left = TRIES
