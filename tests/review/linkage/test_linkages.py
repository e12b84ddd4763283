"""What the review says about rods: lengths, travel, effort, dead points, joints, room, rows."""

import re
from collections.abc import Callable

import numpy as np
import pytest

from beltwright.build.reading import read_text
from beltwright.physics.linkage.train import follow
from beltwright.review.brake.braking import pad_force
from beltwright.review.case import Case, NotKnownError
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge
from beltwright.review.linkage.findings import questions
from beltwright.review.linkage.motion import (
    force_ratio,
    link_of,
    most_effort,
    reach,
    train_of,
    turned_per_hand,
)

Made = Callable[..., Case]
Answers = Callable[..., dict[str, Finding]]

ARM_OUT = ('radius = "50 ± 0.5 mm"\nneutral = "90 deg"', 'radius = "90 mm"\nneutral = "90 deg"')
ARM_IN = ('radius = "50 ± 0.5 mm"\nneutral = "90 deg"', 'radius = "20 mm"\nneutral = "90 deg"')
SHIFT = ('works = "brake"', 'works = "shift"')
CRANK = """
[[linkage]]
name = "second"
works = "brake"
driven_by = "rod"
[linkage.lever]
radius = "30 mm"
neutral = "270 deg"
[linkage.arm]
pivot = ["100 mm", "0 mm", "200 mm"]
radius = "60 mm"
neutral = "270 deg"
position = [{ name = "bites", angle = "258 deg", within = "1 deg" }]
"""
BRAKE = """
[brake]
kind = "disc"
on = "axle"
inner = "38 mm"
outer = "58 mm"
pedal_force = "300 N"
linkage = "rod"
[[shaft]]
name = "axle"
at = ["0 mm", "0 mm"]
"""


def test_a_sound_linkage_is_sound_and_complete(answers: Answers) -> None:
    found = answers(samples=300)
    assert set(found) == {"rod", "travel", "force", "toggle", "ball_joint", "clash.post"}
    for finding in found.values():
        assert finding.verdict is Verdict.SOUND, (finding.id, finding.meaning)
        assert finding.meaning
        assert finding.working
        assert finding.source
        assert finding.place is not None


def test_a_parallelogram_turns_its_arm_as_its_lever(made: Made) -> None:
    case = made()
    (rod,) = case.build.linkage
    assert link_of(case, rod).needed == pytest.approx(0.4)
    assert np.degrees(reach(case, rod).hand) == pytest.approx(65.0)
    # 200 N at 50 mm against 250 mm and the 90 % that the joints leave
    assert most_effort(case, rod) == pytest.approx(200.0 * 50.0 / 250.0 / 0.9)
    assert force_ratio(case, rod) == pytest.approx(250.0 / 50.0)


@pytest.mark.parametrize(("length", "verdict"), [("391", "sound"), ("389", "marginal")])
def test_a_rod_is_held_to_its_thread_and_the_leeway(
    answers: Answers, length: str, verdict: str
) -> None:
    """8 mm of thread, and 2° of the arm at 50 mm, which is 1.7 mm."""
    found = answers(('"400 ± 1 mm"', f'"{length} mm"'))["rod"]
    assert found.verdict == verdict
    assert (found.limit is None) is False


def test_a_rod_too_short_gives_its_length_or_a_hole(answers: Answers) -> None:
    found = answers(('"400 ± 1 mm"', '"380 mm"'))["rod"]
    assert "12 mm too short" in found.meaning
    assert "Make the rod 400 mm" in found.remedy
    # rod and arm are square in neutral, so no hole in either shortens the way
    assert "drill" not in found.remedy


def test_the_hole_that_it_names_suits_the_rod(answers: Answers, made: Made) -> None:
    low = ('["400 mm", "0 mm", "200 mm"]', '["400 mm", "0 mm", "120 mm"]')
    found = answers(low, ('"400 ± 1 mm"', '"403 mm"'), ('"8 mm"', '"1 mm"'))["rod"]
    hole = re.search(r"the arm's hole at ([\d.]+) mm", found.remedy)
    assert hole is not None
    drilled = ARM_IN[0], f'radius = "{hole[1]} mm"\nneutral = "90 deg"'
    case = made(low, drilled)
    # the rod can be screwed to 404 mm, and the remedy is told to a hundredth of a millimetre
    assert link_of(case, case.build.linkage[0]).needed == pytest.approx(0.404, abs=2e-5)


def test_a_rod_that_is_not_there_is_made(answers: Answers) -> None:
    found = answers(('length = "400 ± 1 mm"\n', ""))["rod"]
    assert found.verdict is Verdict.SOUND
    assert found.value == pytest.approx(0.4)
    assert "Make it this long" in found.meaning


@pytest.mark.parametrize(
    ("works", "verdict"), [("brake", "stop"), ("clutch", "stop"), ("shift", "marginal")]
)
def test_a_lever_that_ends_too_early(answers: Answers, works: str, verdict: str) -> None:
    found = answers(('works = "brake"', f'works = "{works}"'), ('"50 ± 1 deg"', '"75 ± 1 deg"'))
    assert found["travel"].verdict == verdict
    assert "8°" in found["travel"].meaning
    assert found["travel"].value == pytest.approx(np.radians(-8.0))


def test_only_the_end_that_the_lever_comes_to_is_in_its_way(answers: Answers) -> None:
    """A pedal that rests against its stop has no less travel for it."""
    resting = ('travel = ["50 ± 1 deg", "110 ± 1 deg"]', 'travel = ["50 deg", "90 ± 1 deg"]')
    more = ('within = "2 deg"', 'within = "2 deg"\n[[linkage.arm.position]]\nname = "rest"\n{}')
    at_rest = (more[0], more[1].format('angle = "90 deg"'))
    for changes in ((resting,), (resting, at_rest)):
        found = answers(*changes, samples=200)["travel"]
        assert found.verdict is Verdict.SOUND
        assert found.value == pytest.approx(np.radians(17.0))


def test_what_the_travel_asks_for_cures_it(answers: Answers) -> None:
    """Drill the hole and make the rod that the remedy names: all is well."""
    short = ('"50 ± 1 deg"', '"75 ± 1 deg"')
    remedy = answers(short)["travel"].remedy
    told = re.search(r"Drill the (arm|lever)'s hole at ([\d.]+) mm.*rod ([\d.]+) mm", remedy)
    assert told is not None, remedy
    old = {"arm": 'radius = "50 ± 0.5 mm"', "lever": 'radius = "50 mm"'}[told[1]]
    drilled = (old, f'radius = "{told[2]} mm"')
    cured = answers(short, drilled, ('"400 ± 1 mm"', f'"{told[3]} mm"'))
    assert cured["travel"].value is not None
    # the remedy is told to four figures
    assert cured["travel"].value >= -np.radians(0.05)
    assert cured["toggle"].verdict is Verdict.SOUND


def test_a_lever_that_turns_the_wrong_way(answers: Answers) -> None:
    found = answers(('angle = "65 deg"', 'angle = "125 deg"'), ('"110 ± 1 deg"', '"95 deg"'))
    assert found["travel"].verdict is Verdict.STOP
    assert "other way" in found["travel"].remedy


def test_an_arm_that_no_lever_angle_reaches(answers: Answers) -> None:
    found = answers(ARM_OUT, ('angle = "65 deg"', 'angle = "20 deg"'))
    assert found["travel"].verdict is Verdict.STOP
    assert found["travel"].shown == "out of reach"
    assert found["travel"].remedy


def test_a_brake_lever_that_jams_is_a_stop(answers: Answers) -> None:
    found = answers(ARM_IN)["toggle"]
    assert found.verdict is Verdict.STOP
    assert found.shown == "jams"
    assert "stop" in found.remedy.lower()


def test_a_brake_lever_that_goes_over_centre_is_a_stop(answers: Answers) -> None:
    over = ('travel = ["50 ± 1 deg", "110 ± 1 deg"]', 'travel = ["-30 deg", "110 deg"]')
    long_arm = ARM_OUT
    found = answers(over, long_arm)["toggle"]
    assert found.verdict is Verdict.STOP
    assert found.shown == "goes over centre"
    assert answers(over, long_arm, SHIFT)["toggle"].verdict is Verdict.MARGINAL


def test_a_dead_point_drawing_near_is_marginal(answers: Answers) -> None:
    found = answers(('travel = ["50 ± 1 deg", "110 ± 1 deg"]', 'travel = ["35 deg", "110 deg"]'))
    assert found["toggle"].verdict is Verdict.MARGINAL
    assert found["toggle"].value == pytest.approx(np.radians(35.0))
    limits = re.search(r"between ([\d.]+)° and ([\d.]+)°", found["toggle"].remedy)
    assert limits is not None
    assert float(limits[1]) >= 40.0


def test_too_much_effort_is_told_with_a_handle(answers: Answers) -> None:
    found = answers(('"200 ± 20 N"', '"900 N"'))["force"]
    assert found.verdict is Verdict.MARGINAL
    # 900 N × 50 mm / 0.9 / 100 N
    assert "Make the handle 500 mm long" in found.remedy


def test_a_rod_aside_tilts_its_joints(answers: Answers) -> None:
    aside = ('["400 mm", "0 mm", "200 mm"]', '["400 mm", "-100 mm", "200 mm"]')
    unmade = ('length = "400 ± 1 mm"\n', "")
    found = answers(aside, unmade)["ball_joint"]
    assert found.verdict is Verdict.STOP
    assert "100 mm left" in found.remedy
    assert found.value == pytest.approx(np.arctan(100.0 / 400.0), rel=1e-9)
    other = answers((aside[0], '["400 mm", "100 mm", "200 mm"]'), unmade)["ball_joint"]
    assert "100 mm right" in other.remedy


def test_an_upright_arm_is_a_rod_in_space(answers: Answers, made: Made) -> None:
    """The lever swings upright, the arm level: the hole of each is square to the rod."""
    turned = (
        'pivot = ["400 mm", "0 mm", "200 mm"]',
        'pivot = ["400 mm", "-50 mm", "250 mm"]\naxis = "upright"',
    )
    found = answers(turned)
    assert found["travel"].verdict is Verdict.SOUND
    case = made(turned)
    (rod,) = case.build.linkage
    assert link_of(case, rod).needed == pytest.approx(0.4)
    assert float(found["ball_joint"].value or 0.0) > 0.0


@pytest.mark.parametrize(
    ("aside", "verdict"), [(20.0, "sound"), (8.0, "marginal"), (-10.0, "stop")]
)
def test_a_post_beside_the_rod(answers: Answers, aside: float, verdict: str) -> None:
    """Half of the rod is 5 mm, and 5 mm of room are kept."""
    corners = '[["590 mm", "20 mm"], ["610 mm", "20 mm"], ["610 mm", "40 mm"], ["590 mm", "40 mm"]]'
    moved = corners.replace('"20 mm"', f'"{aside} mm"').replace('"40 mm"', f'"{aside + 20.0} mm"')
    found = answers((corners, moved))["clash.post"]
    assert found.verdict == verdict
    if aside > 0.0:
        assert found.value == pytest.approx((aside - 5.0) * 1e-3, abs=1e-5)
    else:
        assert found.remedy


def test_a_part_that_belongs_to_it_is_no_clash(answers: Answers) -> None:
    assert "clash.post" not in answers(('works = "brake"', 'works = "brake"\nbelongs = ["post"]'))


def test_detents_are_told_apart_or_not(answers: Answers) -> None:
    more = ('within = "2 deg"', 'within = "2 deg"\n[[linkage.arm.position]]\nname = "rest"\n{}')
    for angle, verdict in (("90 deg", Verdict.SOUND), ("67 deg", Verdict.MARGINAL)):
        found = answers(SHIFT, (more[0], more[1].format(f'angle = "{angle}"')))["positions"]
        assert found.verdict is verdict
        apart = abs(float(angle.split()[0]) - 65.0)
        assert found.value == pytest.approx(np.radians(apart) * 0.25)


def test_notches_of_a_gate_are_compared(answers: Answers) -> None:
    gate = (
        'within = "2 deg"',
        'within = "2 deg"\nnotch = "{} deg"\n'
        '[[linkage.arm.position]]\nname = "rest"\nangle = "90 deg"\nnotch = "90 deg"',
    )
    right = answers((gate[0], gate[1].format(66)))["positions"]
    wrong = answers((gate[0], gate[1].format(71)))["positions"]
    assert right.verdict is Verdict.SOUND
    assert wrong.verdict is Verdict.MARGINAL
    assert wrong.value == pytest.approx(np.radians(6.0))
    assert "on 65°" in wrong.remedy


@pytest.mark.parametrize(
    ("lacking", "names", "says"),
    [
        ('travel = ["50 ± 1 deg", "110 ± 1 deg"]\n', ("travel", "toggle"), "stop to stop"),
        ('handle = "250 mm"\n', ("force",), "knob or the pedal"),
        ('force = "200 ± 20 N"\n', ("force",), "brake"),
        ('neutral = "90 ± 0.5 deg"\n', ("rod", "travel", "toggle"), "level"),
        ('radius = "50 mm"\n', ("rod", "ball_joint", "clash.post"), "hole"),
        ('pivot = ["400 mm", "0 mm", "200 mm"]\n', ("rod", "force"), "rear axle"),
    ],
)
def test_what_is_missing_is_asked_for(
    answers: Answers, lacking: str, names: tuple[str, ...], says: str
) -> None:
    found = answers((lacking, ""))
    for name in names:
        assert found[name].verdict is Verdict.NOT_KNOWN, name
        assert says in found[name].remedy


def test_candidates_are_worked_out_as_one_at_a_time(made: Made) -> None:
    """Holes on the leading axis give what each gives alone."""
    plain = made()
    (rod,) = plain.build.linkage
    assert rod.arm.radius is not None
    holes = np.array([0.04, 0.05, 0.06])
    many = Case(plain.build, replaced={rod.arm.radius.key: holes})
    for place, hole in enumerate(holes):
        one = Case(plain.build, replaced={rod.arm.radius.key: np.array([hole])})
        for number in (most_effort, force_ratio):
            assert number(many, rod)[place] == pytest.approx(float(number(one, rod)[0]))
        assert reach(many, rod).inside[0, place] == pytest.approx(
            float(reach(one, rod).inside[0, 0])
        )


def test_ranges_bracket_the_build_as_written(answers: Answers) -> None:
    for finding in answers(samples=200).values():
        assert finding.low is not None
        assert finding.high is not None
        assert finding.low <= float(finding.value or 0.0) <= finding.high


def test_rods_in_a_row_multiply_their_leverage(made: Made) -> None:
    case = made(more=CRANK)
    first, second = case.build.linkage
    hand = reach(case, second).hand[0]
    assert np.isfinite(hand).all()
    # the first is a parallelogram, so the second lever turns with the hand
    assert turned_per_hand(case, first, hand) == pytest.approx(1.0)
    turns = turned_per_hand(case, second, hand)
    train, step = train_of(case, second), 1e-5
    slope = (follow(train, hand + step)[1] - follow(train, hand - step)[1]) / (2.0 * step)
    # second differences of so small a step
    assert turns == pytest.approx(np.abs(slope), rel=1e-6)
    assert force_ratio(case, second) == pytest.approx(0.25 / (0.06 * turns[0]))


def test_a_lever_of_a_bell_crank_stands_where_the_driving_arm_does(made: Made) -> None:
    case = made(more=CRANK)
    _, second = case.build.linkage
    link = link_of(case, second)
    assert [float(np.asarray(each).flat[0]) for each in link.lever.pivot] == [0.4, 0.0, 0.2]
    assert link.needed == pytest.approx(np.hypot(0.3, 0.03))


def test_a_driving_linkage_alone_is_not_asked_for_positions(answers: Answers) -> None:
    position = '[[linkage.arm.position]]\nname = "on"\nangle = "65 deg"\nwithin = "2 deg"\n'
    found = answers((position, ""), ('force = "200 ± 20 N"\n', ""), more=CRANK)
    assert "travel" not in found
    assert "force" not in found
    assert found["rod"].verdict is Verdict.SOUND
    assert found["linkage.second.travel"].verdict is Verdict.SOUND


def test_the_linkage_works_the_brake(made: Made) -> None:
    case = made(more=BRAKE)
    # 300 N × 5 × the 80 % that pins leave of it
    assert pad_force(case) == pytest.approx(300.0 * 5.0 * 0.8)
    levers = 'levers = [{ name = "cam", pushed = "70 mm", pushing = "10 mm" }]\n'
    with_cam = made(("[[shaft]]", f"{levers}[[shaft]]"), more=BRAKE)
    assert pad_force(with_cam) == pytest.approx(300.0 * 5.0 * 7.0 * 0.8)


def test_its_leverage_is_told_where_it_works_the_brake(answers: Answers) -> None:
    found = answers(more=BRAKE)["force"]
    assert found.title == "Pull at the arm of the rod"
    assert found.value == pytest.approx(1500.0)


def test_a_brake_whose_linkage_does_not_reach_is_not_known(made: Made) -> None:
    with pytest.raises(NotKnownError, match="linkage right first"):
        pad_force(made(("50 ± 1 deg", "75 ± 1 deg"), more=BRAKE))


def test_a_brake_rod_without_a_brake_asks_for_it(answers: Answers) -> None:
    found = answers(('force = "200 ± 20 N"\n', ""))["force"]
    assert found.verdict is Verdict.NOT_KNOWN
    assert 'linkage = "rod" under [brake]' in found.remedy


def test_a_linkage_in_inches_is_told_in_inches() -> None:
    text = """
format = 1
name = "inches"
[[linkage]]
name = "rod"
works = "clutch"
[linkage.lever]
pivot = ["32 in", "0 in", "8 1/4 in"]
radius = "2 in"
neutral = "90 deg"
travel = ["50 deg", "110 deg"]
handle = "10 1/2 in"
[linkage.arm]
pivot = ["16 in", "0 in", "8 1/4 in"]
radius = "2 in"
neutral = "90 deg"
force = "40 lbf"
position = [{ name = "released", angle = "60 deg" }]
"""
    case = Case(read_text(text, "inches.toml"))
    found = {ask.id: judge(case, "topic", ask)[0] for ask in questions(case)}
    assert found["linkage.rod.rod"].shown == "16 in"
    assert found["linkage.rod.force"].shown.endswith("lbf")
    for finding in found.values():
        told = " ".join((finding.shown, finding.meaning, finding.remedy, finding.working))
        assert not re.search(r"\d mm\b|\bnan\b|\binf\b", told), (finding.id, told)
