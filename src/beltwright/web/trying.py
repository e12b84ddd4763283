"""A change as it would be, without saving it: what a drag shows."""

from collections.abc import Sequence
from copy import deepcopy
from typing import Any

from pydantic import ValidationError

from beltwright.build.model import Build
from beltwright.build.places import path_of, with_places
from beltwright.build.references import reference_refusals
from beltwright.web.changes import changes
from beltwright.web.desk import Desk
from beltwright.web.edits import Edit, adds_row, edited_text
from beltwright.web.open_build import OpenBuild
from beltwright.web.refusal import CannotRead, Stale, as_problems
from beltwright.web.scene import trial_scene
from beltwright.web.showing import reviewed
from beltwright.web.standing import Standing, standing_of
from beltwright.web.typed import as_written


def tried(desk: Desk, build: OpenBuild, seen: str, edits: Sequence[Edit]) -> dict[str, Any]:
    """How the build would stand, without the ranges of its tolerances, and what would change."""
    standing = desk.standing(build)
    if standing.version != seen:
        raise Stale(seen, standing.version)
    trial = _trial(standing, edits, build.path.name)
    review = trial.nominal
    if review is None:
        raise CannotRead(as_problems(trial.refused))
    return {
        "name": build.name,
        "version": seen,
        "values": trial.values,
        **reviewed(review),
        "scene": trial_scene(review.build, review),
        "changes": changes(standing.nominal, review),
    }


def _trial(standing: Standing, edits: Sequence[Edit], name: str) -> Standing:
    """The standing after the edits; the slow way, by the file's text, where they are refused."""
    values = _with_edits(standing.values, edits)
    try:
        built = None if values is None else Build.model_validate(with_places(values))
    except ValidationError:
        built = None
    if values is None or built is None or reference_refusals(built):
        text = edited_text(standing.text, edits, name)
        return standing_of(text, standing.version, name)
    return Standing(standing.text, standing.version, values, built)


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
        values.setdefault(edit.key, []).append(edit.text)
        return
    path = path_of(values, edit.key)
    holder: Any = values
    for step in path[:-1]:
        holder = holder.setdefault(step, {}) if isinstance(holder, dict) else holder[step]
    if edit.text is None:
        del holder[path[-1]]
    else:
        holder[path[-1]] = as_written(path, edit.text)
