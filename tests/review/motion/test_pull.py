"""What the review says about pulling and climbing: verdicts that turn, missing values, batches."""

import re
from collections.abc import Callable

import numpy as np
import pytest

from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.driveline.speed import low_gear, top_gear
from beltwright.review.finding import Finding, Verdict
from beltwright.review.motion.findings import questions
from beltwright.review.motion.ground import grounds
from beltwright.review.motion.pull import (
    climb,
    engine_range,
    fastest_gear_on,
    geared,
    limits,
    peak_thrust,
    pull_curves,
    start,
    top_speed_on,
)
from beltwright.review.stability.centre_of_gravity import laden, states

Cart = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]


def test_ranges_hold_the_nominal_value(answers: Answers) -> None:
    for finding in answers(questions, samples=300).values():
        if finding.value is not None:
            assert finding.low is not None
            assert finding.high is not None
            assert finding.low <= finding.value <= finding.high


def test_every_finding_shows_its_working_and_source(answers: Answers) -> None:
    for finding in answers(questions).values():
        assert finding.working
        assert finding.source
        assert finding.meaning


def test_a_climb_that_misses_its_goal_turns_marginal(answers: Answers) -> None:
    assert answers(questions)["climb.mown grass"].verdict == Verdict.SOUND
    steep = answers(questions, ('climb = "at least 15 %"', 'climb = "at least 30 %"'))
    assert steep["climb.mown grass"].verdict == Verdict.MARGINAL
    assert "Cleated tyres" in steep["climb.mown grass"].remedy


def test_a_weak_engine_ends_the_climb_itself(answers: Answers) -> None:
    weak = answers(
        questions, ('power = "7 kW ± 5 %"', 'power = "0.25 kW"'), ("[60.0, 30.0, 16.0]", "[60.0]")
    )
    assert "the engine has no more" in weak["climb.mown grass"].meaning


def test_a_load_far_back_lifts_the_front(answers: Answers) -> None:
    back = answers(
        questions,
        ('mass = "40 kg"', 'mass = "200 kg"'),
        ('at = ["100 mm", "0 mm", "500 mm"]', 'at = ["-400 mm", "0 mm", "1300 mm"]'),
    )
    assert answers(questions)["climb.front_lift"].verdict == Verdict.SOUND
    assert back["climb.front_lift"].verdict == Verdict.STOP
    assert "falls over backwards" in back["climb.front_lift"].caution


HARD_TO_HOLD = (
    ('mass = "40 kg"', 'mass = "90 kg"'),
    ('at = ["100 mm", "0 mm", "500 mm"]', 'at = ["-200 mm", "0 mm", "700 mm"]'),
)


def test_a_front_that_lifts_on_dry_hard_ground_is_told(answers: Answers) -> None:
    """Grass lets the tyres spin first; the yard that was not named does not."""
    found = answers(questions, *HARD_TO_HOLD, samples=300)["climb.front_lift"]
    assert found.verdict == Verdict.MARGINAL
    assert "on asphalt the tyres spin" in found.meaning
    assert "over the front axle" in found.remedy


def test_the_ballast_that_is_told_keeps_the_front_down(answers: Answers, cart: Cart) -> None:
    told = answers(questions, *HARD_TO_HOLD, samples=300)["climb.front_lift"].remedy
    (mass,) = re.findall(r"hang ([0-9.]+) kg", told)
    height = float(laden(cart(*HARD_TO_HOLD)).balance.z[0]) * 1000.0
    ballast = (
        f'[[machine.load]]\nname = "ballast"\nmass = "{mass} kg"\n'
        f'at = ["1200 mm", "0 mm", "{height:.0f} mm"]\n[engine]'
    )
    mended = answers(questions, *HARD_TO_HOLD, ("[engine]", ballast), samples=300)
    assert mended["climb.front_lift"].verdict == Verdict.SOUND


def test_an_open_differential_pulls_by_the_poorer_wheel(answers: Answers, cart: Cart) -> None:
    grass, mud = grounds(cart())
    left = limits(cart(), laden(cart()), mud, 0.0).slip
    assert left < limits(cart(), laden(cart()), grass, 0.0).slip
    told = answers(questions)["pull.low_gear"].meaning
    assert f"on mud the open differential leaves {cart().units.show(left[0], Kind.FORCE)}" in told


def test_the_clutch_heat_comes_out_of_its_own_working(answers: Answers) -> None:
    found = answers(questions)["pull.clutch_heat"]
    figures = re.match(r"½ × ([\d.]+) N·m × (\d+) rpm × ([\d.]+) s = ", found.working)
    assert figures is not None
    torque, turns, time = (float(figure) for figure in figures.groups())
    heat = 0.5 * torque * turns * 2.0 * np.pi / 60.0 * time
    assert found.value == pytest.approx(heat, rel=0.01)  # three digits each


def test_front_drive_does_not_lift(answers: Answers) -> None:
    front = answers(questions, ('shaft = "axle"\nfront', 'shaft = "axle"\ndriven = "front"\nfront'))
    assert front["climb.front_lift"].shown == "the front does not lift"
    assert front["climb.front_lift"].verdict == Verdict.SOUND


def test_missing_scales_and_driver_say_what_to_measure(answers: Answers) -> None:
    light = answers(
        questions,
        ('front = "100 ± 1 kg"\nrear = "120 ± 1 kg"', 'front = "100 kg"\nrear = "120 kg"'),
        ('raised_by = "400 ± 2 mm"\n', ""),
    )
    assert light["climb.mown grass"].verdict == Verdict.NOT_KNOWN
    assert "Lift the front wheels" in light["climb.mown grass"].remedy
    nobody = answers(
        questions,
        ('driver = { mass = "80 ± 2 kg", hip = ["350 mm", "0 mm", "450 mm"] }\n', ""),
    )
    assert nobody["pull.low_gear"].verdict == Verdict.NOT_KNOWN
    assert "hip" in nobody["pull.low_gear"].remedy


def test_top_speed_on_the_ground_stays_below_no_load(cart: Cart) -> None:
    case = cart(samples=200)
    ground = grounds(case)[0]
    gear, top = fastest_gear_on(case, ground)
    assert gear == top_gear(case)
    fastest = geared(case, gear).road_speed(engine_range(case).no_load)
    assert np.all(top.speed < fastest)
    assert np.all(top.speed > 0.9 * fastest)


def test_a_gear_too_tall_gives_way_to_a_slower_one(cart: Cart, answers: Answers) -> None:
    tall = ("[60.0, 30.0, 16.0]", "[60.0, 16.0, 1.5]")
    case = cart(tall)
    gear, top = fastest_gear_on(case, grounds(case)[0])
    assert gear.ratio == 16.0
    assert top.moves
    run_up = answers(questions, tall)["pull.run_up"]
    assert run_up.verdict == Verdict.MARGINAL
    assert "too tall" in run_up.meaning


def test_candidates_give_what_each_gives_alone(cart: Cart) -> None:
    tracks = np.array([0.100, 0.120, 0.140])
    key = "pulley.small.pitch"
    base = cart()
    together = Case(base.build, replaced={key: tracks})
    ground = grounds(together)[0]
    tops = top_speed_on(together, ground, top_gear(together)).speed
    pushes = peak_thrust(together, low_gear(together))
    for number, size in enumerate(tracks):
        alone = Case(base.build, replaced={key: np.array([size])})
        top = top_speed_on(alone, grounds(alone)[0], top_gear(alone)).speed
        assert tops[number] == pytest.approx(float(top[0]), rel=1e-12)
        assert pushes[number] == pytest.approx(float(peak_thrust(alone, low_gear(alone))[0]))


def test_climb_is_the_least_of_three(cart: Cart) -> None:
    case = cart(samples=50)
    found = climb(case, grounds(case)[0], low_gear(case))
    assert np.all(found.slope <= found.power)
    assert np.all(found.slope <= found.grip)
    assert np.all(found.slope <= found.lift)


def test_the_clutch_slips_longer_in_a_taller_gear(cart: Cart) -> None:
    case = cart()
    low = start(case, grounds(case)[0], low_gear(case), 0.0)
    tall = start(case, grounds(case)[0], top_gear(case), 0.0)
    assert tall.clutch.work > low.clutch.work
    assert low.rise is None  # no idler on an arm: the clutch is not known


def test_the_driver_and_the_load_move_the_weight(cart: Cart) -> None:
    alone, full = states(cart())
    assert full.balance.mass - alone.balance.mass == pytest.approx(40.0)
    assert laden(cart()).name == "fully laden"
    assert full.balance.x < alone.balance.x


def test_pull_curves_for_the_chart(cart: Cart) -> None:
    curves = pull_curves(cart(samples=20))
    assert [curve.gear.name for curve in curves.gears] == ["1", "2", "3"]
    for curve in curves.gears:
        assert curve.speed.shape == (25, 21)
        assert curve.pull.shape == (25, 21)
        assert np.all(np.diff(curve.speed, axis=0) > 0.0)
        assert np.all(np.abs(curve.pull[-1]) < 1e-6)  # nothing is left at the no-load speed
    level, uphill = curves.holding
    assert np.all(uphill.force > level.force)
