"""Plates and rods are drawn beside the belts, where their place is known."""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from beltwright.build.reading import read_text
from beltwright.drawing.line_kinds import LineKind
from beltwright.drawing.shapes import Circle, Line, Polygon
from beltwright.review.case import Case
from beltwright.review.review import Review, review
from beltwright.views.layout.beside import ROUND
from beltwright.views.layout.drawn_layout import DrawnLayout
from beltwright.views.layout.gathering import drawn_layouts
from beltwright.views.layout.screen_layout import screen_layout
from beltwright.views.layout.shapes import plate_shape, rod_shape

EXAMPLES = Path(__file__).parents[3] / "examples"
HAULER = (EXAMPLES / "orchard-hauler" / "build.toml").read_text(encoding="utf-8")
SWEEPER = (EXAMPLES / "path-sweeper" / "build.toml").read_text(encoding="utf-8")
BLOWER = (Path(__file__).parents[2] / "blower.toml").read_text(encoding="utf-8")
AT = 'at = ["600 mm", "-200 mm"]'


def drawn(text: str, *changes: tuple[str, str]) -> DrawnLayout:
    """The last plane that is drawn of a build."""
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return drawn_layouts(Case(read_text(text)))[-1]


def test_a_plate_stands_where_the_build_puts_it_with_its_holes() -> None:
    (plate,) = drawn(HAULER).plates
    assert plate.corners[0] == pytest.approx((0.6, -0.2))
    assert plate.corners[2] == pytest.approx((0.7, -0.16))
    places = [hole.at for hole in plate.holes]
    assert places == [pytest.approx(at) for at in [(0.65, -0.105), (0.62, -0.18), (0.68, -0.18)]]
    (turned,) = drawn(HAULER, (AT, f'{AT}\nturned = "90 deg"')).plates
    assert turned.corners[2] == pytest.approx((0.56, -0.1))


def test_it_is_dashed_but_where_it_is_known_to_lie_above_the_belts() -> None:
    for height, kind in ((297, LineKind.HIDDEN), (400, LineKind.THIN)):
        (plate,) = drawn(HAULER, (AT, f'{AT}\nheight = "{height} mm"')).plates
        outline = next(one for one in plate_shape(plate).shapes if isinstance(one, Polygon))
        assert outline.kind is kind
    (plate,) = drawn(HAULER).plates
    assert plate.hidden


def test_a_plate_that_is_not_placed_is_not_drawn() -> None:
    text = HAULER.replace('carries = "clutch idler"', 'place = ["50 mm", "95 mm"]')
    assert not drawn(text, (AT, "")).plates


def test_a_slot_shows_both_its_ends() -> None:
    slotted = 'name = "rear bolt"\nslot = ["0 mm", "12 mm"]'
    (plate,) = drawn(HAULER, ('name = "rear bolt"', slotted)).plates
    assert len(plate.holes) == 4
    assert plate.holes[2].at == pytest.approx((0.62, -0.168))


def test_an_upright_plate_is_drawn_from_the_right_alone() -> None:
    plate = """
[[plate]]
name = "idler plate"
rectangle = ["80 mm", "60 mm"]
at = ["480 mm", "350 mm"]
[[plate.hole]]
name = "pivot"
carries = "blower idler"
diameter = "10 mm"
"""
    above, right = drawn_layouts(Case(read_text(SWEEPER + BLOWER + plate)))
    assert not above.plates
    assert [one.name for one in right.plates] == ["idler plate"]
    assert right.plates[0].corners[0] == pytest.approx((0.48, 0.35))


def test_rods_stand_in_neutral_and_under_the_belts_they_are_dashed() -> None:
    rods = {rod.name: rod for rod in drawn(HAULER).rods}
    assert set(rods) == {"brake rod", "shift rod"}
    start, end = rods["shift rod"].lines[0]
    # lever: 575 + 90 cos 252°; arm: 235 + 55 cos 118°, 58 + 55 sin 118°
    assert start == pytest.approx((0.54719, 0.113), abs=1e-5)
    assert end == pytest.approx((0.20918, 0.10656), abs=1e-5)
    for rod in rods.values():
        lines = [one for one in rod_shape(rod).shapes if isinstance(one, Line)]
        assert {line.kind for line in lines} == {LineKind.HIDDEN}
        assert len([one for one in rod_shape(rod).shapes if isinstance(one, Circle)]) == 4


def test_a_rod_that_leads_far_away_is_cut_off_beside_the_drawing() -> None:
    pivot = 'pivot = ["905 ± 2 mm", "-240 ± 2 mm", "190 ± 2 mm"]'
    far = 'pivot = ["1905 mm", "-240 mm", "190 mm"]'
    rod = next(r for r in drawn(HAULER, (pivot, far)).rods if r.name == "brake rod")
    # the frame rail is what reaches furthest forward but for the engine pulley's rim
    furthest = max(x for line in rod.lines for x, _ in line)
    assert furthest == pytest.approx(0.96 + ROUND, abs=0.01)
    assert max(x for x, _ in rod.joints) < furthest
    gone = 'pivot = ["905 mm", "-1240 mm", "190 mm"]'
    arm = (
        'pivot = ["75 ± 2 mm", "-240 ± 2 mm", "215 ± 2 mm"]',
        'pivot = ["75 mm", "-1240 mm", "215 mm"]',
    )
    assert [r.name for r in drawn(HAULER, (pivot, gone), arm).rods] == ["shift rod"]


def test_rods_whose_angles_are_not_written_are_left_out() -> None:
    text = HAULER.replace('neutral = "112 ± 1 deg"\n', "")
    assert [rod.name for rod in drawn(text).rods] == ["shift rod"]


@pytest.fixture(scope="module")
def hauler() -> tuple[Case, Review]:
    build = read_text(HAULER)
    return Case(build), review(build, 0)


def test_the_screen_names_them_and_lets_a_plate_be_moved(hauler: tuple[Case, Review]) -> None:
    root = ElementTree.fromstring(screen_layout(*hauler).svg)
    keys = {element.get("data-key") for element in root.iter()}
    assert {"plate.clutch arm bracket", "linkage.shift rod", "linkage.brake rod"} <= keys
    drags = {element.get("data-drag") for element in root.iter()}
    assert "plate.clutch arm bracket.at.0 plate.clutch arm bracket.at.1" in drags
    said = "".join(root.itertext())
    for name in ("clutch arm bracket", "shift rod", "brake rod"):
        assert name in said
