"""What is said of the tyres, and how their size is measured."""

from pathlib import Path

import pytest

from beltwright.build.reading import read_text
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.driveline.tyres import questions
from beltwright.review.judging import judge
from beltwright.review.measuring import how_for

EXAMPLE = Path(__file__).parents[3] / "examples" / "orchard-hauler" / "build.toml"
GOAL = 'top_speed = "9 to 12 km/h"'
TEXT = EXAMPLE.read_text(encoding="utf-8")


@pytest.mark.parametrize(("goal", "beyond"), [("12 to 15 km/h", False), ("20 to 25 km/h", True)])
def test_a_goal_beyond_the_tyres_is_told(goal: str, beyond: bool) -> None:
    assert GOAL in TEXT
    case = Case(read_text(TEXT.replace(GOAL, f'top_speed = "{goal}"'), "build.toml"))
    (ask,) = questions(case)
    found, _ = judge(case, "Speed", ask)
    assert (f"The goal of {goal} asks for faster tyres" in found.meaning) is beyond


@pytest.mark.parametrize("axle", ["front", "rear"])
def test_a_tyre_is_rolled_and_not_measured_like_a_pulley(axle: str) -> None:
    told = how_for(f"wheels.{axle}.outside", Kind.LENGTH)
    assert "roll" in told
    assert "rim" not in told
    assert "rim" in how_for("pulley.engine pulley.outside", Kind.LENGTH)
