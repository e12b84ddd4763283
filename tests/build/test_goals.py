"""Goals written as one bare value."""

import pytest

from beltwright.build.reading import read_text
from beltwright.quantity import Goal

KM_H = 1000 / 3600


def goal(name: str, text: str) -> Goal:
    build = read_text(f'format = 1\nname = "cart"\n[goals]\n{name} = "{text}"\n')
    found: Goal = getattr(build.goals, name)
    return found


def test_a_single_top_speed_is_met_within_a_twentieth() -> None:
    found = goal("top_speed", "20 km/h")
    assert found.low == pytest.approx(19 * KM_H)
    assert found.high == pytest.approx(21 * KM_H)


@pytest.mark.parametrize(
    ("name", "text"),
    [("crawl_speed", "3 km/h"), ("stop_within", "4 m"), ("budget", "160 EUR")],
)
def test_a_single_limit_is_the_most_that_is_wanted(name: str, text: str) -> None:
    found = goal(name, text)
    assert found.low is None
    assert found.high is not None


def test_a_single_climb_is_the_least_that_is_wanted() -> None:
    found = goal("climb", "20 %")
    assert found.low is not None
    assert found.high is None


@pytest.mark.parametrize("text", ["18 to 22 km/h", "20 ± 2 km/h"])
def test_a_range_stays_a_range(text: str) -> None:
    found = goal("top_speed", text)
    assert found.low == pytest.approx(18 * KM_H)
    assert found.high == pytest.approx(22 * KM_H)
