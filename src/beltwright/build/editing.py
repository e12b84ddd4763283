"""Edits of a build file's text that keep its comments and its order."""

import tomllib
from collections.abc import Mapping, Sequence
from copy import deepcopy
from typing import Any, cast

import tomlkit

from beltwright.build.file_text import text_lines
from beltwright.build.layout import (
    first_line_of_table,
    headed_tables,
    last_line_of_table,
    last_line_of_value,
)
from beltwright.build.lines import lines_of
from beltwright.build.places import Path, path_of
from beltwright.build.toml_writing import Value, name_of, toml_of
from beltwright.build.typed import as_written


def set_value(text: str, key: str, value: Value) -> str:
    """Set the value at a dotted key; tables on the way are made if they are missing.

    Raises KeyError where the key leads through a list item that is not there.
    """
    values = tomllib.loads(text)
    path = path_of(values, key)
    wanted = deepcopy(values)
    _put(wanted, path, value)
    if _holds(values, path):
        return _proved(_replaced(text, path, value), wanted, key)
    inserted = _inserted(text, values, path, value)
    if _values(inserted) == wanted:
        return inserted
    return _proved(_replaced(text, path, value), wanted, key)


def add_table(text: str, key: str, row: Mapping[str, Value]) -> str:
    """Add one more [[key]] with its values, after the last of its kind or at the end."""
    values = tomllib.loads(text)
    path = path_of(values, key)
    rows = _at(values, path) if _holds(values, path) else []
    wanted = deepcopy(values)
    _put(wanted, path, [*rows, dict(row)])
    headers = headed_tables(text)
    last = (*path, len(rows) - 1)
    if rows and last not in headers:
        return _proved(_replaced(text, path, [*rows, row]), wanted, key)
    after = last_line_of_table(text, last, headers) if rows else len(text_lines(text))
    lines = [f"{name_of(name)} = {toml_of(value)}" for name, value in row.items()]
    return _proved(_with_lines(text, after, ["", f"[[{_header(path)}]]", *lines]), wanted, key)


def remove(text: str, key: str) -> str:
    """Remove the value or the table at a dotted key, with the comment that belongs to it.

    Raises KeyError where nothing stands there.
    """
    values = tomllib.loads(text)
    path = path_of(values, key)
    if not _holds(values, path):
        raise KeyError(key)
    wanted = deepcopy(values)
    holder = _at(wanted, path[:-1])
    del holder[path[-1]]
    if isinstance(holder, list) and not holder and len(path) > 1:
        # A list of tables that has lost its last one is not in the file any more.
        emptied = deepcopy(wanted)
        del _at(emptied, path[:-2])[path[-2]]
    else:
        emptied = wanted
    headers = headed_tables(text)
    if path in headers:
        first = first_line_of_table(text, path, headers)
        lines = text_lines(text)
        last = last_line_of_table(text, path, headers)
        while last < len(lines) and not lines[last].strip():
            last += 1
        return _proved("".join(lines[: first - 1] + lines[last:]), emptied, key)
    document = tomlkit.parse(text)
    del _at(document, path[:-1])[path[-1]]
    return _proved(document.as_string(), wanted, key)


def value_for(text: str, key: str, written: str) -> Value:
    """Give what a builder typed for a key as the kind of value that the model has there."""
    return cast(Value, as_written(path_of(tomllib.loads(text), key), written))


def _header(path: Path) -> str:
    """Write the names of a table's header."""
    return ".".join(name_of(str(step)) for step in path if isinstance(step, str))


def _at(values: Any, path: Path) -> Any:
    """Go down a path."""
    for step in path:
        values = values[step]
    return values


def _holds(values: Any, path: Path) -> bool:
    """Tell whether something stands at a path."""
    try:
        _at(values, path)
    except (KeyError, IndexError, TypeError):
        return False
    return True


def _put(values: Any, path: Path, value: Value) -> None:
    """Set a value in plain values, making tables on the way."""
    for step in path[:-1]:
        values = values.setdefault(step, {}) if isinstance(step, str) else values[step]
    values[path[-1]] = value


def _replaced(text: str, path: Path, value: Value) -> str:
    """Set a value through tomlkit, which keeps the comment behind it."""
    document: Any = tomlkit.parse(text)
    holder = document
    for step in path[:-1]:
        if isinstance(step, str) and step not in holder:
            holder[step] = tomlkit.table()
        holder = holder[step]
    holder[path[-1]] = tomlkit.parse(f"it = {toml_of(value)}")["it"]
    written: str = document.as_string()
    return written


def _inserted(text: str, values: Any, path: Path, value: Value) -> str:
    """Insert a new value behind the last one of its table, or with a new table at the end."""
    line = f"{name_of(str(path[-1]))} = {toml_of(value)}"
    table = path[:-1]
    after = _last_line_of_values(text, values, table)
    if after is not None:
        return _with_lines(text, after, [line])
    return _with_lines(text, len(text_lines(text)), ["", f"[{_header(table)}]", line])


def _last_line_of_values(text: str, values: Any, table: Path) -> int | None:
    """Give the line behind which a new value of a table may stand, None if it has no header."""
    headers = headed_tables(text)
    if table and table not in headers:
        return None
    held = _at(values, table)
    below = {path[len(table)] for path in headers if path[: len(table)] == table != path}
    own = [(*table, name) for name in held if name not in below]
    begin = headers.get(table, 0)
    lines = [line for line in lines_of(text, own).values() if line >= begin]
    return last_line_of_value(text, max(lines)) if lines else begin


def _with_lines(text: str, after: int, new: Sequence[str]) -> str:
    """Insert lines behind a line, with the line ends that the file has."""
    end = "\r\n" if "\r\n" in text else "\n"
    lines = text_lines(text)
    if lines and not lines[-1].endswith("\n"):
        lines[-1] += end
    return "".join([*lines[:after], *(line + end for line in new), *lines[after:]])


def _values(text: str) -> dict[str, Any] | None:
    """Give the values of a text, None if it is no TOML."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return None


def _proved(text: str, wanted: Mapping[str, Any], key: str) -> str:
    """Give an edited text, once it is sure that it says what was wanted and nothing else."""
    if _values(text) != wanted:
        raise KeyError(key)
    return text
