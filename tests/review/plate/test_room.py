"""How near plates come to belts and wheels, against Shapely; what is said where it is not known."""

from pathlib import Path

import numpy as np
import pytest
from shapely import LineString, Point, Polygon

from beltwright.build.reading import read_text
from beltwright.review.belt.layout import belt_layout, loose_belt
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Limit, Verdict
from beltwright.review.judging import judge
from beltwright.review.plate.room import plane_of, plate_outline, plate_room
from beltwright.review.plate.room_findings import questions
from beltwright.views.layout.drawn_belt import pitch_line

EXAMPLES = Path(__file__).parents[3] / "examples"
HAULER = (EXAMPLES / "orchard-hauler" / "build.toml").read_text(encoding="utf-8")
SWEEPER = (EXAMPLES / "path-sweeper" / "build.toml").read_text(encoding="utf-8")
BLOWER = (Path(__file__).parents[2] / "blower.toml").read_text(encoding="utf-8")

LOOSE = """
[[plate]]
name = "battery plate"
thickness = "4 mm"
rectangle = ["80 mm", "60 mm"]
at = ["{x} mm", "{y} mm"]
turned = "20 deg"
"""


def case(x: float, y: float, more: str = "", samples: int = 0) -> Case:
    """The hauler with one more plate, which carries nothing."""
    return Case(read_text(HAULER + LOOSE.format(x=x, y=y) + more), samples)


def found(of: Case) -> Finding:
    """What is said of that plate and the belt."""
    (ask,) = questions(of, of.build.plate[-1])
    return judge(of, "plates", ask)[0]


# beside the belt, between its runs, over the clutch idler let go, far away
@pytest.mark.parametrize(
    ("x", "y"), [(250.0, 120.0), (300.0, -10.0), (620.0, 75.0), (470.0, -200.0), (900.0, 200.0)]
)
def test_the_gap_in_the_plane_is_what_shapely_measures(x: float, y: float) -> None:
    of = case(x, y)
    plate, belt = of.build.plate[-1], of.build.belt[0]
    outline = plate_outline(of, plate)
    shape = Polygon(np.column_stack([outline.x[:, 0], outline.y[:, 0]]))
    assert shape.area == pytest.approx(0.08 * 0.06)
    layout, loose = belt_layout(of, belt), loose_belt(of, belt)
    own = layout.section
    up, down = own.belt_above_pitch, own.belt_below_pitch
    wheels = [
        Point(float(np.ravel(run.x[i])[0]), float(np.ravel(run.y[i])[0])).distance(shape)
        - float(np.ravel(wheel.rim)[0])
        for run in (layout.path.run, loose.with_.run)
        for i, wheel in enumerate(layout.wheels)
    ]
    belts = []
    for path in (layout.path, loose.path()):
        loop = LineString(pitch_line(path).sampled())
        # the belt's back is outside of its loop
        inside = Polygon(loop).contains(shape)
        belts.append(loop.distance(shape) - (down if inside else up))
    room = plate_room(of, plate, belt)
    # the slack spans tremble by up to a 64th of their length, and arcs are sampled as chords
    bow = max(float(np.ravel(span.length)[0]) for span in layout.path.spans) / 64.0
    measured = min(*belts, *wheels)
    assert measured - bow - 1e-4 <= float(np.ravel(room.plan)[0]) <= measured + 1e-4


def test_a_plate_far_off_needs_no_height() -> None:
    finding = found(case(900.0, 200.0))
    assert finding.verdict is Verdict.SOUND
    assert "not known" in finding.working


def test_a_plate_under_the_belt_asks_for_its_height() -> None:
    finding = found(case(300.0, -10.0))
    assert finding.verdict is Verdict.NOT_KNOWN
    assert "height" in finding.remedy


@pytest.mark.parametrize(
    ("height", "verdict"),
    [(300.0, Verdict.SOUND), (329.0, Verdict.MARGINAL), (341.0, Verdict.STOP)],
)
def test_its_height_settles_it(height: float, verdict: Verdict) -> None:
    """The belt is 13 mm wide and stands at 341 mm at least: at 329 mm a plate of 4 mm keeps
    341 - 6.5 - 331 = 3.5 mm."""
    finding = found(case(250.0, 80.0, f'height = "{height} mm"'))
    assert finding.verdict is verdict
    if verdict is Verdict.MARGINAL:
        assert finding.value == pytest.approx(0.0035, abs=2e-4)
        assert "longer spacers" in finding.remedy
        assert "gets hot" in finding.caution
    if verdict is Verdict.STOP:
        assert "into the battery plate" in finding.meaning
        assert finding.place is not None


def test_its_wanted_gap_can_be_written() -> None:
    text = 'height = "300 mm"\ngap = "40 mm"'
    assert found(case(250.0, 80.0, text)).verdict is Verdict.MARGINAL


def test_what_it_is_held_to_is_assumed_of_the_plate_alone() -> None:
    """One assumption in words for parts and plates, each under its own line of the file."""
    of = case(250.0, 80.0, 'height = "300 mm"')
    assert found(of).limit == Limit(at_least=0.006)
    (supposed,) = (of.assumptions[key] for key in of.assumptions if key.endswith(".gap"))
    assert supposed.key == "plate.battery plate.gap"
    assert "quarter of an inch" in supposed.why


def test_the_stand_off_of_what_it_carries_tells_how_far_the_belt_passes() -> None:
    """45 mm less half of 6 mm of plate and half of a belt of 12.7 mm."""
    of = Case(read_text(HAULER))
    room = plate_room(of, of.build.plate[0], of.build.belt[0])
    assert room.over is not None
    assert float(room.over[0]) == pytest.approx(0.045 - 0.5 * (0.006 + 0.0127), abs=2e-4)
    assert found(of).verdict is Verdict.SOUND


def test_its_tolerances_reach_the_gap() -> None:
    near = found(case(250.0, 80.0, 'height = "325 ± 3 mm"', 200))
    assert near.low is not None
    assert near.high is not None
    assert near.low < near.high
    far = found(case(1600.0, 900.0, samples=200))
    assert far.low == far.high
    assert "no tolerance brings it nearer" in far.leaves_out


def test_the_sampled_gap_begins_with_the_one_as_written() -> None:
    text = 'height = "325 ± 3 mm"'
    sampled, written = found(case(250.0, 80.0, text, 50)), found(case(250.0, 80.0, text))
    assert sampled.value == pytest.approx(written.value)


def test_an_upright_plate_lies_in_the_plane_of_what_it_carries() -> None:
    carries = """
[[plate]]
name = "idler plate"
thickness = "5 mm"
rectangle = ["80 mm", "60 mm"]
at = ["480 mm", "350 mm"]
[[plate.hole]]
name = "pivot"
carries = "blower idler"
diameter = "10 mm"
stand_off = "{off} mm"
"""
    of = Case(read_text(SWEEPER + BLOWER + carries.format(off=30)))
    (plate,) = of.build.plate
    assert plane_of(of, plate) == "cross"
    (ask,) = questions(of, plate)
    assert ask.id == "plate.idler plate.room.blower belt"
    finding = judge(of, "plates", ask)[0]
    assert finding.verdict is Verdict.SOUND
    assert finding.place is not None
    assert finding.place[2] > 0.3
    unplaced = Case(read_text(SWEEPER + BLOWER + LOOSE.format(x=300, y=0)))
    assert plane_of(unplaced, unplaced.build.plate[0]) is None
    assert not list(questions(unplaced, unplaced.build.plate[0]))


def test_a_plate_without_a_place_is_not_asked_about() -> None:
    text = LOOSE.replace('at = ["{x} mm", "{y} mm"]\n', "")
    of = Case(read_text(HAULER + text))
    assert plane_of(of, of.build.plate[-1]) is None
