"""Plates of a build: what is carried moves its hole, and each finding turns with its number."""

from pathlib import Path

import numpy as np
import pytest

from beltwright.build.errors import BuildError
from beltwright.build.model import Build
from beltwright.build.plate import Plate
from beltwright.build.reading import read_text
from beltwright.review.belt.force import pulls, shaft_loads
from beltwright.review.belt.layout import belt_layout
from beltwright.review.belt.spring import arm_spring
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge
from beltwright.review.plate.findings import questions
from beltwright.review.plate.plates import drilled
from beltwright.review.plate.strain import bending, carrying
from beltwright.review.topics import TOPICS

HAULER = Path(__file__).parents[3] / "examples" / "orchard-hauler" / "build.toml"
PULLER = Path(__file__).parents[3] / "examples" / "puller" / "build.toml"
HEAD = "plate.clutch arm bracket"
PIVOT = 'pivot = ["650 ± 2 mm", "-105 ± 2 mm"]'

GUIDE = """
[[plate]]
name = "guide plate"
material = "unknown steel"
thickness = "5 mm"
rectangle = ["60 mm", "90 mm"]
at = ["400 mm", "60 mm"]
[[plate.hole]]
name = "guide"
carries = "guide idler"
diameter = "10.5 mm"
slot = ["0 mm", "{slot} mm"]
stand_off = "20 mm"
[[plate.hole]]
name = "left"
place = ["15 mm", "15 mm"]
thread = "M8"
[[plate.hole]]
name = "right"
place = ["45 mm", "15 mm"]
thread = "M8"
"""

FIXED = """
format = 1
name = "fixed idler"
[engine]
power = "7 kW"
at = "3300 rpm"
[[shaft]]
name = "engine"
at = ["900 mm", "0 mm"]
[[shaft]]
name = "second"
at = ["150 mm", "0 mm"]
[[pulley]]
name = "small"
shaft = "engine"
pitch = "100 mm"
groove = "A"
[[pulley]]
name = "large"
shaft = "second"
pitch = "200 mm"
groove = "A"
[[idler]]
name = "guide idler"
outside = "80 mm"
runs_on = "inside"
at = ["500 mm", "60 mm"]
[[belt]]
name = "belt"
section = "A"
length = "79 in"
length_is = "inside"
run = ["small", "guide idler", "large"]
tension = "200 N"
"""

INCHES = """
[[plate]]
name = "arm plate"
material = "mild steel"
thickness = "1/4 in"
rectangle = ["4 in", "5 in"]
at = ["{x} in", "{y} in"]
turned = "{turned} deg"
[[plate.hole]]
name = "pivot"
carries = "clutch idler"
thread = "3/8-16 UNC"
stand_off = "1 1/2 in"
[[plate.hole]]
name = "one"
place = ["1 in", "1 in"]
diameter = "3/8 in"
[[plate.hole]]
name = "two"
place = ["3 in", "1 in"]
diameter = "3/8 in"
"""


def hauler(*changes: tuple[str, str], added: str = "") -> Build:
    text = HAULER.read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) >= 1, old
        text = text.replace(old, new)
    return read_text(text + added)


def asked(build: Build, samples: int = 0) -> dict[str, Finding]:
    case = Case(build, samples)
    return {ask.id: judge(case, "Plates", ask)[0] for ask in questions(case)}


def plate_named(build: Build, name: str) -> Plate:
    return next(plate for plate in build.plate if plate.name == name)


def test_the_bracket_of_the_example_is_sound() -> None:
    found = asked(hauler(), samples=500)
    assert {f"{HEAD}.{what}" for what in ("edge", "webs", "bending")} <= set(found)
    assert {f.verdict for f in found.values()} == {Verdict.SOUND}


def test_a_build_without_plates_is_asked_nothing() -> None:
    bare = hauler().model_copy(update={"plate": ()})
    assert list(TOPICS["Plates and brackets"](Case(bare))) == []


def test_the_hole_goes_with_what_it_carries() -> None:
    here = drilled(Case(hauler()), hauler().plate[0])[0].cut
    moved = hauler((PIVOT, 'pivot = ["661 mm", "-112 mm"]'))
    there = drilled(Case(moved), moved.plate[0])[0].cut
    shift = (
        float(np.ravel(there.start_x - here.start_x)[0]),
        float(np.ravel(there.start_y - here.start_y)[0]),
    )
    assert shift == pytest.approx((0.011, -0.007))


def test_a_pivot_that_leaves_its_plate_stops() -> None:
    found = asked(hauler((PIVOT, 'pivot = ["650 mm", "-60 mm"]')))
    edge = found[f"{HEAD}.edge"]
    assert edge.verdict is Verdict.STOP
    assert "does not lie inside" in edge.meaning
    assert "clutch idler" in edge.remedy
    assert found[f"{HEAD}.bending"].verdict is Verdict.NOT_KNOWN


@pytest.mark.parametrize(
    ("y", "verdict"),
    # the plate ends at -80 mm; its hole is 10.5 mm wide
    [
        ("-105", Verdict.SOUND),
        ("-98", Verdict.MARGINAL),
        ("-95", Verdict.MARGINAL),
        ("-88", Verdict.STOP),
    ],
)
def test_edges_by_how_many_diameters_are_left(y: str, verdict: Verdict) -> None:
    found = asked(hauler((PIVOT, f'pivot = ["650 mm", "{y} mm"]')))
    assert found[f"{HEAD}.edge"].verdict is verdict


@pytest.mark.parametrize(
    ("x", "verdict"), [("80", Verdict.SOUND), ("41", Verdict.MARGINAL), ("27", Verdict.STOP)]
)
def test_webs_by_how_many_diameters_are_left(x: str, verdict: Verdict) -> None:
    found = asked(hauler(('place = ["80 mm", "20 mm"]', f'place = ["{x} mm", "20 mm"]')))
    assert found[f"{HEAD}.webs"].verdict is verdict


def test_a_thin_soft_bracket_far_from_the_belt_stays_bent() -> None:
    found = asked(
        hauler(
            ('thickness = "6 mm"', 'thickness = "2.5 mm"'),
            ('material = "mild steel"\nthickness', 'material = "soft aluminium"\nthickness'),
            ('"45 ± 1 mm"', '"90 mm"'),
        )
    )
    bent = found[f"{HEAD}.bending"]
    assert bent.verdict is Verdict.STOP
    assert "stay bent" in bent.meaning
    assert bent.caution


def test_the_remedy_of_bending_mends_it() -> None:
    """With the thickness that the finding asks for, the bracket is no more than watched."""
    soft = ('material = "mild steel"\nthickness', 'material = "soft aluminium"\nthickness')
    weak = asked(hauler(soft, ('thickness = "6 mm"', 'thickness = "3 mm"')))[f"{HEAD}.bending"]
    wanted = weak.remedy.removeprefix("Take sheet of ").partition(",")[0]
    mended = asked(hauler(soft, ('thickness = "6 mm"', f'thickness = "{wanted}"')))
    value = mended[f"{HEAD}.bending"].value
    assert value is not None
    assert value <= 0.505  # the thickness is shown to four digits, the stress falls a little less


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('material = "mild steel"\nthickness', "material"),
        ('thickness = "6 mm"\n', "thickness"),
        ('stand_off = "45 ± 1 mm"\n', "stand_off"),
    ],
)
def test_what_is_missing_is_asked_for(line: str, key: str) -> None:
    lacking = hauler((line, "thickness" if key == "material" else ""))
    found = asked(lacking)[f"{HEAD}.bending"]
    assert found.verdict is Verdict.NOT_KNOWN
    assert key in found.inputs[0]


def test_the_pivot_feels_belt_and_spring_together() -> None:
    """With the arm's ends and the spring's hooks worked out from the build file by hand."""
    build = hauler()
    case = Case(build)
    (belt,) = build.belt
    arm = next(each for each in build.idler if each.name == "clutch idler").arm
    assert arm is not None
    assert arm.spring is not None
    layout, place = belt_layout(case, belt), belt.run.index("clutch idler")
    before, after = layout.path.spans[place - 1], layout.path.spans[place]
    tension = float(np.ravel(pulls(case, belt).static)[0])
    pull = np.array(
        [
            tension * float(np.ravel(after.heading_x - before.heading_x)[0]),
            tension * float(np.ravel(after.heading_y - before.heading_y)[0]),
        ]
    )
    angle = float(layout.arm_angle[0])
    pivot = np.array([each.value for each in arm.pivot])
    hook = pivot + arm.spring.arm_hook[0].value * np.array([np.cos(angle), np.sin(angle)])
    way = np.array([each.value for each in arm.spring.frame_hook]) - hook
    spring = float(arm_spring(case, belt).driving.pull[0]) * way / np.hypot(*way)
    end = arm.length.value * np.array([np.cos(angle), np.sin(angle)])
    lever = hook - pivot
    # the arm stands still: both pulls turn it about its pivot by as much, either way
    assert end[0] * pull[1] - end[1] * pull[0] == pytest.approx(
        lever[1] * spring[0] - lever[0] * spring[1]
    )
    (carried,) = carrying(case, build.plate[0])
    force = float(bending(case, build.plate[0], carried).force[0])
    sizes = [float(np.hypot(*pull)), float(np.hypot(*(pull + spring)))]
    assert force in [pytest.approx(size) for size in sizes]


def test_a_slot_has_to_cover_what_the_belt_grows() -> None:
    """A slot that leads towards the belt takes up more than a short one."""
    long, short = (
        asked(hauler(added=GUIDE.format(slot=slot)))["plate.guide plate.reach"]
        for slot in ("-20", "-0.5")
    )
    assert long.value is not None
    assert short.value is not None
    assert long.value > short.value
    assert long.verdict is Verdict.SOUND


@pytest.mark.parametrize(("slot", "verdict"), [("70", Verdict.SOUND), ("2", Verdict.MARGINAL)])
def test_a_slot_that_is_all_there_is(slot: str, verdict: Verdict) -> None:
    """Without an arm nothing but the slot takes up the belt."""
    found = asked(read_text(FIXED + GUIDE.format(slot=slot)))["plate.guide plate.reach"]
    assert found.verdict is verdict
    assert ("longer" in found.remedy) == (verdict is Verdict.MARGINAL)


def test_a_slot_that_leads_away_from_the_belt_takes_up_nothing() -> None:
    found = asked(read_text(FIXED + GUIDE.format(slot="-30")))["plate.guide plate.reach"]
    assert found.value == 0.0


def test_slotted_and_tapped_plate_is_asked_everything() -> None:
    found = asked(hauler(added=GUIDE.format(slot="-15")))
    assert {f"plate.guide plate.{w}" for w in ("edge", "webs", "reach", "bending")} <= set(found)
    assert Verdict.NOT_KNOWN not in {f.verdict for f in found.values()}


def test_a_plate_that_carries_a_shaft_bears_its_belts() -> None:
    carried = GUIDE.format(slot="0").replace('"guide idler"', '"gearbox input"')
    build = hauler(added=carried.replace('at = ["400 mm", "60 mm"]', 'at = ["150 mm", "-30 mm"]'))
    case = Case(build)
    plate = plate_named(build, "guide plate")
    (hole,) = carrying(case, plate)
    load = shaft_loads(case, build.belt[0])["gearbox input"]
    assert float(bending(case, plate, hole).force[0]) == pytest.approx(float(load.size[0]))


@pytest.mark.parametrize("turned", [0, 90, -37])
def test_a_turned_plate_in_inches_says_the_same(turned: float) -> None:
    """The same plate round the same pivot, whichever way the machine sees it."""
    text = PULLER.read_text(encoding="utf-8")
    arm = next(i for i in read_text(text).idler if i.name == "clutch idler").arm
    assert arm is not None
    angle = np.radians(turned)
    local = np.array([2.0, 3.5])
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    corner = np.array([p.value / 0.0254 for p in arm.pivot]) - turn @ local
    build = read_text(text + INCHES.format(x=corner[0], y=corner[1], turned=turned))
    plate = plate_named(build, "arm plate")
    cut = drilled(Case(build), plate)[0].cut
    at = [float(np.ravel(each)[0]) / 0.0254 for each in (cut.start_x, cut.start_y)]
    assert at == pytest.approx([2.0, 3.5])
    found = asked(build)
    assert found["plate.arm plate.edge"].shown == "1 in"  # the two bolts
    assert "mm" not in found["plate.arm plate.bending"].working


def test_ranges_hold_the_build_as_written() -> None:
    for finding in asked(hauler(), samples=300).values():
        assert finding.value is not None
        assert finding.low is not None
        assert finding.high is not None
        assert finding.low <= finding.value <= finding.high


def test_candidates_agree_with_single_builds() -> None:
    key = "idler.clutch idler.arm.pivot.0"
    x = np.array([0.645, 0.650, 0.658])
    many = Case(hauler(), replaced={key: x})
    plate = hauler().plate[0]
    wide = bending(many, plate, carrying(many, plate)[0]).used
    for index, value in enumerate(x):
        one = Case(hauler(), replaced={key: np.array([value])})
        alone = bending(one, plate, carrying(one, plate)[0]).used
        # stations and the worst way of loading are chosen by the first candidate
        assert float(np.broadcast_to(wide, x.shape)[index]) == pytest.approx(float(alone[0]))


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        ('carries = "clutch idler"', 'carries = "no such"', "idler, pulley or shaft"),
        ('name = "front bolt"', 'name = "rear bolt"', "hole of this plate"),
        ('at = ["600 mm", "-200 mm"]', "", "needs its place"),
        ('diameter = "10.5 mm"\nstand_off', "stand_off", "diameter or its thread"),
        ('place = ["20 mm", "20 mm"]\n', "", "place or what it carries"),
        ('thickness = "6 mm"', 'rectangle = ["9 mm", "9 mm"]', "outline or a rectangle"),
    ],
)
def test_a_plate_that_cannot_be_is_refused(old: str, new: str, reason: str) -> None:
    with pytest.raises(BuildError, match=reason):
        hauler((old, new))
