"""From the draft of an answer to a finding: ranges, limit, verdict, words."""

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Finding, Limit, Verdict

LOW_PERCENT, HIGH_PERCENT = 5.0, 95.0
TOLERATED_SHARE = 0.05
"""A limit that more than this share of the samples breaks makes a sound answer marginal."""


def judge(case: Case, topic: str, ask: Ask) -> tuple[Finding, Draft | None]:
    """The finding of one question, and the draft behind it where there was an answer."""
    with case.watching() as used:
        try:
            draft = ask.answer()
        except NotKnownError as missing:
            return _not_known(ask, topic, missing), None
    return _finding(case, topic, ask, draft, tuple(sorted(used))), draft


def verdict_of(draft: Draft) -> Verdict:
    """Sound, marginal or worse, with the range of the tolerances taken into account."""
    if draft.verdict is not None:
        return draft.verdict
    kept = keeps(draft)
    if not kept[0]:
        return draft.worst
    return Verdict.MARGINAL if too_often(~kept) or _near(draft) else Verdict.SOUND


def too_often(broken: NDArray[np.bool_]) -> bool:
    """Whether more of the samples break a limit than a sound answer may have."""
    return bool(np.count_nonzero(broken) > TOLERATED_SHARE * broken.size)


def keeps(draft: Draft) -> NDArray[np.bool_]:
    """Whether each sample keeps the limit."""
    if draft.holds is not None:
        return np.atleast_1d(draft.holds)
    if draft.value is None:
        raise ValueError("a draft needs a value, a truth or a verdict")
    kept: NDArray[np.bool_] = np.isfinite(draft.value)
    if draft.at_most is not None:
        kept = kept & (draft.value <= draft.at_most)
    if draft.at_least is not None:
        kept = kept & (draft.value >= draft.at_least)
    return np.atleast_1d(kept)


def _near(draft: Draft) -> bool:
    """Whether a nominal value that keeps its limit is within `near` of the limit's size of it."""
    limit = _limit(draft)
    if draft.value is None or limit is None:
        return False
    nominal = float(draft.value.flat[0])
    most, least = limit.at_most, limit.at_least
    below = most is None or nominal <= most - draft.near * abs(most)
    above = least is None or nominal >= least + draft.near * abs(least)
    return not (below and above)


def _finding(case: Case, topic: str, ask: Ask, draft: Draft, used: tuple[str, ...]) -> Finding:
    value, low, high = _range(draft)
    limit = _limit(draft)
    return Finding(
        id=ask.id,
        title=ask.title,
        topic=topic,
        verdict=verdict_of(draft),
        kind=draft.kind,
        value=value,
        low=low,
        high=high,
        limit=limit,
        shown=draft.says or _shown(case, draft, value),
        shown_range=_shown_range(case, draft, low, high),
        shown_limit=_shown_limit(case, draft, limit),
        meaning=draft.meaning,
        remedy=draft.remedy,
        formula=draft.formula,
        working=draft.working,
        source=draft.source,
        leaves_out=draft.leaves_out,
        caution=draft.caution,
        assumed=tuple(key for key in used if key in case.assumptions),
        inputs=used,
        place=draft.place,
    )


def _range(draft: Draft) -> tuple[float | None, float | None, float | None]:
    if draft.value is None or not np.isfinite(draft.value.flat[0]):
        return None, None, None
    nominal = float(draft.value.flat[0])
    if draft.value.size == 1:
        return nominal, nominal, nominal
    low, high = percentiles(draft.value, LOW_PERCENT, HIGH_PERCENT)
    # a size that is nought as written, as the step between level pulleys, is the end of its range
    return nominal, min(low, nominal), max(high, nominal)


def percentiles(values: Array, *wanted: float) -> tuple[float, ...]:
    """The percentiles of the finite values by linear interpolation, NaN where there are none.

    As np.percentile gives them, at a third of its cost.
    """
    ordered = np.sort(values[np.isfinite(values)])
    if ordered.size == 0:
        return (np.nan,) * len(wanted)
    places = np.array(wanted) / 100.0 * (ordered.size - 1)
    return tuple(np.interp(places, np.arange(ordered.size), ordered).tolist())


def _limit(draft: Draft) -> Limit | None:
    least, most = _first(draft.at_least), _first(draft.at_most)
    return None if least is None and most is None else Limit(least, most)


def _first(bound: ArrayLike | None) -> float | None:
    """The nominal limit; an infinite one judges, but is no number to show."""
    nominal = np.inf if bound is None else float(np.asarray(bound, dtype=float).flat[0])
    return nominal if np.isfinite(nominal) else None


def _shown(case: Case, draft: Draft, value: float | None) -> str:
    if value is None or draft.kind is None:
        return "no value"
    return case.units.show(value, draft.kind, draft.unit)


def _shown_range(case: Case, draft: Draft, low: float | None, high: float | None) -> str:
    if low is None or high is None or draft.kind is None or low == high:
        return ""
    return case.units.show_range(low, high, draft.kind, draft.unit)


def _shown_limit(case: Case, draft: Draft, limit: Limit | None) -> str:
    if limit is None or draft.kind is None:
        return ""
    least, most = limit.at_least, limit.at_most
    if least is not None and most is not None:
        return case.units.show_range(least, most, draft.kind, draft.unit)
    if least is not None:
        return f"at least {case.units.show(least, draft.kind, draft.unit)}"
    assert most is not None
    return f"at most {case.units.show(most, draft.kind, draft.unit)}"


def _not_known(ask: Ask, topic: str, missing: NotKnownError) -> Finding:
    return Finding(
        id=ask.id,
        title=ask.title,
        topic=topic,
        verdict=Verdict.NOT_KNOWN,
        kind=None,
        value=None,
        low=None,
        high=None,
        limit=None,
        shown="not known yet" if missing.why else "not known: measure this",
        shown_range="",
        shown_limit="",
        meaning=missing.why or f"{missing.key} is not in the build file.",
        remedy=missing.how,
        formula="",
        working="",
        source="",
        leaves_out="",
        caution="",
        assumed=(),
        inputs=(missing.key,),
        place=None,
    )
