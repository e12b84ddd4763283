"""A change as it would be, without saving it: what a drag shows."""

from collections.abc import Sequence
from copy import deepcopy
from dataclasses import replace
from typing import Any

from pydantic import ValidationError

from beltwright.build.model import Build
from beltwright.build.places import path_of, with_places
from beltwright.build.references import reference_refusals
from beltwright.build.typed import as_written
from beltwright.build.walking import quantities
from beltwright.options.editing import NoSuchKeyError, edited
from beltwright.options.option import Edit as Change
from beltwright.quantity import Quantity
from beltwright.review.again import review_again
from beltwright.review.case import Case
from beltwright.review.review import Review, review_of
from beltwright.review.topics import FIRST_DRIVE, TOPICS
from beltwright.web.changes import changes
from beltwright.web.desk import Desk
from beltwright.web.edits import Edit, adds_row, edited_text
from beltwright.web.open_build import OpenBuild
from beltwright.web.refusal import CannotRead, Stale, as_problems
from beltwright.web.scene import trial_scene
from beltwright.web.screen import Screen
from beltwright.web.standing import Standing, standing_of


def tried(
    desk: Desk,
    build: OpenBuild,
    seen: str,
    edits: Sequence[Edit],
    screen: Screen,
    *,
    moving: bool = False,
) -> dict[str, Any]:
    """How it would look and what would change, without the ranges of its tolerances.

    While the hand is `moving` it is drawn and not judged: the findings stand as they did, and no
    changes are told, until the hand rests. Where nothing but numbers changed, they are shown in the
    units of the build as it stands.
    """
    standing = desk.standing(build)
    if standing.version != seen:
        raise Stale(seen, standing.version)
    nudged = _nudged(standing, edits)
    before = standing.nominal
    if nudged is not None and before is not None:
        case = Case(nudged, units=before.units)
        # what a drive showed is held against the plan again once the change is kept
        later = TOPICS if moving else {FIRST_DRIVE}
        review = review_again(case, before, {edit.key for edit in edits}, frozenset(later))
    else:
        case = Case(nudged or _rebuilt(standing, edits, build.path.name))
        review = review_of(case)
    return {
        "name": build.name,
        "version": seen,
        **trial_scene(standing, case, _with_ranges(review, standing), screen, moving),
        "changes": None if moving else changes(before, review),
    }


def _with_ranges(review: Review, standing: Standing) -> Review:
    """The review with what did not change as it stands, with the verdicts of its tolerances.

    So a balloon that has nothing to do with what moves keeps its number and mark.
    """
    if standing.review is None or standing.nominal is None:
        return review
    before = {finding.id: finding for finding in standing.nominal.findings}
    stands = {finding.id: finding for finding in standing.review.findings}
    findings = (stands[f.id] if before.get(f.id) == f else f for f in review.findings)
    return replace(review, findings=tuple(findings))


def _nudged(standing: Standing, edits: Sequence[Edit]) -> Build | None:
    """The build where nothing but numbers changed, None where that is not so: the quick way."""
    build = standing.build
    if build is None or not all(_is_number(standing, edit) for edit in edits):
        return None
    try:
        built = edited(build, [Change(edit.key, edit.text) for edit in edits])
    except (ValidationError, NoSuchKeyError):
        return None
    return None if reference_refusals(built) else built


def _is_number(standing: Standing, edit: Edit) -> bool:
    """Whether the edit puts another text in place of a quantity that stands in the file."""
    numbers = standing.once("numbers", lambda: _numbers(standing.build))
    return isinstance(edit.text, str) and edit.key in numbers


def _numbers(build: Build | None) -> frozenset[str]:
    return frozenset(q.key for q in quantities(build) if isinstance(q, Quantity) and q.key)


def _rebuilt(standing: Standing, edits: Sequence[Edit], name: str) -> Build:
    """The build from all of its values; where they are refused, by its text, which has lines."""
    values = _with_edits(standing.values, edits)
    try:
        built = None if values is None else Build.model_validate(with_places(values))
    except ValidationError:
        built = None
    if built is not None and not reference_refusals(built):
        return built
    trial = standing_of(edited_text(standing.text, edits, name), standing.version, name)
    if trial.build is None:
        raise CannotRead(as_problems(trial.refused))
    return trial.build


def _with_edits(values: dict[str, Any], edits: Sequence[Edit]) -> dict[str, Any] | None:
    """The values with the edits made, None where an edit leads nowhere."""
    edited = deepcopy(values)
    try:
        for edit in edits:
            _make(edited, edit)
    except (KeyError, IndexError, TypeError):
        return None
    return edited


def _make(values: dict[str, Any], edit: Edit) -> None:
    if adds_row(edit.key, edit.text):
        *tables, rows = edit.key.split(".")
        for table in tables:
            values = values.setdefault(table, {})
        values.setdefault(rows, []).append(edit.text)
        return
    path = path_of(values, edit.key)
    holder: Any = values
    for step in path[:-1]:
        holder = holder.setdefault(step, {}) if isinstance(holder, dict) else holder[step]
    if edit.text is None:
        del holder[path[-1]]
    else:
        holder[path[-1]] = as_written(path, edit.text)
