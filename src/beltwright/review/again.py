"""A review after a few numbers changed: only what they can have changed is worked out again."""

from collections.abc import Set
from dataclasses import replace

from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.review import Review, review_of


def review_again(
    case: Case, before: Review, changed: Set[str], settled: Set[str] = frozenset()
) -> Review:
    """The review of a case that differs from the one reviewed before in these numbers alone.

    Every finding names the inputs that were read for it. One that read none of the changed
    numbers would come out the same and is taken over. What was not known is asked again, for it
    names only what it lacked; so is everything where the units to show have changed.

    `changed` are keys of quantities that stood in both builds; anything else that differs, as a
    name, a count or a missing value, needs the whole review. `settled` are topics that stand as
    they are whatever changed.
    """
    if case.units != before.units:
        return review_of(case)
    kept = {finding.id: finding for finding in before.findings if _stands(finding, changed)}
    left = {topic: [f for f in before.findings if f.topic == topic] for topic in settled}
    found = review_of(case, kept, left)
    used = {key for finding in found.findings for key in finding.assumed}
    now = {one.key: one for one in found.assumptions}
    assumed = [now.pop(one.key, one) for one in before.assumptions if one.key in used | now.keys()]
    return replace(found, assumptions=(*assumed, *now.values()))


def _stands(finding: Finding, changed: Set[str]) -> bool:
    return finding.verdict is not Verdict.NOT_KNOWN and changed.isdisjoint(finding.inputs)
