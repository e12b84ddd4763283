"""A copy of a build file with something written into it, for the commands that find things."""

import argparse
from collections.abc import Callable
from pathlib import Path


def write_copy(
    given: argparse.Namespace, ending: str, write: Callable[[str], str], note: str
) -> Path:
    """Writes what `write` makes of the build's text to where the builder said, or beside it.

    What stood there before is kept in the copy's own history, the new text under `note`.
    """
    from beltwright.build.saving import open_text, save

    source = Path(given.build)
    copy = Path(given.output or source.with_name(f"{source.stem}-{ending}.toml"))
    text, _ = open_text(source)
    seen = open_text(copy)[1] if copy.exists() else ""
    save(copy, write(text), seen, note)
    return copy
