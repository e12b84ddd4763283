"""Every number that is supposed has a name in words and is shown in the builder's units."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import beltwright.review
from beltwright.build.reading import read_build, read_text
from beltwright.quantity import Kind, Units, read_quantity
from beltwright.review.finding import Assumption
from beltwright.review.review import OTHER, review
from beltwright.review.supposed import NAMES, in_units, supposed_name
from beltwright.views.assumed import assumed_lines

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*/build.toml"))
REVIEW = Path(beltwright.review.__file__).parent

INCHES = Units.of([], {Kind.LENGTH: "in"})
METRIC = Units.of([], {Kind.LENGTH: "mm"})


def _keys_in_code() -> Iterator[str]:
    """The key of every `suppose`, a * for what is filled in; those passed on by name left out."""
    for path in sorted(REVIEW.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func).endswith(".suppose"):
                key = node.args[1]
                if isinstance(key, ast.Constant):
                    yield str(key.value)
                elif isinstance(key, ast.JoinedStr):
                    yield "".join(
                        str(part.value) if isinstance(part, ast.Constant) else "*"
                        for part in key.values
                    )


def test_there_are_keys() -> None:
    assert len(set(_keys_in_code())) > 40


@pytest.mark.parametrize("key", sorted(set(_keys_in_code())))
def test_every_number_that_the_code_supposes_has_a_name(key: str) -> None:
    name = re.compile(re.escape(key).replace(r"\*", ".+"))
    assert any(name.fullmatch(known) for known in NAMES)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_every_number_that_an_example_leaves_out_has_a_name(path: Path) -> None:
    nameless = [
        each.key for each in review(read_build(path), 0).assumptions if not supposed_name(each.key)
    ]
    assert nameless == []


def test_the_builders_own_name_goes_in() -> None:
    assert supposed_name("ground.mown grass.grip") == "grip of the tyres on mown grass"
    assert supposed_name("belt.v. 2.friction") == "friction of the v. 2 in its grooves"
    assert supposed_name("belt.long.back_friction").endswith("on the back of the long")
    assert supposed_name("pulley.large.outside") == ""


@pytest.mark.parametrize(
    ("text", "kind", "inches", "metric"),
    [
        ("25.4 ± 2.54 mm", Kind.LENGTH, "1 ± 0.1 in", "25.4 ± 2.54 mm"),
        ("1.5 ± 0.5 m", Kind.LENGTH, "59.1 ± 19.7 in", "1.5 ± 0.5 m"),
        ("0 ± 0.7 in", Kind.LENGTH, "0 ± 0.7 in", "0 ± 18 mm"),
        ("100 N", Kind.FORCE, "22.5 lbf", "100 N"),
        ("15 ± 10 °C", Kind.TEMPERATURE, "59 ± 18 °F", "15 ± 10 °C"),
        ("0.15 +0.15 -0.02", Kind.RATIO, "0.15 +0.15 -0.02", "0.15 +0.15 -0.02"),
        ("270 ± 90 deg", Kind.ANGLE, "270 ± 90 deg", "270 ± 90 deg"),
    ],
)
def test_it_is_shown_in_the_builders_units(text: str, kind: Kind, inches: str, metric: str) -> None:
    quantity = read_quantity(text, kind)
    assert in_units(quantity, INCHES) == inches
    assert in_units(quantity, METRIC) == metric


def test_the_same_reason_is_told_once() -> None:
    gap = read_quantity("6 mm", Kind.LENGTH)
    lines = assumed_lines(
        [Assumption(f"obstacle.{name}.gap", gap, "common practice") for name in ("rail", "lever")],
        METRIC,
    )
    assert list(lines) == [
        (
            "Gap wanted between belt and rail: 6 mm; Gap wanted between belt and lever: 6 mm",
            "Common practice.",
        )
    ]


def test_each_stands_under_the_first_topic_that_needed_it() -> None:
    found = review(read_build(EXAMPLES[0]), 0)
    by_topic = found.assumed_by_topic()
    assert sorted(a.key for each in by_topic.values() for a in each) == sorted(
        a.key for a in found.assumptions
    )
    for topic, assumed in by_topic.items():
        for each in assumed:
            users = [f.topic for f in found.findings if each.key in f.assumed]
            assert (users[0] if users else OTHER) == topic


def test_topics_come_in_the_order_of_the_review() -> None:
    found = review(read_build(EXAMPLES[0]), 0)
    topics = [topic for topic in found.assumed_by_topic() if topic != OTHER]
    assert topics == [t for t in dict.fromkeys(f.topic for f in found.findings) if t in topics]
    assert len(topics) > 5


def test_what_was_supposed_for_what_is_not_known_is_not_lost() -> None:
    found = review(read_text('format = 1\nname = "empty"\n'), 0)
    assert list(found.assumed_by_topic()) == [OTHER]
