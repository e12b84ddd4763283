"""The JSON Schema of the build file is current, and holds the files that the model holds."""

import importlib.util
import json
import tomllib
from pathlib import Path
from types import ModuleType
from typing import get_args

import jsonschema
import pytest

from beltwright.build.model import Build
from beltwright.build.row import Row

ROOT = Path(__file__).parents[2]
SCHEMA = ROOT / "src" / "beltwright" / "build" / "build.schema.json"
BUILDS = [*ROOT.glob("examples/*/build.toml"), ROOT / "src/beltwright/build/starter.toml"]


def tool(name: str = "write_schemas") -> ModuleType:
    """Load a tool that writes from the model."""
    spec = importlib.util.spec_from_file_location(name, ROOT / f"tools/{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_schema_is_current() -> None:
    assert SCHEMA.read_text(encoding="utf-8") == tool().schema_text(), "run tools/write_schemas.py"


def test_the_handbook_is_that_of_the_model() -> None:
    page = (ROOT / "docs" / "build-file.md").read_text(encoding="utf-8")
    assert page == tool("write_handbook").page(), "run tools/write_handbook.py"


@pytest.mark.parametrize("build", BUILDS, ids=lambda path: path.parent.name)
def test_good_builds_hold(build: Path) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.validate(tomllib.loads(build.read_text(encoding="utf-8")), schema)


@pytest.mark.parametrize(
    "text", ["format = 2\nname = 'x'", "format = 1", "format = 1\nname = 'x'\noops = 1"]
)
def test_bad_builds_do_not(text: str) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(tomllib.loads(text), schema)


def test_every_quantity_is_described_with_an_example_that_reads() -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    texts = list(_texts(schema))
    assert len(texts) > 50
    assert all(text["examples"] for text in texts if "examples" in text)


def test_every_key_of_a_build_file_has_a_sentence_of_its_own() -> None:
    """What a table is, its own first line says; every other key says it in the handbook."""
    tables = _tables(Build)
    assert len(tables) > 30
    bare = [
        f"{table.__name__}.{key}"
        for table in tables
        for key, field in table.model_fields.items()
        if not field.description and not _held(field.annotation)
    ]
    assert bare == []
    assert [table.__name__ for table in tables if not table.__doc__] == []


def _tables(table: type[Row]) -> set[type[Row]]:
    """Give a table and every table below it."""
    below = {each for field in table.model_fields.values() for each in _held(field.annotation)}
    return {table}.union(*(_tables(each) for each in below))


def _held(kind: object) -> set[type[Row]]:
    """Give the tables that a field holds."""
    if isinstance(kind, type) and issubclass(kind, Row):
        return {kind}
    return {each for inner in get_args(kind) for each in _held(inner)}


def _texts(node: object) -> list[dict[str, object]]:
    """Give every text with an example in the schema."""
    if isinstance(node, dict):
        own = [node] if node.get("type") == "string" and "examples" in node else []
        return own + [text for item in node.values() for text in _texts(item)]
    if isinstance(node, list):
        return [text for item in node for text in _texts(item)]
    return []
