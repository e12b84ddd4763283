"""The starter: a small whole build file that explains itself, to be overwritten."""

from pathlib import Path

from beltwright.build.errors import BuildFileError, NotSaved
from beltwright.build.saving import save


class AlreadyThere(BuildFileError):  # noqa: N818 - says what is the matter
    """A file stands where the starter was to be written."""

    def __init__(self, path: Path) -> None:
        """Keep the path."""
        self.path = path
        super().__init__(f"{path} is there already and was left alone. Choose another name.")


def starter_text() -> str:
    """Give the text of the starter."""
    return Path(__file__).with_name("starter.toml").read_text(encoding="utf-8")


def write_starter(path: Path) -> Path:
    """Write the starter as a new build file; a name without an ending gets .toml."""
    if path.is_dir():
        raise BuildFileError(f"{path} is a folder. Name the file in it: {path / 'mine.toml'}")
    where = path if path.suffix else path.with_suffix(".toml")
    if where.exists():
        raise AlreadyThere(where)
    try:
        where.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise NotSaved(where, error.strerror or str(error)) from error
    save(where, starter_text(), seen="")
    return where
