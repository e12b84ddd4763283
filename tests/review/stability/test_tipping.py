"""What the review says about tipping and steering: verdicts that turn, missing values, batches."""

import re
from collections.abc import Callable

import numpy as np
import pytest

from beltwright.physics.stability.slope import FRONT, REAR
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.stability.centre_of_gravity import bare
from beltwright.review.stability.changes import changes
from beltwright.review.stability.findings import questions
from beltwright.review.stability.tipping import (
    side_limit,
    slope_limit,
    tipping_radius,
    tipping_speed,
    turn_and_slope,
    with_tracks_wider,
    with_weight_lowered,
)
from beltwright.review.steering.findings import questions as steering_questions
from beltwright.review.steering.turning import circle, lock

Cart = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]

TALL = ('at = ["100 mm", "0 mm", "500 mm"]', 'at = ["100 mm", "0 mm", "1900 mm"]')
HEAVY = ('mass = "40 kg"', 'mass = "300 kg"')


def test_a_low_wide_cart_is_within_its_limits(answers: Answers) -> None:
    assert {f.verdict for f in answers(questions, samples=300).values()} == {Verdict.SOUND}


def test_nothing_is_called_safe(answers: Answers) -> None:
    for finding in (*answers(questions).values(), *answers(steering_questions).values()):
        told = " ".join((finding.meaning, finding.remedy, finding.caution, finding.shown))
        assert "safe" not in told.lower()


def test_slopes_keep_their_caution_and_ceiling(answers: Answers) -> None:
    for name in ("side_slope", "up_slope", "down_slope"):
        finding = answers(questions)[f"stability.{name}"]
        assert finding.value is not None
        assert finding.value <= np.radians(15.0) + 1e-12
        assert "never across" in finding.caution


def test_a_tall_load_stops_it(answers: Answers) -> None:
    tall = answers(questions, TALL, HEAVY)
    assert tall["stability.side_slope"].verdict == Verdict.STOP
    assert "lower gives" in tall["stability.side_slope"].remedy
    assert tall["stability.turn"].verdict == Verdict.STOP


def test_a_steeper_slope_than_the_manuals_allow_stops_it(answers: Answers) -> None:
    steep = answers(questions, ('slope = "15 %"', 'slope = "30 %"'))
    assert steep["stability.down_slope"].verdict == Verdict.STOP


def test_no_slope_given_is_assumed_and_said(answers: Answers) -> None:
    open_ = answers(questions, ('slope = "15 %"\n', ""))
    assert "machine.slope" in open_["stability.side_slope"].assumed


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ('front_pivot_height = "250 mm"\n', "pivot bolt"),
        ('track_rear = "900 ± 5 mm"\n', "rear tyres"),
        ('track_front = "800 ± 5 mm"\n', "front tyres"),
        ('wheelbase = "1200 ± 5 mm"\n', "axle centre"),
        ('rear_raised = "129 ± 1 kg"\n', "Lift the front wheels"),
        ('front = "15x6.00-6"\n', "front tyre"),
        ('rear = "20x8.00-8"\n', "tyre"),
    ],
)
def test_a_missing_measurement_says_how_to_take_it(answers: Answers, line: str, told: str) -> None:
    finding = answers(questions, (line, ""))["stability.side_slope"]
    assert finding.verdict == Verdict.NOT_KNOWN
    assert told in finding.remedy


def test_unknown_sides_widen_the_range(cart: Cart) -> None:
    known = side_limit(cart(samples=200)).static
    unweighed = cart(('left = "111 ± 1 kg"\n', ""), samples=200)
    assert np.ptp(side_limit(unweighed).static) > np.ptp(known)
    assert "machine.left_of_middle" in unweighed.assumptions


def test_mass_on_the_label_beats_the_sum_of_the_scales(cart: Cart) -> None:
    labelled = cart(('wheelbase = "1200', 'mass = "230 kg"\nwheelbase = "1200'))
    assert bare(labelled).mass == pytest.approx(230.0)
    assert bare(labelled).x == pytest.approx(float(bare(cart()).x[0]))


def test_a_rigid_front_axle_tips_later(cart: Cart) -> None:
    rigid = cart(
        ('front_pivot_height = "250 mm"', 'front_axle = "rigid"'),
    )
    assert side_limit(rigid).static[0] > side_limit(cart()).static[0]


def test_lower_and_wider_help(cart: Cart) -> None:
    case = cart()
    static = side_limit(case).static[0]
    assert with_weight_lowered(case, 0.1)[0] > static
    assert with_tracks_wider(case, 0.1)[0] > static


def test_ends_are_held_by_the_worse_state(cart: Cart) -> None:
    case = cart(TALL, HEAVY)
    assert slope_limit(case, REAR).state.name == "fully laden"
    assert slope_limit(case, FRONT).state.name == "fully laden"


TIPPY = ('hip = ["350 mm", "0 mm", "450 mm"]', 'hip = ["350 mm", "0 mm", "850 mm"]')
EVEN = (('left = "111', 'left = "110'), ('right = "109', 'right = "110'))
QUICK = ("[60.0, 30.0, 16.0]", "[60.0, 30.0, 14.0]")


def test_each_way_out_of_a_fast_turn_leaves_the_margin(answers: Answers) -> None:
    """Do what the remedy says, and ask again."""
    now = answers(questions, TIPPY, QUICK, *EVEN)["stability.turn"]
    assert now.verdict in (Verdict.STOP, Verdict.MARGINAL)
    told = re.fullmatch(
        r"Stop the inner wheel at (\d+)° of lock, gear it to ([\d.]+) km/h, "
        r"set the wheels ([\d.]+) mm wider apart, or carry the weight lower.",
        now.remedy,
    )
    assert told is not None
    angle, speed, wider = (float(figure) for figure in told.groups())
    assert now.limit is not None
    assert now.limit.at_least is not None
    # the speed is told to three digits
    ratio = 14.0 * now.limit.at_least * 3.6 / speed * 1.005
    ways = (
        [('lock = "32 deg"', f'lock = "{angle} deg"')],
        [(", 14.0]", f", {ratio}]")],
        [
            ('track_front = "800 ± 5', f'track_front = "{800 + wider} ± 5'),
            ('track_rear = "900 ± 5', f'track_rear = "{900.1 + wider} ± 5'),
        ],
    )
    for way in ways:
        mended = answers(questions, TIPPY, QUICK, *EVEN, *way)["stability.turn"]
        assert mended.verdict == Verdict.SOUND, way


def test_a_slope_in_the_turn_is_worse_than_level_ground(answers: Answers) -> None:
    found = answers(questions, TIPPY)
    level, slope = found["stability.turn"], found["stability.turn_on_slope"]
    assert slope.value is not None
    assert level.value is not None
    assert slope.value < level.value
    steep = answers(questions, TIPPY, QUICK)["stability.turn_on_slope"]
    assert steep.verdict == Verdict.MARGINAL
    assert "less than" in steep.remedy


def test_lift_width_and_driver_are_told(answers: Answers, cart: Cart) -> None:
    """Each against a cart so built: hip and weight up, tracks out, driver heavier."""
    lifted, wider, heavier = changes(cart())
    limit = side_limit(cart()).static[0]
    assert lifted.static < limit < wider.static
    heavy = side_limit(cart(("80 ± 2 kg", "100 ± 2 kg"))).static[0]
    assert heavier.static == pytest.approx(heavy, rel=1e-12)
    out = (
        ('track_front = "800', 'track_front = "900'),
        ('track_rear = "900', 'track_rear = "1000'),
    )
    wide = side_limit(cart(*EVEN, *out)).static[0]
    assert changes(cart(*EVEN))[1].static == pytest.approx(wide, rel=1e-12)
    told = answers(questions)["stability.changes"].meaning
    for words in ("A lift of 50 mm", "wheels 100 mm wider apart", "a driver 20 kg heavier"):
        assert words in told


def test_speed_and_radius_agree(cart: Cart) -> None:
    case = cart(samples=20)
    speed = tipping_speed(case, 4.0, 0.1)
    np.testing.assert_allclose(tipping_radius(case, speed, 0.1), 4.0, rtol=1e-12)


def test_turn_and_slope_for_the_chart(cart: Cart) -> None:
    chart = turn_and_slope(cart(samples=20))
    level, half, full = chart.curves
    assert level.tips.shape == (chart.radius.size, 21)
    assert np.all(np.diff(level.tips, axis=0) > 0.0)
    assert np.all(full.tips <= half.tips)
    assert np.all(half.tips <= level.tips)


def test_candidates_give_what_each_gives_alone(cart: Cart) -> None:
    build, key = cart().build, "machine.track_rear"
    tracks = np.array([0.7, 0.8, 0.9])
    limits = side_limit(Case(build, replaced={key: tracks})).static
    for number, track in enumerate(tracks):
        alone = side_limit(Case(build, replaced={key: np.array([track])})).static
        assert limits[number] == alone[0]


def test_no_steering_is_not_known(answers: Answers, cart: Cart) -> None:
    case = Case(cart().build.model_copy(update={"steering": None}))
    assert [ask.id for ask in steering_questions(case)] == ["steering.turning_circle"]
    assert {f.verdict for f in answers(steering_questions).values()} == {Verdict.SOUND}


def test_a_rod_over_centre_is_a_stop(answers: Answers) -> None:
    found = answers(
        steering_questions,
        ('arm = ["-100 mm", "-28 mm"]', 'arm = ["-40 mm", "40 mm"]'),
        ('lock = "32 deg"', 'lock = "75 deg"'),
    )["steering.error"]
    assert found.verdict == Verdict.STOP
    assert "over centre" in found.meaning


def test_arms_set_wrongly_scrub(answers: Answers) -> None:
    found = answers(
        steering_questions, ('arm = ["-100 mm", "-28 mm"]', 'arm = ["-100 mm", "20 mm"]')
    )["steering.error"]
    assert found.verdict == Verdict.MARGINAL
    assert "Aim the steering arms" in found.remedy
    told = re.search(r"about ([\d.]+) mm inwards, and sit 20 mm outwards now", found.remedy)
    assert told is not None
    aimed = f'arm = ["-100 mm", "-{told[1]} mm"]'
    mended = answers(steering_questions, ('arm = ["-100 mm", "-28 mm"]', aimed))["steering.error"]
    assert mended.verdict == Verdict.SOUND


def test_scrub_radius_from_track_and_kingpins(cart: Cart) -> None:
    measured = cart(('lock = "32 deg"', 'lock = "32 deg"\nscrub_radius = "70 mm"'))
    assert circle(measured).outer_front == pytest.approx(float(circle(cart()).outer_front[0]))
    assert "steering.kingpin_inclination" not in measured.assumptions
    assert np.all(np.isfinite(lock(cart()).outer))
