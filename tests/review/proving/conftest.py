"""A small cart that was driven: its text, its reviews, and readings that a plan would give."""

from collections.abc import Callable
from pathlib import Path

import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.review.case import Case
from beltwright.review.finding import Finding
from beltwright.review.judging import judge
from beltwright.review.proving.comparing import Comparison, comparisons
from beltwright.review.proving.conditions import sampled
from beltwright.review.topics import first_drive

SWEEPER = Path(__file__).parents[3] / "examples" / "path-sweeper" / "build.toml"

Driven = Callable[..., Build]
Findings = Callable[..., dict[str, Finding]]
Compared = Callable[[Build], dict[str, Comparison]]


@pytest.fixture
def text() -> str:
    """The path sweeper as it was planned, before its drives."""
    return SWEEPER.read_text(encoding="utf-8").partition("\n# The first drives")[0]


@pytest.fixture
def driven(text: str) -> Driven:
    """The sweeper with drives of its own, each as the text of a row."""

    def of(*rows: str, also: str = "", changed: tuple[str, str] = ("", "")) -> Build:
        drives = "".join(f"\n[[drive]]\n{row}\n" for row in rows)
        plan = text.replace(*changed) if changed[0] else text
        return read_text(f"{plan}\n{also}\n{drives}")

    return of


@pytest.fixture
def findings() -> Findings:
    """What the review says of the drives, by what follows "drive."."""

    def of(build: Build, samples: int = 400) -> dict[str, Finding]:
        case = Case(build, samples)
        asks = first_drive(case)
        return {ask.id.removeprefix("drive."): judge(case, "", ask)[0] for ask in asks}

    return of


@pytest.fixture
def compared() -> Compared:
    """The readings beside what the plan expects, by drive and reading."""

    def of(build: Build) -> dict[str, Comparison]:
        found = comparisons(sampled(Case(build, 400)))
        return {f"{each.reading.drive.name}.{each.reading.what}": each for each in found}

    return of
