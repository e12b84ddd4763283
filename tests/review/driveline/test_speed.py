"""Speeds, goals and overspeed of the orchard hauler, changed in one place at a time."""

import re
from pathlib import Path

import numpy as np
import pytest
from numpy.testing import assert_allclose

from beltwright.build.reading import read_text
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.draft import Ask
from beltwright.review.driveline.speed import governed, questions, speed_in, top_gear
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge

EXAMPLE = Path(__file__).parents[3] / "examples" / "orchard-hauler" / "build.toml"
TEXT = EXAMPLE.read_text(encoding="utf-8")
KM_H = 1000 / 3600


def case_of(text: str = TEXT, samples: int = 0) -> Case:
    return Case(read_text(text, "build.toml"), samples)


def finding(case: Case, id_: str) -> Finding:
    ask: Ask = next(ask for ask in questions(case) if ask.id == id_)
    return judge(case, "Speed", ask)[0]


def with_line(start: str, line: str) -> str:
    """The example with the line that begins so put in another way (or left out)."""
    lines = TEXT.splitlines()
    (place,) = [n for n, text in enumerate(lines) if text.startswith(start)]
    lines[place] = line
    return "\n".join(lines)


def test_every_gear_is_asked_about() -> None:
    ids = [ask.id for ask in questions(case_of())]
    assert ids[:7] == [f"speed.gear.{n}" for n in ("1", "2", "3", "4", "5", "6", "r1")]


def test_top_speed_is_that_of_the_fastest_gear() -> None:
    case = case_of()
    top, sixth = finding(case, "speed.top"), finding(case, "speed.gear.6")
    assert top.value == sixth.value


@pytest.mark.parametrize(
    ("goal", "verdict", "words"),
    [
        ("12 to 15 km/h", Verdict.SOUND, "Meets the goal"),
        ("20 to 25 km/h", Verdict.MARGINAL, "slower than the goal"),
        ("at most 10 km/h", Verdict.MARGINAL, "faster than the goal"),
    ],
)
def test_a_missed_goal_is_marginal_and_says_by_how_much(
    goal: str, verdict: Verdict, words: str
) -> None:
    found = finding(case_of(with_line("top_speed", f'top_speed = "{goal}"')), "speed.top")
    assert found.verdict is verdict
    assert words in found.meaning


def test_the_remedy_for_too_slow_says_how_much_quicker() -> None:
    case = case_of(with_line("top_speed", 'top_speed = "at least 20 km/h"'))
    share = 20 * KM_H / float(speed_in(case, top_gear(case), governed(case))[0]) - 1
    assert f"{share:.0%}".replace("%", " %") in finding(case, "speed.top").remedy


def test_pulleys_are_not_told_to_turn_the_gearbox_too_fast() -> None:
    """What the pulleys may give, put in by hand, brings the gearbox to its limit and no further."""
    goal = with_line("top_speed", 'top_speed = "at least 26 km/h"')
    told = finding(case_of(goal), "speed.top").remedy
    (share,) = re.findall(r"By pulleys at most (\d+) %", told)
    over = finding(case_of(), "gearbox.overspeed").value
    assert over is not None
    assert (1 + over) * (1 + int(share) / 100) == pytest.approx(1.6, abs=0.01)
    near = with_line("top_speed", 'top_speed = "at least 15 km/h"')
    assert "By pulleys at most" not in finding(case_of(near), "speed.top").remedy
    full = goal.replace('stock_input = "1240 ± 40 rpm"', 'stock_input = "700 rpm"')
    assert full != goal
    assert "Not by pulleys" in finding(case_of(full), "speed.top").remedy


def test_a_gearbox_past_its_limit_is_told_the_way_back_to_it() -> None:
    slow = case_of(with_line("stock_input", 'stock_input = "900 rpm"'))
    told = finding(slow, "gearbox.overspeed")
    assert told.value is not None
    (least, better) = re.findall(r"by (\d+) %", told.remedy)
    assert 1.6 * 0.985 < (1 + told.value) * (1 - int(least) / 100) <= 1.6
    assert int(better) > int(least)


def test_a_gearbox_far_over_its_donors_speed_stops_the_plan() -> None:
    slow_donor = with_line("stock_input", 'stock_input = "900 rpm"')
    assert finding(case_of(slow_donor), "gearbox.overspeed").verdict is Verdict.STOP
    quick_donor = with_line("stock_input", 'stock_input = "1900 rpm"')
    assert finding(case_of(quick_donor), "gearbox.overspeed").verdict is Verdict.SOUND


def test_what_is_missing_is_asked_for() -> None:
    no_idle = finding(case_of(with_line("idle", "")), "speed.crawl")
    assert no_idle.verdict is Verdict.NOT_KNOWN
    assert "idle = " in no_idle.remedy
    no_donor = finding(case_of(with_line("stock_input", "")), "gearbox.overspeed")
    assert no_donor.verdict is Verdict.NOT_KNOWN


def test_ranges_bracket_the_nominal_build() -> None:
    case = case_of(samples=500)
    for ask in questions(case):
        found, _ = judge(case, "Speed", ask)
        assert found.low is not None
        assert found.value is not None
        assert found.high is not None
        assert found.low <= found.value <= found.high


def test_candidates_give_what_each_gives_alone() -> None:
    build = read_text(TEXT, "build.toml")
    key = "pulley.engine pulley.outside"
    outsides = np.array([0.09, 0.1, 0.114])
    together = Case(build, replaced={key: outsides})
    speeds = speed_in(together, top_gear(together), governed(together))
    for place, outside in enumerate(outsides):
        alone = Case(build, replaced={key: np.array([outside])})
        assert_allclose(
            speed_in(alone, top_gear(alone), governed(alone)), speeds[place], rtol=1e-15
        )


def test_workings_are_in_the_builders_units() -> None:
    found = finding(case_of(), "speed.top")
    assert found.kind is Kind.SPEED
    assert "km/h" in found.working
    imperial = TEXT.replace("[goals]", '[show]\nspeed = "mph"\n\n[goals]', 1)
    assert "mph" in finding(case_of(imperial), "speed.top").working


def test_the_slower_input_that_is_told_is_no_longer_watched() -> None:
    """Do what the remedy says, and ask again: a larger input pulley by that much."""
    told = finding(case_of(), "gearbox.overspeed")
    assert told.verdict is Verdict.MARGINAL
    (share,) = re.findall(r"by (\d+) %", told.remedy)
    pitch = 204.0 - 6.35
    larger = f'outside = "{pitch / (1.0 - int(share) / 100.0) + 6.35:.1f} mm"'
    slower = case_of(TEXT.replace('outside = "204 ± 0.5 mm"', larger))
    assert finding(slower, "gearbox.overspeed").verdict is Verdict.SOUND
