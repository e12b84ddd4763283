"""What can go wrong with a build file, told so that the builder can put it right.

BuildFileError
├── BuildError         the file cannot be used: one problem or several
├── ChangedUnderneath  the file is not the one that was read
└── NotSaved           the disk would not take it; the earlier file stands
"""

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Problem:
    """One thing that is wrong: where it stands, what was found, and what to write instead.

    `line` is None where the file as a whole is meant; `key` is dotted, "" for the whole file;
    `expected` and `example` are "" where there is nothing to put in its place.
    """

    file: str
    line: int | None
    key: str
    found: str
    expected: str
    example: str
    reason: str

    def __str__(self) -> str:
        """Tell it in one line."""
        where = self.file if self.line is None else f"{self.file}, line {self.line}"
        place = f"{where}, {self.key}" if self.key else where
        found = f"{self.found} stands here. " if self.found.strip('"') else ""
        example = f", for example {self.example}" if self.example else ""
        wanted = f" Write {self.expected}{example}." if self.expected else ""
        return _on_one_line(f"{place}: {found}{self.reason}{wanted}")


def _on_one_line(told: str) -> str:
    """Put a mark for what would break the line or change the terminal."""
    return "".join(letter if letter.isprintable() else "\ufffd" for letter in told)


class BuildFileError(Exception):
    """Something is wrong with a build file."""


class BuildError(BuildFileError):
    """The file cannot be used as it stands; everything found is told at once."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        """Keep the problems in the order of the file."""
        self.problems = problems
        super().__init__("\n".join(str(problem) for problem in problems))


class ChangedUnderneath(BuildFileError):  # noqa: N818 - says what happened
    """The file changed since it was read; it was not overwritten."""

    def __init__(self, path: Path) -> None:
        """Keep the path."""
        self.path = path
        super().__init__(
            f"{path.name} has changed since it was read. Nothing was overwritten. Read it again, "
            "then make the change once more."
        )


class NotSaved(BuildFileError):  # noqa: N818 - says what happened
    """The file could not be written; what stood there before is untouched."""

    def __init__(self, path: Path, why: str) -> None:
        """Keep the path and the reason."""
        self.path = path
        self.why = why
        earlier = "The earlier file is untouched." if path.is_file() else "Nothing was written."
        super().__init__(f"{path} could not be saved: {why}. {earlier}")
