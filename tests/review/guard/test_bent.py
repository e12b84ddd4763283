"""Guards and keepers on the example: what turns a verdict, and what is told where it lacks."""

from pathlib import Path

import numpy as np
import pytest
from shapely import LineString, Point, Polygon

from beltwright.build.errors import BuildError
from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.physics.sheet_metal.bend import bend_allowance
from beltwright.physics.sheet_metal.strip import other_face
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.guard.bent import bent, strip_outline, widest
from beltwright.review.guard.gaps import LEAST_GAP, guard_gap
from beltwright.review.review import review
from beltwright.views.layout.drawn_belt import drawable, pitch_line

HAULER = Path(__file__).parents[3] / "examples" / "orchard-hauler" / "build.toml"
TEXT = HAULER.read_text(encoding="utf-8")
HEAD = TEXT[: TEXT.index("[[guard]]")]
TAIL = TEXT[TEXT.index("[gearbox]") :]

KEEPER = """
[[guard]]
name = "finger"
belt = "traction belt"
round = "engine pulley"
gap = "4 mm"
ends = ["10 mm", "15 mm"]
strip = { material = "soft steel", thickness = "2 mm", width = "25 mm", length = "300 mm" }
bending = { method = "pliers", inside_radius = "2 mm", grip = "12 mm" }
feet = [{ end = "last", length = "25 mm", angle = "90 deg" }]
"""


def build(*changes: tuple[str, str]) -> Build:
    """The hauler with one keeper, some of its text changed."""
    text = KEEPER
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return read_text(f"{HEAD}{text}\n{TAIL}")


def found(*changes: tuple[str, str], samples: int = 0) -> dict[str, Finding]:
    """The findings about it by what follows its name."""
    head = "guard.finger."
    findings = review(build(*changes), samples).findings
    return {f.id.removeprefix(head): f for f in findings if f.id.startswith(head)}


def test_the_flats_touch_the_curve_and_the_corners_stand_outside() -> None:
    case = Case(build())
    shape = bent(case, case.build.guard[0])
    run, at = shape.layout.path.run, shape.place
    centre = Point(float(np.ravel(run.x[at])[0]), float(np.ravel(run.y[at])[0]))
    face = LineString(np.column_stack([shape.form.x[:, 0], shape.form.y[:, 0]])[: shape.bends + 2])
    assert centre.distance(face) == pytest.approx(float(shape.curve[0]), abs=1e-9)
    sharp = float(shape.curve[0]) / np.cos(0.5 * shape.angle)
    for x, y in zip(shape.form.x[1 : shape.bends + 1], shape.form.y[1:], strict=False):
        assert centre.distance(Point(float(x[0]), float(y[0]))) == pytest.approx(sharp)


def test_the_gap_is_what_shapely_measures_to_the_belt() -> None:
    case = Case(build())
    shape = bent(case, case.build.guard[0])
    assert drawable(shape.layout.path)
    line = LineString(pitch_line(shape.layout.path).sampled())
    outline = strip_outline(shape)
    strip = Polygon(np.column_stack([outline.x[:, 0], outline.y[:, 0]]))
    assert strip.is_valid
    measured = line.distance(strip) - shape.layout.section.belt_above_pitch
    # the belt is sampled every 5 degrees, which takes 0.06 mm off its arcs
    assert guard_gap(case, shape).taut[0] == pytest.approx(measured, abs=1e-4)
    assert guard_gap(case, shape).taut[0] == pytest.approx(0.004)


@pytest.mark.parametrize("wheel", ["engine pulley", "input pulley", "clutch idler", "guide idler"])
def test_a_strip_round_any_wheel_keeps_its_gap_on_the_outer_side(wheel: str) -> None:
    case = Case(build(("engine pulley", wheel)))
    shape = bent(case, case.build.guard[0])
    assert guard_gap(case, shape).taut[0] == pytest.approx(0.004)
    outline = strip_outline(shape)
    strip = Polygon(np.column_stack([outline.x[:, 0], outline.y[:, 0]]))
    assert strip.is_valid
    faces = (shape.form.x, shape.form.y), other_face(shape.form, shape.turn * 0.002)
    mean = np.mean([np.hypot(np.diff(x[:, 0]), np.diff(y[:, 0])).sum() for x, y in faces])
    assert strip.area == pytest.approx(0.002 * mean)


def test_the_length_is_that_of_its_neutral_line() -> None:
    case = Case(build())
    shape = bent(case, case.build.guard[0])
    bends = sum(bend_allowance(a, 0.002, 0.002, shape.metal.k) for a in np.abs(shape.angles))
    assert shape.flat.allowances.sum() == pytest.approx(bends, rel=1e-3)
    assert np.all(np.diff(shape.flat.marks[:, 0]) > 0.0)


def test_a_strip_at_hand_that_is_too_short_is_told_by_how_much() -> None:
    needed = found()["length"].value
    assert needed is not None
    short = found(('length = "300 mm"', f'length = "{1e3 * needed - 5.0:.3f} mm"'))["length"]
    assert short.verdict is Verdict.MARGINAL
    assert "lacks 5 mm" in short.meaning
    assert found()["length"].verdict is Verdict.SOUND
    cut = found((', length = "300 mm"', ""))["length"]
    assert cut.verdict is Verdict.SOUND
    assert cut.limit is None


def test_a_strip_that_rubs_in_drive_stops() -> None:
    for gap, verdict in (("0.2 mm", Verdict.STOP), ("2.2 mm", Verdict.MARGINAL)):
        told = found(('gap = "4 mm"', f'gap = "{gap}"'))["gap"]
        assert told.verdict is verdict
        assert told.remedy
    sound = found()["gap"]
    assert sound.verdict is Verdict.SOUND
    assert sound.limit is not None
    assert sound.limit.at_least == LEAST_GAP


def test_a_strip_that_goes_round_further_than_its_belt_is_told() -> None:
    told = found(('gap = "4 mm"', 'gap = "4 mm"\nover = "220 deg"'))["gap"]
    assert told.verdict is Verdict.STOP
    assert "no further than the belt" in told.remedy
    less = found(('gap = "4 mm"', 'gap = "4 mm"\nover = "150 deg"'))
    assert less["gap"].verdict is Verdict.SOUND


def test_a_strip_over_less_than_the_wrap_stands_furthest_off_at_its_end() -> None:
    """By Shapely: the end of the strip from the pulley's middle, the belt still on the pulley."""
    case = Case(build(('gap = "4 mm"', 'gap = "4 mm"\nover = "100 deg"')))
    shape = bent(case, case.build.guard[0])
    run, at = shape.layout.path.run, shape.place
    centre = Point(float(np.ravel(run.x[at])[0]), float(np.ravel(run.y[at])[0]))
    # the last corner belongs to the foot
    ends = [(float(shape.form.x[i, 0]), float(shape.form.y[i, 0])) for i in (0, shape.bends + 1)]
    furthest = max(centre.distance(Point(end)) for end in ends) - float(shape.face[0])
    assert widest(shape)[0] == pytest.approx(furthest)


def test_a_keeper_too_far_off_does_not_hold() -> None:
    assert found()["widest"].verdict is Verdict.SOUND
    far = found(('gap = "4 mm"', 'gap = "9 mm"'))["widest"]
    assert far.verdict is Verdict.MARGINAL
    assert "climb out" in far.meaning


def test_few_bends_leave_wide_corners() -> None:
    many, few = (
        float(widest(bent(case, case.build.guard[0]))[0])
        for case in (Case(build()), Case(build(("grip =", "count = 2, grip ="))))
    )
    assert many < 0.0052
    assert few > 0.02


def test_as_many_bends_as_written_but_never_fewer_than_can_be() -> None:
    case = Case(build(("grip =", "count = 1, grip =")))
    assert bent(case, case.build.guard[0]).bends == 2


def test_wide_jaws_make_fewer_bends() -> None:
    narrow, wide = (
        bent(case, case.build.guard[0])
        for case in (Case(build()), Case(build(('grip = "12 mm"', 'grip = "30 mm"'))))
    )
    assert wide.bends < narrow.bends
    told = found(('grip = "12 mm"', 'count = 14, grip = "30 mm"'))["bends"]
    assert told.verdict is Verdict.MARGINAL
    assert f"allow {wide.bends} bends" in told.remedy


def test_a_bend_too_sharp_for_its_metal_is_told() -> None:
    assert found()["radius"].verdict is Verdict.SOUND
    told = found(('material = "soft steel"', 'material = "hard aluminium"'))["radius"]
    assert told.verdict is Verdict.MARGINAL
    assert "8 mm" in told.remedy


def test_a_hole_on_a_bend_is_told_and_a_longer_strip_is_begun_further_in() -> None:
    case = Case(build())
    mark = 1e3 * float(bent(case, case.build.guard[0]).flat.marks[3, 0])
    hole = f'holes = [{{ from_end = "{mark:.3f} mm", diameter = "6 mm" }}]'
    length = 1e3 * float(bent(case, case.build.guard[0]).flat.length[0])
    tight = found((', length = "300 mm"', f', length = "{length:.2f} mm", {hole}'))["holes"]
    assert tight.verdict is Verdict.MARGINAL
    assert "falls on a hole" in tight.meaning
    loose = found((', length = "300 mm"', f', length = "300 mm", {hole}'))["holes"]
    assert loose.verdict is Verdict.SOUND
    assert "in from its first end" in loose.meaning


def test_a_keeper_of_a_swinging_idler_belongs_on_its_arm() -> None:
    fixed = found(("engine pulley", "clutch idler"))
    assert fixed["clash.clutch idler"].verdict is Verdict.STOP
    assert "arm" in fixed["clash.clutch idler"].remedy
    swung = found(('round = "engine pulley"', 'round = "clutch idler"\nfixed_to = "arm"'))
    assert swung["clash.clutch idler"].verdict is not Verdict.STOP


def test_a_part_beside_a_long_end_is_told() -> None:
    long = ('["10 mm"', '["400 mm"')
    assert "clash.shift lever" not in found()
    case = Case(build(long))
    outline = strip_outline(bent(case, case.build.guard[0]))
    strip = Polygon(np.column_stack([outline.x[:, 0], outline.y[:, 0]]))
    lever = next(part for part in case.build.obstacle if part.name == "shift lever")
    corners = [(x.value, y.value) for x, y in lever.outline]
    told = found(long)["clash.shift lever"]
    assert told.value == pytest.approx(strip.distance(Polygon(corners)))


def test_a_guard_keeps_clear_of_the_flapping_belt() -> None:
    keeper = found()
    guard = found(('name = "finger"', 'name = "finger"\nkind = "guard"'))
    assert "widest" not in guard
    assert guard["gap"].verdict is Verdict.MARGINAL
    assert keeper["gap"].verdict is Verdict.SOUND


def test_what_is_missing_is_told_once() -> None:
    told = found(('thickness = "2 mm", ', ""))
    assert list(told) == ["gap"]
    assert told["gap"].verdict is Verdict.NOT_KNOWN
    assert "caliper" in told["gap"].remedy


def test_ranges_hold_the_build_as_written() -> None:
    for finding in found(('gap = "4 mm"', 'gap = "4 ± 0.5 mm"'), samples=200).values():
        if finding.value is not None and finding.low is not None and finding.high is not None:
            assert finding.low <= finding.value <= finding.high
    ranged = found(('gap = "4 mm"', 'gap = "4 ± 0.5 mm"'), samples=200)["gap"]
    assert ranged.low is not None
    assert ranged.high is not None
    # nine tenths of an even spread of 1 mm, and a little from the pulley
    assert 0.00085 < ranged.high - ranged.low < 0.00125


def test_belts_that_let_go_want_keepers_and_every_belt_a_guard() -> None:
    findings = {f.id: f for f in review(build(), 0).findings}
    kept = findings["belt.traction belt.keepers"]
    assert kept.verdict is Verdict.MARGINAL
    assert "engine pulley" not in kept.remedy
    assert "guide idler" in kept.remedy
    assert findings["belt.traction belt.guard"].verdict is Verdict.STOP
    bare = {f.id: f for f in review(read_text(HEAD + TAIL), 0).findings}
    assert not any(name.startswith("guard.") for name in bare)
    assert "engine pulley" in bare["belt.traction belt.keepers"].remedy
    assert bare["belt.traction belt.guard"].verdict is Verdict.STOP
    assert "see “Keepers of the traction belt”" in bare["belt.traction belt.slack"].meaning


def test_keepers_round_all_wheels_hold_the_belt() -> None:
    wheels = ("engine pulley", "clutch idler", "input pulley", "guide idler")
    text = "".join(
        KEEPER.replace("engine pulley", wheel).replace('"finger"', f'"finger {at}"')
        for at, wheel in enumerate(wheels)
    )
    findings = {f.id: f for f in review(read_text(f"{HEAD}{text}\n{TAIL}"), 0).findings}
    assert findings["belt.traction belt.keepers"].verdict is Verdict.SOUND
    assert "the keepers hold it" in findings["belt.traction belt.slack"].meaning


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('belt = "traction belt"', 'belt = "other belt"', "no belt of this name"),
        ('round = "engine pulley"', 'round = "wheel"', "no pulley or idler"),
        ('gap = "4 mm"', 'fixed_to = "arm"', "has no arm"),
        ('angle = "90 deg"', 'angle = "170 deg"', "0 to 150 deg"),
        ('gap = "4 mm"', 'over = "400 deg"', "less than a full turn"),
        ('material = "soft steel"', 'material = "wood"', "soft steel"),
        (
            "feet = [",
            'feet = [{ end = "last", length = "1 in", angle = "45 deg" }, ',
            "foot at this end already",
        ),
    ],
)
def test_what_cannot_be_is_refused_where_it_stands(old: str, new: str, told: str) -> None:
    with pytest.raises(BuildError, match=told):
        build((old, new))
