"""Who builds in inches reads no metric unit, and who builds in millimetres no inch.

Sources keep the units that they print, and a formula's constants those that it is printed with.
"""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from beltwright.build.reading import read_build
from beltwright.review.names.naming import NAMES
from beltwright.review.review import Review, review
from beltwright.review.supposed import in_units
from beltwright.views.assumed import assumed_lines

EXAMPLES = Path(__file__).parents[2] / "examples"
SHOWN = ("title", "shown", "shown_range", "shown_limit", "meaning", "remedy", "working", "caution")

METRIC = (
    "mm|cm|m|km|kg|g|mg|N|kN|N·m|kW|J|kJ|°C|K|bar|mbar|Pa|kPa|MPa|L|mL|m/s|m/s²|km/h|N/mm|mm²|m²"
    r"|m³|kg·m²|kg/m³|mm²/s|W/K|W|W·h|J/\(kg K\)"
)
INCH = "in|ft|thou|yd|mi|lb|oz|hp|lbf|lbf·ft|lbf/in|psi|ksi|°F|fl oz|ft²|in²|ft/s|ft/s²|ft/min"
INCH += "|mph|Btu|Btu/h"


def _amounts(units: str) -> re.Pattern[str]:
    """A number with one of the units behind it, or a unit of something over something."""
    return re.compile(rf"(?<![\w.])[-0-9.,/ ]*[0-9] ?(?:{units})(?![\w/·²³])")


def _shown(found: Review) -> Iterator[tuple[str, str]]:
    for finding in found.findings:
        for part in SHOWN:
            yield f"{finding.id} {part}", getattr(finding, part)
    for values, why in assumed_lines(found.assumptions, found.units):
        yield "assumed", values
        # a reason may cite the figures of its source, which come with a year or a name
        yield "why", "" if "(from memory)" in why or "seen in print" in why else why
    for each in found.measure_next:
        yield each.key, f"{each.what}: {each.how}"


def _build(name: str) -> Review:
    return review(read_build(EXAMPLES / name / "build.toml"), 50)


def test_who_builds_in_inches_reads_no_metric_unit() -> None:
    metric = _amounts(METRIC)
    told = {where: words for where, words in _shown(_build("puller")) if metric.search(words)}
    assert told == {}


@pytest.mark.parametrize("name", ["orchard-hauler", "path-sweeper"])
def test_who_builds_in_millimetres_reads_no_inch(name: str) -> None:
    inches = _amounts(INCH)
    named = re.compile(r"“[^”]*”|A\d+ belt|[\d/]+-[\d.]+ UNC|[\d/]+ NPT")
    told = {
        where: words for where, words in _shown(_build(name)) if inches.search(named.sub("", words))
    }
    assert told == {}


def test_supposed_numbers_are_in_the_builders_units() -> None:
    found = _build("puller")
    metric = _amounts(METRIC)
    shown = {each.key: in_units(each.quantity, found.units) for each in found.assumptions}
    assert {key: words for key, words in shown.items() if metric.search(words)} == {}


@pytest.mark.parametrize("name", ["orchard-hauler", "path-sweeper", "puller"])
def test_no_words_hold_a_key_of_the_build_file(name: str) -> None:
    """Keys stand only where something is to be written: in remedies."""
    found = _build(name)
    keys = {key for finding in found.findings for key in finding.inputs if "." in key}
    assert len(keys) > 100
    for where, words in _shown(found):
        if "remedy" not in where:
            assert not [key for key in keys if key in words], where


def test_no_name_holds_a_unit() -> None:
    assert [name for name in NAMES.values() if re.search(r"m²|\bmm\b|\bkg\b", name)] == []
