"""Every plane of belts, and every height of them, can be looked at by itself."""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from beltwright.build.reading import read_build, read_text
from beltwright.review.case import Case
from beltwright.review.finding import Verdict
from beltwright.review.review import review
from beltwright.views.layout.gathering import drawn_layout
from beltwright.views.layout.planes import layout_views
from beltwright.views.layout.screen_layout import screen_layout

EXAMPLES = Path(__file__).parents[3] / "examples"
SWEEPER = (EXAMPLES / "path-sweeper" / "build.toml").read_text(encoding="utf-8")
BLOWER = (Path(__file__).parents[2] / "blower.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def three_belts() -> Case:
    """The path sweeper with a blower: belts at two heights, and one that stands upright."""
    return Case(read_text(SWEEPER + BLOWER))


def test_every_plane_and_every_height_of_belts_is_a_view(three_belts: Case) -> None:
    views = {
        view.words: [one.belt.name for one in view.layouts] for view in layout_views(three_belts)
    }
    assert views == {
        "above, all": ["engine belt", "clutch belt"],
        "above, at 420 mm": ["engine belt"],
        "above, at 361 mm": ["clutch belt"],
        "the right": ["blower belt"],
    }
    hauler = Case(read_build(EXAMPLES / "orchard-hauler" / "build.toml"))
    assert [view.words for view in layout_views(hauler)] == ["above, at 342 mm"]


def test_a_view_shows_its_own_belts_things_and_balloons(three_belts: Case) -> None:
    found = review(three_belts.build, 0)
    wanted = {f.id for f in found.findings if f.place and f.verdict is not Verdict.SOUND}
    seen: set[str] = set()
    for view in layout_views(three_belts):
        root = ElementTree.fromstring(screen_layout(three_belts, found, look=view).svg)
        names = {e.get("data-name") for e in root.iter() if e.get("data-drag")}
        wheels = {wheel.name for layout in view.layouts for wheel in layout.wheels}
        assert wheels - names == {n for n in wheels if n.endswith(("clutch idler", "blower idler"))}
        shown = {str(e.get("data-finding")) for e in root.iter() if e.get("data-finding")}
        others = {belt.name for belt in three_belts.build.belt} - {
            layout.belt.name for layout in view.layouts
        }
        assert not [id_ for id_ in shown if id_.split(".")[1] in others]
        seen |= shown
    assert wanted <= seen


def test_from_the_side_heights_are_drawn_out_and_balloons_stand_at_them(three_belts: Case) -> None:
    found = review(three_belts.build, 0)
    (view,) = (view for view in layout_views(three_belts) if view.name == "right")
    root = ElementTree.fromstring(screen_layout(three_belts, found, look=view).svg)
    drags = {e.get("data-drag") for e in root.iter() if e.get("data-drag")}
    assert "shaft.blower.at.0 shaft.blower.at.1" in drags
    assert " obstacle.left frame rail.to_height" in drags
    take_up = next(f for f in found.findings if f.id == "belt.blower belt.take_up")
    assert take_up.place is not None
    assert take_up.place[1] == 0.0
    assert take_up.place[2] == pytest.approx(0.433, abs=0.001), "its height above the ground"


def test_a_part_of_unknown_height_does_not_stretch_the_view_from_the_side() -> None:
    text = SWEEPER + BLOWER
    for line in ('from_height = "200 mm"\n', 'to_height = "520 mm"\n'):
        assert line in text
        text = text.replace(line, "", 1)
    case = Case(read_text(text))
    (view,) = (view for view in layout_views(case) if view.name == "right")
    part = drawn_layout(case, view.plane, view.layouts).parts[0]
    assert not part.handles
    heights = [y for _, y in part.corners]
    assert (min(heights), max(heights)) == pytest.approx((0.31, 0.655), abs=0.01)
