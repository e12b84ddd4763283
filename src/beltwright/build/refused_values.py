"""What the model refuses, in the builder's words."""

import re
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from beltwright.build.places import Path
from beltwright.build.refusal import Refusal
from beltwright.build.wanted import annotation_at, description_at, example_at, names_at, words_for
from beltwright.quantity import QuantityError


def refusals_of(error: ValidationError, values: Mapping[str, Any]) -> list[Refusal]:
    """Give what the model refused, one refusal a place."""
    by_path: dict[Path, Refusal] = {}
    for details in error.errors(include_url=False):
        path = _path(details, values)
        refusal = _refusal(details, path)
        if path not in by_path or _says_more(details):
            by_path[path] = refusal
    misspelt = {refusal.means for refusal in by_path.values() if refusal.means}
    return [refusal for path, refusal in by_path.items() if path not in misspelt]


def _path(details: ErrorDetails, values: Mapping[str, Any]) -> Path:
    """Give the path of an error, without the steps that are the model's own."""
    here: Any = values
    path: list[str | int] = []
    for step in details["loc"]:
        if isinstance(here, Mapping) and (step in here or details["type"] == "missing"):
            here = here.get(str(step))
        elif isinstance(here, list) and isinstance(step, int) and step < len(here):
            here = here[step]
        else:
            break
        path.append(step)
    return tuple(path)


def _says_more(details: ErrorDetails) -> bool:
    """Tell whether an error is about a number, which says more than a list of words."""
    return details["type"] == "value_error" and any(c.isdigit() for c in str(details["input"]))


def _refusal(details: ErrorDetails, path: Path) -> Refusal:
    """Tell one error of the model in the builder's words."""
    wanted = annotation_at(path)
    kind = details["type"]
    if kind == "missing":
        return _missing(details, path, wanted)
    if kind == "extra_forbidden":
        return _unknown(path)
    if kind == "value_error":
        return _refused_value(details, path, wanted)
    found = _as_found(details["input"])
    if kind in ("too_short", "too_long"):
        return Refusal(path, _count(details), found, words_for(wanted), example_at(path))
    if kind in ("string_too_short", "string_too_long"):
        limit = "is empty" if kind == "string_too_short" else "is too long"
        most = details["ctx"].get("max_length")
        limit += f": {most} letters at most" if most else ""
        return Refusal(path, f"This text {limit}.", found, words_for(wanted), example_at(path))
    bounds = {"greater_than": "more than", "greater_than_equal": "at least"}
    bounds |= {"less_than": "less than", "less_than_equal": "at most"}
    if kind in bounds:
        limit = next(iter(details["ctx"].values()))
        return Refusal(path, "This number is out of range.", found, f"{bounds[kind]} {limit}")
    return _misfit(details, path, wanted, found)


def _missing(details: ErrorDetails, path: Path, wanted: Any) -> Refusal:
    """Tell what a table or a list lacks."""
    if isinstance(details["loc"][-1], int):
        return Refusal(path, "This list is too short.", "", words_for(wanted), example_at(path))
    name, about = str(path[-1]), description_at(path)
    given = re.search(r"for example ([^,)]+)", about)
    example = f'"{given[1]}"' if given and wanted is str else example_at(path)
    expected = f"{words_for(wanted)} ({about})" if about and not given else words_for(wanted)
    return Refusal(path, f"{name} is missing here.", "", expected, f"{name} = {example}")


def _misfit(details: ErrorDetails, path: Path, wanted: Any, found: str) -> Refusal:
    """Tell that something of another sort stands there, and which word it may be."""
    reason = "That does not belong here."
    if details["type"] == "literal_error" and isinstance(details["input"], str):
        words = [word.strip('"') for word in words_for(wanted).split(" or ")]
        if details["input"] in words:
            return Refusal(path, "Leave the quotes out.", found, words_for(wanted))
        near = get_close_matches(details["input"], words, n=1)
        reason = f'Did you mean "{near[0]}"?' if near else "That is not one of the known words."
    return Refusal(path, reason, found, words_for(wanted), example_at(path))


def _refused_value(details: ErrorDetails, path: Path, wanted: Any) -> Refusal:
    """Tell what a reader of quantities, or a table as a whole, has refused."""
    error = details["ctx"]["error"]
    if isinstance(error, QuantityError):
        own = error.reason.startswith(("The unit is missing", "Put it in quotes"))
        example = f'"{error.example}"' if own or not wanted else example_at(path)
        expected = words_for(wanted) if wanted else error.expected
        return Refusal(path, error.reason, _as_found(details["input"]), expected, example)
    return Refusal(path, _sentence(str(error)))


def _sentence(text: str) -> str:
    """Begin with a capital and end with a full stop."""
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."


def _unknown(path: Path) -> Refusal:
    """Tell that a name is not known here, and which one is like it."""
    known = names_at(path[:-1])
    name = str(path[-1])
    near = get_close_matches(name, known, n=1)
    if near:
        reason = f'{name} is not known here. Did you mean "{near[0]}"?'
        return Refusal(path, reason, means=(*path[:-1], near[0]))
    return Refusal(path, f"{name} is not known here. Known are: {', '.join(known)}.")


def _count(details: ErrorDetails) -> str:
    """Tell how many there must be."""
    least, most = details["ctx"].get("min_length"), details["ctx"].get("max_length")
    if least is not None and details["type"] == "too_short":
        return f"This list is too short: it has {least} or more."
    return f"This list is too long: it has {most} at most."


def _as_found(value: Any) -> str:
    """Show what stands there, shortened, as it is written in the file."""
    if isinstance(value, str):
        return f'"{value[:60]}"'
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, Sequence):
        return "a list"
    return str(value)[:60]
