"""What tyres are made for: speed symbols, the pace of turf tyres, and the load on each.

Sources
-------
UNECE R106: Regulation No. 106, tyres of agricultural vehicles, speed category symbols: A1 5, A2 10,
    A3 15, A4 20, A5 25, A6 30, A7 35, A8 40 km/h (from memory, high).
TRA: Tire and Rim Association, Year Book, lawn and garden tyres: loads at up to 10 mph (from memory,
    medium).
Statics: moments about the contacts on a slope.
"""

import re

import numpy as np
import pytest

from beltwright.build.reading import read_text
from beltwright.build.starter import starter_text
from beltwright.review.case import Case
from beltwright.review.driveline.tyres import SYMBOLS, questions
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge
from beltwright.review.nominal import nominal
from beltwright.review.stability.centre_of_gravity import states

WHEELS = "[wheels]\n"
UNECE_R106 = {"A1": 5, "A2": 10, "A3": 15, "A4": 20, "A5": 25, "A6": 30, "A7": 35, "A8": 40}


def answer(text: str) -> Finding:
    (ask,) = questions(Case(read_text(text, "build.toml"), 0))
    return judge(Case(read_text(text, "build.toml"), 0), "Speed", ask)[0]


def with_speed(speed: str) -> str:
    assert WHEELS in starter_text()
    return starter_text().replace(WHEELS, f'{WHEELS}tyre_speed = "{speed}"\n', 1)


def test_the_symbols_are_told_as_the_regulation_has_them() -> None:
    told = re.search(r"A(\d) to A(\d) stand for (\d+) to (\d+) km/h in steps of five", SYMBOLS)
    assert told is not None
    first, last, slow, fast = (int(each) for each in told.groups())
    steps = range(slow, fast + 1, 5)
    assert dict(zip((f"A{n}" for n in range(first, last + 1)), steps, strict=True)) == UNECE_R106


def test_turf_tyres_are_taken_to_be_made_for_ten_miles_an_hour() -> None:
    """TRA: and a guess alone stops nobody."""
    found = answer(starter_text())
    assert found.limit is not None
    assert found.limit.at_most == pytest.approx(10 * 1609.344 / 3600, rel=1e-12)
    quick = starter_text().replace("forward = [62.0, 40.0, 28.0, 20.0, 15.5]", "forward = [5.0]")
    assert quick != starter_text()
    fast = answer(quick)
    assert fast.verdict is Verdict.MARGINAL
    assert "Read the side of every tyre" in fast.remedy


@pytest.mark.parametrize(
    ("symbol", "verdict"), [("A1", Verdict.STOP), ("A3", Verdict.SOUND), ("A8", Verdict.SOUND)]
)
def test_a_speed_on_the_tyre_counts(symbol: str, verdict: Verdict) -> None:
    """The starter runs 9.3 km/h."""
    assert answer(with_speed(f"{UNECE_R106[symbol]} km/h")).verdict is verdict


def test_the_load_on_each_tyre_is_that_of_its_axle_on_the_slope() -> None:
    """Nose up for the rear tyres, nose down for the front: moments about the other contact."""
    case = Case(read_text(starter_text(), "build.toml"), 0)
    slope = np.arctan(0.12)
    (state,) = states(case)
    mass, ahead, height = (
        nominal(part) for part in (state.balance.mass, state.balance.x, state.balance.z)
    )
    base = nominal(state.chassis.wheelbase)
    behind = base - ahead
    front = mass * (ahead * np.cos(slope) + height * np.sin(slope)) / base / 2.0
    rear = mass * (behind * np.cos(slope) + height * np.sin(slope)) / base / 2.0
    told = re.search(
        r"each front tyre carries up to ([\d.]+) kg and each rear tyre ([\d.]+) kg",
        answer(starter_text()).meaning,
    )
    assert told is not None
    assert [float(each) for each in told.groups()] == pytest.approx([front, rear], rel=5e-3)
