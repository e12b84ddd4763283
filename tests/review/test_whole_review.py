"""The whole review over the examples and the starter, and over builds that lack something."""

import re
from pathlib import Path

import pytest

from beltwright.build.errors import BuildError
from beltwright.build.model import Build
from beltwright.build.reading import read_build, read_text
from beltwright.build.starter import starter_text
from beltwright.review.finding import Verdict
from beltwright.review.review import Review, review

EXAMPLES = sorted(Path(__file__).parents[2].glob("examples/*/build.toml"))
HAULER = next(path for path in EXAMPLES if path.parent.name == "orchard-hauler")
SHORT = 'length = "60 in"\nlength_is = "inside"\ncount'
PULLER = next(path for path in EXAMPLES if path.parent.name == "puller")


def tables(text: str) -> list[str]:
    """Cut a build file before every header of a table."""
    return re.split(r"(?m)^(?=\[)", text)


def read_if_good(text: str) -> Build | None:
    """Read a build, None where it is refused."""
    try:
        return read_text(text)
    except BuildError:
        return None


def without_each_table(text: str) -> list[tuple[str, Build]]:
    """Give the builds that lack one table and are still good, by the table's header."""
    parts = tables(text)
    lacking = [
        (part.splitlines()[0], read_if_good("".join(parts[:at] + parts[at + 1 :])))
        for at, part in enumerate(parts[1:], 1)
    ]
    return [(header, build) for header, build in lacking if build is not None]


def without_each_line(text: str) -> list[tuple[str, Build]]:
    """Give the builds that lack one line and are still good, by that line."""
    lines = text.splitlines()
    lacking = [
        (line, read_if_good("\n".join(lines[:at] + lines[at + 1 :])))
        for at, line in enumerate(lines)
        if "=" in line and not line.startswith("#")
    ]
    return [(line, build) for line, build in lacking if build is not None]


def complete(found: Review) -> None:
    """Hold a review to what every finding owes its reader."""
    ids = [finding.id for finding in found.findings]
    assert len(ids) == len(set(ids))
    for finding in found.findings:
        assert finding.meaning, finding.id
        if finding.verdict is Verdict.NOT_KNOWN:
            assert finding.remedy, finding.id
        else:
            assert finding.working, finding.id
            assert finding.source, finding.id
        if finding.verdict in (Verdict.STOP, Verdict.MARGINAL):
            assert finding.remedy, finding.id


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_every_finding_of_an_example_is_complete(path: Path) -> None:
    complete(review(read_build(path), samples=200))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_a_finding_speaks_of_another_by_its_title_and_not_by_its_id(path: Path) -> None:
    findings = review(read_build(path), samples=0).findings
    for finding in findings:
        told = f"{finding.meaning} {finding.remedy} {finding.working} {finding.caution}"
        assert not [other.id for other in findings if re.search(rf"{re.escape(other.id)}\b", told)]


def test_a_belt_that_needs_no_keeper_is_not_told_how_many_it_lacks() -> None:
    findings = [each for path in EXAMPLES for each in review(read_build(path), 0).findings]
    sound = [each for each in findings if each.id.endswith(".keepers") and not each.remedy]
    assert sound
    assert {each.shown for each in sound} == {"none needed"}


def test_the_starter_has_no_stop_and_nothing_unknown() -> None:
    found = review(read_text(starter_text()))
    complete(found)
    said = {finding.id: finding.verdict for finding in found.findings}
    assert Verdict.STOP not in said.values(), said
    assert Verdict.NOT_KNOWN not in said.values(), said


def test_every_verdict_occurs_among_the_examples() -> None:
    seen = {
        finding.verdict
        for path in EXAMPLES
        for finding in review(read_build(path), samples=0).findings
    }
    assert seen == set(Verdict)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_a_build_that_lacks_a_table_is_still_reviewed(path: Path) -> None:
    for _, build in without_each_table(path.read_text(encoding="utf-8")):
        complete(review(build, samples=0))


def test_a_build_that_lacks_a_line_is_still_reviewed() -> None:
    lacking = without_each_line(HAULER.read_text(encoding="utf-8"))
    assert len(lacking) > 60
    for _, build in lacking:
        complete(review(build, samples=0))


def test_the_thread_left_in_inches_comes_out_of_its_own_working() -> None:
    """Sixteenths of an inch would be too coarse for what thread a hole leaves."""
    finding = review(read_build(PULLER), samples=0).finding("thread.tow plate, stripped.share")
    assert finding is not None
    assert finding.value is not None
    figures = re.match(r"\(([\d.]+) in − ([\d.]+) in\) / \(1.299 × ([\d.]+) in\)", finding.working)
    assert figures is not None
    major, hole, pitch = (float(figure) for figure in figures.groups())
    assert (major - hole) / (1.299 * pitch) == pytest.approx(finding.value, abs=0.005)


def test_degrees_of_warming_are_the_builders_own() -> None:
    for path, unit in ((HAULER, "°C"), (PULLER, "°F")):
        found = review(read_build(path), samples=0)
        for name in ("brake.stop_heat", "pull.clutch_heat", "gearbox.oil_temperature"):
            finding = found.finding(name)
            assert finding is not None
            assert not re.search(r"\d K\b", finding.meaning), name
            assert unit in finding.meaning + finding.shown


@pytest.mark.parametrize(
    ("now", "then"),
    [
        ('at = ["8 ± 1/8 in", "-3/4 ± 1/8 in"]', 'at = ["34 ± 1/8 in", "0 ± 1/8 in"]'),
        ('length = "72 in"\nlength_is = "inside"\ncount', SHORT),
        ('driven = "rear"', 'driven = "front"'),
        ('slope = "20 %"', 'slope = "120 %"'),
        ('power = "15 hp ± 5 %"', 'power = "0.1 hp ± 5 %"'),
        ('free = "4 ± 1/16 in"', 'free = "12 ± 1/16 in"'),
    ],
    ids=[
        "one shaft in the other",
        "belt too short",
        "front driven",
        "cliff",
        "toy",
        "loose spring",
    ],
)
def test_a_build_that_cannot_work_is_reviewed_in_inches(now: str, then: str) -> None:
    """Nothing that has no answer is shown as a number, least of all as a fraction of an inch."""
    text = PULLER.read_text(encoding="utf-8")
    assert text.count(now) == 1
    found = review(read_text(text.replace(now, then)), samples=50)
    complete(found)
    for finding in found.findings:
        told = " ".join((finding.shown, finding.shown_range, finding.meaning, finding.working))
        assert not re.search(r"\b(nan|inf)\b", told), finding.id


def test_the_same_build_gives_the_same_review() -> None:
    once, again = (review(read_build(HAULER)) for _ in range(2))
    assert once.findings == again.findings


def test_a_bare_build_is_reviewed() -> None:
    found = review(read_text('format = 1\nname = "bare"\n'), samples=0)
    complete(found)
    assert found.count(Verdict.NOT_KNOWN) > 0
