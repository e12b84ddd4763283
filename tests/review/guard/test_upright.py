"""Guards on a belt that stands upright: reckoned, drawn and printed as seen from the right."""

from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from shapely import LineString, Polygon

from beltwright.build.reading import read_text
from beltwright.review.case import Case
from beltwright.review.finding import Verdict
from beltwright.review.guard.bent import bent, strip_outline
from beltwright.review.guard.gaps import guard_gap
from beltwright.review.review import review
from beltwright.sheets.guard_sheet import guard_sheets
from beltwright.views.guard_drawing import bent_scene
from beltwright.views.layout.drawn_belt import pitch_line
from beltwright.views.layout.planes import layout_views
from beltwright.views.layout.screen_layout import screen_layout

ROOT = Path(__file__).parents[3]
SWEEPER = (ROOT / "examples" / "path-sweeper" / "build.toml").read_text(encoding="utf-8")
BLOWER = (ROOT / "tests" / "blower.toml").read_text(encoding="utf-8")
GUARD = """
[[guard]]
name = "jackshaft guard"
kind = "guard"
belt = "blower belt"
round = "jackshaft pulley"
gap = "12 mm"
strip = { material = "galvanised steel", thickness = "1.5 mm", width = "40 mm" }
feet = [{ end = "first", length = "25 mm", angle = "90 deg" }]
[[guard]]
name = "idler keeper"
belt = "blower belt"
round = "blower idler"
fixed_to = "arm"
strip = { thickness = "2 mm" }
"""


@pytest.fixture(scope="module")
def case() -> Case:
    """The path sweeper with a blower whose belt stands upright."""
    return Case(read_text(SWEEPER + BLOWER + GUARD))


def test_its_gap_is_what_shapely_measures_seen_from_the_right(case: Case) -> None:
    shape = bent(case, case.build.guard[0])
    assert shape.layout.plane == "cross"
    outline = strip_outline(shape)
    strip = Polygon(np.column_stack([outline.x[:, 0], outline.y[:, 0]]))
    belt = LineString(pitch_line(shape.layout.path).sampled())
    measured = belt.distance(strip) - shape.layout.section.belt_above_pitch
    # the belt is sampled every 5 degrees, which takes 0.06 mm off its arcs
    assert guard_gap(case, shape).taut[0] == pytest.approx(measured, abs=1e-4)
    assert guard_gap(case, shape).taut[0] == pytest.approx(0.012)


def test_its_findings_stand_at_its_height(case: Case) -> None:
    found = {f.id: f for f in review(case.build, 0).findings}
    x, _, z = found["guard.jackshaft guard.gap"].place or (0.0, 0.0, 0.0)
    assert x == pytest.approx(0.3, abs=0.08)
    assert z == pytest.approx(0.42, abs=0.08)
    assert found["guard.idler keeper.gap"].verdict is Verdict.SOUND
    bare = found["belt.blower belt.guard"]
    assert bare.shown == "bare at 2 of 3 wheels"
    assert "at the jackshaft pulley" not in bare.meaning


def test_what_stands_beside_it_is_not_said_to_stand_in_its_way(case: Case) -> None:
    """Where an upright belt stands across the machine is not written."""
    found = {f.id: f for f in review(case.build, 0).findings}
    rail = found["guard.jackshaft guard.clash.left frame rail"]
    assert rail.verdict is Verdict.MARGINAL
    assert "Seen from the right" in rail.meaning
    assert "side by side" in rail.remedy
    assert "across the machine" in rail.leaves_out


def test_it_is_drawn_from_the_right_with_its_balloons_and_nowhere_else(case: Case) -> None:
    found = review(case.build, 0)
    for look in layout_views(case):
        root = ElementTree.fromstring(screen_layout(case, found, look=look).svg)
        keys = {e.get("data-key") for e in root.iter()}
        shown = {str(e.get("data-finding")) for e in root.iter()}
        from_the_right = look.name == "right"
        assert ("guard.jackshaft guard" in keys) is from_the_right
        assert any(id_.startswith("guard.jackshaft") for id_ in shown) is from_the_right


def test_its_sheet_says_from_where_it_is_seen(case: Case) -> None:
    scene = bent_scene(case, bent(case, case.build.guard[0]))
    assert scene.title.endswith("seen from the right")
    pages = guard_sheets(case, review(case.build, 0), "2031-05-04")
    assert sum("jackshaft guard" in page.title for page in pages) >= 3
