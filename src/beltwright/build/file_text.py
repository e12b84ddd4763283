"""From a path to the text of a build file, or one clear message why there is none."""

import os
import re
import stat
from difflib import get_close_matches
from pathlib import Path

from beltwright.build.errors import BuildError, Problem

MOST_BYTES = 1024 * 1024
"""A build file is some hundred lines; a megabyte is a mistake."""

MARK = "\N{BYTE ORDER MARK}".encode()
"""What some editors put before a text; it is no part of it."""

_UTF_16 = (b"\xff\xfe", b"\xfe\xff")


def file_problem(
    name: str, reason: str, line: int | None = None, found: str = "", expected: str = ""
) -> BuildError:
    """Make the error for something that is wrong with the file as a whole."""
    return BuildError((Problem(name, line, "", found, expected, "", reason),))


def file_text(path: Path) -> str:
    """Give the text of a build file; raise BuildError if it cannot be one."""
    return decoded(file_bytes(path), path.name)


def decoded(raw: bytes, name: str) -> str:
    """Give bytes as text; a byte order mark of UTF-8 is passed over."""
    if len(raw) > MOST_BYTES:
        raise file_problem(name, "The file is larger than 1 MiB. A build file has some kilobytes.")
    if raw.startswith(_UTF_16):
        raise file_problem(name, "The file is saved as UTF-16. Save it as UTF-8.")
    if b"\0" in raw:
        raise file_problem(name, "The file is no text. A build file is a text in TOML.")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as bad:
        line = raw[: bad.start].count(b"\n") + 1
        raise file_problem(
            name,
            "A letter here is not saved as UTF-8 (an older program may have written it). Save "
            "the file as UTF-8.",
            line,
        ) from None


def text_lines(text: str) -> list[str]:
    r"""Give the lines of a text with their ends; in TOML a line feed alone ends one.

    >>> text_lines("a = 1 # one\u2028line\r\nb = 2")
    ['a = 1 # one\u2028line\r\n', 'b = 2']
    """
    return re.findall("[^\n]*\n|[^\n]+", text)


def file_bytes(path: Path) -> bytes:
    """Read a file, no more than a little over the largest size; raise BuildError if it cannot."""
    try:
        kind = os.stat(path).st_mode
        if stat.S_ISDIR(kind):
            raise file_problem(str(path), "This is a folder. Name the build file in it.")
        if not stat.S_ISREG(kind):
            raise file_problem(str(path), "This is no ordinary file.")
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise file_problem(str(path), f"There is no such file.{_near(path)}") from None
    except PermissionError:
        raise file_problem(str(path), "This file may not be read by you.") from None
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise file_problem(str(path), f"The file cannot be read: {why}.") from None


def _near(path: Path) -> str:
    """Name a build file with a similar name that does stand there."""
    try:
        there = [file.name for file in path.parent.glob("*.toml")]
    except OSError:
        return ""
    near = get_close_matches(path.name, there, n=1)
    return f' Did you mean "{near[0]}"?' if near else ""
