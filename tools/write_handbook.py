"""Writes docs/build-file.md: every table and key of the build file, from the model itself."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from beltwright.build.model import Build
from beltwright.build.toml_writing import toml_of
from beltwright.tables.belts import section_names
from beltwright.tables.surfaces import surfaces

PAGE = Path(__file__).parents[1] / "docs" / "build-file.md"

HEAD = """# The build file

Everything that you know or have measured stands in one TOML file. `beltwright new FILE` writes a
starter; the folders under `examples/` hold three finished ones. This page is written from the
model by `tools/write_handbook.py`.

- Text with a unit: `"118 mm"`, `"4 5/8 in"`, `"3300 rpm"`, `"9.3 kW"`, `"12.5 hp"`, `"24 deg"`.
- Any value may carry its tolerance: `"118 ± 1 mm"`, `"118 +- 1 mm"`, `"118 +1 -0.5 mm"`,
  `"12.5 hp ± 5 %"`.
- Goals are ranges or limits: `"18 to 22 km/h"`, `"at most 3 km/h"`, `"at least 15 %"`.
- Points are pairs: x forward from the rear axle's centre, y to the left; places add z, up from the
  ground.
- What you leave out is supposed with a stated assumption, or reported as `not known: measure this`.
"""


def page() -> str:
    """The handbook page."""
    schema = Build.model_json_schema()
    tables = list(_tables(schema, schema, ""))
    return HEAD + _known() + "".join(tables)


def _known() -> str:
    """The names that the published tables have."""
    grounds = ", ".join(f"`{surface.name}`" for surface in surfaces())
    sections = ", ".join(f"`{name}`" for name in section_names())
    return f"- Grounds: {grounds}.\n- Belt sections and grooves: {sections}.\n"


def _tables(schema: dict[str, Any], table: dict[str, Any], name: str) -> Iterator[str]:
    rows = []
    below = []
    for key, field in table["properties"].items():
        target, listed = _resolved(schema, field)
        if "properties" in target:
            inner = f"{name}.{key}" if name else key
            below.append((f"[[{inner}]]" if listed else f"[{inner}]", inner, target))
        else:
            needed = "yes" if key in table.get("required", ()) else ""
            rows.append(
                f"| `{key}` | {_says(field, target)} | {_example(field, target, listed)} "
                f"| {needed} |"
            )
    if rows:
        yield "\n| key | what | example | needed |\n|---|---|---|---|\n" + "\n".join(rows) + "\n"
    for title, inner, target in below:
        yield f"\n## `{title}`\n\n{target.get('description', '')}\n"
        yield from _tables(schema, target, inner)


def _resolved(schema: dict[str, Any], field: dict[str, Any]) -> tuple[dict[str, Any], bool]:
    """What a field holds, and whether it is a list of it."""
    listed = False
    while True:
        if "anyOf" in field:
            field = next(f for f in field["anyOf"] if f.get("type") != "null")
        elif "$ref" in field:
            field = schema["$defs"][field["$ref"].rsplit("/", 1)[-1]]
        elif field.get("type") == "array" and "items" in field:
            field, listed = field["items"], True
        else:
            return field, listed


def _says(field: dict[str, Any], target: dict[str, Any]) -> str:
    words = field.get("description") or target.get("description") or ""
    choices = target.get("enum") or ([target["const"]] if "const" in target else [])
    if choices:
        words = f"{words}{': ' if words else ''}{', '.join(f'`{c}`' for c in choices)}"
    default = field.get("default")
    if isinstance(default, str | int | float) and default != "":
        words = f"{words} (`{default}` if left out)"
    return words.replace("|", "\\|")


def _example(field: dict[str, Any], target: dict[str, Any], listed: bool) -> str:
    """An example as it stands in the file."""
    if examples := field.get("examples"):
        return f"`{toml_of(examples[0])}`"
    one = _one_example(target)
    return f"`[{one}]`" if listed and one else f"`{one}`" if one else ""


def _one_example(target: dict[str, Any]) -> str:
    """An example of one value, or of a point with all its numbers."""
    if "prefixItems" in target:
        return f"[{', '.join(_one_example(item) for item in target['prefixItems'])}]"
    examples = target.get("examples")
    return toml_of(examples[0]) if examples else ""


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    print(f"wrote {PAGE.name}")
