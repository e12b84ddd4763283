"""Labels along a line, moved apart so that none lies on another."""

from collections.abc import Sequence


def spread_apart(wanted: Sequence[float], low: float, high: float, pitch: float) -> list[float]:
    """Positions, sorted upwards, moved up or down to stand a pitch apart within low and high.

    Where there is no room for all, they overrun both ends equally.
    """
    if not wanted:
        return []
    need = (len(wanted) - 1) * pitch
    if need > high - low:
        middle = (low + high) / 2.0
        low, high = middle - need / 2.0, middle + need / 2.0
    spots: list[float] = []
    for i, want in enumerate(wanted):
        floor = spots[-1] + pitch if spots else low
        ceiling = high - (len(wanted) - 1 - i) * pitch
        spots.append(min(max(want, floor), ceiling))
    return spots
