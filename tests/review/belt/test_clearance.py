"""Room round the belts of a small cart, clutch up and clutch down."""

import re

import numpy as np
import pytest
from numpy.testing import assert_allclose

from beltwright.build.reading import read_text
from beltwright.review.belt import clearance_findings
from beltwright.review.belt.clearance import (
    band_as_written,
    driving_band,
    driving_gap,
    driving_plan,
    loose_gap,
    nearest_place,
    own_gap,
)
from beltwright.review.belt.layout import belt_run
from beltwright.review.belt.near_parts import FAR, Strayed, part_stray, stray_of, surely_apart
from beltwright.review.belt.obstacles import grouped_parts, outline_of
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge
from beltwright.tables.belts import section

CART = """
format = 1
name = "Test cart"

[engine]
power = "9 kW"
at = "3300 rpm"

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
outside = "100 mm"
groove = "A"
height = "340 mm"

[[idler]]
name = "clutch idler"
outside = "80 mm"
height = "340 mm"

[idler.arm]
pivot = ["600 mm", "-150 mm"]
length = "150 mm"
released = "190 deg"
furthest = "105 deg"

[[belt]]
name = "traction belt"
section = "A"
length = "58 in"
length_is = "inside"
run = ["engine pulley", "clutch idler", "input pulley"]

[[obstacle]]
name = "lever"
outline = [["490 mm", "LOW"], ["510 mm", "LOW"], ["510 mm", "HIGH"], ["490 mm", "HIGH"]]
from_height = "300 mm"
to_height = "400 mm"
"""
BACK = 0.05 - 0.003175 + section("A").belt_above_pitch
"""How far the belt's back stands from the line of centres on its straight run [m]."""


def case_of(low: int = 70, *changes: tuple[str, str], samples: int = 0) -> Case:
    text = CART.replace("LOW", f"{low} mm").replace("HIGH", f"{low + 30} mm")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return Case(read_text(text, "build.toml"), samples)


def finding(case: Case, id_: str) -> Finding:
    asks = clearance_findings.questions(case)
    ask = next(ask for ask in asks if ask.id == f"clearance.traction belt.{id_}")
    return judge(case, "Clearance", ask)[0]


def test_the_gap_to_a_part_beside_the_straight_run() -> None:
    """By hand: the lever's low edge less the back of the belt."""
    case = case_of(70)
    gap = driving_gap(case, case.build.belt[0], case.build.obstacle[0])
    assert float(gap.taut[0]) == pytest.approx(0.07 - BACK, rel=1e-9)
    # the straight run is the tight one, which does not tremble
    assert float(gap.trembling[0]) == float(gap.taut[0])


def test_the_slack_side_trembles() -> None:
    turned = case_of(70, ('at = "3300 rpm"', 'at = "3300 rpm"\nturns = "counter-clockwise"'))
    gap = driving_gap(turned, turned.build.belt[0], turned.build.obstacle[0])
    # 1/64 of the 600 mm between the shafts, at its middle; the bound is 0.2 % on the safe side
    bow = 0.6 / 64
    assert float(gap.taut[0] - gap.trembling[0]) == pytest.approx(bow, rel=0.01)
    below = case_of(-100)
    gap = driving_gap(below, below.build.belt[0], below.build.obstacle[0])
    assert float(gap.trembling[0]) < float(gap.taut[0])


@pytest.mark.parametrize(
    ("low", "verdict"),
    [(70, Verdict.SOUND), (52, Verdict.MARGINAL), (40, Verdict.STOP), (30, Verdict.STOP)],
)
def test_a_lever_moved_into_the_belt(low: int, verdict: Verdict) -> None:
    found = finding(case_of(low), "lever")
    assert found.verdict is verdict
    if verdict is Verdict.STOP:
        assert "runs into the lever" in found.meaning
        assert "one more idler" in found.remedy
        assert "hot enough" in found.caution


def test_a_part_above_the_belt_is_out_of_its_way() -> None:
    high = case_of(40, ('from_height = "300 mm"', 'from_height = "360 mm"'))
    found = finding(high, "lever")
    assert found.verdict is Verdict.SOUND
    top = 0.34 + section("A").cross.top_width / 2
    assert found.value == pytest.approx(0.36 - top, rel=1e-9)


def test_a_part_of_unknown_height_is_in_the_way() -> None:
    unknown = case_of(40, ('from_height = "300 mm"\nto_height = "400 mm"\n', ""))
    found = finding(unknown, "lever")
    assert found.verdict is Verdict.STOP
    assert "heights" in found.leaves_out


def test_belts_side_by_side_take_more_height() -> None:
    high = ('from_height = "300 mm"', 'from_height = "360 mm"')
    one, two = case_of(40, high), case_of(40, high, ("length_is", "count = 2\nlength_is"))
    assert finding(two, "lever").value is not None
    assert finding(one, "lever").value is not None
    width = section("A").cross.top_width
    assert float(finding(one, "lever").value or 0) - float(
        finding(two, "lever").value or 0
    ) == pytest.approx(0.6 * width, rel=1e-9)


def test_the_builders_own_gap_is_held_to() -> None:
    found = finding(
        case_of(70, ('from_height = "300', 'gap = "30 mm"\nfrom_height = "300')), "lever"
    )
    assert found.verdict is Verdict.MARGINAL
    assert found.limit is not None
    assert found.limit.at_least == 0.03


def test_the_nearest_place_lies_on_the_part() -> None:
    case = case_of(70)
    near = nearest_place(case, case.build.belt[0], case.build.obstacle[0])
    assert 0.49 <= float(near.part_x[0]) <= 0.51
    assert float(near.part_y[0]) == pytest.approx(0.07)
    assert finding(case, "lever").place == pytest.approx((near.part_x[0], 0.07, 0.34))


def test_the_loose_belt_can_reach_further() -> None:
    case = case_of(70)
    gap = loose_gap(case, case.build.belt[0], case.build.obstacle[0])
    assert float(gap.flapping[0]) < float(gap.at_rest[0])
    found = finding(case, "flap")
    assert found.value == pytest.approx(float(gap.flapping[0]))
    assert found.verdict is (Verdict.MARGINAL if gap.flapping[0] < 0 else Verdict.SOUND)
    far = finding(case_of(400), "flap")
    assert far.verdict is Verdict.SOUND


def test_a_belt_that_only_its_tolerances_let_strike_has_its_remedy() -> None:
    far = finding(case_of(108, ('"58 in"', '"58 ± 0.2 in"'), samples=300), "flap")
    assert far.value is not None
    assert far.value > 0.0
    assert far.verdict is Verdict.MARGINAL
    assert "tolerances may let it strike" in far.meaning
    assert "guide pin" in far.remedy


def test_a_room_that_may_be_too_small_is_told_by_how_much() -> None:
    near = finding(case_of(70, ('"58 in"', '"58.2 ± 0.3 in"'), samples=300), "itself")
    assert near.verdict is Verdict.MARGINAL
    assert re.search(r"or set them [0-9.]+ mm further apart", near.remedy)


def test_a_belt_without_an_arm_never_flaps() -> None:
    still = case_of(70, ('"clutch idler", ', ""))
    ids = [ask.id for ask in clearance_findings.questions(still)]
    assert ids == [f"clearance.traction belt.{about}" for about in ("lever", "itself", "wheels")]


def test_the_belt_keeps_off_the_pulleys_that_it_passes() -> None:
    case = case_of(70)
    gaps = own_gap(case, case.build.belt[0])
    assert [(gap.first, gap.second) for gap in gaps] == [(0, 2), (1, 0), (2, 1)]
    assert finding(case, "itself").verdict is Verdict.SOUND
    # a longer belt lets the idler come further across the loop
    near = case_of(70, ('"58 in"', '"58.2 in"'))
    assert (finding(near, "itself").value or 0.0) < (finding(case, "itself").value or 0.0)


def test_an_overlap_is_told_as_one_and_not_below_nought() -> None:
    """An idler that comes far across the loop runs into the other strand."""
    deep = case_of(70, ('"58 in"', '"58.5 in"'))
    told = finding(deep, "itself")
    assert told.value is not None
    assert told.value < 0.0
    assert told.shown.startswith("overlap of")
    assert "runs into" in told.meaning or "overlap by" in told.meaning
    assert "-" not in told.meaning


def test_a_cross_shaft_sees_a_part_from_the_side() -> None:
    across = [
        (f'at = ["{x} mm", "0 mm"]', f'at = ["{x} mm", "0 mm"]\naxis = "cross"') for x in (800, 200)
    ]
    case = case_of(70, *across)
    layout = belt_run(case, case.build.belt[0])
    assert layout.plane == "cross"
    outline = outline_of(case, layout.plane, case.build.obstacle[0])
    assert_allclose(outline.y[:, 0], [0.3, 0.3, 0.4, 0.4])
    assert_allclose(outline.x[:, 0], [0.49, 0.51, 0.51, 0.49])


def test_candidates_are_the_same_as_one_at_a_time() -> None:
    build = case_of(70).build
    pulley = build.pulley[1].outside
    assert pulley is not None
    sizes = np.array([0.1, 0.103, 0.106])
    together = Case(build, replaced={pulley.key: sizes})
    gaps = driving_gap(together, build.belt[0], build.obstacle[0])
    loose = loose_gap(together, build.belt[0], build.obstacle[0])
    for place, size in enumerate(sizes):
        alone = Case(build, replaced={pulley.key: np.array([size])})
        one = driving_gap(alone, build.belt[0], build.obstacle[0])
        assert_allclose(gaps.trembling[place], one.trembling[0], rtol=1e-9)
        rest = loose_gap(alone, build.belt[0], build.obstacle[0])
        assert_allclose(loose.flapping[place], rest.flapping[0], rtol=1e-9)


def test_tolerances_widen_the_gap_both_ways() -> None:
    found = finding(
        case_of(70, ('["800 mm", "0 mm"]', '["800 mm", "0 ± 3 mm"]'), samples=300), "lever"
    )
    assert found.low is not None
    assert found.value is not None
    assert found.high is not None
    assert found.low < found.value < found.high


def test_parts_side_by_side_are_the_same_as_alone() -> None:
    """Parts of three, four and four corners, one of them with tolerances."""
    more = """
[[obstacle]]
name = "post"
outline = [["300 mm", "80 ± 2 mm"], ["330 mm", "80 mm"], ["315 mm", "120 mm"]]

[[obstacle]]
name = "rail"
outline = [["0.1 m", "-190 mm"], ["0.9 m", "-190 mm"], ["0.9 m", "-170 mm"], ["0.1 m", "-170 mm"]]
to_height = "330 mm"
"""
    text = CART.replace("LOW", "70 mm").replace("HIGH", "100 mm") + more
    together = Case(read_text(text, "build.toml"), 50)
    belt = together.build.belt[0]
    flaps = []
    for part in together.build.obstacle:
        alone = Case(together.build.model_copy(update={"obstacle": (part,)}), 50)
        driving = [driving_gap(case, belt, part) for case in (together, alone)]
        loose = [loose_gap(case, belt, part) for case in (together, alone)]
        for of_all, one in (
            (driving[0].taut, driving[1].taut),
            (driving[0].trembling, driving[1].trembling),
            (loose[0].at_rest, loose[1].at_rest),
        ):
            assert_allclose(of_all * np.ones(51), one * np.ones(51), rtol=1e-12)
        flaps.append([gap.flapping * np.ones(51) for gap in loose])
        near, near_alone = (nearest_place(case, belt, part) for case in (together, alone))
        assert float(near.gap[0]) == pytest.approx(float(near_alone.gap[0]), rel=1e-12)
        assert float(near.part_x[0]) == pytest.approx(float(near_alone.part_x[0]), rel=1e-12)
    # only what may be struck first is worked out in every sample
    of_all, alone_each = np.min(np.array(flaps), axis=0)
    assert_allclose(of_all, alone_each, rtol=1e-12)


def test_a_part_that_stays_far_off_is_told_as_written() -> None:
    """No sample is needed for what no tolerance brings near; the bound is that of every sample."""
    more = """
[[obstacle]]
name = "seat post"
outline = [["0.4 m", "420 ± 2 mm"], ["0.45 m", "420 mm"], ["0.42 m", "460 mm"]]
"""
    text = _measured(more)
    case = Case(read_text(text, "build.toml"), 200)
    belt, far = case.build.belt[0], case.build.obstacle[-1]
    layout = belt_run(case, belt)
    outline = outline_of(case, layout.plane, far)
    gaps = driving_plan(layout, driving_band(case, belt), outline).trembling
    assert gaps.size == 201
    told = driving_gap(case, belt, far).trembling
    assert told.shape == (1,)
    assert told[0] == pytest.approx(gaps[0], rel=1e-12)
    assert gaps.min() > FAR
    found = next(ask for ask in clearance_findings.questions(case) if ask.id.endswith("seat post"))
    judged, _ = judge(case, "Clearance", found)
    assert judged.verdict is Verdict.SOUND
    assert "no tolerance brings it nearer than 30 mm" in judged.leaves_out


@pytest.mark.parametrize("y", [120, 160, 220, 320])
def test_no_sample_comes_nearer_than_the_bound(y: int) -> None:
    more = f"""
[[obstacle]]
name = "post"
outline = [["300 mm", "{y} ± 2 mm"], ["330 mm", "{y} mm"], ["315 mm", "{y + 40} ± 1 mm"]]
"""
    text = _measured(more)
    case = Case(read_text(text, "build.toml"), 300)
    belt, layout = case.build.belt[0], belt_run(case, case.build.belt[0])
    still = Case(case.build)
    group = grouped_parts(still, layout.plane)[0]
    band = driving_band(case, belt)
    strays = np.array(
        [part_stray(part) for part in case.build.obstacle if part.name in group.names]
    )
    belt_strays = Strayed(
        band_as_written(layout, layout.path), (-1.0, 1.0), (-1.0, 1.0), stray_of(band.middle), 0.0
    )
    bound = surely_apart(belt_strays, group, strays, 0.0)
    for name, low in zip(group.names, bound, strict=True):
        part = next(each for each in case.build.obstacle if each.name == name)
        gaps = driving_plan(layout, band, outline_of(case, layout.plane, part)).taut
        assert low <= gaps.min()


def _measured(more: str) -> str:
    """The cart with its belt measured, and more parts."""
    text = CART.replace("LOW", "70 mm").replace("HIGH", "100 mm")
    return text.replace('length = "58 in"', 'length = "58 ± 0.03 in"') + more
