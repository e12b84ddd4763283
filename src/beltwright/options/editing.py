"""Copies of a build with some values changed, as if they had been written in its file."""

from collections.abc import Iterable
from typing import Any, TypeVar, cast

from beltwright.build.model import Build
from beltwright.build.row import Row
from beltwright.options.option import Edit
from beltwright.quantity import Written

RowType = TypeVar("RowType", bound=Row)


class NoSuchKeyError(LookupError):
    """A dotted key that leads nowhere in this build."""


def edited(build: Build, edits: Iterable[Edit]) -> Build:
    """The build with each edit's text at its key, read and checked as the file would be."""
    for edit in edits:
        build = _row_with(build, edit.key, Written(edit.text, edit.key))
    return build


def value_at(build: Build, key: str) -> Any:
    """What stands at a dotted key of the build."""
    found: Any = build
    rest = key
    while rest:
        step, rest = _step(found, rest, key)
        found = found[step] if isinstance(step, int) else getattr(found, step)
    return found


def _row_with(row: RowType, path: str, text: Written) -> RowType:
    name, rest = _step(row, path, text.key)
    assert isinstance(name, str)
    fields = type(row).model_fields
    held = {field.alias or n: getattr(row, n) for n, field in fields.items()}
    held[fields[name].alias or name] = _value_with(getattr(row, name), rest, text)
    return type(row).model_validate(held)


def _value_with(value: object, path: str, text: Written) -> object:
    if not path:
        return text
    if isinstance(value, Row):
        return _row_with(value, path, text)
    place, rest = _step(value, path, text.key)
    items = list(cast("tuple[object, ...]", value))
    items[cast("int", place)] = _value_with(items[cast("int", place)], rest, text)
    return tuple(items)


def _step(part: object, path: str, key: str) -> tuple[str | int, str]:
    """The next step of a path, and what is left of it; names may hold dots themselves."""
    head, _, rest = path.partition(".")
    if isinstance(part, Row) and head in type(part).model_fields:
        return head, rest
    if isinstance(part, tuple):
        for place, item in enumerate(part):
            name = getattr(item, "name", None)
            if name is not None and (path == name or path.startswith(f"{name}.")):
                return place, path[len(name) + 1 :]
        if head.isdigit() and int(head) < len(part):
            return int(head), rest
    raise NoSuchKeyError(f"{key!r} leads to nothing that stands in this build")
