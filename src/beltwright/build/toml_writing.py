"""Names and values as they stand in a TOML file."""

from collections.abc import Mapping, Sequence

import tomlkit

Value = str | bool | int | float | Sequence["Value"] | Mapping[str, "Value"]


def toml_of(value: Value) -> str:
    """Write a value as it stands in the file."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return str(tomlkit.string(value).as_string())
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{name_of(k)} = {toml_of(v)}" for k, v in value.items()) + " }"
    if isinstance(value, Sequence):
        return "[" + ", ".join(toml_of(each) for each in value) + "]"
    return repr(value)


def name_of(name: str) -> str:
    """Write a name, in quotes where it needs them."""
    return tomlkit.key(name).as_string()
