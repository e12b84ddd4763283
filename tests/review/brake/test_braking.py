"""What the review says about the brake: kinds, places, verdicts that turn, missing values."""

import re
from collections.abc import Callable

import numpy as np
import pytest

from beltwright.physics.brake.stopping import slope_held_by_grip
from beltwright.review.brake.braking import (
    axle_torque,
    brake_path,
    brake_torque,
    one_wheel_slowing,
    parking,
    slowing,
)
from beltwright.review.brake.findings import questions
from beltwright.review.case import Case, NotKnownError
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge
from beltwright.review.motion.ground import grounds
from beltwright.review.stability.centre_of_gravity import empty, states
from beltwright.tables.surfaces import surface

Cart = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]

BAND = ('kind = "disc"', 'kind = "band"\nradius = "60 mm"\nwrap = "270 deg"')
DRUM = ('kind = "disc"', 'kind = "drum"\nradius = "60 mm"')


def on(shaft: str) -> tuple[str, str]:
    return ('on = "axle"', f'on = "{shaft}"')


def test_the_cart_stops_soundly_but_downhill_where_it_slides(answers: Answers) -> None:
    found = answers(questions, samples=300)
    assert found.pop("brake.downhill").verdict == Verdict.MARGINAL
    assert {f.verdict for f in found.values()} == {Verdict.SOUND}


def test_every_finding_shows_its_working_and_source(answers: Answers) -> None:
    for finding in answers(questions).values():
        assert finding.working
        assert finding.source
        assert finding.meaning


def test_a_weak_pedal_stops_nothing(answers: Answers) -> None:
    weak = answers(questions, ('pedal_force = "350 ± 30 N"', 'pedal_force = "60 N"'))
    assert weak["brake.deceleration"].verdict == Verdict.STOP
    assert weak["brake.torque"].verdict == Verdict.MARGINAL
    assert weak["brake.parking"].verdict == Verdict.STOP
    assert weak["brake.downhill"].verdict == Verdict.STOP
    assert "More lever" in weak["brake.deceleration"].remedy


def test_a_missed_goal_is_marginal_and_told(answers: Answers) -> None:
    short = answers(questions, ("at most 9 m", "at most 3 m"))
    assert short["brake.stopping_distance"].verdict == Verdict.MARGINAL
    assert "will not help" in short["brake.stopping_distance"].remedy


def test_no_brake_is_one_question_not_known(cart: Cart) -> None:
    case = Case(cart().build.model_copy(update={"brake": None}))
    (asked,) = questions(case)
    finding, _ = judge(case, "Brake", asked)
    assert finding.id == "brake.stopping_distance"
    assert finding.verdict == Verdict.NOT_KNOWN


def test_without_levers_the_force_is_not_known(cart: Cart) -> None:
    brake = cart().build.brake
    assert brake is not None
    bare = cart().build.model_copy(update={"brake": brake.model_copy(update={"levers": ()})})
    with pytest.raises(NotKnownError, match="Measure both arms"):
        brake_torque(Case(bare))


def test_a_brake_up_the_driveline_is_multiplied(cart: Cart) -> None:
    axle, upstream = cart(), cart(on("gearbox input"))
    assert brake_path(upstream).reduction == pytest.approx(16.0)
    assert axle_torque(upstream).forwards == pytest.approx(
        float(axle_torque(axle).forwards[0]) * 16.0
    )


def test_a_brake_ahead_of_the_gearbox_is_gone_in_neutral(answers: Answers) -> None:
    path = answers(questions, on("gearbox input"))["brake.path"]
    assert path.verdict == Verdict.STOP
    assert "neutral" in path.meaning


def test_an_open_differential_lets_one_wheel_on_mud_decide(cart: Cart, answers: Answers) -> None:
    case = cart()
    grass, mud = grounds(case)
    one, both = one_wheel_slowing(case, grass, mud)[0], slowing(case, grass).rate[0]
    assert one < 0.6 * both
    assert one_wheel_slowing(case, grass, grass)[0] == pytest.approx(both)
    assert "one on mud" in answers(questions)["brake.path"].meaning
    locked = (
        'front_pivot_height = "250 mm"',
        'front_pivot_height = "250 mm"\ndifferential = "locked"',
    )
    assert "differential" not in answers(questions, locked)["brake.path"].meaning


def test_engine_braking_is_no_remedy_for_wheels_that_slide(answers: Answers) -> None:
    """The engine would hold the same two wheels."""
    slides = answers(questions, ('slope = "15 %"', 'slope = "25 %"'))["brake.downhill"]
    assert slides.verdict == Verdict.STOP
    assert "other axle" in slides.remedy
    assert "slowest gear" not in slides.remedy
    weak = answers(questions, ('pedal_force = "350 ± 30 N"', 'pedal_force = "60 N"'))
    assert "slowest gear" in weak["brake.downhill"].remedy


def test_the_brake_heats_most_on_the_ground_that_drags_least(answers: Answers) -> None:
    """m g (sin θ − f cos θ) × length / (mass × specific heat), by hand for gravel."""
    firm = ('ground = ["mown grass", "mud"]', 'ground = ["mown grass", "gravel", "mud"]')
    found = answers(questions, firm)["brake.descent_heat"]
    slope, drag = np.arctan(0.15), 0.03
    heat = 340.0 * 9.80665 * (np.sin(slope) - drag * np.cos(slope)) * 50.0
    assert found.value == pytest.approx(303.15 + heat / (1.5 * 480.0), rel=1e-9)
    assert "gravel" in found.meaning


def test_a_brake_ahead_of_the_belt_lets_go_with_the_clutch(answers: Answers) -> None:
    path = answers(questions, on("engine"))["brake.path"]
    assert path.verdict == Verdict.STOP
    assert "pressing the clutch" in path.meaning


def test_a_band_depends_on_which_end_is_pulled(cart: Cart) -> None:
    def torque(*extra: str) -> tuple[float, float]:
        kind = (BAND[0], "\n".join((BAND[1], *extra)))
        found = brake_torque(cart(kind))
        return float(found.forwards[0]), float(found.backwards[0])

    helped, against = torque("helped = true"), torque("helped = false")
    assert helped == pytest.approx(against[::-1])
    assert helped[0] == pytest.approx(helped[1] * np.exp(0.35 * np.radians(270.0)))
    # where nobody looked, the weaker direction is counted on both ways
    assert torque() == pytest.approx((helped[1], helped[1]))


def test_a_band_parks_by_its_weaker_way(cart: Cart) -> None:
    kind = (BAND[0], BAND[1] + "\nhelped = true")
    strong, weak = cart(kind), cart((BAND[0], BAND[1] + "\nhelped = false"))
    ground = grounds(strong)[0]
    assert parking(strong, ground).brake == pytest.approx(float(parking(weak, ground).brake[0]))


def test_a_drum_works_from_its_usual_shape_and_says_so(cart: Cart) -> None:
    case = cart(DRUM)
    torque = brake_torque(case)
    assert torque.forwards[0] > 0.0
    assert {"brake.shoe_pivot_share", "brake.shoe.begins", "brake.shoe.ends"} <= set(
        case.assumptions
    )


def test_a_shoe_that_grabs_is_a_stop(answers: Answers) -> None:
    kind = (DRUM[0], DRUM[1] + '\nfriction = "0.9"\nshoe = ["10 deg", "170 deg"]')
    found = answers(questions, kind)["brake.torque"]
    assert found.verdict == Verdict.STOP
    assert "grabs" in found.shown


def test_an_unknown_lining_is_assumed_and_said(cart: Cart) -> None:
    case = cart(('material = "moulded"\n', ""))
    brake_torque(case)
    assert "brake.friction" in case.assumptions


def test_the_worst_state_and_ground_decide(cart: Cart) -> None:
    case = cart(samples=100)
    for ground in grounds(case):
        level, down = slowing(case, ground), slowing(case, ground, -0.15)
        assert np.all(down.rate < level.rate)


def test_a_braked_tyre_passes_no_more_than_its_grip(cart: Cart) -> None:
    """Level, rear wheels locked, worked by hand: a/g = μ N_r + f N_f, N_r L = (L − b) − h a/g."""
    case = cart(('pedal_force = "350 ± 30 N"', 'pedal_force = "900 N"'))
    chassis, mud = states(case)[0].chassis, grounds(case)[1]
    grip, drag = float(mud.grip[0]), float(mud.rolling[0])
    ahead, height = (float(np.ravel(x)[0]) / 1.2 for x in (chassis.ahead, chassis.height))
    by_hand = (drag + (grip - drag) * (1.0 - ahead)) / (1.0 + (grip - drag) * height)
    found = [slowing(case, mud).rate[0], *(slowing(case, g).rate[0] for g in grounds(case))]
    assert min(found) / 9.80665 <= by_hand * (1.0 + 1e-9)
    assert slowing(case, mud).locks


def test_mud_does_not_stop_better_than_grass(cart: Cart) -> None:
    case = cart(('pedal_force = "350 ± 30 N"', 'pedal_force = "900 N"'))
    grass, mud = grounds(case)
    assert slowing(case, mud, -0.15).rate[0] < slowing(case, grass, -0.15).rate[0]


def test_a_parked_machine_has_nobody_on_it(cart: Cart) -> None:
    """A heavy driver over the rear axle holds it only while seated."""
    heavy = cart(('hip = ["350 mm"', 'hip = ["-400 mm"'))
    bare, seated = empty(heavy).chassis, states(heavy)[0].chassis
    assert np.ravel(bare.ahead)[0] > np.ravel(seated.ahead)[0]
    grip = grounds(heavy)[0].grip
    assert parking(heavy, grounds(heavy)[0]).facing_down == pytest.approx(
        float(slope_held_by_grip(bare, grip).facing_down[0])
    )


def test_findings_about_one_ground_rest_on_that_ground(answers: Answers) -> None:
    torque = answers(questions)["brake.torque"]
    assert "ground.mown grass.grip" in torque.assumed
    assert not any("mud" in key for key in torque.assumed)


def test_a_measured_shoe_rests_on_no_guess_of_its_pivot(answers: Answers) -> None:
    found = answers(questions, (DRUM[0], DRUM[1] + '\nshoe_pivot = "48 mm"'))
    assert "brake.shoe_pivot_share" not in found["brake.torque"].assumed


def test_hot_brakes(answers: Answers) -> None:
    long_way = answers(questions, ('descent = "50 m"', 'descent = "2000 m"'))
    assert long_way["brake.descent_heat"].verdict == Verdict.STOP
    assert "slowest gear" in long_way["brake.descent_heat"].remedy
    none = answers(questions, ('mass = "1.5 kg"\n', ""))
    assert none["brake.stop_heat"].verdict == Verdict.NOT_KNOWN
    assert "brake.descent_heat" not in answers(questions, ('descent = "50 m"\n', ""))


def test_a_long_descent_is_the_brakes_alone(answers: Answers) -> None:
    """What the lining bears by hand, and why the engine does not count."""
    found = answers(questions)["brake.descent_heat"]
    slope = np.arctan(0.15)
    told = re.search(r"The lining bears (\d+) m of it", found.meaning)
    assert told is not None
    # mown grass of the table, 340 kg, 1.5 kg of disc from 30 °C to 200 °C
    grass = float(surface("mown grass").rolling_usual)
    heat = 340.0 * 9.80665 * (np.sin(slope) - grass * np.cos(slope))
    assert float(told[1]) == pytest.approx(1.5 * 480.0 * 170.0 / heat, abs=0.5)
    assert "brake alone" in found.meaning
    assert "the clutch is pressed, or a belt slips or comes off, or a gear jumps out" in (
        found.meaning
    )
    assert "no governor" in found.meaning
    assert "do not change gear" in found.caution


def test_a_hot_descent_is_parted_by_stops_that_keep_it_cool(answers: Answers) -> None:
    """Half of what the lining bears at a time."""
    found = answers(questions, ('descent = "50 m"', 'descent = "2000 m"'))["brake.descent_heat"]
    every = re.search(r"Stop every (\d+) m", found.remedy)
    assert every is not None
    part = answers(questions, ('descent = "50 m"', f'descent = "{every[1]} m"'))
    assert part["brake.descent_heat"].verdict == Verdict.SOUND
    assert "plan on the brake alone" in found.remedy
    light = answers(
        questions,
        ('descent = "50 m"', 'descent = "2000 m"'),
        ('mass = "1.5 kg"', 'mass = "0.01 kg"'),
    )["brake.descent_heat"]
    assert light.remedy.startswith("Fit a heavier")


def test_a_cool_brake_that_does_not_hold_is_no_comfort(answers: Answers) -> None:
    weak = answers(questions, ('pedal_force = "350 ± 30 N"', 'pedal_force = "1 N"'))
    assert "runs away" in weak["brake.descent_heat"].meaning
    assert "runs away" not in answers(questions)["brake.descent_heat"].meaning
    assert "keep off that slope" in weak["brake.downhill"].remedy


def test_an_idler_on_an_arm_gives_way_when_the_wheels_drive(answers: Answers) -> None:
    armed = (
        'run = ["small", "large"]',
        'run = ["small", "large", "press"]\n[[idler]]\nname = "press"\noutside = "80 mm"\n'
        'arm = { pivot = ["500 mm", "120 mm"], length = "90 mm", released = "24 deg" }',
    )
    assert "change over" in answers(questions, armed)["brake.descent_heat"].meaning
    assert "change over" not in answers(questions)["brake.descent_heat"].meaning


def test_without_a_descent_the_way_that_the_lining_bears_is_told(answers: Answers) -> None:
    told = answers(questions, ('descent = "50 m"\n', ""))["brake.stop_heat"].meaning
    assert "Dragging all the way" in told
    assert "Dragging" not in answers(questions)["brake.stop_heat"].meaning


def test_candidates_give_what_each_gives_alone(cart: Cart) -> None:
    build, key = cart().build, "brake.outer"
    sizes = np.array([0.060, 0.070, 0.090])
    together = Case(build, replaced={key: sizes})
    rates = slowing(together, grounds(together)[0]).rate
    for number, size in enumerate(sizes):
        alone = Case(build, replaced={key: np.array([size])})
        assert rates[number] == slowing(alone, grounds(alone)[0]).rate[0]


def test_a_rule_known_from_memory_alone_warns_and_says_that_it_is_weak(cart: Cart) -> None:
    """Between the rule's brake path and twice that it warns; beyond that it stops."""
    for force, verdict in (("350 ± 30 N", Verdict.SOUND), ("20 N", Verdict.STOP)):
        found = _brake_path(cart, force)
        assert found.verdict is verdict, force
        assert found.source.startswith("weak: ")
    warned = [_brake_path(cart, f"{force} N") for force in range(30, 200, 5)]
    for found in warned:
        assert found.value is not None
        assert found.limit is not None
        assert found.limit.at_most is not None
        share = found.value / found.limit.at_most
        assert (found.verdict is Verdict.STOP) == (share > 2.0)
    assert any(found.verdict is Verdict.MARGINAL for found in warned)


def _brake_path(cart: Cart, force: str) -> Finding:
    case = cart(('pedal_force = "350 ± 30 N"', f'pedal_force = "{force}"'))
    ask = next(ask for ask in questions(case) if ask.id == "brake.deceleration")
    return judge(case, "Brake", ask)[0]
