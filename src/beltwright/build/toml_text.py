"""From text to TOML values, with the parser's complaints in plain words."""

import re
import tomllib
from typing import Any

from beltwright.build.errors import BuildError, Problem
from beltwright.build.file_text import file_problem, text_lines

DEEPEST = 12
"""Tables and lists within one another; a build needs half of that."""

_PLAIN_WORDS = (
    ("Found invalid character '\\r'", "The lines end as on very old machines. Save it anew."),
    ("Illegal character '\\n'", "A text begins with a quote here and has none at its end."),
    ("Unterminated string", "A text begins with a quote here and has none at its end."),
    ("Expected '=' after a key", 'An "=" is missing after the name.'),
    ("Invalid value", 'After the "=" stands no text in quotes, number, list or table.'),
    ("Cannot overwrite a value", "This name already has a value above."),
    ("Cannot declare", "This table stands in the file already. Use [[…]] for one of several."),
    ("Unclosed array", 'A "," or the "]" of a list is missing.'),
    ("Unclosed inline table", 'A "," or the "}" of a table is missing.'),
    ("Expected newline", "Something stands after the value that does not belong there."),
    ("Expected ']'", 'A "]" is missing.'),
    ("Unescaped '\\'", 'A "\\" stands in this text. Write "\\\\" or use single quotes.'),
    ("Duplicate inline table key", "This name stands in the table twice."),
    ("Invalid statement", 'A line begins with a name and "=", or with a table in [ ].'),
)


_TOO_DEEP = "The file is nested far too deep or has an endless number."


def toml_values(text: str, name: str) -> dict[str, Any]:
    """Give the values of a TOML text; raise BuildError with the line if it is none."""
    try:
        values = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BuildError((_complaint(str(error), text, name),)) from None
    except (RecursionError, ValueError):
        raise file_problem(name, _TOO_DEEP) from None
    if _depth(values) > DEEPEST:
        raise file_problem(name, _TOO_DEEP)
    if not values:
        raise file_problem(
            name,
            "The file is empty. Begin with a starter: beltwright new FILE writes one.",
        )
    return values


def _depth(values: dict[str, Any]) -> int:
    """Give how many tables and lists stand within one another, without going down by calls."""
    layer: list[dict[str, Any] | list[Any]] = [values]
    depth = 0
    while layer and depth <= DEEPEST:
        depth += 1
        layer = [
            inner
            for outer in layer
            for inner in (outer.values() if isinstance(outer, dict) else outer)
            if isinstance(inner, dict | list)
        ]
    return depth


def _complaint(message: str, text: str, name: str) -> Problem:
    """Tell a complaint of the parser: the line as it stands, and what is wrong with it."""
    lines = text_lines(text) or [""]
    at = re.search(r"at line ([0-9]+)", message)
    number = int(at[1]) if at else _last(lines)
    what = re.sub(r" \(at .*\)$", "", message)
    plain = next((words for start, words in _PLAIN_WORDS if what.startswith(start)), f"{what}.")
    if not at:
        plain = "The file breaks off in the middle of something."
    line = lines[min(number, len(lines)) - 1].strip()
    return Problem(name, number, "", line[:60], "", "", plain)


def _last(lines: list[str]) -> int:
    """Give the number of the last line that has something on it."""
    return max((n for n, line in enumerate(lines, 1) if line.strip()), default=1)
