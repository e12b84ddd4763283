"""Places in a build file: paths, dotted keys, and texts that know theirs.

A path is what Python needs ("pulley", 0, "outside"); a dotted key is what the builder reads,
"pulley.engine pulley.outside": a table in a list goes by its name, or by its number if it has none
of its own.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from beltwright.quantity import Written

Path = tuple[str | int, ...]


def labels(items: Sequence[Any]) -> list[str]:
    """Give what each item of a list is called in a dotted key."""
    seen: set[str] = set()
    found = []
    for index, item in enumerate(items):
        name = item.get("name") if isinstance(item, Mapping) else None
        own = isinstance(name, str) and bool(name) and name not in seen
        found.append(str(name) if own else str(index))
        seen.add(found[-1])
    return found


def with_places(value: Any, key: str = "") -> Any:
    """Give the values of a file with every text knowing its dotted key."""
    before = f"{key}." if key else ""
    if isinstance(value, str):
        return Written(value, key)
    if isinstance(value, dict):
        return {name: with_places(item, f"{before}{name}") for name, item in value.items()}
    if isinstance(value, list):
        pairs = zip(labels(value), value, strict=True)
        return [with_places(item, f"{before}{label}") for label, item in pairs]
    return value


def key_of(values: Any, path: Path) -> str:
    """Give the dotted key of a path; what is not in the values is named as in the path."""
    parts: list[str] = []
    here = values
    for step in path:
        if isinstance(here, Sequence) and isinstance(step, int) and step < len(here):
            parts.append(labels(here)[step])
            here = here[step]
        else:
            parts.append(str(step))
            here = here.get(step) if isinstance(here, Mapping) else None
    return ".".join(parts)


def path_of(values: Any, key: str) -> Path:
    """Give the path of a dotted key; raise KeyError if it names no list item that is there.

    Tables and values may be ones that are still to be made.
    """
    path: list[str | int] = []
    here, rest = values, key
    while rest:
        if isinstance(here, Mapping) or here is None:
            step, rest = _next_name(here or {}, rest)
            here = (here or {}).get(step)
            path.append(step)
        elif isinstance(here, Sequence) and not isinstance(here, str):
            index, rest = _next_item(here, rest, key)
            path.append(index)
            here = here[index]
        else:
            raise KeyError(key)
    return tuple(path)


def _next_name(table: Mapping[str, Any], rest: str) -> tuple[str, str]:
    """Take the next name off a dotted key: a known one, else all up to the dot."""
    known = [name for name in table if rest == name or rest.startswith(f"{name}.")]
    name = max(known, key=len) if known else rest.partition(".")[0]
    return name, rest[len(name) + 1 :]


def _next_item(items: Sequence[Any], rest: str, key: str) -> tuple[int, str]:
    """Take the next list item off a dotted key; names may have dots, so the longest fits."""
    named = [
        (label, index)
        for index, label in enumerate(labels(items))
        if rest == label or rest.startswith(f"{label}.")
    ]
    if not named:
        raise KeyError(key)
    label, index = max(named, key=lambda pair: len(pair[0]))
    return index, rest[len(label) + 1 :]
