"""From the draft of an answer to a finding: ranges, limit, verdict, words."""

import numpy as np
from numpy.typing import NDArray

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.examples import in_their_units
from beltwright.review.figures import Figures, spaced
from beltwright.review.finding import Finding, Limit, Verdict
from beltwright.review.nominal import nominal

LOW_PERCENT, HIGH_PERCENT = 5.0, 95.0
TOLERATED_SHARE = 0.05
"""A limit that more than this share of the samples breaks makes a sound answer marginal."""


def judge(case: Case, topic: str, ask: Ask) -> tuple[Finding, Draft | None]:
    """The finding of one question, and the draft behind it where there was an answer."""
    with case.watching() as used:
        try:
            draft = ask.answer()
        except NotKnownError as missing:
            return _not_known(case, ask, topic, missing), None
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
    """Whether each sample keeps the limit; what is unlimited, as a brake that grabs, does not."""
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
    written = nominal(draft.value)
    most, least = limit.at_most, limit.at_least
    below = most is None or written <= most - draft.near * abs(most)
    above = least is None or written >= least + draft.near * abs(least)
    return not (below and above)


def _finding(case: Case, topic: str, ask: Ask, draft: Draft, used: tuple[str, ...]) -> Finding:
    value, low, high = _range(draft)
    limit = _limit(draft)
    figures = Figures(case, draft, value, low, high, limit)
    return Finding(
        id=ask.id,
        title=ask.title,
        topic=topic,
        verdict=verdict_of(draft),
        kind=draft.kind,
        value=_number(value),
        low=_number(low),
        high=_number(high),
        limit=limit,
        shown=figures.shown(),
        shown_range=figures.shown_range() + _unanswered(draft, low, high),
        shown_limit=figures.shown_limit(),
        meaning=figures.in_words(draft.meaning),
        remedy=figures.in_words(in_their_units(draft.remedy, case.units)),
        formula=in_their_units(draft.formula, case.units),
        working=spaced(draft.working),
        source=draft.source,
        leaves_out=in_their_units(draft.leaves_out, case.units),
        caution=in_their_units(draft.caution, case.units),
        assumed=tuple(key for key in used if key in case.assumptions),
        inputs=used,
        place=draft.place,
        causes=draft.causes,
    )


def _range(draft: Draft) -> tuple[float, float, float]:
    """The nominal value and the ends of its range; what is unlimited is infinite."""
    if draft.value is None:
        return np.nan, np.nan, np.nan
    written = nominal(draft.value)
    if draft.value.size == 1 or np.isnan(written):
        return written, written, written
    low, high = percentiles(draft.value, LOW_PERCENT, HIGH_PERCENT)
    # a size that is nought as written, as the step between level pulleys, is the end of its range
    return written, min(low, written), max(high, written)


def percentiles(values: Array, *wanted: float) -> tuple[float, ...]:
    """The percentiles of the values that are numbers, NaN where there are none.

    By linear interpolation as np.percentile gives them, at a third of its cost. What is unlimited
    counts as the largest; where there is some, the nearest value is taken, as none lies between.
    """
    ordered = np.sort(values[~np.isnan(values)])
    if ordered.size == 0:
        return (np.nan,) * len(wanted)
    places = np.array(wanted) / 100.0 * (ordered.size - 1)
    if np.isinf(ordered[0]) or np.isinf(ordered[-1]):
        return tuple(ordered[np.rint(places).astype(int)].tolist())
    return tuple(np.interp(places, np.arange(ordered.size), ordered).tolist())


def _limit(draft: Draft) -> Limit | None:
    least, most = _limit_told(draft.at_least), _limit_told(draft.at_most)
    return None if least is None and most is None else Limit(least, most)


def _limit_told(bound: ArrayLike | None) -> float | None:
    """The nominal limit; an infinite one judges, but is no number to show."""
    limit = np.inf if bound is None else nominal(bound)
    return limit if np.isfinite(limit) else None


def _number(value: float) -> float | None:
    """A value as it is told; what is unlimited, or has no answer, is no number."""
    return value if np.isfinite(value) else None


def _unanswered(draft: Draft, low: float, high: float) -> str:
    """Words for the samples that have no answer, where there are more than a few of them."""
    if draft.kind is None or draft.value is None or not low < high:
        return ""
    without = np.isnan(draft.value)
    if not too_often(without):
        return ""
    return f", none in {np.mean(without):.0%} of what the tolerances allow"


def _not_known(case: Case, ask: Ask, topic: str, missing: NotKnownError) -> Finding:
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
        meaning=missing.told,
        remedy=in_their_units(missing.how, case.units),
        formula="",
        working="",
        source="",
        leaves_out="",
        caution="",
        assumed=(),
        inputs=(missing.key,),
        place=None,
    )
