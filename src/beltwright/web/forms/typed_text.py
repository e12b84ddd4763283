"""A value of the build file as it stands in a field: the text, and what follows the ±."""

import re
from typing import Any

_UNIT = re.compile(r"^\s*[-−+\d.,/ ]*\d\s*(?P<unit>[^\d\s].*)?$")


def as_typed(value: Any) -> dict[str, str]:
    """`text` as it goes into the field, and `tolerance` where one is written."""
    if value is None:
        return {"text": "", "tolerance": ""}
    if isinstance(value, bool):
        return {"text": "yes" if value else "no", "tolerance": ""}
    if isinstance(value, list):
        return {"text": _listed(value), "tolerance": ""}
    return _parted(str(value))


def _listed(items: list[Any]) -> str:
    """Items side by side; corners, which are lists themselves, one a line."""
    if items and all(isinstance(item, list) for item in items):
        return "\n".join(_listed(item) for item in items)
    return ", ".join(str(item) for item in items)


def _parted(text: str) -> dict[str, str]:
    """ "118 ± 1 mm" is 118 mm, give or take 1 mm."""
    stated, sign, tolerance = text.partition("±")
    stated, tolerance = stated.strip(), tolerance.strip()
    if not sign:
        return {"text": stated, "tolerance": ""}
    unit = _unit_of(tolerance)
    if unit and not _unit_of(stated):
        stated = f"{stated} {unit}"
    return {"text": stated, "tolerance": tolerance}


def _unit_of(text: str) -> str:
    found = _UNIT.match(text)
    return (found["unit"] or "") if found else ""
