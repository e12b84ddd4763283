"""A review as JSON: SI values under stable names (described by review.schema.json)."""

import json
from typing import Any

from beltwright.quantity import Kind, Units
from beltwright.review.finding import Finding, Verdict
from beltwright.review.names.naming import name_of
from beltwright.review.review import Review
from beltwright.review.supposed import in_units

FORMAT = 1


def as_json(review: Review) -> dict[str, Any]:
    """Give a review as plain values for JSON."""
    return {
        "format": FORMAT,
        "build": review.build.name,
        "counts": {verdict.value: review.count(verdict) for verdict in Verdict},
        "findings": [_finding(finding, review.units) for finding in review.findings],
        "assumptions": [
            {
                "key": each.key,
                "topic": topic,
                "name": name_of(each.key),
                "text": each.quantity.text,
                "shown": in_units(each.quantity, review.units),
                "why": each.why,
            }
            for topic, assumed in review.assumed_by_topic().items()
            for each in assumed
        ],
        "measure_next": [
            {
                "key": each.key,
                "what": each.what,
                "how": each.how,
                "share": each.share,
                "settles": list(each.settles),
            }
            for each in review.measure_next
        ],
    }


def json_text(review: Review) -> str:
    """Give a review as the text of a JSON file."""
    return json.dumps(as_json(review), ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def _finding(finding: Finding, units: Units) -> dict[str, Any]:
    """Give one finding; what is not a number is null."""
    limit = finding.limit
    return {
        "id": finding.id,
        "title": finding.title,
        "topic": finding.topic,
        "value": finding.value,
        "unit": _unit(finding.kind, units),
        "low": finding.low,
        "high": finding.high,
        "limit": {"at_least": limit.at_least, "at_most": limit.at_most} if limit else None,
        "verdict": finding.verdict.value,
        "shown": finding.shown,
        "shown_range": finding.shown_range,
        "shown_limit": finding.shown_limit,
        "meaning": finding.meaning,
        "remedy": finding.remedy,
        "formula": finding.formula,
        "working": finding.working,
        "source": finding.source,
        "leaves_out": finding.leaves_out,
        "caution": finding.caution,
        "assumed": list(finding.assumed),
        "inputs": list(finding.inputs),
        "place": list(finding.place) if finding.place else None,
        "causes": [cause._asdict() for cause in finding.causes],
    }


def _unit(kind: Kind | None, units: Units) -> str | None:
    """Give the SI unit of a value; money is in the build's currency."""
    if kind is None:
        return None
    return units[kind].symbol if kind is Kind.MONEY else kind.si
