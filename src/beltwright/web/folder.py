"""The builds in the folder, found by looking and never by joining names that were sent."""

import re
from dataclasses import dataclass
from pathlib import Path

from beltwright.build.errors import BuildError, ChangedUnderneath, NotSaved
from beltwright.build.saving import save
from beltwright.web.at_rest import bytes_at_rest
from beltwright.web.refusal import CannotRead, NotThere, Refusal, Taken, as_problems

_NAME = re.compile(r"\w(?:[\w .-]{0,58}\w)?")
_RESERVED = re.compile(r"(?i)(con|prn|aux|nul|com\d|lpt\d)(\..*)?")
_BUILD_LINE = re.compile(rb"^\s*format\s*=", re.MULTILINE)
_OWN_FOLDER_FILE = "build.toml"


@dataclass(frozen=True)
class Folder:
    """A folder with build files: `NAME.toml`, or `NAME/build.toml` for one with its own folder."""

    path: Path

    def builds(self) -> dict[str, Path]:
        """Every build by its name, in order of the names."""
        found = {file.stem: file for file in self._inside("*.toml")}
        for file in self._inside(f"*/{_OWN_FOLDER_FILE}"):
            name = file.parent.name
            found[f"{name} (folder)" if name in found else name] = file
        return dict(sorted(found.items()))

    def find(self, name: str) -> Path:
        """The file of a build."""
        try:
            return self.builds()[name]
        except KeyError:
            raise NotThere(f"There is no build called {name!r} in this folder.") from None

    def place_for(self, name: str) -> Path:
        """Where a new build of that name is to be written."""
        if not _NAME.fullmatch(name) or _RESERVED.fullmatch(name):
            raise Refusal(
                422, "A name takes letters, figures, spaces, dots and dashes, at most 60 of them."
            )
        path = self.path / f"{name}.toml"
        if name in self.builds() or path.exists():
            raise Taken(name)
        return path

    def write_new(self, name: str, text: str) -> Path:
        """Writes a new build; one that is there is never overwritten."""
        path = self.place_for(name)
        try:
            save(path, text, "", "new")
        except ChangedUnderneath:
            raise Taken(name) from None
        except BuildError as refused:
            raise CannotRead(as_problems(refused)) from None
        except NotSaved as failed:
            raise Refusal(503, str(failed)) from None
        return path

    def _inside(self, pattern: str) -> list[Path]:
        root = self.path.resolve()
        return [
            file
            for file in self.path.glob(pattern)
            if not any(part.startswith(".") for part in file.relative_to(self.path).parts)
            and file.is_file()
            and file.resolve().is_relative_to(root)
            and _is_build(file)
        ]


def _is_build(file: Path) -> bool:
    """Whether the file says that it is a build file; a broken one still counts.

    Without its null bytes, so that one saved as UTF-16 is told of and not passed over.
    """
    try:
        return _BUILD_LINE.search(bytes_at_rest(file).replace(b"\0", b"")) is not None
    except OSError:
        return False
