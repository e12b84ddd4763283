"""Belts and chains that run bare: where they draw in, how near, and what silences the finding."""

from math import atan2, degrees, hypot
from pathlib import Path

import pytest

from beltwright.build.errors import BuildError
from beltwright.build.reading import read_text
from beltwright.drawing.path import Point
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.guard.bare import ARM_REACH, bare_nips, questions
from beltwright.review.guard.bent import bent
from beltwright.review.judging import judge
from beltwright.review.topics import TOPICS

EXAMPLES = Path(__file__).parents[3] / "examples"
HAULER = (EXAMPLES / "orchard-hauler" / "build.toml").read_text(encoding="utf-8")
SWEEPER = (EXAMPLES / "path-sweeper" / "build.toml").read_text(encoding="utf-8")
BLOWER = (Path(__file__).parents[2] / "blower.toml").read_text(encoding="utf-8")
WHEELS = ("engine pulley", "clutch idler", "input pulley", "guide idler")
HIP = 'hip = ["330 mm", "0 mm", "610 mm"]'


def guard(wheel: str, over: str = '"wrap"', kind: str = "guard") -> str:
    """A guard over a wheel of the hauler's belt."""
    return f"""
[[guard]]
name = "{wheel} guard"
kind = "{kind}"
belt = "traction belt"
round = "{wheel}"
over = {over}
ends = ["15 mm", "15 mm"]
strip = {{ thickness = "2 mm" }}
"""


def case(text: str, *changes: tuple[str, str]) -> Case:
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return Case(read_text(text))


def found(of: Case) -> dict[str, Finding]:
    return {ask.id: judge(of, "Guards", ask)[0] for ask in questions(of)}


def test_a_bare_belt_beside_the_seat_is_a_stop_nearest_nip_first() -> None:
    of = case(HAULER)
    (finding,) = found(of).values()
    assert finding.id == "belt.traction belt.guard"
    assert finding.verdict is Verdict.STOP
    assert finding.shown == "bare at 4 of 4 wheels"
    nips = bare_nips(of, of.build.belt[0])
    assert {nip.wheel for nip in nips} == set(WHEELS)
    far = [nip.far for nip in nips if nip.far is not None]
    assert far == sorted(far)
    assert far[0] < ARM_REACH
    assert nips[0].wheel in finding.remedy
    assert finding.place == nips[0].at
    assert "29 CFR 1910.219" in finding.source
    assert "ISO 13857" in finding.source
    assert "from memory" in finding.source


def test_beyond_an_arms_reach_it_is_watched() -> None:
    behind = case(HAULER, (HIP, 'hip = ["-900 mm", "0 mm", "610 mm"]'))
    (finding,) = found(behind).values()
    assert finding.verdict is Verdict.MARGINAL
    nobody = case(HAULER, (f'driver = {{ mass = "82 ± 2 kg", {HIP} }}\n', ""))
    (finding,) = found(nobody).values()
    assert finding.verdict is Verdict.MARGINAL
    assert "not written" in finding.working


def test_a_belt_that_travels_the_other_way_runs_on_at_the_other_side() -> None:
    """The guide idler only just touches the belt: there the two lie 2.6 mm apart."""

    def runs_on(turns: str) -> dict[str, Point]:
        of = case(HAULER, ('turns = "clockwise"\nbore', f'turns = "{turns}"\nbore'))
        nips = bare_nips(of, of.build.belt[0])
        return {n.wheel: (n.at[0] or 0.0, n.at[1] or 0.0) for n in nips}

    one, other = runs_on("clockwise"), runs_on("counter-clockwise")
    for wheel in WHEELS:
        assert hypot(*(a - b for a, b in zip(one[wheel], other[wheel], strict=True))) > 0.002


def test_guards_take_their_nips_off_by_name() -> None:
    (finding,) = found(case(HAULER + guard("input pulley"))).values()
    assert finding.shown == "bare at 3 of 4 wheels"
    assert "input pulley guard leaves a part" in finding.meaning
    assert "at the input pulley" not in finding.meaning
    assert "guide idler" in finding.meaning
    (finding,) = found(case(HAULER + "".join(guard(wheel) for wheel in WHEELS))).values()
    assert finding.verdict is Verdict.SOUND
    assert finding.place is None


def test_keepers_and_guards_that_end_before_the_nip_cover_none() -> None:
    keeper = case(HAULER + guard("guide idler", kind="keeper"))
    assert "guide idler" in {nip.wheel for nip in bare_nips(keeper, keeper.build.belt[0])}
    short = case(HAULER + guard("input pulley", '"60 deg"'))
    assert "input pulley" in {nip.wheel for nip in bare_nips(short, short.build.belt[0])}
    unknown = case(HAULER + guard("input pulley").replace('thickness = "2 mm"', ""))
    assert "input pulley" in {nip.wheel for nip in bare_nips(unknown, unknown.build.belt[0])}


@pytest.mark.parametrize(("spare", "covered"), [(-1.0, True), (1.0, False)])
def test_a_straight_end_reaches_a_little_further_than_its_arc(spare: float, covered: bool) -> None:
    """Ends of 15 mm cover atan(15 mm / curve) of the wrap at each side: a degree more, or less."""
    text = HAULER + guard("engine pulley")
    shape = bent(whole := case(text), whole.build.guard[-1])
    ends = 2.0 * degrees(atan2(0.015, float(shape.curve[0])))
    over = degrees(shape.wrap) - ends - spare
    of = case(HAULER + guard("engine pulley", f'"{over:.6f} deg"'))
    left = {nip.wheel for nip in bare_nips(of, of.build.belt[0])}
    assert ("engine pulley" not in left) is covered


def test_what_covers_it_is_written_and_told() -> None:
    findings = found(case(SWEEPER))
    assert {id_: f.verdict for id_, f in findings.items()} == {
        "belt.engine belt.guard": Verdict.SOUND,
        "belt.clutch belt.guard": Verdict.SOUND,
        "chain.axle chain.guard": Verdict.SOUND,
    }
    assert "engine hood" in findings["belt.engine belt.guard"].meaning
    bare = found(case(SWEEPER, ('covered_by = "chain case"\n', "")))["chain.axle chain.guard"]
    assert bare.verdict is Verdict.STOP
    assert "“axle”" in bare.meaning
    with pytest.raises(BuildError, match="covered_by"):
        case(SWEEPER, ('covered_by = "chain case"', 'covered_by = ""'))


def test_upright_belts_are_as_near_as_they_are_seen_from_the_side() -> None:
    of = case(SWEEPER + BLOWER)
    nip = next(n for n in bare_nips(of, of.build.belt[2]) if n.wheel == "jackshaft pulley")
    x, y, z = nip.at
    assert y is None
    assert x is not None
    assert z is not None
    assert nip.far == pytest.approx(hypot(x - 0.26, z - 0.59))
    assert hypot(x - 0.3, z - 0.42) == pytest.approx(0.06, abs=0.005)


def test_a_belt_whose_wheels_are_not_all_described_is_asked_for_all_the_same() -> None:
    shaft = 'name = "input pulley"\nshaft = '
    of = case(HAULER, (f'{shaft}"gearbox input"', f'{shaft}"axle"'))
    (finding,) = found(of).values()
    assert finding.verdict is Verdict.MARGINAL
    assert finding.place is None


def test_it_is_asked_in_the_topic_of_guards() -> None:
    assert "belt.traction belt.guard" in {ask.id for ask in TOPICS["Guards"](case(HAULER))}
