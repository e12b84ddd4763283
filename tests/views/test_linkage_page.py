"""The drawing of a linkage: its views, its travel, and drawings of what is half known or wrong."""

import re
from math import hypot
from pathlib import Path
from xml.etree import ElementTree

import pytest

from beltwright.build.model import Build
from beltwright.build.reading import read_build, read_text
from beltwright.drawing.extent import bounds
from beltwright.drawing.sheet import A4, drawing_frame
from beltwright.review.case import Case, NotKnownError
from beltwright.review.linkage.motion import link_of
from beltwright.review.review import review
from beltwright.views.linkage_drawing import linkage_views
from beltwright.views.linkage_page import linkage_pages, linkage_svg

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"


@pytest.fixture(scope="module")
def build() -> Build:
    return read_build(EXAMPLE)


def changed(*changes: tuple[str, str]) -> Build:
    text = EXAMPLE.read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return read_text(text)


def test_a_view_for_each_way_that_a_pivot_lies(build: Build) -> None:
    case = Case(build)
    seen = {each.name: [view.axis for view in linkage_views(case, each)] for each in build.linkage}
    assert seen == {"brake rod": ["cross"], "shift rod": ["cross", "upright"]}


def test_a_rod_in_one_plane_is_seen_in_its_length(build: Build) -> None:
    case = Case(build)
    brake = build.linkage[0]
    (view,) = linkage_views(case, brake)
    length = float(link_of(case, brake).length[0])
    for stands in (view.neutral, *view.ends, *view.travel):
        (x0, y0), (x1, y1) = stands
        assert hypot(x1 - x0, y1 - y0) == pytest.approx(length)


def test_both_ends_of_the_travel_are_drawn(build: Build) -> None:
    case = Case(build)
    for linkage in build.linkage:
        for view in linkage_views(case, linkage):
            assert len(view.ends) == 2
            assert view.ends == (view.travel[0], view.travel[-1])
            assert [name for name, _ in view.places] == [p.name for p in linkage.arm.position]


def test_the_sheet_keeps_inside_its_border(build: Build) -> None:
    found = review(build, 0)
    for linkage in build.linkage:
        for page in linkage_pages(Case(build), linkage, found, "2031-05-04"):
            box = bounds(page.ink[1:-1])
            turned = page.width > page.height
            frame = drawing_frame(A4.turned() if turned else A4)
            assert box[0][0] >= frame.x
            assert box[1][0] <= frame.x + frame.width
            assert box[1][1] <= frame.y + frame.height


def test_the_picture_is_well_formed_and_says_what_it_shows(build: Build) -> None:
    for linkage in build.linkage:
        root = ElementTree.fromstring(linkage_svg(Case(build), linkage))
        words = " ".join(text for element in root.iter() if (text := element.text))
        assert linkage.name in words
        assert "eye to eye" in words
        assert not re.search(r"\bnan\b|\binf\b", words)


def test_a_rod_that_jams_is_drawn_as_far_as_it_goes() -> None:
    wrong = changed(('radius = "55 ± 0.5 mm"', 'radius = "20 mm"'))
    case = Case(wrong)
    (view, *_) = linkage_views(case, wrong.linkage[1])
    assert len(view.ends) < 2
    assert 0 < len(view.travel) < 33
    ElementTree.fromstring(linkage_svg(case, wrong.linkage[1]))


def test_without_its_travel_only_neutral_is_drawn() -> None:
    bare = changed(('travel = ["112 ± 1 deg", "66 ± 1 deg"]\n', ""))
    (view,) = linkage_views(Case(bare), bare.linkage[0])
    assert len(view.travel) == 1
    assert view.places == ()


def test_without_a_pivot_it_cannot_be_drawn() -> None:
    bare = changed(('pivot = ["75 ± 2 mm", "-240 ± 2 mm", "215 ± 2 mm"]\n', ""))
    with pytest.raises(NotKnownError, match="arm pivot of the brake rod"):
        linkage_svg(Case(bare), bare.linkage[0])
