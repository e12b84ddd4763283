"""The options of a choice in order of size, to tell of them by ranges."""

from collections.abc import Sequence
from dataclasses import dataclass

from beltwright.build.model import Build
from beltwright.options.editing import value_at
from beltwright.options.offering import table_key
from beltwright.options.option import Choice, Option
from beltwright.quantity import Quantity, QuantityError, read_quantity


@dataclass(frozen=True)
class Mark:
    """One option on the scale of its choice.

    option  its place in the choice
    noun    what it is one of: "A belt", "engine pulley"
    size    its number [SI], None where it has none
    text    its size as written
    """

    option: int
    noun: str
    size: float | None
    text: str


def scale(build: Build, choice: Choice) -> dict[str, list[Mark]]:
    """The marks of a choice, smallest first, by the noun that they share."""
    marks: dict[str, list[Mark]] = {}
    for place, option in enumerate(choice.options):
        mark = _mark(build, choice, place, option)
        marks.setdefault(mark.noun, []).append(mark)
    for row in marks.values():
        row.sort(key=lambda mark: (mark.size is None, mark.size or 0.0, mark.option))
    return marks


def _mark(build: Build, choice: Choice, place: int, option: Option) -> Mark:
    key = _main_key(build, choice)
    text = next((edit.text for edit in option.edits if edit.key == key), None)
    now = value_at(build, key)
    if text is None:
        text = now.text if hasattr(now, "text") else str(now)
    return Mark(place, _noun(build, choice, option), _size(now, text), text)


def _main_key(build: Build, choice: Choice) -> str:
    """The key whose number tells the options of a choice apart."""
    table = table_key(build, choice.of)
    keys: Sequence[str] = [edit.key for option in choice.options for edit in option.edits]
    wanted = [f"{table}.{choice.what}", f"{table}.outside", f"{table}.pitch", *keys]
    return next((key for key in wanted if key in keys), f"{table}.{choice.what}")


def _size(now: object, text: str) -> float | None:
    try:
        return read_quantity(text, now.kind).value if isinstance(now, Quantity) else float(text)
    except (QuantityError, ValueError):
        return None


def _noun(build: Build, choice: Choice, option: Option) -> str:
    if choice.what in ("outside", "pitch"):
        return choice.of
    if choice.what in ("length", "section"):
        key = f"{table_key(build, choice.of)}.section"
        section = next((edit.text for edit in option.edits if edit.key == key), None)
        return f"{section or value_at(build, key)} belt"
    return f"{choice.of} with {choice.what}"
