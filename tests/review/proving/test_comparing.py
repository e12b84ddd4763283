"""Readings against the plan under the conditions of the drive."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.testing import assert_allclose

from beltwright.build.reading import read_text
from beltwright.review.case import Case
from beltwright.review.driveline.routes import gears, route_to
from beltwright.review.driveline.speed import speed_in
from beltwright.review.finding import Verdict
from beltwright.review.proving.conditions import driven as under
from beltwright.review.proving.readings import readings

RPM = np.pi / 30.0
THIRD = 'name = "a"\ngear = "3"\nengine = "3400 ± 20 rpm"\n'
Make = Callable[..., Any]


def test_a_speed_is_held_against_the_engine_speed_that_was_read(
    driven: Make, compared: Make
) -> None:
    build = driven(THIRD + 'speed = "5.8 ± 0.1 km/h"')
    case = Case(build)
    expected = speed_in(case, gears(case)[2], np.array([3400.0 * RPM]))
    assert_allclose(compared(build)["a.speed"].predicted[0], expected[0], rtol=1e-12)


def test_governed_and_loaded_is_a_little_slower_than_without_load(
    driven: Make, compared: Make
) -> None:
    level = 'name = "a"\ngear = "3"\nspeed = "5.8 km/h"'
    steep = 'name = "b"\ngear = "3"\nslope = "8 %"\nspeed = "5.8 km/h"'
    found = compared(driven(level, steep))
    case = Case(driven())
    free = float(speed_in(case, gears(case)[2], np.array([3420.0 * RPM]))[0])
    assert found["b.speed"].predicted[0] < found["a.speed"].predicted[0] < free


def test_turns_by_hand_are_counted_without_creep(driven: Make, compared: Make) -> None:
    build = driven('name = "a"\ngear = "2"\nengine_turns = "71"\nwheel_turns = "1"')
    case = Case(build)
    ratio = route_to(case, "axle").total_ratio(gears(case)[1])
    # the plan lets each of the two belts creep by 1 %
    expected = ratio[0] * 0.99**2
    assert_allclose(compared(build)["a.ratio"].predicted[0], expected, rtol=1e-12)


def test_ground_load_and_air_are_those_of_the_drive(driven: Make) -> None:
    load = '[[machine.load]]\nname = "sand"\nmass = "40 kg"\nat = ["200 mm", "0 mm", "500 mm"]'
    row = 'name = "a"\nground = "packed snow"\nair = "-5 °C"\n'
    build = driven(row, row.replace('"a"', '"b"') + "laden = true", also=load)
    case = Case(build)
    bare, laden = (under(case, drive).build for drive in build.drive)
    assert bare.machine.ground == laden.machine.ground == ("packed snow",)
    assert (len(bare.machine.load), len(laden.machine.load)) == (0, 1)
    assert bare.machine.air is not None
    assert bare.machine.air.value == pytest.approx(268.15)


def test_the_same_inputs_have_the_same_draws_under_other_conditions(driven: Make) -> None:
    build = driven('name = "a"\nground = "packed snow"')
    case = Case(build, 50)
    there = under(case, build.drive[0])
    pulley = build.pulley[0].outside
    assert there.si(pulley) is case.si(pulley)


def test_the_verdict_turns_where_the_doubts_no_longer_reach(driven: Make, findings: Make) -> None:
    said = {
        speed: findings(driven(THIRD + f'speed = "{speed}"'))["a.speed"].verdict
        for speed in ("5.8 km/h", "5.6 km/h", "5.4 ± 0.05 km/h", "5.4 ± 0.6 km/h")
    }
    assert list(said.values()) == [
        Verdict.SOUND,
        Verdict.SOUND,
        Verdict.MARGINAL,
        Verdict.SOUND,
    ]


@pytest.mark.parametrize(
    ("row", "missing"),
    [
        ('speed = "5 km/h"', "gear"),
        ('case = "30 °C"\nafter = "30 min"\ngear = "2"', "air"),
    ],
)
def test_what_is_missing_of_a_drive_is_asked_for(
    driven: Make, findings: Make, row: str, missing: str
) -> None:
    (found,) = findings(driven(f'name = "a"\n{row}')).values()
    assert found.verdict is Verdict.NOT_KNOWN
    assert f"{missing} =" in found.remedy


def test_a_speed_needs_no_scales(driven: Make, compared: Make) -> None:
    row = 'name = "a"\ngear = "3"\nspeed = "5.8 km/h"'
    scales = next(line for line in str(_plan(driven)).splitlines() if line.startswith("scales"))
    unweighed = driven(row, changed=(scales, ""))
    case = Case(unweighed)
    free = float(speed_in(case, gears(case)[2], np.array([3420.0 * RPM]))[0])
    assert_allclose(compared(unweighed)["a.speed"].predicted[0], free, rtol=1e-12)


def _plan(driven: Make) -> str:
    """The text that the fixture holds."""
    closure = dict(zip(driven.__code__.co_freevars, driven.__closure__ or (), strict=True))
    return str(closure["text"].cell_contents)


@pytest.mark.parametrize(
    ("ended", "slope", "verdict"),
    [
        ("yes", "5 %", Verdict.SOUND),
        ("yes", "90 %", Verdict.MARGINAL),
        ("stalled", "5 %", Verdict.MARGINAL),
        ("wheels spun", "60 %", Verdict.SOUND),
        ("belt slipped", "5 %", Verdict.MARGINAL),
        ("front lifted", "5 %", Verdict.MARGINAL),
    ],
)
def test_a_climb_bounds_what_the_plan_expects(
    driven: Make, findings: Make, ended: str, slope: str, verdict: Verdict
) -> None:
    row = f'name = "a"\ngear = "1"\nslope = "{slope}"\nclimbed = "{ended}"'
    assert findings(driven(row))["a.climb"].verdict is verdict


def test_a_climb_that_only_the_tolerances_explain_is_not_sound(findings: Make) -> None:
    """The puller's belt holds at every slope as written, and slips where all is at its worst."""
    puller = Path(__file__).parents[3] / "examples" / "puller" / "build.toml"
    drive = '\n[[drive]]\nname = "a"\ngear = "1"\nslope = "5 %"\nclimbed = "belt slipped"\n'
    found = findings(read_text(puller.read_text(encoding="utf-8") + drive))["a.climb"]
    assert found.verdict is Verdict.MARGINAL
    assert "at no slope: only its tolerances leave room for it" in found.meaning
    assert found.remedy
    assert found.caution


def test_locked_wheels_stop_by_grip_and_rolling_ones_by_the_brake(
    driven: Make, compared: Make
) -> None:
    rows = [
        f'name = "{name}"\nbraked_from = "1.6 m/s"\nstopped_in = "0.6 m"\n{locked}'
        for name, locked in (("any", ""), ("slid", "locked = true"), ("rolled", "locked = false"))
    ]
    found = {key: each.predicted[0] for key, each in compared(driven(*rows)).items()}
    assert found["any.stop"] == max(found["slid.stop"], found["rolled.stop"])
    assert found["slid.stop"] != found["rolled.stop"]


def test_candidates_give_what_each_gives_alone(driven: Make) -> None:
    build = driven(
        'name = "a"\ngear = "3"\nslope = "5 %"\nspeed = "5 km/h"\nstopped_in = "1 m"\n'
        'reached = "5 km/h"\nreached_in = "1 s"\nclimbed = "yes"\nair = "0 °C"\n'
        'case = "20 °C"\nafter = "30 min"\nbelt = "clutch belt"\nslack = "9 mm"'
    )
    values = np.array([3300.0, 3420.0, 3500.0]) * RPM

    def of(tried: np.ndarray) -> list[np.ndarray]:
        case = Case(build, 0, {"engine.no_load": tried})
        found = (r.predicted(under(case, r.drive)) for r in readings(case))
        return [np.broadcast_to(each, tried.shape) for each in found]

    together, alone = of(values), [of(values[i : i + 1]) for i in range(3)]
    assert len(together) == 6
    for at, row in enumerate(together):
        assert_allclose(row, [each[at][0] for each in alone], rtol=1e-9)


def test_a_review_without_tolerances_says_the_same(driven: Make, findings: Make) -> None:
    build = driven(THIRD + 'speed = "5.2 ± 0.05 km/h"', 'name = "b"\ngear = "1"\nspeed = "2 km/h"')
    ranged, nominal = findings(build), findings(build, samples=0)
    assert [each.verdict for each in nominal.values()] == [each.verdict for each in ranged.values()]
    assert ranged["a.speed"].causes
    assert not nominal["a.speed"].causes
