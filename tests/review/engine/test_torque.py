"""What the review says about engines: verdicts that turn, missing values, one as many."""

import numpy as np
import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.review.case import Case, NotKnownError
from beltwright.review.engine.findings import questions
from beltwright.review.engine.torque import (
    engine_torque,
    flywheel_rim,
    no_load,
    peak_torque,
    pulley_rims,
    rating,
)
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge

RPM = np.pi / 30

ENGINE = """
[engine]
power = "9.3 kW ± 5 %"
at = "3300 ± 50 rpm"
no_load = "3450 ± 30 rpm"
made_for = "3600 rpm"
stroke = "67 mm"
flywheel = { outside = "200 mm", material = "aluminium" }
"""

DRIVE = """
[[shaft]]
name = "engine"
at = ["900 mm", "0 mm"]
[[shaft]]
name = "axle"
at = ["0 mm", "0 mm"]
[[pulley]]
name = "small"
shaft = "engine"
pitch = "80 ± 1 mm"
groove = "A"
[[pulley]]
name = "large"
shaft = "axle"
pitch = "240 mm"
groove = "A"
material = "plastic"
[[belt]]
name = "belt"
section = "A"
length = "90 in"
length_is = "inside"
run = ["small", "large"]
"""


def build(engine: str = ENGINE, drive: str = DRIVE) -> Build:
    return read_text('format = 1\nname = "bench"\n' + engine + drive, "bench.toml")


def findings(engine: str = ENGINE, samples: int = 0) -> dict[str, Finding]:
    case = Case(build(engine), samples)
    return {ask.id: judge(case, "Engine", ask)[0] for ask in questions(case)}


def test_a_sound_engine_is_sound() -> None:
    assert {f.verdict for f in findings(samples=500).values()} == {Verdict.SOUND}


@pytest.mark.parametrize(
    ("was", "now", "id_"),
    [
        ("3450 ± 30", "3700 ± 30", "engine.speed"),
        ("67 mm", "95 mm", "engine.piston_speed"),
        ('"200 mm", material = "aluminium"', '"290 mm", material = "cast iron"', "engine.flywheel"),
        ('made_for = "3600 rpm"', 'governor = "removed"', "engine.governor"),
        ('made_for = "3600 rpm"', 'governor = "altered"', "engine.governor"),
    ],
)
def test_what_can_wreck_it_stops(was: str, now: str, id_: str) -> None:
    found = findings(ENGINE.replace(was, now))[id_]
    assert found.verdict is Verdict.STOP
    assert found.remedy
    assert found.caution


@pytest.mark.parametrize(
    ("line", "id_"),
    [
        ('stroke = "67 mm"', "engine.piston_speed"),
        ('flywheel = { outside = "200 mm", material = "aluminium" }', "engine.flywheel"),
        ('power = "9.3 kW ± 5 %"', "engine.torque"),
        ('at = "3300 ± 50 rpm"', "engine.torque"),
    ],
)
def test_what_is_missing_is_asked_for(line: str, id_: str) -> None:
    found = findings(ENGINE.replace(line, ""))[id_]
    assert found.verdict is Verdict.NOT_KNOWN
    assert " = " in found.remedy


def test_brittle_metal_is_said_to_give_no_warning() -> None:
    brittle = findings(ENGINE.replace('material = "aluminium"', 'material = "cast iron"'))
    tough = findings(ENGINE.replace('material = "aluminium"', 'material = "steel"'))
    assert "without warning" in brittle["engine.flywheel"].caution
    assert "without warning" not in tough["engine.flywheel"].caution


def test_a_limit_that_is_not_given_is_supposed_and_told() -> None:
    found = findings(ENGINE.replace('made_for = "3600 rpm"', ""))["engine.speed"]
    assert found.verdict is Verdict.SOUND
    assert found.assumed == ("engine.made_for",)


def test_no_load_speed_follows_from_droop_where_it_was_not_measured() -> None:
    case = Case(build(ENGINE.replace('no_load = "3450 ± 30 rpm"', "")), 200)
    free = no_load(case) / rating(case).speed
    assert free[0] == pytest.approx(1.07)
    assert 1.04 <= free.min() < free.max() <= 1.10


def test_ranges_hold_the_nominal() -> None:
    for found in findings(samples=500).values():
        if found.value is not None and found.low is not None and found.high is not None:
            assert found.low <= found.value <= found.high


def test_candidates_give_what_single_builds_give() -> None:
    pitches = np.array([0.070, 0.080, 0.095])
    key = "pulley.small.pitch"
    many = pulley_rims(Case(build(), replaced={key: pitches}))
    for index, pitch in enumerate(pitches):
        one = pulley_rims(Case(build(), replaced={key: np.array([pitch])}))
        for rim, alone in zip(many, one, strict=True):
            bursting = np.broadcast_to(rim.bursting, pitches.shape)
            assert bursting[index] == pytest.approx(alone.bursting[0], rel=1e-12)


def test_pulleys_on_one_belt_have_one_rim_speed() -> None:
    small, large = pulley_rims(Case(build()))
    assert large.speed[0] == pytest.approx(small.speed[0], rel=0.02)
    assert large.turns[0] < small.turns[0] / 2.9


def test_torque_over_a_grid_of_speeds_and_samples() -> None:
    case = Case(build(), 100)
    grid = np.linspace(1500, 3800, 24)[:, np.newaxis] * RPM
    torque = engine_torque(case, grid)
    assert torque.shape == (24, 101)
    assert torque[-1].max() == 0.0
    assert torque.max() <= peak_torque(case).max() + 1e-9
    for row in (0, 12, 20):
        alone = engine_torque(Case(build()), grid[row])
        assert alone[0] == pytest.approx(torque[row, 0], rel=1e-12)


def test_a_measured_curve_takes_the_place_of_the_supposed_one() -> None:
    curve = """
[engine]
curve = [
  { at = "3200 rpm", torque = "24 N·m" },
  { at = "2000 rpm", torque = "26 N·m" },
  { at = "2600 rpm", torque = "28 ± 1 N·m" },
]
"""
    case = Case(build(curve))
    assert peak_torque(case)[0] == 28.0
    assert rating(case).torque[0] == 24.0
    assert engine_torque(case, 2300 * RPM)[0] == pytest.approx(27.0)
    assert not case.assumptions.keys() & {"engine.torque_rise", "engine.peak_torque_at"}


def test_one_measured_point_is_no_curve() -> None:
    case = Case(build('[engine]\ncurve = [{ at = "3200 rpm", torque = "24 N·m" }]\n'))
    with pytest.raises(NotKnownError):
        rating(case)


def test_twice_the_speed_leaves_half_the_margin() -> None:
    slow, fast = (
        flywheel_rim(Case(build(), replaced={"engine.no_load": np.array([w])})).bursting[0] / w
        for w in (300.0, 600.0)
    )
    assert slow == pytest.approx(2 * fast)


def test_a_speed_that_nobody_measured_stops_nothing() -> None:
    guessed = ENGINE.replace('no_load = "3450 ± 30 rpm"', "").replace('at = "3300', 'at = "3600')
    found = findings(guessed)["engine.speed"]
    assert found.verdict is Verdict.MARGINAL
    assert "leave the governor alone" in found.remedy
