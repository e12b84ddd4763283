"""From arrays over the samples to the series of a chart with its range."""

from collections.abc import Sequence

from beltwright.drawing.chart import Series
from beltwright.physics.arrays import Array
from beltwright.quantity.units import Unit
from beltwright.review.judging import HIGH_PERCENT, LOW_PERCENT, percentiles
from beltwright.review.nominal import nominal


def banded(
    name: str, x: Sequence[float], values: Sequence[Array], unit: Unit | None = None
) -> Series:
    """A series with one array of samples for each x; index 0 is the nominal build.

    `unit` is what SI values are shown in. The range is that of the findings, so that a chart
    and a finding never disagree.
    """
    convert = _same if unit is None else unit.from_si
    written = [convert(nominal(value)) for value in values]
    if all(value.size == 1 for value in values):
        return Series(name, list(x), written)
    ends = [percentiles(value, LOW_PERCENT, HIGH_PERCENT) for value in values]
    return Series(
        name,
        list(x),
        written,
        low=[convert(low) for low, _ in ends],
        high=[convert(high) for _, high in ends],
    )


def _same(value: float) -> float:
    return value
