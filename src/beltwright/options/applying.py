"""Writes an option into the text of a build file; comments and order stay."""

from collections.abc import Mapping, Sequence

from beltwright.build.editing import add_table, remove, set_value, value_for
from beltwright.build.model import Build
from beltwright.build.places import labels
from beltwright.build.shop import Part
from beltwright.build.toml_writing import Value
from beltwright.options.assembly import edits_of, parts_with
from beltwright.options.front import Candidate
from beltwright.options.option import Choice


def applied(text: str, build: Build, choices: Sequence[Choice], candidate: Candidate) -> str:
    """The text of the build file with a candidate written into it, parts and prices included."""
    for edit in edits_of(choices, candidate):
        text = set_value(text, edit.key, value_for(text, edit.key, edit.text))
    return with_parts(text, build.part, parts_with(build, choices, candidate))


def with_parts(text: str, before: Sequence[Part], after: Sequence[Part]) -> str:
    """The text with its parts changed into others."""
    kept = {part.name: part for part in after}
    names = [{"name": part.name} for part in before]
    for part, label in reversed(list(zip(before, labels(names), strict=True))):
        now = kept.pop(part.name, None)
        if now is None:
            text = remove(text, f"part.{label}")
        elif now.use != part.use:
            text = _with_use(text, f"part.{label}.use", now.use)
    for part in kept.values():
        text = add_table(text, "part", _row(part))
    return text


def _with_use(text: str, key: str, use: str | None) -> str:
    return remove(text, key) if use is None else set_value(text, key, use)


def _row(part: Part) -> Mapping[str, Value]:
    """A part as it is written in the file."""
    sizes = {name: getattr(part, name) for name in ("outside", "length", "bore")}
    held: dict[str, Value | None] = {
        "name": part.name,
        "use": part.use,
        "from": part.source,
        "price": None if part.price is None else part.price.text,
        "quantity": part.quantity if part.quantity != 1 else None,
        "kind": part.kind,
        "section": part.section,
        **{name: None if size is None else size.text for name, size in sizes.items()},
        "length_is": part.length_is,
        "teeth": part.teeth,
        "size": part.size,
    }
    return {name: value for name, value in held.items() if value is not None}
