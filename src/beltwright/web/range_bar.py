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
    at = {
        name: None if end is None else round(100.0 * (end - low + room) / width, 2)
        for name, end in ends.items()
    }
    return at | _open_end(finding)


def _open_end(finding: dict[str, Any]) -> dict[str, float]:
    """The end of the bar for a range that is open on one side."""
    low, high = finding["low"], finding["high"]
    if (low is None) == (high is None):
        return {}
    return {"high": 100.0} if high is None else {"low": 0.0}
