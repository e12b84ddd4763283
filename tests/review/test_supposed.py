"""Every number that is supposed is shown in the builder's units, under its first topic."""

from pathlib import Path

import pytest

from beltwright.build.reading import read_build, read_text
from beltwright.quantity import Kind, Units, read_quantity
from beltwright.review.finding import Assumption
from beltwright.review.review import OTHER, review
from beltwright.review.supposed import in_units
from beltwright.views.assumed import assumed_lines

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*/build.toml"))

INCHES = Units.of([], {Kind.LENGTH: "in"})
METRIC = Units.of([], {Kind.LENGTH: "mm"})


@pytest.mark.parametrize(
    ("text", "kind", "inches", "metric"),
    [
        ("25.4 ± 2.54 mm", Kind.LENGTH, "1 ± 0.1 in", "25.4 ± 2.54 mm"),
        ("1.5 ± 0.5 m", Kind.LENGTH, "59 ± 20 in", "1.5 ± 0.5 m"),
        ("0 ± 0.7 in", Kind.LENGTH, "0 ± 0.7 in", "0 ± 18 mm"),
        ("25 mm", Kind.LENGTH, "0.98 in", "25 mm"),
        ("0.5 ± 0.3 L", Kind.VOLUME, "17 ± 10 fl oz", "0.5 ± 0.3 L"),
        ("100 N", Kind.FORCE, "22.5 lbf", "100 N"),
        ("15 ± 10 °C", Kind.TEMPERATURE, "59 ± 18 °F", "15 ± 10 °C"),
        ("300 ± 60 MPa", Kind.PRESSURE, "44 ± 9 ksi", "300 ± 60 MPa"),
        ("0.7 ± 0.2 m²", Kind.AREA, "7.5 ± 2.2 ft²", "0.7 ± 0.2 m²"),
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
