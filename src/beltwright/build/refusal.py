"""What is wrong at one place of a build, before its line is looked up."""

from dataclasses import dataclass

from beltwright.build.places import Path


@dataclass(frozen=True)
class Refusal:
    """What is wrong at one path of the values; a misspelt name also gives the path it means."""

    path: Path
    reason: str
    found: str = ""
    expected: str = ""
    example: str = ""
    means: Path = ()
