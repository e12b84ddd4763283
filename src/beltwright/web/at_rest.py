"""Reading of a file that an editor may be writing at this moment."""

from pathlib import Path
from time import sleep as _pause

from beltwright.build.file_text import MOST_BYTES

TRIES = 6
PAUSE = 0.01
"""Seconds between two tries. Many editors empty a file and then fill it anew."""


def bytes_at_rest(file: Path) -> bytes:
    """What stands in a file, a little over the largest size at most; an empty one is looked at
    again for a moment, in case that it is being written."""
    for _ in range(TRIES):
        with file.open("rb") as opened:
            raw = opened.read(MOST_BYTES + 1)
        if raw:
            return raw
        _pause(PAUSE)
    return b""
