"""What the review says about belt pulls, loads, bends and life."""

import re

import numpy as np
import pytest

from beltwright.build.driveline import Belt
from beltwright.build.reading import read_text
from beltwright.review.belt.force import press_test, pulls, shaft_loads
from beltwright.review.belt.force_findings import questions
from beltwright.review.belt.layout import belt_layout
from beltwright.review.belt.power import allowed, life, smaller_pulley, tightest_bend
from beltwright.review.belt.spring import arm_spring
from beltwright.review.belt.task import centrifugal, task
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge

BUILD = """
format = 1
name = "bench"

[engine]
power = "6 kW"
at = "3300 rpm"
no_load = "3450 rpm"
turns = "clockwise"

[[shaft]]
name = "engine"
at = ["900 mm", "0 mm"]

[[shaft]]
name = "input"
at = ["200 mm", "0 mm"]

[[pulley]]
name = "engine pulley"
shaft = "engine"
outside = "110 ± 1 mm"
groove = "A"
height = "340 mm"

[[pulley]]
name = "input pulley"
shaft = "input"
outside = "200 ± 1 mm"
groove = "A"

[[idler]]
name = "clutch idler"
outside = "110 mm"

[idler.arm]
pivot = ["600 mm", "-140 mm"]
length = "150 mm"
released = "-170 deg"
furthest = "110 deg"

[idler.arm.spring]
rate = "3.0 ± 0.2 N/mm"
free = "90 mm"
longest = "260 mm"
arm_hook = ["120 mm", "0 mm"]
frame_hook = ["640 mm", "150 mm"]

[[belt]]
name = "drive"
section = "A"
length = "73 in"
length_is = "inside"
run = ["engine pulley", "clutch idler", "input pulley"]

[gearbox]
input = "input"
forward = [20.0, 10.0]

[wheels]
rear = "20x8.00-8"
"""

SPRING = BUILD[BUILD.index("[idler.arm.spring]") : BUILD.index("[[belt]]")]
BY_TENSION = BUILD.replace('length = "73 in"', 'length = "73 in"\ntension = "400 ± 20 N"')


def case_of(text: str = BUILD, samples: int = 0) -> tuple[Case, Belt]:
    build = read_text(text, "bench.toml")
    return Case(build, samples), build.belt[0]


def findings(text: str = BUILD, samples: int = 0) -> dict[str, Finding]:
    case, _ = case_of(text, samples)
    found = {ask.id: judge(case, "Belt force", ask)[0] for ask in questions(case)}
    return {id_.removeprefix("belt.drive."): finding for id_, finding in found.items()}


def test_every_question_of_a_belt_is_answered() -> None:
    found = findings(samples=300)
    assert list(found) == [
        "grip",
        "spring",
        "static_tension",
        "press_test",
        "rating",
        "speed",
        "bend",
        "back_bend",
        "life",
        "shaft_load.engine",
        "shaft_load.input",
    ]
    assert Verdict.NOT_KNOWN not in {finding.verdict for finding in found.values()}
    for finding in found.values():
        assert finding.working
        assert finding.source
        assert "nan" not in finding.meaning + finding.working


def test_ranges_hold_the_nominal() -> None:
    for finding in findings(samples=500).values():
        if finding.value is not None and finding.low is not None and finding.high is not None:
            # friction is taken at its cautious end, so a grip may lie at the edge of its range
            assert finding.low * 0.8 <= finding.value <= finding.high


def test_a_stronger_spring_grips_and_a_weak_one_does_not() -> None:
    weak = BUILD.replace("3.0 ± 0.2 N/mm", "0.1 N/mm")
    strong = BUILD.replace("3.0 ± 0.2 N/mm", "9 N/mm")
    assert findings(weak)["grip"].verdict is Verdict.STOP
    assert findings(weak)["static_tension"].verdict is Verdict.MARGINAL
    assert "Bring the belt pull" in findings(weak)["grip"].remedy
    assert "one more idler" in findings(weak)["grip"].remedy
    assert findings(strong)["grip"].verdict is Verdict.SOUND
    assert findings(strong)["static_tension"].verdict is Verdict.SOUND


def test_the_pull_that_is_asked_for_holds_just_that_torque() -> None:
    case, belt = case_of()
    found = pulls(case, belt)
    scale = float(found.needed[0] / found.static[0])
    grip = float(found.grip[0]) * scale
    assert grip == pytest.approx(1.25 * float(task(case, belt).torque[0]), rel=1e-9)


def test_a_spring_drawn_too_far_stops() -> None:
    found = findings(BUILD.replace('longest = "260 mm"', 'longest = "150 mm"'))["spring"]
    assert found.verdict is Verdict.STOP
    assert found.caution
    reach = re.search(r"It gets ([0-9.]+) mm long, and may get 150 mm", found.meaning)
    assert reach
    assert float(reach[1]) > 150.0


def test_a_small_want_of_pull_is_raised_by_what_can_be_felt() -> None:
    """A spring that is one part in a hundred too weak is not told to gain a newton or two."""
    case, belt = case_of()
    found = pulls(case, belt)
    need, has = float(found.needed[0]), float(found.static[0])
    rate = 3.0 * 0.99 * need / has
    told = findings(BUILD.replace("3.0 ± 0.2 N/mm", f"{rate:.5f} N/mm"))["static_tension"].remedy
    raised = re.search(r"Raise the pull by ([0-9.]+) N: take a stronger spring", told)
    assert raised
    assert float(raised[1]) == pytest.approx(0.05 * need, rel=0.1)


def test_a_spring_that_hangs_loose_stops() -> None:
    found = findings(BUILD.replace('free = "90 mm"', 'free = "350 mm"'))
    assert found["spring"].verdict is Verdict.STOP
    assert "hangs loose" in found["spring"].meaning
    assert found["grip"].verdict is Verdict.STOP


def test_neither_spring_nor_tension_is_not_known() -> None:
    found = findings(BUILD.replace(SPRING, ""))
    for id_ in ("grip", "static_tension", "press_test", "shaft_load.engine"):
        assert found[id_].verdict is Verdict.NOT_KNOWN
        assert 'tension = "180 N"' in found[id_].remedy
    assert found["rating"].verdict is not Verdict.NOT_KNOWN


def test_the_span_that_runs_into_the_driver_pulls_hardest() -> None:
    """The geometry names the tight side by travel alone; the pulls must agree with it."""
    for turns in ("clockwise", "counter-clockwise"):
        case, belt = case_of(BUILD.replace('"clockwise"', f'"{turns}"'))
        peak = [float(pull[0]) for pull in pulls(case, belt).at_peak()]
        named = [belt_layout(case, belt).strand(place) for place in range(3)]
        assert peak[named.index("tight")] > peak[named.index("slack")]


def test_a_measured_tension_takes_the_place_of_the_spring_that_still_gives_way() -> None:
    case, belt = case_of(BY_TENSION)
    slack = belt_layout(case, belt).strand(1)
    assert slack == "slack"
    for torque in (0.0, 10.0):
        assert pulls(case, belt).spans.at(torque)[1][0] == pytest.approx(
            400.0 + float(centrifugal(case, belt)[0])
        )


def test_fixed_centres_keep_the_mean_pull() -> None:
    case, belt = case_of(BY_TENSION.replace(SPRING, ""))
    layout = belt_layout(case, belt)
    lengths = [float(span.length[0]) for span in layout.path.spans]
    spans = [float(span[0]) for span in pulls(case, belt).spans.at(10.0)]
    assert np.dot(spans, lengths) / sum(lengths) == pytest.approx(400.0)


def test_the_wrong_way_round_grips_far_less() -> None:
    turned = BUILD.replace('"clockwise"', '"counter-clockwise"')
    (case, belt), (other, _) = case_of(), case_of(turned)
    assert pulls(other, belt).grip[0] < pulls(case, belt).grip[0] / 2


def test_loads_on_both_shafts_and_idler_balance() -> None:
    """The belt is in balance: what it pulls on the shafts and the idler adds up to nothing."""
    case, belt = case_of()
    loads = shaft_loads(case, belt)
    spring = arm_spring(case, belt)
    assert float(loads["engine"].x[0]) < 0 < float(loads["input"].x[0])
    across = loads["engine"].y + loads["input"].y
    along = loads["engine"].x + loads["input"].x
    assert float(np.hypot(along, across)[0]) < 2 * float(spring.pull[0])


def test_two_belts_share() -> None:
    double = BUILD.replace('section = "A"', 'section = "A"\ncount = 2')
    (one, belt), (two, belts) = case_of(), case_of(double)
    assert allowed(two, belts).power[0] == pytest.approx(2 * allowed(one, belt).power[0])
    assert press_test(two, belts).force[0] == pytest.approx(press_test(one, belt).force[0] / 2)
    single, both = life(one, belt), life(two, belts)
    assert single is not None
    assert both is not None
    assert both.passes[0] > single.passes[0]


def test_the_lower_of_the_two_ratings_counts() -> None:
    case, belt = case_of(samples=50)
    found = allowed(case, belt)
    assert found.ratings is not None
    assert np.all(found.rated <= found.ratings.industrial)
    assert np.all(found.rated <= found.ratings.textbook)
    words = findings()["rating"]
    assert "industrial" in words.working
    assert "textbook" in words.working


@pytest.mark.parametrize(("section", "doubt"), [("4L", "not confirmed"), ("AX", "from memory")])
def test_sections_with_one_rating_say_where_it_comes_from(section: str, doubt: str) -> None:
    found = findings(BUILD.replace('section = "A"', f'section = "{section}"'))
    assert doubt in found["rating"].source
    assert "No life formula" in found["life"].meaning


def test_a_belt_on_a_large_pulley_runs_too_fast() -> None:
    fast = BUILD.replace('turns = "clockwise"', 'turns = "clockwise"\nidle = "1600 rpm"').replace(
        'no_load = "3450 rpm"', 'no_load = "6000 rpm"'
    )
    assert findings(fast)["speed"].verdict is Verdict.STOP
    assert findings()["speed"].verdict is Verdict.SOUND


def test_a_small_idler_bends_the_belt_too_sharply() -> None:
    case, belt = case_of()
    bend = tightest_bend(case, belt, back=True)
    assert bend is not None
    assert bend.name == "clutch idler"
    small = BUILD.replace('outside = "110 mm"', 'outside = "60 mm"')
    assert findings()["back_bend"].verdict is Verdict.SOUND
    tight = findings(small)["back_bend"]
    assert tight.verdict is Verdict.MARGINAL
    (outside,) = re.findall(r"([\d.]+) mm outside", tight.remedy)
    wide = BUILD.replace('outside = "110 mm"', f'outside = "{outside} mm"')
    assert findings(wide)["back_bend"].verdict is Verdict.SOUND


def test_the_smaller_pulley_is_the_one_that_is_rated() -> None:
    case, belt = case_of()
    small = smaller_pulley(case, belt)
    assert belt.run[small.place] == "engine pulley"
    assert small.diameter[0] == pytest.approx(0.110 - 0.250 * 0.0254)


def test_candidates_give_what_single_builds_give() -> None:
    key = "pulley.engine pulley.outside"
    rims = np.array([0.105, 0.110, 0.113])
    build = read_text(BUILD, "bench.toml")
    many = Case(build, replaced={key: rims})
    for index, rim in enumerate(rims):
        one = Case(build, replaced={key: np.array([rim])})
        belt = build.belt[0]
        for values, alone in (
            (pulls(many, belt).grip, pulls(one, belt).grip),
            (pulls(many, belt).static, pulls(one, belt).static),
            (allowed(many, belt).power, allowed(one, belt).power),
            (shaft_loads(many, belt)["input"].size, shaft_loads(one, belt)["input"].size),
        ):
            broadcast = np.broadcast_to(values, rims.shape)
            # the arm's angle is found by steps that end within 1e-9 of it
            assert broadcast[index] == pytest.approx(float(alone[0]), rel=1e-6)


def test_candidates_that_fit_no_belt_have_no_grip_and_upset_no_others() -> None:
    key = "pulley.engine pulley.outside"
    build = read_text(BUILD, "bench.toml")
    case = Case(build, replaced={key: np.array([0.110, 0.400])})
    grip = pulls(case, build.belt[0]).grip
    assert np.isfinite(grip[0])
    assert np.isnan(grip[1])
    alone = Case(build, replaced={key: np.array([0.110])})
    assert grip[0] == pytest.approx(float(pulls(alone, build.belt[0]).grip[0]), rel=1e-6)


def test_a_belt_too_short_says_so_instead_of_numbers() -> None:
    for finding in findings(BUILD.replace('length = "73 in"', 'length = "50 in"')).values():
        assert "nan" not in finding.meaning + finding.working + finding.shown
        if finding.id.endswith((".grip", ".static_tension", ".press_test", ".rating", ".life")):
            assert finding.verdict is Verdict.NOT_KNOWN
            assert "“Run of the drive”" in finding.remedy


def test_a_spring_that_its_tolerances_may_overdraw_is_told_what_to_do() -> None:
    case, belt = case_of()
    reach = float(arm_spring(case, belt).released.length[0])
    close = BUILD.replace('longest = "260 mm"', f'longest = "{reach * 1e3 + 1:.1f} ± 5 mm"')
    found = findings(close, samples=500)["spring"]
    assert found.verdict is Verdict.MARGINAL
    assert found.remedy


def test_speed_and_press_test_do_not_rest_on_the_engines_torque() -> None:
    case = Case(read_text(BUILD, "bench.toml"))
    judged = {ask.id: judge(case, "Belt force", ask)[0] for ask in questions(case)}
    for name in ("belt.drive.speed", "belt.drive.press_test"):
        assert set(judged[name].assumed) <= {"belt.drive.length_tolerance"}, name
        assert not {"engine.power", "belt.drive.friction"} & set(judged[name].inputs), name
    assert "engine.peak_torque_at" not in judged["belt.drive.grip"].assumed
    assert "engine.torque_rise" in judged["belt.drive.grip"].assumed


def test_the_working_of_the_rating_comes_out() -> None:
    """Belts × rating × arc × length / (duty + idlers), with the figures as shown."""
    found = findings()["rating"]
    figures = re.search(
        r"; (\d) × ([\d.]+) kW × ([\d.]+) × ([\d.]+) / \(([\d.]+) \+ ([\d.]+) for idlers\)",
        found.working,
    )
    assert figures is not None
    belts, rated, arc, length, duty, idlers = (float(figure) for figure in figures.groups())
    assert found.value is not None
    assert belts * rated * arc * length / (duty + idlers) == pytest.approx(
        found.value / 1e3, rel=0.01
    )
