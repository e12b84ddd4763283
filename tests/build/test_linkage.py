"""Linkages in the build file: what is refused, and at which line."""

import pytest

from beltwright.build.errors import BuildFileError
from beltwright.build.reading import read_text

TEXT = """format = 1
name = "two rods"
[[linkage]]
name = "first"
works = "shift"
[linkage.lever]
pivot = ["500 mm", "0 mm", "300 mm"]
neutral = "270 deg"
travel = ["240 deg", "300 deg"]
[linkage.arm]
pivot = ["200 mm", "0 mm", "300 mm"]
[[linkage]]
name = "second"
works = "shift"
driven_by = "first"
[linkage.lever]
pivot = ["200 mm", "80 mm", "300 mm"]
"""


def test_a_bell_crank_whose_arms_stand_beside_each_other_is_read() -> None:
    first, second = read_text(TEXT).linkage
    assert second.driven_by == first.name
    assert first.lever.axis == "cross"


def test_a_linkage_that_nobody_has_measured_yet_is_read() -> None:
    text = 'format = 1\nname = "x"\n[[linkage]]\nname = "rod"\nworks = "clutch"\n'
    assert read_text(text).linkage[0].lever.pivot is None


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('driven_by = "first"', 'driven_by = "third"', "no linkage of this name"),
        ('driven_by = "first"', 'driven_by = "second"', "in a ring"),
        ('"200 mm", "80 mm", "300 mm"', '"230 mm", "80 mm", "300 mm"', "pivot line"),
        (
            '["200 mm", "80 mm", "300 mm"]',
            '["200 mm", "80 mm", "300 mm"]\naxis = "upright"',
            "line",
        ),
        ('neutral = "270 deg"', 'neutral = "-90 deg"', "outside of its travel"),
        ('travel = ["240 deg", "300 deg"]', 'travel = ["240 deg", "240 deg"]', "no travel"),
        ('name = "second"', 'name = "first"', "this name already"),
        (
            'works = "shift"\ndriven_by',
            'works = "shift"\nbelongs = ["post"]\ndriven_by',
            "obstacle",
        ),
        (
            '[linkage.lever]\npivot = ["200 mm", "80',
            '[linkage.lever]\ntravel = ["1 deg", "9 deg"]\npivot = ["200 mm", "80',
            "leave it out",
        ),
    ],
)
def test_what_cannot_be_is_refused(old: str, new: str, says: str) -> None:
    assert TEXT.count(old) == 1
    with pytest.raises(BuildFileError, match=says):
        read_text(TEXT.replace(old, new))


def test_a_brake_names_a_linkage_that_is_there() -> None:
    brake = """[brake]
kind = "disc"
on = "engine"
inner = "30 mm"
outer = "50 mm"
linkage = "brake rod"
[[shaft]]
name = "engine"
at = ["0 mm", "0 mm"]
"""
    with pytest.raises(BuildFileError, match="no linkage of this name"):
        read_text(TEXT + brake)
