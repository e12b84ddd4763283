"""The search for other parts, as the page runs it."""

from pathlib import Path
from typing import Any

from beltwright.build.model import Build
from beltwright.web.refusal import NotYet
from beltwright.web.searches import Work


def work_for(build: Build, path: Path) -> Work:
    """The search of a build."""
    raise NotYet("The search for other parts is not there yet.")


def options_shown(found: Any) -> dict[str, Any]:
    """What a search found, as data."""
    return {}


def edits_of(found: Any, option: int) -> list[tuple[str, str]] | None:
    """What an option changes in the build file, None where there is no such option."""
    return None
