"""What was typed into a field, as the kind of value that the model wants there."""

import json
import types
from typing import Any, Union, get_args, get_origin

from beltwright.build.places import Path
from beltwright.build.wanted import annotation_at

_TRUTHS = {"true": True, "false": False}


def as_written(path: Path, text: Any) -> Any:
    """The value that is to stand in the file.

    Text where the model wants a number, a truth or a list is read as one. Where it can't be, it
    stays text, and the model then says what is wrong with it.
    """
    if not isinstance(text, str):
        return text
    wanted = _kinds(annotation_at(path))
    if str in wanted or not wanted & {int, float, bool, tuple}:
        return text
    tidy = text.strip()
    if bool in wanted:
        return _TRUTHS.get(tidy.lower(), text)
    return _number_or_list(tidy, wanted, text)


def _number_or_list(tidy: str, wanted: set[Any], text: str) -> Any:
    try:
        found = json.loads(tidy, parse_constant=lambda _: text)
    except (ValueError, RecursionError):
        return text
    if tuple in wanted:
        return found if isinstance(found, list) else text
    if isinstance(found, bool) or not isinstance(found, int | float):
        return text
    return float(found) if wanted == {float} else found


def _kinds(annotation: Any) -> set[Any]:
    """The plain types that a place takes, without the None of what may be left out."""
    if get_origin(annotation) in (Union, types.UnionType):
        return {kind for each in get_args(annotation) for kind in _kinds(each)}
    if annotation is type(None):
        return set()
    return {tuple if get_origin(annotation) is tuple else annotation}
