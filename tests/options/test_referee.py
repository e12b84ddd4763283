"""Candidates judged together against the review of each by itself."""

from pathlib import Path

import numpy as np
import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_build
from beltwright.build.walking import quantities
from beltwright.options.editing import edited
from beltwright.options.family import Axis, Family
from beltwright.options.limit import held_in
from beltwright.options.limits import limits_of
from beltwright.options.option import Edit
from beltwright.options.referee import Referee, goal_ids
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind, Quantity, write
from beltwright.review.case import NotKnownError
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import review

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*/build.toml"))
COUNT = 60


def _varied(build: Build, draw: np.random.Generator) -> dict[str, Array]:
    """Every length of pulleys, idlers, belts and shafts, changed a little or much."""
    parts = (build.pulley, build.idler, build.belt, build.shaft)
    found = {
        each.key: each
        for each in quantities(parts)
        if isinstance(each, Quantity) and each.kind is Kind.LENGTH and each.value != 0.0
    }
    spread = draw.choice([0.002, 0.02, 0.08], COUNT)
    return {
        key: each.value * (1.0 + spread * draw.uniform(-1.0, 1.0, COUNT))
        for key, each in found.items()
    }


def _told(finding: Finding) -> bool:
    """Whether a review speaks against a candidate by this finding."""
    return finding.verdict is Verdict.STOP and not finding.id.startswith(("money.", "drive."))


def _misses(finding: Finding) -> bool:
    low, high = (finding.limit.at_least, finding.limit.at_most) if finding.limit else (None, None)
    value = finding.value
    if value is None:
        return finding.limit is not None
    return (low is not None and value < low) or (high is not None and value > high)


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.parent.name)
def test_together_and_one_by_one_agree(file: Path) -> None:
    build = read_build(file)
    values = _varied(build, np.random.default_rng(3))
    places = np.arange(COUNT, dtype=np.int32)
    family = Family(build, (Axis(0, places, values, np.zeros(COUNT), np.zeros(COUNT)),))
    referee = Referee(family)
    standing = {stop.id for stop in referee.standing}
    case = family.case([places])
    usable = np.ones(COUNT, dtype=bool)
    for limit in limits_of(build):
        if limit.full:
            usable &= held_in(limit, case).kept()
    left = np.flatnonzero(usable)
    together: dict[int, set[str]] = {int(n): set() for n in left}
    for each in referee.judge(family.case([places[left]])).broken:
        for n in left[np.broadcast_to(each.by, len(left))]:
            together[int(n)].add(each.id)
    goals = goal_ids(build)
    for n, broken_ids in together.items():
        edits = [Edit(key, write(float(row[n]), "m")) for key, row in values.items()]
        findings = review(edited(build, edits), samples=0).findings
        assert broken_ids == {
            f.id
            for f in findings
            if (_told(f) and f.id not in standing) or (f.id in goals and _misses(f))
        }
    assert len({frozenset(ids) for ids in together.values()}) > 3


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.parent.name)
def test_no_limit_turns_away_what_the_review_lets_pass(file: Path) -> None:
    """Each limit that is judged early is the finding of its name."""
    build = read_build(file)
    values = _varied(build, np.random.default_rng(4))
    places = np.arange(COUNT, dtype=np.int32)
    family = Family(build, (Axis(0, places, values, np.zeros(COUNT), np.zeros(COUNT)),))
    case = family.case([places])
    for limit in limits_of(build):
        try:
            kept = np.broadcast_to(held_in(limit, case).kept(), COUNT)
        except NotKnownError:
            continue
        for n in np.flatnonzero(~kept)[:4]:
            edits = [Edit(key, write(float(row[n]), "m")) for key, row in values.items()]
            found = review(edited(build, edits), samples=0).finding(limit.id)
            assert found is not None
            assert found.verdict in (Verdict.STOP, Verdict.MARGINAL), (limit.reason, n)
