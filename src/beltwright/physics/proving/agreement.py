"""Whether a reading agrees with what was predicted, and what one input would have to be for it."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike

AGREES = 1.0
"""Normalized errors up to this agree: ISO/IEC Guide 43-1:1997, A.2.1.4 and ISO 13528, from
memory."""

COVERED = 0.95
"""Share of the likely values that an expanded uncertainty holds (coverage factor about 2)."""


class Fit(NamedTuple):
    """What one input would have to be for all readings together.

    value   of the input that fits best
    low     from here ...
    high    ... to here the sum of squared normalized errors is at most 1 above its least
    errors  normalized error left in each reading [1], shape (readings,)
    """

    value: float
    low: float
    high: float
    errors: Array


def normalized_error(
    measured: ArrayLike,
    predicted: ArrayLike,
    measured_uncertainty: ArrayLike,
    predicted_uncertainty: ArrayLike,
) -> Array:
    """Answer how far a reading lies from a prediction, over what both leave in doubt.

    E_n = (x − X) / √(U_x² + U_X²); |E_n| ≤ 1 agrees.

    Parameters
    ----------
    measured : array, shape (...) [any]
        The reading, x.
    predicted : array, shape (...) [as measured]
        What was expected of it, X.
    measured_uncertainty : array, shape (...) [as measured]
        Expanded uncertainty of the reading (95 % of the likely values), U_x.
    predicted_uncertainty : array, shape (...) [as measured]
        The same of the prediction, U_X.

    Returns
    -------
    error : array, shape (...) [1]
        Infinite where neither leaves a doubt and they differ.

    Range of validity: reading and prediction that do not share their errors.
    Source: ISO/IEC Guide 43-1:1997, A.2.1.4; ISO 13528, E_n numbers; both from memory.

    Examples
    --------
    >>> round(float(normalized_error(10.5, 10.0, 0.3, 0.4)), 9)
    1.0
    """
    gap = np.asarray(measured, dtype=float) - predicted
    doubt = np.hypot(measured_uncertainty, predicted_uncertainty)
    certain = np.where(gap == 0.0, 0.0, np.copysign(np.inf, gap))
    return np.where(doubt > 0.0, gap / np.where(doubt > 0.0, doubt, 1.0), certain)


def expanded_uncertainty(samples: Array) -> float:
    """Answer how far likely values reach from the nominal one, which is the first.

    U = half the width of the middle 95 % of the samples, and no less than the nominal value's own
    distance from the nearer end of it.

    Parameters
    ----------
    samples : array, shape (n) [any]
        The nominal value and then draws of it.

    Returns
    -------
    uncertainty : float [as samples]
        Nought for one value alone.

    Range of validity: a hundred samples or more; finite ones alone are counted.
    Source: JCGM 101:2008, 7.7.2 (probabilistically symmetric interval).

    Examples
    --------
    >>> round(expanded_uncertainty(np.linspace(-1.0, 1.0, 2001)[np.r_[1000, 0:2001]]), 3)
    0.95
    """
    finite = np.sort(samples[np.isfinite(samples)])
    if finite.size < 2:
        return 0.0
    ends = np.array([0.5 * (1.0 - COVERED), 0.5 * (1.0 + COVERED)]) * (finite.size - 1)
    low, high = np.interp(ends, np.arange(finite.size), finite)
    outside = max(float(samples[0]) - high, low - float(samples[0]), 0.0)
    return float(0.5 * (high - low) + outside)


def best_fit(candidates: Array, errors: Array) -> Fit:
    """Answer which value of one input explains all readings together best.

    least of S(c) = Σ E_n²; its doubt is the stretch in which S ≤ S_least + 1

    Between two candidates each error runs along a straight line, so S is a parabola there and its
    least and its crossings are found exactly.

    Parameters
    ----------
    candidates : array, shape (n) [any]
        Values of the input, rising.
    errors : array, shape (readings, n) [1]
        Normalized error of each reading with that value put in.

    Returns
    -------
    fit : Fit [1]

    Range of validity: errors that bend little from one candidate to the next. An end of the
    stretch that lies beyond the candidates is given as the last of them.
    Source: least squares; rise of the sum by 1 for the coverage that the errors are stated with:
    G. Cowan, Statistical Data Analysis, 1998, section 7.5, from memory.

    Examples
    --------
    >>> c = np.linspace(0.0, 2.0, 5)
    >>> fit = best_fit(c, np.array([(c - 1.2) / 0.1, (c - 1.3) / 0.1]))
    >>> round(fit.value, 3), round(fit.high - fit.value, 3)
    (1.25, 0.071)
    """
    begin, rise = errors[:, :-1], np.diff(errors, axis=1)
    square = np.sum(rise**2, axis=0)
    along = -np.sum(begin * rise, axis=0) / np.where(square > 0.0, square, 1.0)
    along = np.clip(np.where(square > 0.0, along, 0.0), 0.0, 1.0)
    sums = np.sum((begin + along * rise) ** 2, axis=0)
    sums = np.where(np.isfinite(sums), sums, np.inf)
    at = int(np.argmin(sums))
    step = np.diff(candidates)
    value = float(candidates[at] + along[at] * step[at])
    left = begin[:, at] + along[at] * rise[:, at]
    allowed = float(sums[at]) + 1.0
    low, high = (_reach(candidates, errors, value, allowed, upwards=up) for up in (False, True))
    return Fit(value, low, high, left)


def _reach(
    candidates: Array, errors: Array, value: float, allowed: float, *, upwards: bool
) -> float:
    """Where the sum of squares first rises above what is allowed, going out from the best value."""
    at_value = np.array([np.interp(value, candidates, row) for row in errors])
    beyond = candidates > value if upwards else candidates < value
    places = np.concatenate(([value], candidates[beyond][:: 1 if upwards else -1]))
    rows = np.column_stack([at_value, errors[:, beyond][:, :: 1 if upwards else -1]])
    sums = np.sum(rows**2, axis=0)
    over = np.flatnonzero(~(sums <= allowed))
    if over.size == 0:
        return float(places[-1])
    last = int(over[0])
    if last == 0:
        return value
    before, rise = rows[:, last - 1], rows[:, last] - rows[:, last - 1]
    a, b = float(np.sum(rise**2)), float(np.sum(before * rise))
    c = float(np.sum(before**2)) - allowed
    share = (-b + np.sqrt(max(b * b - a * c, 0.0))) / a if np.isfinite(a) and a > 0.0 else 0.0
    return float(places[last - 1] + share * (places[last] - places[last - 1]))
