"""A lever, a rod and an arm as text, square to one another in neutral."""

from collections.abc import Callable

import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.review.case import Case
from beltwright.review.finding import Finding
from beltwright.review.judging import judge
from beltwright.review.linkage.findings import questions

TEXT = """
format = 1
name = "test linkage"
[[linkage]]
name = "rod"
works = "brake"
[linkage.lever]
pivot = ["800 mm", "0 mm", "200 mm"]
radius = "50 mm"
neutral = "90 ± 0.5 deg"
travel = ["50 ± 1 deg", "110 ± 1 deg"]
handle = "250 mm"
effort = "100 N"
[linkage.rod]
length = "400 ± 1 mm"
adjusts = "8 mm"
diameter = "10 mm"
joint_limit = "12 deg"
[linkage.arm]
pivot = ["400 mm", "0 mm", "200 mm"]
radius = "50 ± 0.5 mm"
neutral = "90 deg"
force = "200 ± 20 N"
[[linkage.arm.position]]
name = "on"
angle = "65 deg"
within = "2 deg"
[[obstacle]]
name = "post"
outline = [["590 mm", "20 mm"], ["610 mm", "20 mm"], ["610 mm", "40 mm"], ["590 mm", "40 mm"]]
from_height = "0 mm"
to_height = "400 mm"
"""

Change = tuple[str, str]
Made = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]


def build(*changes: Change, more: str = "") -> Build:
    """The linkage with some of its text changed, and more tables after it."""
    text = TEXT + more
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the text"
        text = text.replace(old, new)
    return read_text(text, "linkage.toml")


@pytest.fixture
def made() -> Made:
    """Makes a case of the linkage, some of its text changed."""

    def of(*changes: Change, samples: int = 0, more: str = "") -> Case:
        return Case(build(*changes, more=more), samples)

    return of


@pytest.fixture
def answers() -> Answers:
    """Puts the questions about linkages to it, by the last part of their id."""

    def of(*changes: Change, samples: int = 0, more: str = "") -> dict[str, Finding]:
        case = Case(build(*changes, more=more), samples)
        found = {ask.id: judge(case, "topic", ask)[0] for ask in questions(case)}
        return {id_.removeprefix("linkage.rod."): finding for id_, finding in found.items()}

    return of
