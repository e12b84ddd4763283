"""Where tables and values begin and end in the text of a build file."""

import tomllib
from typing import Any

import tomlkit
from tomlkit.items import AoT, Table

from beltwright.build.file_text import text_lines
from beltwright.build.lines import lines_of
from beltwright.build.places import Path


def headed_tables(text: str) -> dict[Path, int]:
    """Give every table that has a header of its own, with the line of the header."""
    paths = _headed(tomlkit.parse(text), ())
    return lines_of(text, paths)


def _headed(table: Any, at: Path) -> list[Path]:
    """Give the paths of the headed tables below a table."""
    found: list[Path] = []
    for name, item in table.items():
        path = (*at, name)
        if isinstance(item, AoT):
            for index, each in enumerate(item):
                found += [(*path, index), *_headed(each, (*path, index))]
        elif isinstance(item, Table):
            found += [path] if not item.is_super_table() else []
            found += _headed(item, path)
        elif hasattr(item, "items") and not hasattr(item, "trivia"):
            # A table whose parts stand apart in the file.
            found += [path, *_headed(item, path)]
    return found


def last_line_of_value(text: str, first: int) -> int:
    """Give the last line of the value that begins on a line."""
    lines = text_lines(text)
    for last in range(first, len(lines) + 1):
        try:
            tomllib.loads("".join(lines[first - 1 : last]))
        except tomllib.TOMLDecodeError:
            continue
        return last
    return len(lines)


def last_line_of_table(text: str, path: Path, headers: dict[Path, int]) -> int:
    """Give the last line of a table with all that lies in it, without the comments after it."""
    begin = headers[path]
    others = [line for at, line in headers.items() if line > begin and at[: len(path)] != path]
    lines = text_lines(text)
    last = min(others, default=len(lines) + 1) - 1
    while last > begin and _is_quiet(lines[last - 1]):
        last -= 1
    return last


def first_line_of_table(text: str, path: Path, headers: dict[Path, int]) -> int:
    """Give the first line of a table with the comment that stands right above its header."""
    lines = text_lines(text)
    first = headers[path]
    while first > 1 and lines[first - 2].lstrip().startswith("#"):
        first -= 1
    return first


def _is_quiet(line: str) -> bool:
    """Tell whether a line is empty or a comment."""
    return not line.strip() or line.lstrip().startswith("#")
