"""What the review says about the throttle: verdicts that turn, springs broken, missing values."""

import numpy as np
import pytest

from beltwright.build.errors import BuildError
from beltwright.build.reading import read_text
from beltwright.review.case import Case, NotKnownError
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge
from beltwright.review.review import review
from beltwright.review.throttle.findings import questions
from beltwright.review.throttle.levers import arm_lever, cable, pedal_lever
from beltwright.review.throttle.stroke import closings, foot_push, stroke, travel

HEAD = 'format = 1\nname = "test cart"\n'
PEDAL = """
[throttle.pedal]
arm = "60 ± 0.5 mm"
foot = "180 ± 5 mm"
rest = "100 ± 0.3 deg"
full = "78 ± 0.3 deg"
housing_end = ["-60 mm", "58 mm"]
friction = "2 ± 0.5 N"
stop = "screw"
"""
CABLE = """
[throttle.cable]
slack = "2.7 ± 0.3 mm"
bends = "240 deg"
length = "1450 mm"
wire = "1.5 mm"
housing_bore = "2 mm"
friction = "0.15 ± 0.02"
"""
ARM = """
[throttle.arm]
works = "speed lever"
radius = "25 ± 0.2 mm"
closed = "60 ± 0.5 deg"
open = "105 ± 0.5 deg"
housing_end = ["-55 mm", "32 mm"]
friction = "2 ± 0.5 N"
"""
FIRST = """
[[throttle.spring]]
name = "first"
at = "arm"
rate = "0.6 ± 0.05 N/mm"
free = "45 mm"
initial = "3 N"
longest = "110 mm"
lever_hook = ["18 mm", "0 mm"]
fixed_hook = ["70 mm", "-5 mm"]
"""
SECOND = """
[[throttle.spring]]
name = "second"
at = "arm"
rate = "0.6 ± 0.05 N/mm"
free = "45 mm"
initial = "3 N"
lever_hook = ["25 mm", "-4 mm"]
fixed_hook = ["66 mm", "-22 mm"]
"""
LIFT = """
[[throttle.spring]]
name = "lift"
at = "pedal"
rate = "0.9 N/mm"
free = "80 mm"
initial = "5 N"
lever_hook = ["35 mm", "0 mm"]
fixed_hook = ["-100 mm", "25 mm"]
"""
WHOLE = (PEDAL, CABLE, ARM, FIRST, SECOND, LIFT)

Change = tuple[str, str]
Answers = dict[str, Finding]


def case_of(*changes: Change, parts: tuple[str, ...] = WHOLE, samples: int = 0) -> Case:
    """A cart that is nothing but a throttle."""
    text = HEAD + "[throttle]\n" + "".join(parts)
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the text"
        text = text.replace(old, new)
    return Case(read_text(text, "cart.toml"), samples)


def answers(*changes: Change, parts: tuple[str, ...] = WHOLE, samples: int = 0) -> Answers:
    case = case_of(*changes, parts=parts, samples=samples)
    return {ask.id: judge(case, "Throttle", ask)[0] for ask in questions(case)}


def test_a_good_throttle_is_sound() -> None:
    found = answers(samples=300)
    assert {f.id for f in found.values() if f.verdict is not Verdict.SOUND} == set()


def test_every_finding_shows_its_working_source_and_meaning() -> None:
    for finding in answers().values():
        assert finding.working
        assert finding.source
        assert finding.meaning


def test_what_can_hurt_carries_its_caution() -> None:
    found = answers()
    calm = {"throttle.slack", "throttle.hooks"}
    assert {id_ for id_, finding in found.items() if not finding.caution} == calm


def test_no_throttle_no_questions() -> None:
    found = review(read_text(HEAD, "cart.toml"), 0)
    assert not any(finding.id.startswith("throttle.") for finding in found.findings)


def test_ranges_hold_the_nominal_value() -> None:
    for finding in answers(samples=300).values():
        if finding.value is not None:
            assert finding.low is not None
            assert finding.high is not None
            assert finding.low <= finding.value <= finding.high


def test_a_single_spring_at_the_arm_stops_the_build() -> None:
    found = answers(parts=(PEDAL, CABLE, ARM, FIRST, LIFT))["throttle.return"]
    assert found.verdict is Verdict.STOP
    assert "second, independent spring" in found.remedy
    assert "never closes the arm" in found.meaning
    assert "from memory" in found.source


def test_a_single_spring_is_told_before_anything_else_is_measured() -> None:
    found = answers(parts=(FIRST,))["throttle.return"]
    assert found.verdict is Verdict.STOP


def test_springs_at_the_pedal_alone_never_close_the_arm() -> None:
    found = answers(parts=(PEDAL, CABLE, ARM, LIFT))["throttle.return"]
    assert found.verdict is Verdict.STOP
    assert "two independent springs at the arm" in found.remedy


def test_a_governor_spring_is_no_return_spring() -> None:
    found = answers(
        ('name = "second"\nat = "arm"', 'name = "second"\nat = "arm"\nworks = "governor"')
    )
    assert found["throttle.return"].verdict is Verdict.STOP
    assert found["throttle.force"].value == pytest.approx(answers()["throttle.force"].value)
    assert "throttle.spring.second" not in found


def test_springs_too_weak_for_the_friction_stop_the_build() -> None:
    rust = ('friction = "0.15 ± 0.02"', 'friction = "0.6"')
    heavy = ('friction = "2 ± 0.5 N"\nstop', 'friction = "6 N"\nstop')
    found = answers(rust, heavy)["throttle.return"]
    assert found.verdict is Verdict.STOP
    assert "Without the lift" in found.meaning
    assert "times as strong" in found.remedy


def test_a_little_reserve_is_marginal() -> None:
    found = answers(('friction = "0.15 ± 0.02"', 'friction = "0.25"'))["throttle.return"]
    assert found.verdict is Verdict.MARGINAL


def test_the_smallest_return_torque_is_the_smallest() -> None:
    """Over every place of the stroke and every broken spring, by looking at each."""
    case = case_of()
    finding = answers()["throttle.return"]
    left = [
        float(s - 2.0 * r)
        for one in closings(case)[1:]
        for s, r in zip(*(each[0] for each in np.broadcast_arrays(*one[1:])), strict=True)
    ]
    assert finding.value is not None
    assert finding.limit is not None
    assert finding.limit.at_least is not None
    assert finding.value - 2.0 * finding.limit.at_least == pytest.approx(min(left), rel=1e-12)


def test_a_pedal_whose_spring_is_gone_hangs_on_the_arm() -> None:
    case = case_of()
    drag = {one.broken: float(one.resists.flat[0]) for one in closings(case)}
    own = float(arm_lever(case).friction[0])
    assert drag[""] == drag["first"] == drag["second"] == pytest.approx(own)
    pull = (
        float(pedal_lever(case).friction[0])
        / float(stroke(case).pedal_wire[0, 0])
        / float(cable(case).efficiency[0])
    )
    assert drag["lift"] == pytest.approx(own + pull * float(stroke(case).arm_wire[0, 0]))


def test_a_spring_that_goes_over_centre_stops_the_build() -> None:
    over = ('fixed_hook = ["70 mm", "-5 mm"]', 'fixed_hook = ["-40 mm", "-60 mm"]')
    found = answers(over)["throttle.spring.first"]
    assert found.verdict is Verdict.STOP
    assert "over the pivot" in found.meaning


def test_an_overdrawn_spring_stops_the_build() -> None:
    found = answers(('longest = "110 mm"', 'longest = "70 mm"'))["throttle.spring.first"]
    assert found.verdict is Verdict.STOP
    assert "stays stretched" in found.meaning


def test_a_loose_spring_is_told() -> None:
    loose = FIRST.replace('free = "45 mm"', 'free = "75 mm"')
    found = answers(parts=(PEDAL, CABLE, ARM, loose, SECOND, LIFT))["throttle.spring.first"]
    assert found.verdict is Verdict.STOP
    assert "hangs loose" in found.meaning


def test_hooks_that_share_a_hole_are_told() -> None:
    shared = ('lever_hook = ["25 mm", "-4 mm"]', 'lever_hook = ["18 mm", "1 mm"]')
    found = answers(shared)["throttle.hooks"]
    assert found.verdict is Verdict.MARGINAL
    assert "first and second on the lever" in found.meaning


def test_too_long_a_pedal_arm_strains_the_wire_and_the_matching_hole_cures_it() -> None:
    strains = answers(('arm = "60 ± 0.5 mm"', 'arm = "80 mm"'))["throttle.travel"]
    assert strains.verdict is Verdict.STOP
    assert "set the pedal's stop" in strains.remedy.lower()
    case = case_of(('arm = "60 ± 0.5 mm"', 'arm = "80 mm"'))
    radius = strains.remedy.split("hook the wire ")[1].split(" mm")[0]
    cured = answers(
        ('arm = "60 ± 0.5 mm"', 'arm = "80 mm"'),
        ('radius = "25 ± 0.2 mm"', f'radius = "{radius} mm"'),
    )["throttle.travel"]
    assert travel(case).brought[0] > travel(case).needed[0]
    assert cured.verdict is Verdict.SOUND
    # a hole farther out needs less pull, which leaves a little less stretch
    assert cured.value == pytest.approx(1.0, abs=0.02)


def test_too_short_a_pedal_arm_is_marginal_and_opens_so_much() -> None:
    case = case_of(('arm = "60 ± 0.5 mm"', 'arm = "40 mm"'))
    short = answers(('arm = "60 ± 0.5 mm"', 'arm = "40 mm"'))["throttle.travel"]
    assert short.verdict is Verdict.MARGINAL
    assert "are missing" in short.meaning
    assert float(np.degrees(travel(case).reached[0])) < 105.0
    assert float(stroke(case).arm[0, -1]) == pytest.approx(float(travel(case).reached[0]))


def test_full_pedal_is_the_end_of_the_stroke() -> None:
    """Where the pedal falls short, the stroke ends with the pedal at its stop."""
    case = case_of(('arm = "60 ± 0.5 mm"', 'arm = "45 mm"'))
    assert float(np.degrees(stroke(case).pedal[0, -1])) == pytest.approx(78.0, abs=1e-3)


@pytest.mark.parametrize(
    ("change", "name"),
    [
        (('housing_end = ["-55 mm", "32 mm"]', 'housing_end = ["55 mm", "-32 mm"]'), "arm"),
        (('housing_end = ["-60 mm", "58 mm"]', 'housing_end = ["60 mm", "58 mm"]'), "pedal"),
    ],
)
def test_a_wire_that_pulls_the_wrong_way_stops_the_build(change: Change, name: str) -> None:
    found = answers(change)
    assert found["throttle.travel"].verdict is Verdict.STOP
    assert name in found["throttle.travel"].meaning
    for id_ in ("throttle.return", "throttle.force", "throttle.stretch"):
        assert found[id_].verdict is Verdict.NOT_KNOWN


def test_the_governor_arm_is_never_pulled() -> None:
    for wrong in ("governor arm", "carburettor"):
        found = answers(('works = "speed lever"', f'works = "{wrong}"'))["throttle.governor"]
        assert found.verdict is Verdict.STOP
        assert "overrides the governor" in found.meaning
        assert "local codes" in found.caution


def test_a_moved_stop_screw_is_marginal() -> None:
    moved = ('works = "speed lever"', 'works = "speed lever"\nstop_screw = "moved"')
    assert answers(moved)["throttle.governor"].verdict is Verdict.MARGINAL


def test_a_taut_wire_never_lets_it_idle() -> None:
    found = answers(('slack = "2.7 ± 0.3 mm"', 'slack = "0 mm"'))["throttle.closes"]
    assert found.verdict is Verdict.STOP
    found = answers(('slack = "2.7 ± 0.3 mm"', 'slack = "0.5 mm"'))["throttle.closes"]
    assert found.verdict is Verdict.MARGINAL


def test_much_slack_eats_the_travel() -> None:
    found = answers(('slack = "2.7 ± 0.3 mm"', 'slack = "8 mm"'))
    assert found["throttle.slack"].verdict is Verdict.MARGINAL
    assert found["throttle.travel"].verdict is Verdict.MARGINAL


def test_many_bends_eat_the_travel_and_make_it_heavy() -> None:
    bent = answers(('bends = "240 deg"', 'bends = "720 deg"'))
    assert bent["throttle.stretch"].verdict is Verdict.MARGINAL
    force, usual = bent["throttle.force"].value, answers()["throttle.force"].value
    assert force is not None
    assert usual is not None
    assert force > 2.0 * usual


def test_a_pedal_without_a_stop_strains_the_arm() -> None:
    found = answers(('stop = "screw"', 'stop = "none"'))["throttle.stop"]
    assert found.verdict is Verdict.STOP
    assert "hard push" in found.meaning


def test_a_hand_lever_has_its_own_limits() -> None:
    found = answers(("[throttle]\n", '[throttle]\nworked_by = "hand"\n'))["throttle.force"]
    assert found.limit is not None
    assert found.limit.at_most == 40.0


@pytest.mark.parametrize(
    ("gone", "id_", "key"),
    [
        ('slack = "2.7 ± 0.3 mm"\n', "throttle.closes", "throttle.cable.slack"),
        ('rest = "100 ± 0.3 deg"\n', "throttle.travel", "throttle.pedal.rest"),
        ('open = "105 ± 0.5 deg"\n', "throttle.travel", "throttle.arm.open"),
        ('radius = "25 ± 0.2 mm"\n', "throttle.return", "throttle.arm.radius"),
        ('foot = "180 ± 5 mm"\n', "throttle.force", "throttle.pedal.foot"),
        ('stop = "screw"\n', "throttle.stop", "throttle.pedal.stop"),
        ('works = "speed lever"\n', "throttle.governor", "throttle.arm.works"),
    ],
)
def test_what_is_missing_is_not_known_and_asked_for(gone: str, id_: str, key: str) -> None:
    found = answers((gone, ""))[id_]
    assert found.verdict is Verdict.NOT_KNOWN
    assert found.inputs == (key,)
    assert "write" in found.remedy.lower()


def test_nothing_but_the_table_is_all_not_known() -> None:
    assert {f.verdict for f in answers(parts=()).values()} == {Verdict.NOT_KNOWN}


def test_a_lever_that_does_not_swing_is_told() -> None:
    found = answers(('open = "105 ± 0.5 deg"', 'open = "60 deg"'))["throttle.travel"]
    assert found.verdict is Verdict.NOT_KNOWN
    assert "same angle" in found.meaning


def test_part_of_it_is_enough_with_stated_assumptions() -> None:
    """Angles, radii and springs alone: the rest is supposed, and said to be."""
    bare = (
        '[throttle.pedal]\narm = "60 mm"\nfoot = "180 mm"\nrest = "22 deg"\nfull = "0 deg"\n',
        '[throttle.arm]\nradius = "22 mm"\nclosed = "60 deg"\nopen = "105 deg"\n',
        FIRST,
        SECOND,
    )
    case = case_of(parts=bare, samples=200)
    assert np.isfinite(travel(case).brought).all()
    assert np.isfinite(foot_push(case)).all()
    assert "throttle.arm.free_wire" in case.assumptions
    assert "throttle.cable.bends" in case.assumptions


def test_turned_round_is_the_same() -> None:
    """Seen from the other side every angle runs backwards, and nothing else changes."""
    turned = tuple(
        part.replace('rest = "100 ', 'rest = "80 ')
        .replace('full = "78 ', 'full = "102 ')
        .replace('closed = "60 ', 'closed = "120 ')
        .replace('open = "105 ', 'open = "75 ')
        .replace('["-60 mm"', '["60 mm"')
        .replace('["-55 mm"', '["55 mm"')
        .replace('fixed_hook = ["70 mm"', 'fixed_hook = ["-70 mm"')
        .replace('fixed_hook = ["66 mm"', 'fixed_hook = ["-66 mm"')
        .replace('fixed_hook = ["-100 mm"', 'fixed_hook = ["100 mm"')
        .replace('"-4 mm"]\nfixed', '"4 mm"]\nfixed')
        for part in WHOLE
    )
    there, back = case_of(), case_of(parts=turned)
    assert foot_push(back) == pytest.approx(foot_push(there), rel=1e-12)
    for one, other in zip(closings(there), closings(back), strict=True):
        assert other.springs == pytest.approx(one.springs, rel=1e-12)


def test_samples_and_candidates_count_as_single_builds() -> None:
    base = case_of()
    radii = np.array([0.022, 0.025, 0.028])
    many = Case(base.build, replaced={"throttle.arm.radius": radii})
    for place, radius in enumerate(radii):
        one = Case(base.build, replaced={"throttle.arm.radius": np.array([radius])})
        assert foot_push(many)[place] == pytest.approx(foot_push(one)[0], rel=1e-12)
        assert travel(many).brought[place] == pytest.approx(float(travel(one).brought[0]))


def test_inches_are_shown_to_who_writes_inches() -> None:
    inch = tuple(
        part.replace('arm = "60 ± 0.5 mm"', 'arm = "2 3/8 in"')
        .replace('foot = "180 ± 5 mm"', 'foot = "7 in"')
        .replace('radius = "25 ± 0.2 mm"', 'radius = "1 in"')
        for part in WHOLE
    )
    found = answers(("[throttle]\n", '[show]\nlength = "in"\n[throttle]\n'), parts=inch)
    assert found["throttle.closes"].shown.endswith(" in")
    assert "mm" not in found["throttle.travel"].meaning + found["throttle.travel"].working


def test_two_springs_of_one_name_are_refused() -> None:
    with pytest.raises(BuildError, match="spring of the throttle has this name already"):
        case_of(parts=(FIRST, FIRST))


def test_not_known_says_how() -> None:
    with pytest.raises(NotKnownError, match="rest"):
        pedal_lever(case_of(('rest = "100 ± 0.3 deg"\n', "")))
