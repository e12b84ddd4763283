"""How near rods, levers and arms come to belts and pulleys of the same height."""

from pathlib import Path

import numpy as np
import pytest
from shapely import LineString, Point

from beltwright.build.reading import read_text
from beltwright.physics.linkage.swing import rod_end
from beltwright.review.belt.layout import belt_layout, loose_belt
from beltwright.review.case import Case
from beltwright.review.finding import Finding, Verdict
from beltwright.review.judging import judge
from beltwright.review.linkage.drive_findings import questions
from beltwright.review.linkage.drive_room import nearest_drive
from beltwright.review.linkage.motion import link_of, moved
from beltwright.views.layout.drawn_belt import pitch_line

HAULER = (Path(__file__).parents[3] / "examples" / "orchard-hauler" / "build.toml").read_text(
    encoding="utf-8"
)
HEAD = HAULER[: HAULER.index("[[linkage]]")].replace('linkage = "brake rod"\n', "")
TAIL = HAULER[HAULER.index("[steering]") :]

FLAT = """
[[linkage]]
name = "flat rod"
works = "other"
belongs = {belongs}
lever = {{ pivot = ["{x} mm", "{y} mm", "{z} mm"], axis = "upright", radius = "40 mm", neutral = "90 deg", travel = ["70 deg", "110 deg"] }}
rod = {{ diameter = "8 mm" }}
arm = {{ pivot = ["{to} mm", "{y} mm", "{z} mm"], axis = "upright", radius = "40 mm", neutral = "90 deg" }}
"""  # noqa: E501


def case(x: float, to: float, y: float, z: float, belongs: str = "[]", samples: int = 0) -> Case:
    """The hauler with one rod, which lies flat at a height."""
    text = FLAT.format(x=x, to=to, y=y, z=z, belongs=belongs)
    return Case(read_text(HEAD + text + TAIL), samples)


def found(of: Case) -> Finding:
    (ask,) = questions(of, of.build.linkage[0])
    return judge(of, "linkages", ask)[0]


# across the slack run, between the runs, beside the input pulley, beyond the engine pulley
@pytest.mark.parametrize(
    ("x", "to", "y"),
    [(300.0, 500.0, -120.0), (480.0, 620.0, 20.0), (-60.0, 40.0, 40.0), (980.0, 1090.0, 20.0)],
)
def test_at_the_belts_height_the_gap_is_what_shapely_measures(
    x: float, to: float, y: float
) -> None:
    of = case(x, to, y, 342.0)
    linkage, belt = of.build.linkage[0], of.build.belt[0]
    near = nearest_drive(of, linkage)
    assert near is not None
    layout, loose = belt_layout(of, belt), loose_belt(of, belt)
    own = layout.section
    half = 0.5 * (own.belt_above_pitch + own.belt_below_pitch)
    middle = 0.5 * (own.belt_above_pitch - own.belt_below_pitch)
    whole, link = moved(of, linkage), link_of(of, linkage)
    least = np.inf
    for step in range(len(whole.hand)):
        start = [float(np.ravel(v)[0]) for v in rod_end(link.lever, whole.lever[step])[:2]]
        end = [float(np.ravel(v)[0]) for v in rod_end(link.arm, whole.arm[step])[:2]]
        pivots = [[float(np.ravel(v)[0]) for v in s.pivot[:2]] for s in (link.lever, link.arm)]
        lines = [
            (LineString([start, end]), 0.004),
            (LineString([pivots[0], start]), 0.0125),
            (LineString([pivots[1], end]), 0.0125),
        ]
        for path in (layout.path, loose.path()):
            loop = LineString(pitch_line(path).sampled())
            for line, thick in lines:
                least = min(least, loop.distance(line) - half - thick)
        for run in (layout.path.run, loose.with_.run):
            for place, wheel in enumerate(layout.wheels):
                at = Point(float(np.ravel(run.x[place])[0]), float(np.ravel(run.y[place])[0]))
                rim = float(np.ravel(wheel.rim)[0])
                least = min(least, *(at.distance(line) - rim - thick for line, thick in lines))
    # the band's middle lies this far beside the pitch line, and arcs are sampled as chords
    assert float(near.gap[0]) == pytest.approx(least, abs=abs(middle) + 4e-4)


def test_below_every_belt_it_is_clear() -> None:
    """Belts stand 341 - 6.35 mm high at least; the lever's bar takes 12.5 mm."""
    finding = found(case(300.0, 500.0, -120.0, 250.0))
    assert finding.verdict is Verdict.SOUND
    assert finding.value is None
    assert finding.shown == "clear of them"
    over = 341.0 - 0.5 * 12.7 - 250.0 - 12.5
    assert f"{over:.1f}"[:4] in finding.meaning


def test_through_the_belt_is_a_stop() -> None:
    finding = found(case(300.0, 500.0, -80.0, 342.0))
    assert finding.verdict is Verdict.STOP
    assert "runs into" in finding.meaning
    assert finding.place is not None
    assert "pass it over or under" in finding.remedy


def test_its_tolerances_reach_the_gap() -> None:
    finding = found(case(-60.0, 40.0, 40.0, 342.0, samples=100))
    assert finding.low is not None
    assert finding.high is not None
    assert finding.value is not None
    assert finding.low < finding.value < finding.high


def test_what_belongs_to_it_is_left_out() -> None:
    beside = case(380.0, 470.0, 150.0, 342.0)
    near = nearest_drive(beside, beside.build.linkage[0])
    assert near is not None
    assert near.name == "guide idler"
    own = case(380.0, 470.0, 150.0, 342.0, '["guide idler"]')
    other = nearest_drive(own, own.build.linkage[0])
    assert other is None or other.name != "guide idler"


def test_nothing_is_asked_where_no_height_is_written() -> None:
    of = case(300.0, 500.0, -120.0, 342.0)
    text = "\n".join(line for line in HAULER.splitlines() if not line.startswith("height = "))
    bare = Case(read_text(text))
    assert list(questions(of, of.build.linkage[0]))
    assert not list(questions(bare, bare.build.linkage[0]))
