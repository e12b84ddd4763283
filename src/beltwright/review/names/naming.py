"""What a dotted key of the build file is called in the builder's words."""

from collections.abc import Mapping
from functools import cache

from beltwright.review.names.driveline import DRIVELINE
from beltwright.review.names.levers import BRAKE, LINKAGES, THROTTLE
from beltwright.review.names.machine import GEARBOX, MACHINE
from beltwright.review.names.shop import BOUGHT, DRIVES, IN_THE_WAY, METAL

NAMES: Mapping[str, str] = {
    **MACHINE,
    **GEARBOX,
    **DRIVELINE,
    **BRAKE,
    **THROTTLE,
    **LINKAGES,
    **IN_THE_WAY,
    **METAL,
    **BOUGHT,
    **DRIVES,
}
"""By dotted key; * stands for what the builder calls a row, and {} for where that goes. {number}
is the last of them as "2" where the row has only a number, and as “seat” where it has a name."""

_CHOSEN = {
    "outside": "outside diameter",
    "pitch": "pitch diameter",
    "length": "printed length",
    "at": "place",
    "slot": "place in its slot",
    "rear": "size",
    "front": "size",
    "driver teeth": "teeth of the driving sprocket",
    "driven teeth": "teeth of the driven sprocket",
}
"""Values that may vary, in more words than their keys."""


def name_of(key: str) -> str:
    """A value in words: 'pulley.engine pulley.outside' -> 'outside diameter of the engine pulley'.

    What the list lacks is named by its key, plainly.
    """
    return known_name(key) or key.replace("_", " ").replace(".", " ")


def choice_name(of: str, what: str) -> str:
    """What may be chosen differently, in words: 'outside diameter of the engine pulley'."""
    return f"{_CHOSEN.get(what, what)} of the {of}"


def known_name(key: str) -> str:
    """The name of a key in the list, "" where there is none."""
    if key in NAMES:
        return NAMES[key]
    for pattern in _patterns(key.partition(".")[0]):
        rows = _rows(pattern, key)
        if rows:
            return NAMES[pattern].format(*rows, number=_numbered(rows[-1]))
    return ""


@cache
def _patterns(table: str) -> tuple[str, ...]:
    """The patterns of a table, those that say most of a key first."""
    found = [each for each in NAMES if "*" in each and each.startswith(f"{table}.")]
    return tuple(sorted(found, key=lambda each: (-each.count("."), -len(each))))


def _rows(pattern: str, key: str) -> tuple[str, ...]:
    """What stands for each * of a pattern, nothing where the key is another."""
    first, *between, last = pattern.split("*")
    if not (key.startswith(first) and key.endswith(last)):
        return ()
    rest = key[len(first) : len(key) - len(last)]
    if not between:
        return (rest,) if rest else ()
    outer, _, inner = rest.rpartition(between[0])
    return (outer, inner) if outer and inner else ()


def _numbered(row: str) -> str:
    """A row that has no name of its own is counted from 1."""
    return str(int(row) + 1) if row.isdecimal() else f"“{row}”"
