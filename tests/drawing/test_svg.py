"""The SVG is well formed, names things once, and measures what it should."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beltwright.drawing.ink import Colour, Group, Letters, Page, Picture, Stroke, Window
from beltwright.drawing.line_kinds import FINE_PEN, LineKind
from beltwright.drawing.path import Arc, Path, Straight, circle
from beltwright.drawing.shapes import Line, Scene, Text, Together
from beltwright.drawing.sheet import A4, TitleBlock, border, title_block
from beltwright.drawing.svg import svg
from beltwright.drawing.view import Forward, View

SVG = "{http://www.w3.org/2000/svg}"


def parsed(page: Page) -> ElementTree.Element:
    return ElementTree.fromstring(svg(page))


def page_of(*shapes: Line | Text | Together, view: View) -> Page:
    scene = Scene(shapes, "Test sheet")
    return Page(210.0, 297.0, (scene.inked(view, FINE_PEN),), scene.title)


def test_a_hundred_millimetre_line_is_a_hundred_millimetres_long() -> None:
    page = page_of(Line((0.0, 0.0), (0.1, 0.0), id="rule"), view=View(1.0, (20.0, 30.0)))
    root = parsed(page)
    assert root.get("viewBox") == "0 0 210 297"
    assert root.get("width") == "210mm"
    (path,) = root.iter(f"{SVG}path")
    assert path.get("d") == "M20 267L120 267"


def test_the_sample_names_everything_once(scene: Scene) -> None:
    root = parsed(
        Page(297, 210, (scene.inked(View(0.2, (80, 100)), FINE_PEN),), "Belt", "From above")
    )
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert "belt.traction-belt" in ids
    assert root.findtext(f"{SVG}title") == "Belt"
    assert root.findtext(f"{SVG}desc") == "From above"


def test_a_name_given_twice_is_an_error() -> None:
    page = page_of(Line((0, 0), (1, 0), id="a b"), Line((0, 0), (0, 1), id="a-b"), view=View(0.1))
    with pytest.raises(ValueError, match="a-b"):
        svg(page)


def test_two_drawings_in_one_page_keep_their_names_apart() -> None:
    page = page_of(Line((0, 0), (1, 0), id="frame"), view=View(0.1))
    assert 'id="left-frame"' in svg(page, "left-")


def test_what_the_screen_must_know_is_carried_along() -> None:
    line = Line((0, 0), (1, 0), title="Idler <1>", data=(("drag", 'a.0 "a".1'),))
    group = parsed(page_of(Together([line], id="idlers"), view=View(0.1))).find(
        f".//{SVG}g[@data-drag]"
    )
    assert group is not None
    assert group.get("data-drag") == 'a.0 "a".1'
    assert group.get("tabindex") == "0"
    assert group.findtext(f"{SVG}title") == "Idler <1>"


@settings(max_examples=60)
@given(st.text(max_size=40))
def test_any_name_gives_well_formed_xml(name: str) -> None:
    page = page_of(Text((0, 0), name), Line((0, 0), (1, 1), title=name), view=View(0.1))
    assert parsed(page) is not None


@pytest.mark.parametrize("sweep", [0.5, -0.5, 3.0, -3.0, 6.0])
def test_arcs_run_the_way_they_turn(sweep: float) -> None:
    """Follow the arc's end points and flags as SVG does, and land on its middle."""
    arc = Arc((50.0, 60.0), 20.0, 0.3, sweep)
    text = svg(Page(100, 100, (Stroke(Path((arc,))),), "Arc"))
    flags = re.findall(r"A20 20 0 (\d) (\d) ([\d.]+) ([\d.]+)", text)
    assert {large for large, *_ in flags} == {"0"}
    assert {turn for _, turn, *_ in flags} == {"0" if sweep > 0 else "1"}
    x, y = float(flags[-1][2]), 100.0 - float(flags[-1][3])
    assert (x, y) == pytest.approx(arc.end, abs=1e-4)


def test_a_full_circle_is_drawn_whole() -> None:
    text = svg(Page(100, 100, (Stroke(circle((50, 50), 20)),), "Circle"))
    assert len(re.findall("A20 20", text)) == 3


def test_dashes_are_multiples_of_the_line_width() -> None:
    stroke = Stroke(Path((Straight((0, 0), (90, 0)),)), LineKind.HIDDEN)
    (path,) = parsed(Page(100, 100, (stroke,), "Hidden")).iter(f"{SVG}path")
    assert path.get("stroke-width") == "0.25"
    assert path.get("stroke-dasharray") == "3 0.75"


def test_pieces_in_a_window_are_shifted_and_clipped() -> None:
    inside = Stroke(Path((Straight((0, 0), (90, 0)),)))
    root = parsed(Page(100, 100, (Window((inside,), (5, 7), (10, 20), 30, 40),), "Window"))
    rect = root.find(f".//{SVG}clipPath/{SVG}rect")
    assert rect is not None
    assert [rect.get(k) for k in ("x", "y", "width", "height")] == ["10", "40", "30", "40"]
    moved = root.find(f".//{SVG}g[@transform]")
    assert moved is not None
    assert moved.get("transform") == "translate(5 -7)"


def test_colours_are_classes_so_that_a_page_can_theme_them() -> None:
    ink = (
        Letters("x", (1, 1), 2.5, colour=Colour.STOP),
        Stroke(circle((5, 5), 2), colour=Colour.SOUND),
    )
    text = svg(Page(10, 10, ink, "Colours"), styled=False)
    assert "#" not in text.replace("url(#", "")
    assert 'class="fill-stop"' in text
    assert 'class="line-sound visible"' in text


def test_counting_in_the_machines_millimetres() -> None:
    view = View(0.2, (80.0, 100.0))
    text = svg(page_of(Line((0.5, 0.25), (1, 1)), view=view), machine=view)
    root = ElementTree.fromstring(text)
    assert root.get("viewBox") == "-400 -985 1050 1485"
    group = root.find(f"{SVG}g")
    assert group is not None
    scale, dx, dy = map(float, re.findall(r"-?[\d.]+", group.get("transform") or ""))
    (path,) = group.iter(f"{SVG}path")
    x, y = map(float, re.findall(r"-?[\d.]+", path.get("d") or "")[:2])
    assert (scale * (x + dx), scale * (y + dy)) == pytest.approx((500.0, -250.0))


def test_an_upright_view_cannot_count_in_the_machines_millimetres() -> None:
    view = View(0.2, forward=Forward.UP)
    with pytest.raises(ValueError, match="x to the right"):
        svg(page_of(Line((0, 0), (1, 1)), view=view), machine=view)


def test_a_picture_is_carried_inside() -> None:
    picture = Picture(b"\x89PNG", (10, 20), 30, 40, "Photo")
    (image,) = parsed(Page(100, 100, (picture,), "Photo")).iter(f"{SVG}image")
    assert image.get("y") == "40"
    assert (image.get("href") or "").startswith("data:image/png;base64,iVBOR")


def test_the_title_block_stands_in_the_lower_right_corner_and_says_it_all() -> None:
    block = TitleBlock(
        "Belt layout", "Crate hauler", "2031-05-04", "1:5", "mm", "1 / 6", "112 of 160 EUR",
        (("stop", 1), ("marginal", 0), ("sound", 31)),
    )  # fmt: skip
    root = parsed(Page(210, 297, (border(A4), title_block(block, A4)), "Sheet"))
    texts = [text.text for text in root.iter(f"{SVG}text")]
    for said in ("Belt layout", "Crate hauler", "1:5", "1 stop", "31 sound", "112 of 160 EUR"):
        assert said in texts
    assert "0 marginal" not in texts


def test_an_empty_group_is_no_error() -> None:
    assert parsed(Page(10, 10, (Group(()),), "Empty")) is not None
