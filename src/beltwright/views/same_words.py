"""Findings that have the same words under them, so that the words need to stand only once."""

from collections.abc import Iterable

from beltwright.review.finding import Finding


def same_words(findings: Iterable[Finding]) -> list[list[Finding]]:
    """Give the findings in their order, those of one verdict with the same words together."""
    groups: dict[tuple[str, ...], list[Finding]] = {}
    for finding in findings:
        words = (finding.verdict, finding.meaning, finding.remedy, finding.caution)
        groups.setdefault(words if finding.remedy else (finding.id,), []).append(finding)
    return list(groups.values())
