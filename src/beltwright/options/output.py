"""A search's outcome as plain data: for --json, the page and the trade-off chart. SI values."""

from math import isfinite
from typing import Any

from beltwright.options.merit import MERITS
from beltwright.options.outcome import Found, Outcome


def outcome_data(outcome: Outcome, build_name: str) -> dict[str, Any]:
    """The whole outcome, ready to be written as JSON."""
    return {
        "format": 1,
        "build": build_name,
        "candidates": outcome.candidates,
        "disposed": outcome.disposed,
        "finished": outcome.finished,
        "seconds": outcome.seconds,
        "standing": [{"id": stop.id, "title": stop.title} for stop in outcome.standing],
        "merits": [
            {"name": m.name, "title": m.title, "kind": m.kind.name.lower(), "better": m.better}
            for m in MERITS
        ],
        "options": [_option(number, found) for number, found in enumerate(outcome.found, 1)],
        "rejections": [
            {
                "id": each.id,
                "why": each.why,
                "count": each.count,
                "share": each.share,
                "sentences": list(each.sentences),
            }
            for each in outcome.rejections
        ],
        "relaxation": _relaxation(outcome),
    }


def trade_off(outcome: Outcome) -> dict[str, list[float | None]]:
    """A column for each merit, an entry for each option: what the trade-off chart draws."""
    return {m.name: [_known(found.merits[m]) for found in outcome.found] for m in MERITS}


def _option(number: int, found: Found) -> dict[str, Any]:
    return {
        "number": number,
        "taken": dict(found.taken),
        "merits": {merit.name: _known(value) for merit, value in found.merits.items()},
        "edits": [{"key": edit.key, "text": edit.text} for edit in found.edits],
    }


def _known(value: float) -> float | None:
    """A merit, or nothing where it is not known."""
    return value if isfinite(value) else None


def _relaxation(outcome: Outcome) -> dict[str, Any] | None:
    nearest = outcome.relaxation
    if nearest is None:
        return None
    return {"says": list(nearest.says), "taken": dict(nearest.taken), "stops": nearest.stops}
