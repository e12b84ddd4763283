"""Names in a build that a published table must have: belt sections and kinds of ground."""

from collections.abc import Iterator, Sequence
from difflib import get_close_matches

from beltwright.build.model import Build
from beltwright.build.places import Path
from beltwright.build.refusal import Refusal
from beltwright.tables.belts import section_names
from beltwright.tables.surfaces import surfaces

_LIKE = 0.5
"""How alike a name must be to be taken for a slip of the pen: "sand" for "loose sand"."""


def table_name_refusals(build: Build) -> list[Refusal]:
    """Give every name that its table does not have."""
    sections = section_names()
    grounds = tuple(surface.name for surface in surfaces())
    return [
        *_unknown(_sections_named(build), sections, "belt section"),
        *_unknown(_grounds_named(build), grounds, "ground"),
    ]


def _sections_named(build: Build) -> Iterator[tuple[Path, str]]:
    """Give every place that names a belt section."""
    for index, belt in enumerate(build.belt):
        yield ("belt", index, "section"), belt.section
    for index, pulley in enumerate(build.pulley):
        yield ("pulley", index, "groove"), pulley.groove
    for index, idler in enumerate(build.idler):
        if idler.groove is not None:
            yield ("idler", index, "groove"), idler.groove


def _grounds_named(build: Build) -> Iterator[tuple[Path, str]]:
    """Give every place that names a ground."""
    for index, name in enumerate(build.machine.ground):
        yield ("machine", "ground", index), name
    for index, ground in enumerate(build.ground):
        yield ("ground", index, "name"), ground.name
    for index, drive in enumerate(build.drive):
        if drive.ground is not None:
            yield ("drive", index, "ground"), drive.ground


def _unknown(
    named: Iterator[tuple[Path, str]], known: Sequence[str], what: str
) -> Iterator[Refusal]:
    """Refuse the names that are not known, and say which are."""
    listed = ", ".join(f'"{name}"' for name in known)
    for path, name in named:
        if name not in known:
            near = get_close_matches(name, known, n=1, cutoff=_LIKE)
            hint = f'Did you mean "{near[0]}"? ' if near else ""
            yield Refusal(path, f"{hint}Known as a {what} are: {listed}.", f'"{name}"')
