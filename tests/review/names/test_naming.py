"""Every value of a build file has a name in words, and no name gives its key away."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pytest
from pydantic import BaseModel

import beltwright.review
from beltwright.build.model import Build
from beltwright.build.reading import read_build
from beltwright.quantity import Goal, Quantity, Tyre
from beltwright.review.names.naming import NAMES, known_name, name_of
from beltwright.review.review import review

REVIEW = Path(beltwright.review.__file__).parent
EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*/build.toml"))
VALUES = (Quantity, Goal, Tyre)


def _models(kind: object) -> Iterator[type[BaseModel]]:
    """The tables among the alternatives of a type."""
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        yield kind
    for inner in get_args(kind):
        yield from _models(inner)


def _places(kind: object) -> list[str]:
    """The last steps to the values of a type: none, or one for each value of a list of them."""
    if kind in VALUES:
        return [""]
    inner = get_args(kind)
    ways = [_places(each) for each in inner]
    if getattr(kind, "__origin__", None) is not tuple:
        return next((way for way in ways if way), [])
    if Ellipsis in inner:
        return [f".*{step}" for step in ways[0]]
    return [f".{number}{step}" for number, way in enumerate(ways) for step in way]


def _values(model: type[BaseModel], before: str) -> Iterator[str]:
    """The key of every value that a table may hold, a * for the rows."""
    for attribute, field in model.model_fields.items():
        key = f"{before}{field.alias or attribute}"
        inner = next(_models(field.annotation), None)
        if inner is None:
            yield from (f"{key}{step}" for step in _places(field.annotation))
        else:
            rows = "tuple" in str(field.annotation)
            yield from _values(inner, f"{key}.*." if rows else f"{key}.")


NAMELESS = ("curve", "reading", "seals", "holes", "feet", "vary", "outline")
"""Lists whose rows have no name of their own, and so go by their number."""


def _filled(pattern: str) -> str:
    """A key of a build whose rows have names where they can have some."""
    steps = pattern.split(".")
    rows = {True: "0", False: "long one"}
    return ".".join(
        rows[steps[at - 1] in NAMELESS] if step == "*" else step for at, step in enumerate(steps)
    )


KEYS = sorted(set(_values(Build, "")))


def _keys_in_code(method: str, at: int) -> Iterator[str]:
    """The key in every call of a kind, a * for what is filled in."""
    for path in sorted(REVIEW.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func).endswith(method):
                key = node.args[at]
                if isinstance(key, ast.Constant):
                    yield str(key.value)
                elif isinstance(key, ast.JoinedStr):
                    yield "".join(
                        str(part.value) if isinstance(part, ast.Constant) else "*"
                        for part in key.values
                    )


def _kept(key: str) -> bool:
    """Whether a key of the code begins with the name of a table."""
    return not key.startswith("*") and "*.*" not in key and key != "throttle.*.free_wire"


ASKED = sorted(
    {
        key
        for method, at in ((".need", 1), ("NotKnownError", 0), (".suppose", 1), ("unlisted", 0))
        for key in _keys_in_code(method, at)
        if _kept(key)
    }
)


def test_there_are_many_values() -> None:
    assert len(KEYS) > 200
    assert "guard.*.feet.*.angle" in KEYS
    assert "linkage.*.arm.pivot.2" in KEYS
    assert len(ASKED) > 90


@pytest.mark.parametrize("key", KEYS)
def test_every_value_of_the_model_has_a_name(key: str) -> None:
    assert key in NAMES


@pytest.mark.parametrize("key", KEYS + ASKED)
def test_no_name_gives_its_key_away(key: str) -> None:
    name = name_of(_filled(key))
    assert not re.search(r"[_.*{}]", name)
    assert not re.search(r"\b0\b", name)


@pytest.mark.parametrize("key", ASKED)
def test_everything_that_the_review_asks_for_or_supposes_has_a_name(key: str) -> None:
    assert known_name(_filled(key))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_everything_that_a_review_rests_on_has_a_name(path: Path) -> None:
    found = review(read_build(path), 0)
    nameless = {key for each in found.findings for key in each.inputs if not known_name(key)}
    assert nameless == set()


def test_names_are_those_of_the_trade() -> None:
    assert name_of("machine.scales.rear") == "rear wheels on the scales"
    assert name_of("guard.rear guard.feet.0.angle") == "angle of foot 1 of the rear guard"
    assert name_of("pulley.engine pulley.outside") == "outside diameter of the engine pulley"
    assert name_of("shaft.engine.at.0") == "how far forward the shaft “engine” sits"
    assert name_of("engine.no_load") == "engine speed without load"
    assert name_of("throttle.arm.closed") == "angle of the throttle arm at the idle stop"
    assert name_of("machine.load.0.mass") == "weight of load 1"
    assert name_of("machine.load.crates.mass") == "weight of load “crates”"


def test_names_with_dots_go_in_whole() -> None:
    assert name_of("belt.v. 2.friction") == "friction of the v. 2 in the grooves"
    assert name_of("pulley.4.5 in.hub.outside") == "hub diameter of the 4.5 in"
    assert name_of("plate.no. 1.hole.m8. left.diameter") == (
        "diameter of the hole “m8. left” of the no. 1"
    )


def test_what_has_no_name_is_told_by_its_key() -> None:
    assert known_name("pocket.lint") == ""
    assert name_of("pocket.lint_left") == "pocket lint left"
