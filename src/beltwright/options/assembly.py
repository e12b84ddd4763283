"""The build with one option taken for each choice, parts and prices included."""

from collections.abc import Sequence

from beltwright.build.model import Build
from beltwright.build.shop import Part
from beltwright.options.editing import edited
from beltwright.options.front import Candidate
from beltwright.options.option import Choice, Edit, Option


def taken(choices: Sequence[Choice], candidate: Candidate) -> list[tuple[Choice, Option]]:
    """The option taken for each choice."""
    return [(choice, choice.options[n]) for choice, n in zip(choices, candidate, strict=True)]


def edits_of(choices: Sequence[Choice], candidate: Candidate) -> list[Edit]:
    """What a candidate changes in the build file, parts aside."""
    return [edit for _, option in taken(choices, candidate) for edit in option.edits]


def assembled(build: Build, choices: Sequence[Choice], candidate: Candidate) -> Build:
    """The build as it would stand in the file with this candidate."""
    changed = edited(build, edits_of(choices, candidate))
    return changed.model_copy(update={"part": parts_with(build, choices, candidate)})


def parts_with(build: Build, choices: Sequence[Choice], candidate: Candidate) -> tuple[Part, ...]:
    """The parts of the build, with those that the candidate takes and without those it spares."""
    parts = list(build.part)
    for choice, option in taken(choices, candidate):
        if option.part is None:
            continue
        parts = [kept for part in parts if (kept := spared(part, choice.use)) is not None]
        if option.origin == "bin":
            parts = [used(part, option.part, choice.use) for part in parts]
        else:
            parts.append(bought(option.part, choice.use, parts))
    return tuple(parts)


def spared(part: Part, use: str) -> Part | None:
    """What was to serve this place: not bought any more, or back in the bin."""
    if part.use != use:
        return part
    return part.model_copy(update={"use": None}) if part.have else None


def used(part: Part, wanted: Part, use: str) -> Part:
    return part.model_copy(update={"use": use}) if part.name == wanted.name else part


def bought(part: Part, use: str, others: Sequence[Part]) -> Part:
    names = {other.name for other in others}
    name, number = part.name, 2
    while name in names:
        name, number = f"{part.name} ({number})", number + 1
    return part.model_copy(update={"name": name, "use": use, "source": "shop", "have": False})
