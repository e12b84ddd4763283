"""Belts of a small cart in both clutch positions, and every run that goes wrong."""

import re

import numpy as np
import pytest
from numpy.testing import assert_allclose

from beltwright.build.reading import read_text
from beltwright.physics.arrays import Array
from beltwright.physics.belt.fit import Fit
from beltwright.physics.belt.path import belt_path
from beltwright.review.belt import findings
from beltwright.review.belt.layout import Layout, belt_layout, belt_run, loose_belt
from beltwright.review.belt.length import lengths_taken, sold_as
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.routes import route_to
from beltwright.review.driveline.speed import governed
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge
from beltwright.tables.belts import section

CART = """
format = 1
name = "Test cart"

[engine]
power = "9 kW"
at = "3300 rpm"
turns = "clockwise"

[[shaft]]
name = "engine"
at = ["800 mm", "0 mm"]

[[shaft]]
name = "gearbox input"
at = ["200 mm", "0 mm"]

[[pulley]]
name = "engine pulley"
shaft = "engine"
outside = "100 mm"
groove = "A"
height = "340 mm"

[[pulley]]
name = "input pulley"
shaft = "gearbox input"
outside = "200 mm"
groove = "A"
height = "340 mm"

[[idler]]
name = "clutch idler"
outside = "80 mm"
height = "340 mm"
arm = { pivot = ["0.6 m", "-0.15 m"], length = "0.15 m", released = "190 deg", furthest = "105 deg"}

[[belt]]
name = "traction belt"
section = "A"
length = "65 in"
length_is = "inside"
run = ["engine pulley", "clutch idler", "input pulley"]

[gearbox]
input = "gearbox input"
forward = [40.0, 20.0]

[wheels]
shaft = "axle"
roll_out = "1500 mm"
"""


def case_of(*changes: tuple[str, str], samples: int = 0) -> Case:
    text = CART
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return Case(read_text(text, "build.toml"), samples)


def run_of(case: Case) -> Layout:
    return belt_run(case, case.build.belt[0])


def finding(case: Case, id_: str) -> Finding:
    ask = next(ask for ask in findings.questions(case) if ask.id == f"belt.traction belt.{id_}")
    return judge(case, "Belt", ask)[0]


FIXED = (
    'arm = { pivot = ["0.6 m", "-0.15 m"], length = "0.15 m", released = "190 deg", '
    'furthest = "105 deg"}'
)


def test_the_pitch_line_on_each_kind_of_wheel() -> None:
    """Section A: the datum line is 0.125 in under a standard rim (RMA IP-20)."""
    radii = [float(r[0]) for r in (wheel.pitch_radius for wheel in run_of(case_of()).wheels)]
    above = section("A").belt_above_pitch
    assert radii == pytest.approx([0.05 - 0.003175, 0.04 + above, 0.1 - 0.003175], rel=1e-12)


def test_the_arm_stands_where_the_belt_leaves_it() -> None:
    layout = run_of(case_of())
    assert layout.usable.tolist() == [True]
    assert float(layout.path.length[0]) == pytest.approx(float(layout.pitch_length[0]), rel=1e-12)
    angle = float(layout.arm_angle[0])
    assert np.radians(105) < angle < np.radians(190)
    x, y = 0.6 + 0.15 * np.cos(angle), -0.15 + 0.15 * np.sin(angle)
    again = belt_path(layout.path.run.moved(1, x, y))
    assert float(np.atleast_1d(again.length)[0]) == pytest.approx(float(layout.path.length[0]))


def test_the_belt_travels_with_its_engine() -> None:
    """Clockwise from above a belt goes from the engine backwards on the right-hand side."""
    layout = run_of(case_of())
    assert layout.travel == 1
    assert [layout.strand(place) for place in range(3)] == ["slack", "slack", "tight"]
    turned = run_of(case_of(('"clockwise"', '"counter-clockwise"')))
    assert turned.travel == -1
    assert [turned.strand(place) for place in range(3)] == ["tight", "tight", "slack"]


def test_the_order_of_the_run_may_go_either_way() -> None:
    backwards = run_of(
        case_of(
            ('"engine pulley", "clutch', '"input pulley", "clutch'),
            ('idler", "input pulley"]', 'idler", "engine pulley"]'),
        )
    )
    assert_allclose(backwards.position, run_of(case_of()).position, rtol=1e-12)
    assert backwards.travel == -1


def test_the_released_belt_hangs_loose() -> None:
    case = case_of()
    loose = loose_belt(case, case.build.belt[0])
    bare = belt_path(run_of(case).path.run.without(1))
    assert not np.any(loose.belt.touches)
    assert loose.path() is loose.without
    expected = run_of(case).pitch_length - bare.length
    assert_allclose(loose.belt.slack, expected, rtol=1e-12)


def test_tolerances_bracket_the_build_as_written() -> None:
    case = case_of(('"800 mm"', '"800 ± 1 mm"'), samples=200)
    layout = run_of(case)
    assert layout.usable.shape == (201,)
    found = finding(case, "arm")
    assert found.low is not None
    assert found.high is not None
    assert found.value is not None
    assert found.low < found.value < found.high


def test_a_length_as_printed_may_be_off() -> None:
    """A printed A65 may be 0.7 in off, so that arm and slack spread; a measured belt is not."""
    printed = case_of(samples=400)
    assert np.ptp(run_of(printed).pitch_length) == pytest.approx(1.4 * 0.0254, rel=0.01)
    assert run_of(printed).pitch_length[0] == pytest.approx(run_of(case_of()).pitch_length[0])
    assert "belt.traction belt.length_tolerance" in printed.assumptions
    for id_ in ("arm", "slack", "take_up"):
        found = finding(printed, id_)
        assert found.low is not None
        assert found.value is not None
        assert found.high is not None
        assert found.low < found.value < found.high, id_
        assert "belt.traction belt.length_tolerance" in found.assumed
    measured = case_of(('length = "65 in"', 'length = "65 ± 0.05 in"'), samples=400)
    assert np.ptp(run_of(measured).pitch_length) == pytest.approx(0.1 * 0.0254, rel=0.01)
    assert not measured.assumptions


def test_a_belt_sold_in_millimetres_takes_the_metric_tolerance() -> None:
    """ISO 4184: 1250 to 1600 mm, 23 mm longer to 11 mm shorter; 1651 mm inside is in the next."""
    metric = case_of(('length = "65 in"', 'length = "1651 mm"'), samples=400)
    length = run_of(metric).pitch_length
    assert np.max(length) - length[0] == pytest.approx(0.027, abs=2e-4)
    assert length[0] - np.min(length) == pytest.approx(0.013, abs=2e-4)


def test_a_belt_that_may_be_too_short_is_to_be_measured() -> None:
    """At the short end of what fits, half of the belts sold as that size do not go on."""
    case = case_of()
    shortest = float(lengths_taken(case, case.build.belt[0]).shortest[0]) - 1.3 * 0.0254
    edge = ('length = "65 in"', f'length = "{shortest / 0.0254 + 0.1:.3f} in"')
    found = finding(case_of(edge, samples=400), "length")
    assert found.verdict is Verdict.MARGINAL
    assert "Measure the belt" in found.remedy


def test_candidates_are_the_same_as_one_at_a_time() -> None:
    build = case_of().build
    key = build.pulley[0].outside.key if build.pulley[0].outside else ""
    sizes = np.array([0.09, 0.1, 0.11, 0.5])
    together = belt_run(Case(build, replaced={key: sizes}), build.belt[0])
    for place, size in enumerate(sizes):
        alone = belt_run(Case(build, replaced={key: np.array([size])}), build.belt[0])
        assert bool(alone.usable[0]) == bool(together.usable[place])
        assert_allclose(_at(together.position, place), alone.position[0], rtol=1e-9)
    assert together.usable.tolist()[1:] == [True, True, False]


def _at(values: Array, place: int) -> float:
    return float(np.broadcast_to(values, 4)[place])


def test_candidates_without_a_run_raise_nothing() -> None:
    build = case_of().build
    replaced = {build.belt[0].length.key: np.array([1.0, 65 * 0.0254])}
    layout = belt_layout(Case(build, replaced=replaced), build.belt[0])
    assert layout.usable.tolist() == [False, True]


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ([('"65 in"', '"60 in"')], "too short"),
        ([('"65 in"', '"70 in"')], "stays loose"),
        # the shafts in one place
        ([('"800 mm"', '"200 mm"')], "one inside the other"),
        # the pulleys in one place
        ([('"800 mm"', '"310 mm"'), (FIXED, 'at = ["600 mm", "60 mm"]')], "in the same place"),
        # a still idler that the belt misses
        ([(FIXED, 'at = ["600 mm", "-200 mm"]')], "does not touch"),
        # an idler on the wrong side of its belt
        ([(FIXED, 'runs_on = "inside"\nat = ["600 mm", "0 mm"]')], "does not touch"),
    ],
)
def test_a_run_that_goes_wrong_is_told_once(changes: list[tuple[str, str]], says: str) -> None:
    case = case_of(*changes)
    run = finding(case, "run")
    assert run.verdict is Verdict.STOP
    assert says in run.meaning
    assert run.remedy
    wrap = finding(case, "wrap.engine pulley")
    assert wrap.verdict is Verdict.NOT_KNOWN
    assert "does not go round" in wrap.meaning
    with pytest.raises(NotKnownError):
        belt_layout(case, case.build.belt[0])


def test_a_pulley_that_is_missing_is_told() -> None:
    build = case_of().build
    lacking = build.model_copy(update={"pulley": build.pulley[:1]})
    with pytest.raises(NotKnownError, match="neither a pulley nor an idler"):
        belt_run(Case(lacking), build.belt[0])


def test_a_shaft_without_a_place_is_told() -> None:
    build = case_of().build
    lacking = build.model_copy(update={"shaft": build.shaft[:1]})
    with pytest.raises(NotKnownError, match="Measure where the shaft"):
        belt_run(Case(lacking), build.belt[0])


def test_two_arms_on_one_belt_are_asked_about() -> None:
    second = CART[CART.index("[[idler]]") : CART.index("[[belt]]")].replace("clutch", "second")
    case = case_of(
        ("[[belt]]", f"{second}[[belt]]"),
        ('"clutch idler", "input', '"clutch idler", "second idler", "input'),
    )
    with pytest.raises(NotKnownError, match="swing on arms"):
        run_of(case)


@pytest.mark.parametrize(
    ("length", "verdict", "named"), [("64 in", "sound", "A64"), ("67 in", "stop", "A65")]
)
def test_the_lengths_that_fit_are_named(length: str, verdict: str, named: str) -> None:
    case = case_of(('"65 in"', f'"{length}"'))
    found = finding(case, "length")
    assert found.verdict == verdict
    assert "Sold as A" in found.meaning
    assert named in found.meaning + found.remedy


NO_BELT = (
    'furthest = "105 deg"}',
    'furthest = "157 deg"}',
)
"""A stop that leaves the arm too little swing for any belt that is sold."""


def test_where_no_sold_belt_fits_the_way_to_the_nearest_is_told() -> None:
    """Half of what it is too long, put between the two shafts as told, lets it go round."""
    stuck = case_of(NO_BELT)
    run, length = finding(stuck, "run"), finding(stuck, "length")
    assert run.verdict is length.verdict is Verdict.STOP
    assert run.remedy == length.remedy, "both say the same"
    found = re.search(r"The nearest, A(\d+), is ([0-9.]+) mm too long: set the two", run.remedy)
    assert found, run.remedy
    apart = 800.0 + float(found[2]) / 2.0 + 1.0
    moved = case_of(NO_BELT, ('"65 in"', f'"{found[1]} in"'), ('["800 mm"', f'["{apart:.1f} mm"'))
    assert finding(moved, "run").value is None
    assert finding(moved, "run").shown == "goes round"


def test_an_arm_that_swings_less_than_belts_differ_is_told() -> None:
    assert "belts of one size differ by up to" in finding(case_of(NO_BELT), "run").remedy
    assert "differ" not in finding(case_of(('"65 in"', '"67 in"')), "run").remedy


def test_a_belt_that_lacks_a_hair_of_slack_is_not_sent_for_one_that_nobody_sells() -> None:
    taken = lengths_taken(case_of(), case_of().build.belt[0])
    pitch = float(taken.shortest[0]) + 0.006
    inside = pitch - (float(run_of(case_of()).pitch_length[0]) - 65 * 0.0254)
    tight = finding(case_of(('"65 in"', f'"{inside * 1000:.2f} mm"')), "slack")
    assert tight.verdict is not Verdict.SOUND
    assert "belts of one size differ" in tight.remedy
    assert "mm longer" not in tight.remedy


@pytest.mark.parametrize("place", ['["600 mm", "-200 mm"]', '["600 mm", "400 mm"]'])
def test_a_run_whose_wheels_stand_wrong_is_sent_for_no_other_belt(place: str) -> None:
    missed = case_of((FIXED, f"at = {place}"))
    run, length = finding(missed, "run"), finding(missed, "length")
    assert run.shown == "does not go round"
    assert "once the belt goes round: see “Run of the traction belt”" in length.meaning
    assert "fits" not in length.meaning
    if length.verdict is Verdict.STOP:
        assert length.remedy == run.remedy


def test_the_ends_of_the_lengths_that_fit_are_sharp() -> None:
    case = case_of()
    taken = lengths_taken(case, case.build.belt[0])
    build, key = case.build, case.build.belt[0].length.key
    shift = float(run_of(case).pitch_length[0]) - build.belt[0].length.value
    ends = np.array([taken.shortest[0], taken.longest[0]]) - shift
    tried = np.concatenate([ends - 1e-6, ends + 1e-6])
    layout = belt_run(Case(build, replaced={key: tried}), build.belt[0])
    assert layout.usable.tolist() == [False, True, True, False]


def test_a_length_that_is_not_sold_is_named_so() -> None:
    case = case_of(('"65 in"', '"64.5 in"'))
    assert sold_as(case, case.build.belt[0]) is None
    assert "Not a length" in finding(case, "length").meaning


def test_an_arm_without_a_stop_swings_towards_its_belt() -> None:
    case = case_of((', furthest = "105 deg"', ""))
    assert_allclose(run_of(case).position, run_of(case_of()).position, rtol=1e-9)
    assert "idler.clutch idler.arm.furthest" in case.assumptions


def test_an_arm_whose_angle_is_written_stands_there() -> None:
    case = case_of((', furthest = "105 deg"', ', driving = "140 deg"'))
    layout = run_of(case)
    assert_allclose(np.degrees(layout.arm_angle), 140.0)
    x = 0.6 + 0.15 * np.cos(np.radians(140))
    assert_allclose(layout.path.run.x[1], x, rtol=1e-12)


def test_a_belt_that_hardly_comes_loose_drags() -> None:
    case = case_of(('released = "190 deg"', 'released = "128 deg"'))
    assert finding(case, "slack").verdict is Verdict.STOP
    assert "further back" in finding(case, "slack").remedy


def test_an_idler_on_the_tight_side_is_told() -> None:
    assert finding(case_of(), "idler_side").shown == "on the slack side"
    turned = finding(case_of(('"clockwise"', '"counter-clockwise"')), "idler_side")
    assert turned.verdict is Verdict.MARGINAL
    assert "other run of the belt" in turned.remedy


def test_pulleys_out_of_line_are_told() -> None:
    high = case_of(
        (
            'groove = "A"\nheight = "340 mm"\n\n[[pulley]]',
            'groove = "A"\nheight = "352 mm"\n\n[[pulley]]',
        )
    )
    found = finding(high, "fleet")
    assert found.verdict is Verdict.MARGINAL
    assert "12 mm" in found.remedy
    assert finding(case_of(), "fleet").verdict is Verdict.SOUND


@pytest.mark.parametrize(
    ("height", "way", "mistaken"),
    [
        ("344 mm", "with washers", False),
        ("352 mm", "move its bracket", False),
        ("596 mm", "move its bracket", True),
    ],
)
def test_only_a_small_step_is_for_washers(height: str, way: str, mistaken: bool) -> None:
    high = case_of(
        ('outside = "80 mm"\nheight = "340 mm"', f'outside = "80 mm"\nheight = "{height}"'),
    )
    told = finding(high, "fleet").remedy
    assert told.startswith("Lower the clutch idler by")
    assert way in told
    assert ("written right" in told) is mistaken


def test_heights_that_are_only_rough_are_to_be_measured_not_moved() -> None:
    rough = case_of(
        ('outside = "80 mm"\nheight = "340 mm"', 'outside = "80 mm"\nheight = "340 ± 9 mm"'),
        samples=300,
    )
    found = finding(rough, "fleet")
    assert found.verdict is Verdict.MARGINAL
    assert "measure the step" in found.remedy


def test_a_pulley_without_a_height_asks_for_it() -> None:
    case = case_of(('outside = "80 mm"\nheight = "340 mm"', 'outside = "80 mm"'))
    found = finding(case, "fleet")
    assert found.verdict is Verdict.NOT_KNOWN
    assert "straight-edge" in found.remedy


@pytest.mark.parametrize(
    ("groove", "verdict"), [("A", Verdict.STOP), ("B", Verdict.STOP), ("3L", Verdict.MARGINAL)]
)
def test_a_grooved_idler_on_the_back_is_told(groove: str, verdict: Verdict) -> None:
    """The back of an A belt falls into a groove as wide as itself and rides on a narrower one."""
    grooved = ('outside = "80 mm"', f'outside = "80 mm"\nface = "grooved"\ngroove = "{groove}"')
    found = finding(case_of(grooved), "face.clutch idler")
    assert found.verdict is verdict
    assert "flat idler in place of the clutch idler" in found.remedy
    inside = (grooved[0], grooved[1] + '\nruns_on = "inside"')
    for rightly in (case_of(), case_of(inside)):
        assert not [ask for ask in findings.questions(rightly) if ".face." in ask.id]


def test_a_small_idler_spins_fast() -> None:
    """Kinematics: the belt's speed over the idler's pitch radius."""
    case = case_of()
    layout = run_of(case)
    found = finding(case, "idler_speed.clutch idler")
    speed = governed(case) * layout.wheels[0].pitch_radius / layout.wheels[1].pitch_radius
    assert found.value == pytest.approx(float(speed[0]), rel=1e-12)
    slow = case_of(('outside = "80 mm"', 'outside = "80 mm"\nbearing_limit = "3000 rpm"'))
    assert finding(slow, "idler_speed.clutch idler").verdict is Verdict.MARGINAL


SLIDING = (
    ('at = ["800 mm", "0 mm"]', 'at = ["800 mm", "0 mm"]\nslot_to = ["740 mm", "0 mm"]'),
    ('"clutch idler", ', ""),
)


def test_a_shaft_in_a_slot_takes_up_the_belt() -> None:
    case = case_of(*SLIDING, ('"65 in"', '"62 in"'))
    layout = run_of(case)
    assert int(layout.fit[0]) == Fit.FITS
    assert 0.0 < float(layout.position[0]) < 0.06
    assert_allclose(layout.path.run.x[0], 0.8 - layout.position, rtol=1e-12)
    found = finding(case, "slot")
    assert found.value == pytest.approx(0.06 - float(layout.position[0]), rel=1e-9)
    assert finding(case, "take_up").value == pytest.approx(
        2 * np.cos(np.arcsin(0.05 / 0.8)) * float(layout.position[0]), rel=0.01
    )


def test_a_belt_on_fixed_centres_must_match() -> None:
    still = ('"clutch idler", ', "")
    needed = float(run_of(case_of(still)).path.length[0])
    inside = needed - 1.3 * 0.0254
    for off, verdict in ((-0.002, "sound"), (0.01, "stop"), (-0.02, "stop")):
        case = case_of(still, ('"65 in"', f'"{(inside + off) * 1000:.3f} mm"'))
        assert finding(case, "length").verdict == verdict


def test_a_pulley_on_the_back_of_its_belt_turns_the_other_way() -> None:
    on_back = ('name = "input pulley"', 'name = "input pulley"\nruns_on = "back"')
    plain, turned = case_of(), case_of(on_back)
    assert route_to(plain, "gearbox input").sense == -1
    assert route_to(turned, "gearbox input").sense == 1
    wheel = run_of(turned).wheels[2]
    assert wheel.side == -1
    assert_allclose(wheel.pitch_radius, 0.1 + section("A").belt_above_pitch)


def test_a_belt_so_slack_that_it_leaves_its_groove_wants_keepers() -> None:
    """Slack over half a turn, against the height of section A, 8 mm."""
    loose = finding(case_of(), "slack")
    assert loose.value is not None
    assert loose.value / np.pi > section("A").cross.height
    assert "“Keepers of the traction belt”" in loose.meaning
    snug = finding(case_of((FIXED, FIXED.replace("190 deg", "140 deg"))), "slack")
    assert snug.value is not None
    assert 0.0 < snug.value / np.pi < section("A").cross.height
    assert "keepers" not in snug.meaning


def test_the_belts_that_are_offered_let_go() -> None:
    """Do what the remedy says, and ask again."""
    told = finding(case_of(('"65 in"', '"50 in"')), "length").remedy
    sizes = [int(size) for size in re.findall(r"A(\d+)", told)]
    assert sizes
    for size in range(sizes[0], sizes[-1] + 1):
        fitted = case_of(('"65 in"', f'"{size} in"'))
        assert finding(fitted, "slack").verdict is not Verdict.STOP, size
    # the next shorter belt goes round as well, but drags with the clutch down
    shorter = case_of(('"65 in"', f'"{sizes[0] - 1} in"'))
    assert finding(shorter, "run").verdict is Verdict.SOUND
    assert finding(shorter, "slack").verdict is Verdict.STOP


def test_no_shorter_belt_is_told_where_it_would_not_let_go() -> None:
    """An inch shorter it drags, so only the end of the travel can be moved."""
    found = finding(case_of(), "take_up")
    assert found.verdict is Verdict.MARGINAL
    assert "No shorter belt" in found.remedy
    assert finding(case_of(('"65 in"', '"64 in"')), "slack").verdict is Verdict.STOP


def test_an_arm_that_swings_the_wrong_way_is_told_and_shows_no_empty_limit() -> None:
    swapped = CART.replace('released = "190 deg"', 'released = "105 deg"').replace(
        'furthest = "105 deg"', 'furthest = "190 deg"'
    )
    case = Case(read_text(swapped), 20)
    ask = next(ask for ask in findings.questions(case) if ask.id.endswith(".length"))
    length, _ = judge(case, "Belt", ask)
    assert length.verdict is Verdict.STOP
    assert length.shown_limit == ""
    assert "Swap the angles released and furthest" in length.remedy
    assert "slackens it in drive" in length.meaning
