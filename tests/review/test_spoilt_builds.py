"""Builds with an absurd number in them: all is told in words, nothing is sound by mistake."""

import json
import re
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from beltwright.build.editing import set_value
from beltwright.build.errors import BuildError
from beltwright.build.reading import read_text
from beltwright.review import output
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import Review, review

EXAMPLES = Path(__file__).parents[2] / "examples"
SCHEMA = json.loads(Path(output.__file__).with_name("review.schema.json").read_text())

WORDS = ("shown", "shown_range", "shown_limit", "meaning", "remedy", "working")
OF_ARITHMETIC = re.compile(
    r"(?<!\w)(?:nan|inf|None)(?![^\W_])|(?<![\w.])-0(?:\.0+)?(?![\d.])|\de[+-]\d"
)
MANY_FIGURES = re.compile(r"(?<![\w.,])[1-9](?=\d{5})\d*[1-9]\d{0,1}(?![\w.])")


def spoilt(name: str, key: str, text: str) -> str:
    """The text of an example with one value replaced."""
    return set_value((EXAMPLES / name / "build.toml").read_text(), key, text)


def said(found: Review) -> list[tuple[Finding, str]]:
    """All words of a review."""
    return [(finding, getattr(finding, part)) for finding in found.findings for part in WORDS]


@pytest.mark.parametrize(
    ("name", "key", "text"),
    [
        ("orchard-hauler", "gearbox.seals.0.diameter", "0.17 mm"),
        ("orchard-hauler", "linkage.shift rod.lever.radius", "900 mm"),
        ("orchard-hauler", "linkage.brake rod.lever.radius", "38 ± 37.9 mm"),
        ("orchard-hauler", "machine.descent", "12000 m"),
        ("orchard-hauler", "throttle.arm.housing_end.0", "-55 ± 165 mm"),
        ("orchard-hauler", "throttle.cable.wire", "0.15 mm"),
        ("path-sweeper", "belt.clutch belt.tension", "0 N"),
        ("path-sweeper", "engine.flywheel.outside", "2 mm"),
        ("path-sweeper", "gearbox.air_space", "0.005 L"),
        ("path-sweeper", "machine.scales.raised_by", "1 mm"),
        ("path-sweeper", "machine.slope", "0.05 %"),
        ("path-sweeper", "pulley.lower pulley.outside", "2 mm"),
        ("path-sweeper", "steering.arm.0", "0 mm"),
        ("path-sweeper", "steering.arm.0", "-10 mm"),
        ("path-sweeper", "steering.kingpins", "55 mm"),
        ("puller", "brake.shoe_pivot", "0.05 in"),
    ],
)
@pytest.mark.parametrize("samples", [0, 40])
def test_an_absurd_number_is_told_in_words(name: str, key: str, text: str, samples: int) -> None:
    found = review(read_text(spoilt(name, key, text)), samples)
    for finding, words in said(found):
        assert not OF_ARITHMETIC.search(words), (finding.id, words)
        assert not MANY_FIGURES.search(words), (finding.id, words)
        assert finding.verdict is not Verdict.SOUND or finding.shown != "no value", finding.id
    Draft202012Validator(SCHEMA).validate(json.loads(output.json_text(found)))


@pytest.mark.parametrize(
    ("name", "key", "text", "told"),
    [
        ("path-sweeper", "drive.second gear.time", "0 s", "more than 0"),
        ("path-sweeper", "brake.pedal_force", "0 N", "more than 0"),
        ("path-sweeper", "brake.pedal_force", "-200 N", "more than 0"),
        ("orchard-hauler", "linkage.shift rod.lever.effort", "0 N", "more than 0"),
        ("orchard-hauler", "brake.efficiency", "80", 'Is the "%" missing?'),
        ("orchard-hauler", "brake.friction", "-0.35", "A share is never below 0."),
        ("orchard-hauler", "belt.traction belt.slip", "100 %", "More than 50 % cannot be right"),
        ("orchard-hauler", "belt.traction belt.slip", "-3 %", "A share is never below 0."),
        ("orchard-hauler", "brake.inner", "60 mm", "the wrong way round"),
        ("orchard-hauler", "steering.lock", "95 deg", "between 0 and 90 deg"),
        ("puller", "brake.shoe.1", "12 deg", "begins before it ends"),
    ],
)
def test_what_cannot_be_is_refused_where_it_stands(
    name: str, key: str, text: str, told: str
) -> None:
    with pytest.raises(BuildError) as refused:
        read_text(spoilt(name, key, text))
    assert any(
        told in problem.reason and problem.line and problem.key.startswith(key.split(".")[0])
        for problem in refused.value.problems
    ), str(refused.value)
