"""From drafts to verdicts."""

from dataclasses import replace

import numpy as np
import pytest

from beltwright.build.model import Build
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.judging import judge, percentiles, verdict_of
from beltwright.review.nearness import goes_over

CASE = Case(Build(format=1, name="empty"))
DRAFT = Draft(
    kind=Kind.LENGTH, value=np.array([1.0]), meaning="m", formula="f", working="w", source="s"
)


def spread(middle: float, half: float) -> np.ndarray:
    return np.concatenate(([middle], np.linspace(middle - half, middle + half, 1001)))


@pytest.mark.parametrize(
    ("value", "at_least", "at_most", "worst", "verdict"),
    [
        (np.array([1.0]), None, 2.0, Verdict.STOP, Verdict.SOUND),
        (np.array([1.96]), None, 2.0, Verdict.STOP, Verdict.MARGINAL),
        (np.array([2.1]), None, 2.0, Verdict.STOP, Verdict.STOP),
        (np.array([2.1]), None, 2.0, Verdict.MARGINAL, Verdict.MARGINAL),
        (np.array([2.05]), 2.0, None, Verdict.STOP, Verdict.MARGINAL),
        (np.array([2.2]), 2.0, None, Verdict.STOP, Verdict.SOUND),
        (np.array([1.9]), 2.0, None, Verdict.STOP, Verdict.STOP),
        (np.array([np.nan]), None, 2.0, Verdict.STOP, Verdict.STOP),
        (spread(1.5, 0.4), None, 2.0, Verdict.STOP, Verdict.SOUND),
        (spread(1.5, 0.6), None, 2.0, Verdict.STOP, Verdict.MARGINAL),
        (spread(2.1, 0.6), None, 2.0, Verdict.STOP, Verdict.STOP),
    ],
)
def test_verdict_of_a_number(
    value: np.ndarray,
    at_least: float | None,
    at_most: float | None,
    worst: Verdict,
    verdict: Verdict,
) -> None:
    draft = replace(DRAFT, value=value, at_least=at_least, at_most=at_most, worst=worst)
    assert verdict_of(draft) is verdict


@pytest.mark.parametrize(
    ("holds", "verdict"),
    [
        (np.array([True]), Verdict.SOUND),
        (np.array([False]), Verdict.STOP),
        (np.array([True] + [True] * 96 + [False] * 4), Verdict.SOUND),
        (np.array([True] + [True] * 90 + [False] * 10), Verdict.MARGINAL),
    ],
)
def test_verdict_of_words(holds: np.ndarray, verdict: Verdict) -> None:
    assert verdict_of(replace(DRAFT, value=None, holds=holds)) is verdict


def test_a_missing_number_is_not_known_and_says_what_to_do() -> None:
    def answer() -> Draft:
        raise NotKnownError("engine.idle", "Read the rev counter.")

    finding, draft = judge(CASE, "Speed", Ask("speed.crawl", "Crawling", answer))
    assert draft is None
    assert finding.verdict is Verdict.NOT_KNOWN
    assert finding.remedy == "Read the rev counter."
    assert finding.inputs == ("engine.idle",)


def test_what_waits_for_another_finding_is_not_for_measuring() -> None:
    def waits() -> Draft:
        raise NotKnownError("belt.b.run", "First settle the run.", "It does not go round.")

    finding, _ = judge(Case(Build(format=1, name="Trial")), "Belt", Ask("belt.b.arm", "Arm", waits))
    assert finding.shown == "not known yet"
    assert finding.meaning == "It does not go round."


def test_the_range_is_the_middle_ninety_per_cent() -> None:
    draft = replace(DRAFT, value=spread(1.0, 0.1), at_most=2.0)
    finding, _ = judge(CASE, "Speed", Ask("x", "X", lambda: draft))
    assert finding.value == 1.0
    assert finding.low == pytest.approx(0.91, abs=1e-3)
    assert finding.high == pytest.approx(1.09, abs=1e-3)
    assert finding.limit is not None
    assert finding.limit.at_most == 2.0


def test_a_limit_that_nothing_meets_judges_and_is_no_number() -> None:
    draft = replace(DRAFT, at_least=np.array([np.inf]))
    finding, _ = judge(CASE, "Threads", Ask("thread.hole", "Hole", lambda: draft))
    assert finding.verdict is Verdict.STOP
    assert finding.limit is None
    assert finding.shown_limit == ""


def test_a_range_holds_the_nominal_value_where_that_is_the_least() -> None:
    """Two pulleys measured as level can only stand less level than that."""
    value = np.concatenate(([0.0], np.abs(np.linspace(-1.0, 1.0, 1001))))
    ask = Ask("step", "Step", lambda: replace(DRAFT, value=value, verdict=Verdict.SOUND))
    found, _ = judge(CASE, "topic", ask)
    assert found.low == found.value == 0.0


def test_a_range_without_end_says_so() -> None:
    """A tenth of the samples is unlimited: the range does not end at the largest finite one."""
    value = np.concatenate(([1.0], np.linspace(1.0, 2.0, 900), np.full(100, np.inf)))
    open_ended = replace(DRAFT, value=value, at_least=0.5)
    found, _ = judge(CASE, "topic", Ask("x", "X", lambda: open_ended))
    assert (found.low, found.high) == (1.0, None)
    assert found.shown_range == "1000 mm or more, without limit"
    assert found.verdict is Verdict.MARGINAL


def test_an_unlimited_value_is_told_and_keeps_no_limit() -> None:
    value = np.concatenate(([np.inf], np.linspace(3.0, 4.0, 500), np.full(500, np.inf)))
    found, _ = judge(
        CASE, "topic", Ask("x", "X", lambda: replace(DRAFT, value=value, at_least=2.0))
    )
    assert found.value is None
    assert found.shown == "unlimited"
    assert found.shown_range.endswith("or more, without limit")
    assert found.verdict is Verdict.STOP


def test_samples_without_an_answer_are_counted_out_loud() -> None:
    value = np.concatenate((spread(1.0, 0.1), np.full(111, np.nan)))
    found, _ = judge(CASE, "topic", Ask("x", "X", lambda: replace(DRAFT, value=value, at_most=2.0)))
    assert found.shown_range == "910 to 1090 mm, none in 10% of what the tolerances allow"
    assert found.verdict is Verdict.MARGINAL
    assert goes_over(value, 2.0)


@pytest.mark.parametrize("wanted", [0.0, 5.0, 37.5, 95.0, 100.0])
def test_percentiles_against_numpy(wanted: float) -> None:
    values = np.random.default_rng(4).normal(size=801)
    assert percentiles(values, wanted) == pytest.approx((np.percentile(values, wanted),))
