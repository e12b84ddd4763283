"""The whole review: every question of every topic put to a build."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from beltwright.build.model import Build
from beltwright.quantity import Units
from beltwright.review.case import Case
from beltwright.review.draft import Draft
from beltwright.review.finding import WORST_FIRST, Assumption, Finding, Measurement, Verdict
from beltwright.review.judging import judge
from beltwright.review.spread import measure_next
from beltwright.review.topics import TOPICS

SAMPLES = 2000
"""Samples of the tolerances in a full review."""

OTHER = "Other"
"""Topic of what was supposed on the way to an answer that is not known yet."""


@dataclass(frozen=True)
class Review:
    """What was found out about a build."""

    build: Build
    units: Units
    findings: tuple[Finding, ...]
    assumptions: tuple[Assumption, ...]
    measure_next: tuple[Measurement, ...]

    def count(self, verdict: Verdict) -> int:
        """How many findings stand so."""
        return Counter(f.verdict for f in self.findings)[verdict]

    def worst_first(self) -> tuple[Finding, ...]:
        """The findings, stops before marginal before not known before sound."""
        return tuple(sorted(self.findings, key=lambda f: WORST_FIRST.index(f.verdict)))

    def assumed_by_topic(self) -> dict[str, list[Assumption]]:
        """What was supposed, under the first topic that needed it."""
        topics: dict[str, str] = {}
        for finding in self.findings:
            for key in finding.assumed:
                topics.setdefault(key, finding.topic)
        found: dict[str, list[Assumption]] = {finding.topic: [] for finding in self.findings}
        for each in self.assumptions:
            found.setdefault(topics.get(each.key, OTHER), []).append(each)
        return {topic: assumed for topic, assumed in found.items() if assumed}

    def finding(self, id_: str) -> Finding | None:
        """The finding of that id."""
        return next((f for f in self.findings if f.id == id_), None)


def review(build: Build, samples: int = SAMPLES) -> Review:
    """Answers every question about a build, with ranges from its tolerances."""
    return review_of(Case(build, samples))


def review_of(
    case: Case,
    kept: Mapping[str, Finding] = MappingProxyType({}),
    settled: Mapping[str, Sequence[Finding]] = MappingProxyType({}),
) -> Review:
    """Answers every question about a case that is not answered yet.

    `kept` holds answers by id; `settled` holds topics in which nothing is asked, with all of
    their findings.
    """
    judged = list(_judged(case, kept, settled))
    return Review(
        build=case.build,
        units=case.units,
        findings=tuple(finding for finding, _ in judged),
        assumptions=tuple(case.assumptions.values()),
        measure_next=measure_next(case, judged),
    )


def _judged(
    case: Case, kept: Mapping[str, Finding], settled: Mapping[str, Sequence[Finding]]
) -> Iterator[tuple[Finding, Draft | None]]:
    for topic, questions in TOPICS.items():
        if topic in settled:
            yield from ((finding, None) for finding in settled[topic])
            continue
        for ask in questions(case):
            yield (kept[ask.id], None) if ask.id in kept else judge(case, topic, ask)
