"""A straight line through every stretch of a series: where it was, how fast, and how scattered."""

from dataclasses import dataclass

import numpy as np

from beltwright.physics.arrays import Array


@dataclass(frozen=True)
class Lines:
    """One line a stretch; a stretch begins at each point of the series.

    last     place of its last point, shape (n,) [1]
    count    points in it, shape (n,) [1]
    span     from its first to its last point, shape (n,) [s]
    middle   mean time of its points, shape (n,) [s]
    slope    shape (n,) [unit of the values/s]
    scatter  root mean square of what the line misses, shape (n,) [unit of the values]
    doubt    standard deviation of the slope, shape (n,) [unit of the values/s]
    """

    last: np.ndarray
    count: np.ndarray
    span: Array
    middle: Array
    slope: Array
    scatter: Array
    doubt: Array


def lines(seconds: Array, values: Array, length: float) -> Lines:
    """Fit a line by least squares to the points within `length` of each point.

    Parameters: seconds, values, shape (n,); length [s]. The sums run about the middle of the
    whole series, so that they keep their digits.
    """
    time, value = seconds - seconds.mean(), values - values.mean()
    end = np.searchsorted(seconds, seconds + length, side="right")
    begin = np.arange(seconds.size)
    count = end - begin

    def total(terms: Array) -> Array:
        running = np.concatenate(([0.0], np.cumsum(terms)))
        return running[end] - running[begin]

    mean_time, mean_value = total(time) / count, total(value) / count
    spread = np.maximum(total(time * time) - count * mean_time**2, 0.0)
    shared = total(time * value) - count * mean_time * mean_value
    square = np.maximum(total(value * value) - count * mean_value**2, 0.0)
    slope = np.divide(shared, spread, out=np.zeros_like(shared), where=spread > 1e-9)
    missed = np.maximum(square - slope * shared, 0.0)
    free = np.maximum(count - 2, 1)
    scatter = np.sqrt(missed / free)
    doubt = np.divide(scatter, np.sqrt(spread), out=np.zeros_like(spread), where=spread > 1e-9)
    span = seconds[end - 1] - seconds
    return Lines(end - 1, count, span, mean_time + seconds.mean(), slope, scatter, doubt)
