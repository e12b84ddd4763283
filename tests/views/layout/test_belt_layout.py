"""The drawing shows the build: places, sizes, directions, findings."""

import re
from itertools import pairwise
from math import hypot
from pathlib import Path
from xml.etree import ElementTree

import pytest

from beltwright.build.driveline import Gearbox, Shaft
from beltwright.build.model import Build
from beltwright.build.reading import read_build, read_text
from beltwright.build.vehicle import Engine
from beltwright.drawing.extent import bounds
from beltwright.drawing.path import Path as Line
from beltwright.drawing.sheet import A4, LETTER, Paper
from beltwright.physics.belt.band import offset_path
from beltwright.review.belt.layout import belt_run
from beltwright.review.case import Case
from beltwright.review.finding import Verdict
from beltwright.review.review import Review, review
from beltwright.views.layout.belt_layout import belt_layout_pages
from beltwright.views.layout.drawn_layout import DrawnLayout
from beltwright.views.layout.gathering import SEEN_FROM, drawn_layouts
from beltwright.views.layout.screen_layout import screen_layout

EXAMPLES = Path(__file__).parents[3] / "examples"
SVG = "{http://www.w3.org/2000/svg}"


def build_of(name: str = "orchard-hauler", *changes: tuple[str, str]) -> Build:
    path = EXAMPLES / name / "build.toml"
    if not changes:
        return read_build(path)
    text = path.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return read_text(text)


@pytest.fixture(scope="module")
def hauler() -> Build:
    return build_of()


@pytest.fixture(scope="module")
def found(hauler: Build) -> Review:
    return review(hauler, 0)


@pytest.fixture(scope="module")
def layout(hauler: Build) -> DrawnLayout:
    (one,) = drawn_layouts(Case(hauler))
    return one


def smallest_gap(line: Line, point: tuple[float, float]) -> float:
    """Distance of a point from the sampled line."""
    return min(
        hypot(x - point[0], y - point[1])
        for (xa, ya), (xb, yb) in pairwise(line.sampled())
        for x, y in ((xa + (xb - xa) * i / 20, ya + (yb - ya) * i / 20) for i in range(21))
    )


def test_wheels_stand_where_the_build_puts_them(hauler: Build, layout: DrawnLayout) -> None:
    centres = {wheel.name: wheel.at for wheel in layout.wheels}
    box = next(shaft for shaft in hauler.shaft if shaft.name == "gearbox input")
    assert centres["input pulley"] == (box.at[0].value, box.at[1].value)
    arm = layout.arms[0]
    assert centres["clutch idler"] == pytest.approx(arm.driving)
    idler = next(idler for idler in hauler.idler if idler.arm)
    assert idler.arm is not None
    for end in (arm.driving, arm.released):
        assert end is not None
        reach = hypot(end[0] - arm.pivot[0], end[1] - arm.pivot[1])
        assert reach == pytest.approx(idler.arm.length.value)


def test_the_drawn_belt_is_as_long_as_the_belt(hauler: Build, layout: DrawnLayout) -> None:
    run = belt_run(Case(hauler), hauler.belt[0])
    drawn = layout.belts[0]
    assert drawn.driving is not None
    assert drawn.driving.length == pytest.approx(float(run.pitch_length.flat[0]), rel=1e-9)


def test_the_back_of_the_belt_touches_the_back_idlers(hauler: Build, layout: DrawnLayout) -> None:
    """The faces of the drawn band lie where the physics says, back outwards."""
    run = belt_run(Case(hauler), hauler.belt[0])
    drawn = layout.belts[0]
    assert drawn.driving is not None
    outer = offset_path(run.path, run.section.belt_above_pitch)
    back = max(drawn.driving.offset(drawn.left).length, drawn.driving.offset(-drawn.right).length)
    assert back == pytest.approx(float(outer.length.flat[0]), rel=1e-9)
    idler = next(wheel for wheel in layout.wheels if wheel.name == "guide idler")
    faces = [drawn.driving.offset(d) for d in (drawn.left, -drawn.right)]
    nearest = min(smallest_gap(face, idler.at) for face in faces)
    # chords of 5 degrees lie up to 0.1 % of the radius inside the arc
    assert nearest == pytest.approx(idler.rim, rel=1e-3)


def test_back_side_idlers_turn_against_the_pulleys(layout: DrawnLayout) -> None:
    turns = {wheel.name: wheel.turns for wheel in layout.wheels}
    assert turns["engine pulley"] == -1, "clockwise, seen from above"
    assert turns["input pulley"] == -1
    assert turns["clutch idler"] == turns["guide idler"] == 1


def test_the_tight_strand_is_pulled_towards_the_engine_pulley(layout: DrawnLayout) -> None:
    engine = next(wheel for wheel in layout.wheels if wheel.name == "engine pulley")
    strands = layout.belts[0].strands
    arriving = min(strands, key=lambda s: hypot(s.end[0] - engine.at[0], s.end[1] - engine.at[1]))
    leaving = min(
        strands, key=lambda s: hypot(s.start[0] - engine.at[0], s.start[1] - engine.at[1])
    )
    assert arriving.pull == "tight"
    assert leaving.pull == "slack"


def test_a_belt_that_cannot_run_leaves_its_wheels_on_the_drawing() -> None:
    build = build_of("orchard-hauler", ('length = "76 in"', 'length = "40 in"'))
    (layout,) = drawn_layouts(Case(build))
    assert layout.belts[0].driving is None
    assert len(layout.wheels) == 4
    pages = belt_layout_pages(Case(build), review(build, 0), "2031-05-04")
    assert len(pages) == 1


def test_a_build_without_belts_draws_nothing(found: Review, hauler: Build) -> None:
    bare = hauler.model_copy(update={"belt": ()})
    assert screen_layout(Case(bare), found).svg == ""
    assert belt_layout_pages(Case(bare), found, "2031-05-04") == []


@pytest.mark.parametrize("name", ["orchard-hauler", "path-sweeper", "puller"])
@pytest.mark.parametrize("paper", [A4, LETTER])
def test_a_sheet_holds_its_drawing(name: str, paper: Paper) -> None:
    build = build_of(name)
    for page in belt_layout_pages(Case(build), review(build, 0), "2031-05-04", paper):
        assert {page.width, page.height} == {paper.width, paper.height}
        (x0, y0), (x1, y1) = bounds(page.ink)
        assert x0 >= 5.0
        assert y0 >= 5.0
        assert x1 <= page.width - 5.0 + 1e-9
        assert y1 <= page.height - 5.0 + 1e-9


def screen(build: Build, result: Review) -> ElementTree.Element:
    return ElementTree.fromstring(screen_layout(Case(build), result).svg)


def test_the_screen_names_its_groups_once(hauler: Build, found: Review) -> None:
    ids = [e.get("id") for e in screen(hauler, found).iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    for wanted in ("driving", "released", "obstacles", "pulleys", "dimensions", "balloons"):
        assert wanted in ids


def test_what_can_be_dragged_says_its_keys(hauler: Build, found: Review) -> None:
    drags = {e.get("data-drag") for e in screen(hauler, found).iter() if e.get("data-drag")}
    assert "shaft.engine.at.0 shaft.engine.at.1" in drags
    assert "idler.guide idler.at.0 idler.guide idler.at.1" in drags
    assert "idler.clutch idler.arm.pivot.0 idler.clutch idler.arm.pivot.1" in drags
    assert "obstacle.shift lever.outline.2.0 obstacle.shift lever.outline.2.1" in drags


def test_the_screen_counts_in_millimetres_of_the_machine(hauler: Build, found: Review) -> None:
    """A circle of the input pulley, read back through the transform, stands on its shaft."""
    root = screen(hauler, found)
    group = root.find(f"{SVG}g")
    assert group is not None
    scale, dx, dy = map(float, re.findall(r"-?[\d.]+", group.get("transform") or ""))
    wheel = next(e for e in root.iter() if e.get("data-name") == "input pulley")
    rim = next(e for e in wheel.iter(f"{SVG}path") if "A" in (e.get("d") or ""))
    x, y = map(float, re.findall(r"-?[\d.]+", rim.get("d") or "")[:2])
    box = next(shaft for shaft in hauler.shaft if shaft.name == "gearbox input")
    radius = 204.0 / 2.0
    assert scale * (x + dx) == pytest.approx(box.at[0].value * 1e3 + radius, abs=1e-2)
    assert -scale * (y + dy) == pytest.approx(box.at[1].value * 1e3, abs=1e-2)


def test_every_open_finding_with_a_place_has_its_balloon(hauler: Build, found: Review) -> None:
    root = screen(hauler, found)
    balloons = next(e for e in root.iter() if e.get("id") == "balloons")
    shown = {e.get("data-finding") for e in balloons.iter() if e.get("data-finding")}
    wanted = {f.id for f in found.findings if f.place and f.verdict is not Verdict.SOUND}
    assert shown == wanted
    numbers = [n for n, f in enumerate(found.worst_first(), 1) if f.id in wanted]
    texts = ["".join(t.itertext()) for t in balloons.iter(f"{SVG}text")]
    assert sorted(map(int, texts)) == sorted(numbers)


def test_the_same_build_gives_the_same_drawing(hauler: Build, found: Review) -> None:
    assert screen_layout(Case(hauler), found).svg == screen_layout(Case(hauler), found).svg


def test_turning_is_written_as_the_drawing_shows_it() -> None:
    asked = (Shaft, "axis"), (Engine, "turns"), (Gearbox, "donor_input_turns")
    for table, key in asked:
        said = table.model_fields[key].description
        assert said is not None
        assert all(f"from {side}" in said for side in SEEN_FROM.values()), key
