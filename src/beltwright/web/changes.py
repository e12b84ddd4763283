"""What a change of the build did to its findings."""

from fractions import Fraction
from typing import Any

from beltwright.quantity import Units
from beltwright.quantity.showing import show
from beltwright.review.finding import WORST_FIRST, Finding
from beltwright.review.review import Review


def changes(before: Review | None, after: Review | None) -> list[dict[str, Any]]:
    """The findings that say something else than before, came, or went; worst turns first."""
    if before is None or after is None:
        return []
    old = {finding.id: finding for finding in before.findings}
    new = {finding.id: finding for finding in after.findings}
    rows = [
        _change(id_, old.get(id_), new.get(id_), after.units)
        for id_ in dict.fromkeys([*new, *old])
        if _says(old.get(id_)) != _says(new.get(id_))
    ]
    return sorted(rows, key=lambda row: -row["worse_by"])


def _says(finding: Finding | None) -> tuple[object, ...]:
    return () if finding is None else (finding.verdict, finding.shown, finding.shown_limit)


def _change(id_: str, old: Finding | None, new: Finding | None, units: Units) -> dict[str, Any]:
    either = new or old
    assert either is not None
    return {
        "id": id_,
        "title": either.title,
        "topic": either.topic,
        "before": _side(old),
        "after": _side(new),
        "difference": _difference(old, new, units),
        "worse_by": _rank(new) - _rank(old),
    }


def _side(finding: Finding | None) -> dict[str, Any] | None:
    if finding is None:
        return None
    return {
        "verdict": finding.verdict.value,
        "shown": finding.shown,
        "shown_range": finding.shown_range,
        "shown_limit": finding.shown_limit,
        "value": finding.value,
    }


def _rank(finding: Finding | None) -> int:
    """0 for sound, more for worse; a finding that is not there weighs like a sound one."""
    return 0 if finding is None else len(WORST_FIRST) - 1 - WORST_FIRST.index(finding.verdict)


def _difference(old: Finding | None, new: Finding | None, units: Units) -> str:
    """The step from the old value to the new in the builder's unit, with its sign."""
    if old is None or new is None or new.kind is None or old.kind is not new.kind:
        return ""
    if old.value is None or new.value is None:
        return ""
    unit = units[new.kind]
    step = unit.from_si(new.value) - unit.from_si(old.value)
    shown = show(unit.to_si(Fraction(abs(step))), unit, digits=3)
    if shown == show(unit.to_si(Fraction(0)), unit):
        return ""
    return f"{'+' if step > 0.0 else '−'}{shown}"
