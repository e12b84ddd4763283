"""What stops the drives whatever was expected, and what a sign points to."""

from collections.abc import Callable
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Any, get_args

import pytest

from beltwright.build.drive import Sign
from beltwright.build.reading import read_build
from beltwright.review.case import Case
from beltwright.review.finding import Verdict
from beltwright.review.proving.signs import SIGNS
from beltwright.review.topics import FIRST_DRIVE, TOPICS

Make = Callable[..., Any]
EXAMPLES = sorted(Path(__file__).parents[3].glob("examples/*/build.toml"))

HOT = 'gear = "2"\nair = "20 °C"\nafter = "60 min"\n'
NOT_YET = ("linkage.*", "throttle.*", "guard.*")
"""Findings that no example needs to have."""


@pytest.mark.parametrize(
    ("row", "what", "verdict"),
    [
        # a brake path of 1.2 m where locked tyres would take some 0.5 m
        ('braked_from = "1.6 m/s"\nstopped_in = "1.2 ± 0.05 m"', "stop", Verdict.STOP),
        # with the wheels locked the ground is to blame
        ('braked_from = "1.6 m/s"\nstopped_in = "1.2 m"\nlocked = true', "stop", Verdict.MARGINAL),
        # 1.6 m/s for a second of reaction and 1.5 m of braking are over the goal of 3 m
        ('braked_from = "1.6 m/s"\nstopped_in = "1.5 m"\nlocked = true', "stop", Verdict.STOP),
        (HOT + 'case = "105 °C"', "temperature", Verdict.STOP),
        (HOT + 'case = "45 °C"', "temperature", Verdict.SOUND),
    ],
)
def test_what_is_dangerous_stops(
    driven: Make, findings: Make, row: str, what: str, verdict: Verdict
) -> None:
    found = findings(driven(f'name = "a"\n{row}'))[f"a.{what}"]
    assert found.verdict is verdict
    if verdict is Verdict.STOP:
        assert found.remedy
        assert found.caution


def test_every_sign_has_a_meaning() -> None:
    assert set(SIGNS) == set(get_args(Sign))


def test_signs_point_to_findings_that_there_are() -> None:
    ids = set()
    for path in EXAMPLES:
        case = Case(read_build(path))
        for topic, questions in TOPICS.items():
            ids |= {ask.id for ask in questions(case)} if topic != FIRST_DRIVE else set()
    wanted = {pattern for meant in SIGNS.values() for pattern in meant.findings}
    lost = [p for p in wanted - set(NOT_YET) if not any(fnmatchcase(id_, p) for id_ in ids)]
    assert lost == []


@pytest.mark.parametrize(
    ("sign", "verdict"),
    [
        ("creeps with clutch down", Verdict.STOP),
        ("belt jumped off", Verdict.STOP),
        ("front lifts", Verdict.STOP),
        ("belt squeals", Verdict.MARGINAL),
        ("oil at a seal", Verdict.MARGINAL),
    ],
)
def test_a_sign_says_what_the_plan_knows_of_it(
    driven: Make, findings: Make, sign: Sign, verdict: Verdict
) -> None:
    found = findings(driven(f'name = "a"\nsigns = ["{sign}"]'))[f"a.{sign}"]
    assert found.verdict is verdict
    assert found.remedy.startswith(SIGNS[sign].check)
    assert found.working != "nothing in the plan"


def test_a_creeping_clutch_quotes_the_slack_of_its_belt(driven: Make, findings: Make) -> None:
    tight = ('released = "180 ± 2 deg"', 'released = "140 ± 2 deg"')
    row = 'name = "a"\nsigns = ["creeps with clutch down"]'
    found = findings(driven(row, changed=tight))["a.creeps with clutch down"]
    assert "Slack of the clutch belt" in found.meaning
    assert "Let the arm swing further back" in found.remedy


def test_a_sign_of_one_belt_speaks_of_that_belt(driven: Make, findings: Make) -> None:
    row = 'name = "a"\nbelt = "engine belt"\nsigns = ["belt squeals"]'
    working = findings(driven(row))["a.belt squeals"].working
    assert "engine belt" in working or "engine pulley" in working
    assert "clutch belt" not in working
