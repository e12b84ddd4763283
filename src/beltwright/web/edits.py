"""Changes of a build file as the page sends them, put into its text."""

import tomllib
from collections.abc import Mapping, Sequence
from typing import Any, Protocol, get_args, get_origin

from pydantic import BaseModel

from beltwright.build.editing import add_table, remove, set_value
from beltwright.build.places import path_of
from beltwright.build.typed import as_written
from beltwright.build.wanted import annotation_at
from beltwright.web.refusal import CannotRead, Problem


class Edit(Protocol):
    """What is to stand at a dotted key; None takes away what stands there."""

    @property
    def key(self) -> str:
        """The dotted key."""

    @property
    def text(self) -> Any:
        """What is to stand there."""


def edited_text(text: str, edits: Sequence[Edit], name: str) -> str:
    """The text with the changes made, comments and order kept."""
    for edit in edits:
        text = _applied(text, edit, name)
    return text


def adds_row(key: str, value: object) -> bool:
    """Whether the change puts a table into a list of tables, as another obstacle."""
    if not isinstance(value, Mapping):
        return False
    wanted = annotation_at(tuple(key.split(".")))
    return get_origin(wanted) is tuple and any(
        isinstance(kind, type) and issubclass(kind, BaseModel) for kind in get_args(wanted)
    )


def _applied(text: str, edit: Edit, name: str) -> str:
    try:
        if edit.text is None:
            return remove(text, edit.key)
        if adds_row(edit.key, edit.text):
            return add_table(text, edit.key, edit.text)
        path = path_of(tomllib.loads(text), edit.key)
        return set_value(text, edit.key, as_written(path, edit.text))
    except (KeyError, IndexError, TypeError, ValueError):
        raise CannotRead([no_such_place(edit, name)]) from None


def no_such_place(edit: Edit, name: str) -> Problem:
    """What to say of a key that leads nowhere."""
    return {
        "file": name,
        "line": None,
        "key": edit.key,
        "found": "",
        "expected": "",
        "example": "",
        "reason": "There is no such place in the build file.",
    }
