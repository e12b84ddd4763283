"""A finding's value and range on a bar against its limit, as shares of the bar's width."""

from typing import Any

_ROOM = 0.12


def range_bar(finding: dict[str, Any]) -> dict[str, float | None] | None:
    """Where value, range and limits lie on the bar [%], None where there is nothing to compare."""
    limit = finding["limit"] or {}
    ends = {
        "value": finding["value"],
        "low": finding["low"],
        "high": finding["high"],
        "at_least": limit.get("at_least"),
        "at_most": limit.get("at_most"),
    }
    known = [end for end in ends.values() if end is not None]
    if ends["value"] is None or len(set(known)) < 2:
        return None
    low, high = min(known), max(known)
    room = (high - low) * _ROOM
    width = high - low + 2.0 * room
    return {
        name: None if end is None else round(100.0 * (end - low + room) / width, 2)
        for name, end in ends.items()
    }
