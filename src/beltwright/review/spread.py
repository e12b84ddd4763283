"""Which inputs cause the spread of the findings: what to measure better next."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.quantity import Quantity
from beltwright.review.case import Case
from beltwright.review.draft import Draft
from beltwright.review.finding import Finding, Measurement, Verdict
from beltwright.review.measuring import can_be_measured, how_to_measure
from beltwright.review.names.naming import name_of

LEAST_SHARE = 0.05
"""An input that causes less than this share of a finding's spread is not worth naming."""

MOST_MEASUREMENTS = 6
"""How many to show a builder at once; the rest settle less."""

OPEN = (Verdict.STOP, Verdict.MARGINAL)
"""Findings that a better measurement may still turn."""


class _Spread(NamedTuple):
    """Shares of the findings' variance, shape (inputs, findings)."""

    keys: tuple[str, ...]
    findings: tuple[Finding, ...]
    shares: Array


def measure_next(
    case: Case, judged: Sequence[tuple[Finding, Draft | None]]
) -> tuple[Measurement, ...]:
    """The inputs that can be measured, ranked by how much of the open findings' spread they cause.

    The share of an input is the squared correlation between its draws and the answer: the part
    of the variance that a straight line through that input explains (Saltelli et al., Global
    Sensitivity Analysis: The Primer, 2008, section 1.2.5). It misses what only two inputs
    together cause, and what bends round within the tolerance.
    """
    spread = _spread(case, judged)
    if spread is None:
        return ()
    measurements = [
        _measurement(case.quantities[key], spread, row)
        for row, key in enumerate(spread.keys)
        if can_be_measured(case.quantities[key])
    ]
    named = [m for m in measurements if m.settles]
    return tuple(sorted(named, key=lambda m: -m.share))


def _spread(case: Case, judged: Sequence[tuple[Finding, Draft | None]]) -> _Spread | None:
    keys = tuple(key for key, draws in case.drawn.items() if draws.size > 1)
    answers = [
        (finding, _finite(draft.value))
        for finding, draft in judged
        if draft is not None
        and draft.value is not None
        and draft.value.size > 1
        and bool(np.isfinite(draft.value).any())
        and float(np.ptp(_finite(draft.value))) > 0.0
    ]
    if not keys or not answers:
        return None
    inputs = _standardised(np.stack([case.drawn[key][1:] for key in keys]))
    outputs = _standardised(np.stack([value[1:] for _, value in answers]))
    shares = (inputs @ outputs.T / inputs.shape[1]) ** 2
    return _Spread(keys, tuple(finding for finding, _ in answers), shares)


def _finite(value: Array) -> Array:
    """What is unlimited as the largest of the rest, what has no answer as their middle."""
    finite = np.isfinite(value)
    if finite.all():
        return value
    known = value[finite]
    return np.nan_to_num(value, nan=known.mean(), posinf=known.max(), neginf=known.min())


def _standardised(rows: Array) -> Array:
    centred = rows - rows.mean(axis=1, keepdims=True)
    deviation = centred.std(axis=1, keepdims=True)
    scaled: Array = np.divide(centred, deviation, out=np.zeros_like(centred), where=deviation > 0.0)
    return scaled


def _measurement(quantity: Quantity, spread: _Spread, row: int) -> Measurement:
    shares = spread.shares[row]
    caused = [
        (share, finding)
        for share, finding in zip(shares, spread.findings, strict=True)
        if share >= LEAST_SHARE and finding.verdict in OPEN
    ]
    caused.sort(key=lambda pair: -pair[0])
    return Measurement(
        key=quantity.key,
        what=name_of(quantity.key),
        how=how_to_measure(quantity),
        share=float(sum(share for share, _ in caused)),
        settles=tuple(finding.id for _, finding in caused),
    )
