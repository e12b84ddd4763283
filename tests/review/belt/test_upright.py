"""A belt that stands upright passes beside parts, where it is written how far left it runs."""

from pathlib import Path

import pytest

from beltwright.build.reading import read_text
from beltwright.review.belt.layout import belt_layout
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.guard.bare import bare_nips
from beltwright.review.review import review

ROOT = Path(__file__).parents[3]
SWEEPER = (ROOT / "examples" / "path-sweeper" / "build.toml").read_text(encoding="utf-8")
BLOWER = (ROOT / "tests" / "blower.toml").read_text(encoding="utf-8")
WHEELS = ("jackshaft pulley", "blower idler", "blower pulley")


def text(**left: str) -> str:
    """The sweeper with its blower, whose wheels run so far left of the middle."""
    blower = BLOWER
    for wheel in WHEELS:
        said = left.get(wheel.replace(" ", "_"), left.get("all", ""))
        if said:
            assert blower.count(f'name = "{wheel}"\n') == 1
            named = f'name = "{wheel}"\n'
            blower = blower.replace(named, f'{named}across = "{said}"\n')
    return SWEEPER + blower


def found(build: str) -> dict[str, Finding]:
    return {f.id: f for f in review(read_text(build), 0).findings if "blower belt" in f.id}


@pytest.mark.parametrize("part", ["brush lift lever", "left frame rail"])
def test_what_overlaps_seen_from_the_right_is_not_known_to_touch(part: str) -> None:
    finding = found(text())[f"clearance.blower belt.{part}"]
    assert finding.verdict is Verdict.NOT_KNOWN
    assert "across" in finding.remedy
    flap = found(text())["clearance.blower belt.flap"]
    assert flap.verdict is Verdict.NOT_KNOWN
    assert found(text())["clearance.blower belt.wheels"].verdict is Verdict.NOT_KNOWN


def test_a_belt_on_the_right_passes_beside_what_stands_on_the_left() -> None:
    """The lever stands 110 to 150 mm left: 110 + 100 mm less half of a belt of 12.7 mm."""
    findings = found(text(all="-100 mm"))
    lever = findings["clearance.blower belt.brush lift lever"]
    assert lever.verdict is Verdict.SOUND
    assert lever.value == pytest.approx(0.210 - 0.5 * 0.0127, abs=2e-4)
    assert findings["clearance.blower belt.left frame rail"].verdict is Verdict.SOUND
    assert findings["clearance.blower belt.wheels"].verdict is Verdict.SOUND
    assert findings["clearance.blower belt.flap"].verdict is Verdict.SOUND


def test_a_belt_in_line_with_a_part_runs_into_it() -> None:
    findings = found(text(all="130 mm"))
    assert findings["clearance.blower belt.brush lift lever"].verdict is Verdict.STOP
    assert findings["clearance.blower belt.wheels"].verdict is Verdict.STOP


def test_grooves_out_of_line_are_told_from_how_far_left_they_run() -> None:
    asked = found(text())["belt.blower belt.fleet"]
    assert asked.verdict is Verdict.NOT_KNOWN
    assert "across = " in asked.remedy
    told = found(text(all="-100 mm", blower_pulley="-95 mm"))["belt.blower belt.fleet"]
    assert "5 mm further left" in told.meaning
    assert "Bring the blower pulley to the right by" in told.remedy
    level = found(text(all="-100 mm"))["belt.blower belt.fleet"]
    assert level.verdict is Verdict.SOUND


def test_its_places_stand_as_far_left_as_it_runs() -> None:
    case = Case(read_text(text(all="-100 mm")))
    belt = case.build.belt[2]
    assert belt_layout(case, belt).stands(0) == pytest.approx((0.3, -0.1, 0.42))
    assert {nip.at[1] for nip in bare_nips(case, belt)} == {-0.1}
