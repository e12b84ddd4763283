"""Reading of a build file: all of its problems at once, or the build."""

from pathlib import Path
from typing import Any

from pydantic import ValidationError

from beltwright.build.errors import BuildError
from beltwright.build.file_text import file_text
from beltwright.build.model import Build
from beltwright.build.places import with_places
from beltwright.build.references import reference_refusals
from beltwright.build.refusal import Refusal
from beltwright.build.table_names import table_name_refusals
from beltwright.build.toml_text import toml_values


def read_build(path: Path | str) -> Build:
    """Read a build file; raise BuildError with everything that is wrong with it."""
    where = Path(path)
    return read_text(file_text(where), where.name)


def read_text(text: str, name: str = "build.toml") -> Build:
    """Read the text of a build file; raise BuildError with everything that is wrong with it."""
    values = toml_values(text, name)
    built = _built(values)
    refused = _name_refusals(built) if isinstance(built, Build) else built
    if isinstance(built, Build) and not refused:
        return built
    # Only a refusal needs the lines, and what finds them is slow to load.
    from beltwright.build.problems import problems_from

    raise BuildError(problems_from(refused, values, text, name))


def _name_refusals(build: Build) -> list[Refusal]:
    """Give the names that lead nowhere in the build or in the published tables."""
    return [*reference_refusals(build), *table_name_refusals(build)]


def _built(values: dict[str, Any]) -> Build | list[Refusal]:
    """Give the build of a file's values, or what is refused."""
    try:
        return Build.model_validate(with_places(values))
    except ValidationError as error:
        from beltwright.build.refused_values import refusals_of

        return refusals_of(error, values)
