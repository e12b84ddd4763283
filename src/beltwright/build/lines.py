"""The line on which each place of a build file stands.

A mark is set into the parsed file at the place, the file is written out, and the line of the mark
is counted. That is exact because tomlkit writes back every character of the layout.
"""

from collections.abc import Iterable
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Item, Table, item

from beltwright.build.places import Path

_OPEN, _CLOSE = "\ue000", "\ue001"
"""Private-use characters, which no builder writes."""


class _Marked(Item):
    """A value that writes itself with a mark before it."""

    def __init__(self, inner: Item, mark: str) -> None:
        super().__init__(inner.trivia)
        self._inner: Any = inner
        self._mark = mark

    @property
    def value(self) -> Any:
        return self._inner.value

    def __getitem__(self, step: Any) -> Any:
        return self._inner[step]

    def __setitem__(self, step: Any, value: Any) -> None:
        self._inner[step] = value

    def as_string(self) -> str:
        return f"{self._mark}{self._inner.as_string()}"


def lines_of(text: str, paths: Iterable[Path]) -> dict[Path, int]:
    """Give the line of each path; of a place that is not there, the line of its table."""
    try:
        document = tomlkit.parse(text)
    except (TOMLKitError, RecursionError):
        return {}
    wanted = sorted(set(paths), key=len, reverse=True)
    marks = {path: f"{_OPEN}{number}{_CLOSE}" for number, path in enumerate(wanted)}
    for path in wanted:
        _mark(document, path, marks[path])
    written = document.as_string()
    return {path: _line(written, mark) for path, mark in marks.items()}


def _line(written: str, mark: str) -> int:
    """Count the line of a mark; a mark that was not set stands for the whole file."""
    before, found, _ = written.partition(mark)
    return before.count("\n") + 1 if found else 1


def _mark(document: Any, path: Path, mark: str) -> None:
    """Set a mark at a path, or at the table nearest to it that exists."""
    for end in range(len(path), 0, -1):
        holder = _follow(document, path[: end - 1])
        if holder is not None and _follow(holder, path[end - 1 : end]) is not None:
            _mark_in(holder, path[end - 1], mark)
            return


def _follow(here: Any, path: Path) -> Any:
    """Go down a path; None if it breaks off."""
    for step in path:
        try:
            here = here[step]
        except (KeyError, IndexError, TypeError, TOMLKitError):
            return None
    return here


def _mark_in(holder: Any, step: str | int, mark: str) -> None:
    """Set a mark at one value or table of its holder."""
    found = holder[step]
    if isinstance(found, AoT):
        _mark_in(found, 0, mark)
    elif isinstance(found, Table) and not found.is_super_table():
        found.trivia.comment = f"#{mark}{found.trivia.comment}"
    elif isinstance(found, Item) and not isinstance(found, Table):
        holder[step] = _Marked(found, mark)
    elif isinstance(found, bool):
        holder[step] = _Marked(item(found), mark)
    else:
        _mark_in(found, next(iter(found)), mark)
