"""Readings against the plan, each as a normalized error, as numbers."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.proving.agreement import AGREES, expanded_uncertainty, normalized_error
from beltwright.review.case import Case, NotKnownError
from beltwright.review.proving.conditions import driven
from beltwright.review.proving.readings import Reading, readings


class Comparison(NamedTuple):
    """A reading beside what the plan expects.

    measured         as read [SI], index 0 nominal
    predicted        as expected under the same conditions [SI]
    measured_doubt   expanded uncertainty of the reading [SI]
    predicted_doubt  the same of the prediction [SI]
    error            normalized error [1]
    inputs           keys that the prediction rests on
    """

    reading: Reading
    measured: Array
    predicted: Array
    measured_doubt: float
    predicted_doubt: float
    error: float
    inputs: frozenset[str]

    @property
    def agrees(self) -> bool:
        """Whether reading and prediction are alike within what both leave in doubt."""
        return abs(self.error) <= AGREES


def comparison(case: Case, reading: Reading) -> Comparison:
    """A reading beside what the plan expects.

    Raises NotKnownError where the plan cannot say what to expect.
    """
    key = ("proving.comparison", reading.drive.name, reading.what)
    return case.once(key, lambda: _comparison(case, reading))


def _comparison(case: Case, reading: Reading) -> Comparison:
    there = driven(case, reading.drive)
    measured = reading.measured(there)
    with case.watching() as used:
        predicted = reading.predicted(there)
    if np.isnan(predicted[0]):
        raise NotKnownError(
            f"drive.{reading.drive.name}.{reading.what}",
            "First settle the stops of the belt: as written it does not run.",
            "The plan expects nothing there yet.",
        )
    doubts = expanded_uncertainty(measured), expanded_uncertainty(predicted)
    error = one_sided(normalized_error(measured[0], predicted[0], *doubts), reading.side)
    return Comparison(reading, measured, predicted, *doubts, float(error), frozenset(used))


def one_sided(error: ArrayLike, side: int) -> Array:
    """An error that counts on one side only, where the reading is a bound."""
    if side > 0:
        return np.maximum(error, 0.0)
    return np.minimum(error, 0.0) if side < 0 else np.asarray(error)


def comparisons(case: Case) -> tuple[Comparison, ...]:
    """All readings for which the plan knows what to expect."""
    return case.once("proving.comparisons", lambda: tuple(_known(case)))


def _known(case: Case) -> Iterator[Comparison]:
    for reading in readings(case):
        try:
            yield comparison(case, reading)
        except NotKnownError:
            continue
