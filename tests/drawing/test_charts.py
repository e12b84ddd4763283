"""Charts: deterministic SVG with text as text, bands, limits, and a picture for paper."""

from io import BytesIO
from xml.etree import ElementTree

import pytest
from PIL import Image

from beltwright.drawing.chart import Axis, Chart, Limit, Series
from beltwright.drawing.chart_style import SERIES
from beltwright.drawing.charts import chart_picture, chart_png, chart_svg
from beltwright.drawing.ink import Colour
from beltwright.drawing.palette import LIGHT

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def chart() -> Chart:
    x = [0.0, 1000.0, 2000.0, 3300.0]
    gears = [
        Series(
            f"gear {number}",
            x,
            [k * v for v in x],
            [0.95 * k * v for v in x],
            [1.05 * k * v for v in x],
        )
        for number, k in enumerate((0.001, 0.002, 0.004), start=1)
    ]
    return Chart(
        "Ground speed <in every gear>",
        Axis("engine speed", "rpm", 0.0),
        Axis("ground speed", "km/h", 0.0),
        gears,
        [Limit("at most 10 km/h", 10.0), Limit("governed", 3300.0, "x", "neither")],
        ["Bands show what the tolerances allow."],
        "Stop on the flat before any slope.",
    )


def texts(svg: str) -> list[str]:
    return ["".join(t.itertext()) for t in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def test_words_are_text(chart: Chart) -> None:
    said = texts(chart_svg(chart))
    for word in (
        "engine speed, rpm",
        "ground speed, km/h",
        "gear 3",
        "at most 10 km/h",
        "Bands show what the tolerances allow.",
        "Caution: Stop on the flat before any slope.",
    ):
        assert word in said


def test_the_same_chart_gives_the_same_text(chart: Chart) -> None:
    assert chart_svg(chart) == chart_svg(chart)


def test_two_charts_in_one_page_share_no_id(chart: Chart) -> None:
    roots = [ElementTree.fromstring(chart_svg(chart, prefix=prefix)) for prefix in ("a-", "b-")]
    ids = [[e.get("id") for e in root.iter() if e.get("id")] for root in roots]
    assert len(ids[0]) == len(set(ids[0]))
    assert not set(ids[0]) & set(ids[1])


def test_every_reference_is_to_an_id_of_its_own(chart: Chart) -> None:
    svg = chart_svg(chart, prefix="a-")
    root = ElementTree.fromstring(svg)
    ids = {element.get("id") for element in root.iter()}
    for element in root.iter():
        for name, value in element.attrib.items():
            if name.endswith("href"):
                assert value.removeprefix("#") in ids
            if "url(#" in value:
                assert value.split("url(#")[1].split(")")[0] in ids


def test_paper_and_ink_follow_the_theme(chart: Chart) -> None:
    svg = chart_svg(chart)
    assert LIGHT[Colour.INK] not in svg.replace(f"var(--ink, {LIGHT[Colour.INK]})", "")
    assert f"var(--paper, {LIGHT[Colour.PAPER]})" in svg


def test_the_reader_hears_what_is_drawn(chart: Chart) -> None:
    root = ElementTree.fromstring(chart_svg(chart))
    assert root.findtext(f"{SVG}title") == "Ground speed <in every gear>"
    said = root.findtext(f"{SVG}desc") or ""
    assert "gear 2: 0 to 6.6 for engine speed 0 to 3300." in said
    assert "at most 10 km/h at 10 km/h." in said
    assert "Stop on the flat" in said


def test_no_series_is_told_by_colour_alone() -> None:
    assert len({dashes for _, dashes, _ in SERIES}) == len(SERIES)
    assert len({mark for *_, mark in SERIES}) == len(SERIES)


def test_a_picture_is_sharp_enough_for_print(chart: Chart) -> None:
    picture = chart_picture(chart, (20.0, 100.0), 160.0, 90.0)
    image = Image.open(BytesIO(picture.png))
    assert image.width / picture.width * 25.4 >= 200.0
    assert image.width / image.height == pytest.approx(picture.width / picture.height, rel=2e-3)
    assert picture.height > 90.0


def test_a_chart_prints_in_black_and_white(chart: Chart) -> None:
    grey = Image.open(BytesIO(chart_png(chart, dpi=100))).convert("L")
    shades = grey.histogram()
    assert sum(shades[:60]) > 100
    assert shades[255] > sum(shades[:60])


@pytest.mark.parametrize(
    ("x", "y", "low", "high", "message"),
    [
        ([], [], None, None, "empty"),
        ([1.0], [1.0, 2.0], None, None, "unequal"),
        ([1.0], [1.0], [0.5], None, "half a range"),
        ([1.0], [1.0], [0.5], [1.5, 2.0], "unequal"),
    ],
)
def test_a_series_that_does_not_hang_together_is_refused(
    x: list[float], y: list[float], low: list[float] | None, high: list[float] | None, message: str
) -> None:
    with pytest.raises(ValueError, match=message):
        Series("speed", x, y, low, high)


def test_points_and_steps_are_drawn_too() -> None:
    chart = Chart(
        "Readings",
        Axis("time", "s"),
        Axis("speed", "km/h"),
        [
            Series(
                "measured", [0, 1, 2], [0.0, 2.0, 3.0], [0, 1.8, 2.8], [0.1, 2.2, 3.3], "points"
            ),
            Series("gear", [0, 1, 2], [1.0, 2.0, 2.0], kind="steps"),
        ],
    )
    assert {"measured", "gear"} <= set(texts(chart_svg(chart)))
