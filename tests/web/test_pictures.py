"""Drawing, charts, idler places and sheets of a build over the page."""

import io
import math
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pypdf
import pytest
from ezdxf.bbox import extents
from ezdxf.filemanagement import read as ezdxf_read

from beltwright.drawing.chart import Axis, Chart, Series
from beltwright.web.chart_columns import chart_columns


def test_the_scene_can_stand_in_the_page_as_it_is(tab: Any) -> None:
    """Well formed, and with nothing in it that the page's policy would switch off."""
    scene = tab.get("/builds/orchard")["scene"]
    ElementTree.fromstring(scene)
    assert "<style" not in scene
    assert " style=" not in scene
    assert "<script" not in scene
    assert 'data-drag="idler.guide idler.at.0 idler.guide idler.at.1"' in scene


def _moves(shown: dict[str, Any]) -> set[str | None]:
    scene = ElementTree.fromstring(shown["scene"])
    return {part.get("data-name") for part in scene.iter() if part.get("data-drag")}


@pytest.mark.usefixtures("sweeper")
def test_every_plane_of_belts_is_shown_tried_and_kept_in_its_view(tab: Any) -> None:
    first = tab.get("/builds/sweeper")
    assert [view["seen_from"] for view in first["views"]] == [
        "above",
        "above",
        "above",
        "the right",
    ]
    assert first["view"] == "above"
    assert {"engine pulley", "input pulley"} <= _moves(first)
    for name, here, elsewhere in (
        ("above-1", "engine pulley", "input pulley"),
        ("above-2", "input pulley", "blower pulley"),
        ("right", "blower pulley", "engine pulley"),
    ):
        shown = tab.get(f"/builds/sweeper?view={name}")
        assert shown["view"] == name
        edit = {"key": "shaft.blower.at.1", "text": "562 ± 2 mm"}
        body = {"version": shown["version"], "edits": [edit]}
        tried = tab.post(f"/builds/sweeper/try?view={name}", body)
        for moves in (_moves(shown), _moves(tried)):
            assert here in moves
            assert elsewhere not in moves
    saved = tab.post("/builds/sweeper/edit?view=right", body)
    assert saved["view"] == "right"
    assert tab.get("/builds/sweeper?view=nothing")["view"] == "above"


@pytest.mark.usefixtures("sweeper")
def test_the_places_of_an_idler_are_laid_under_its_own_plane(tab: Any) -> None:
    for idler, seen_from in (("clutch idler", "above"), ("blower idler", "the right")):
        places = tab.get(f"/builds/sweeper/idler-places?idler={idler}")
        assert places["seen_from"] == seen_from
        assert 'id="idler-map"' in places["scene"]
        assert f'data-name="pivot of the {idler}"' in places["scene"]


def test_a_name_cant_write_into_the_page(tab: Any) -> None:
    """A build file may come from anywhere; what it says is text."""
    evil = '<script>alert("x")</script>'
    shown = tab.edit("obstacle.frame rail.name", evil)
    assert "<script" not in shown["scene"]
    tab.edit("name", evil)
    for address in ("/", "/b/orchard/check", "/b/orchard/measure", "/b/orchard/history"):
        assert "<script>alert" not in tab.client.get(address).text


def test_the_drawing_stands_alone(tab: Any) -> None:
    answer = tab.client.get("/api/builds/orchard/drawing.svg")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert "script-src" not in answer.headers["content-security-policy"]
    assert "<style" in answer.text
    ElementTree.fromstring(answer.text)


def test_charts_are_columns_of_one_length(tab: Any) -> None:
    data = tab.get("/builds/orchard/charts")
    assert {chart["name"] for chart in data["charts"]} >= {"speed"}
    for chart in data["charts"]:
        x, *others = chart["columns"]
        assert x == sorted(set(x))
        assert {len(column) for column in others} == {len(x)}
        for series in chart["series"]:
            assert series["y"] < len(chart["columns"])


def test_series_of_different_x_are_laid_on_one_and_keep_their_ranges() -> None:
    chart = Chart(
        "t",
        Axis("a"),
        Axis("b"),
        [
            Series("one", [1.0, 2.0], [10.0, 20.0], low=[9.0, 19.0], high=[11.0, 21.0]),
            Series("two", [1.5, 2.0], [1.0, math.nan]),
        ],
    )
    data = chart_columns("c", chart)
    assert data["columns"] == [
        [1.0, 1.5, 2.0],
        [10.0, None, 20.0],
        [9.0, None, 19.0],
        [11.0, None, 21.0],
        [None, 1.0, None],
    ]
    assert data["series"][1] == {"name": "two", "kind": "line", "y": 4, "low": None, "high": None}


@pytest.mark.parametrize(("paper", "width"), [("A4", 595.3), ("Letter", 612.0)])
def test_a_sheet_comes_on_the_paper_in_the_printer(tab: Any, paper: str, width: float) -> None:
    """Sizes of A4 (ISO 216) and Letter (ANSI/ASME Y14.1) in points of 1/72 in."""
    answer = tab.client.get(f"/api/builds/orchard/sheets.pdf?paper={paper}&sheet=belt-layout")
    assert answer.headers["content-type"] == "application/pdf"
    box = pypdf.PdfReader(io.BytesIO(answer.content)).pages[0].mediabox
    assert min(box.width, box.height) == pytest.approx(width, abs=0.1)


@pytest.mark.parametrize(("length", "paper"), [("mm", "A4"), ("in 1/16", "Letter")])
def test_the_paper_of_who_measures_so_is_chosen_first(tab: Any, length: str, paper: str) -> None:
    tab.edit("show", {"length": length})
    told = tab.client.get("/b/orchard/make").text
    assert f'<option value="{paper}" selected>' in told
    assert f"sheet=belt-layout&amp;paper={paper}" in told


@pytest.mark.parametrize("name", ["to-get-and-make", "holes-and-hubs", "plates"])
def test_what_is_made_has_its_sheets(tab: Any, name: str) -> None:
    answer = tab.client.get(f"/api/builds/orchard/sheets.pdf?paper=Letter&sheet={name}")
    assert answer.headers["content-type"] == "application/pdf"
    assert len(pypdf.PdfReader(io.BytesIO(answer.content)).pages) >= 1
    assert f'data-sheet="{name}"' in tab.client.get("/b/orchard/make").text


@pytest.mark.parametrize(
    ("plate", "wide", "high"), [("", 0.0, 0.0), ("?plate=clutch%20arm%20bracket", 100.0, 120.0)]
)
def test_the_lines_come_for_a_cutting_table(tab: Any, plate: str, wide: float, high: float) -> None:
    """Read back and audited; the bracket is as large as its build file has it."""
    address = f"/api/builds/orchard/drawing.dxf{plate}"
    answer = tab.client.get(address)
    assert answer.headers["content-disposition"].startswith("attachment")
    document = ezdxf_read(io.StringIO(answer.text))
    assert document.audit().errors == []
    if wide:
        box = extents(document.modelspace().query('LWPOLYLINE[layer=="outline"]'))
        assert (box.size.x, box.size.y) == pytest.approx((wide, high))
    assert f'href="{address}"' in tab.client.get("/b/orchard/make").text


def test_a_plate_that_is_not_there_is_refused(tab: Any) -> None:
    answer = tab.client.get("/api/builds/orchard/drawing.dxf?plate=nobody")
    assert answer.status_code == 404
    assert answer.json()["error"]["reason"] == "There is no plate of this name."


def test_where_an_idler_may_stand(tab: Any) -> None:
    places = tab.get("/builds/orchard/idler-places?idler=guide idler")
    assert places["moves"] == "centre"
    assert 'id="idler-map"' in places["scene"]
    assert places["best"] is not None
    x, y = places["best"]
    edits = [
        {"key": f"idler.guide idler.at.{axis}", "text": f"{value:.3f} mm"}
        for axis, value in enumerate((x, y))
    ]
    version = tab.get("/builds/orchard")["version"]
    there = tab.post("/builds/orchard/edit", {"version": version, "edits": edits})
    gaps = [row for row in there["findings"] if row["id"].startswith("clearance.")]
    assert gaps
    assert all(row["verdict"] != "stop" for row in gaps)
    for name in ("engine pulley", "nobody", ""):
        answer = tab.client.get(f"/api/builds/orchard/idler-places?idler={name}")
        assert answer.status_code == 404


def test_pictures_of_a_broken_build_say_what_is_wrong(tab: Any, folder: Path) -> None:
    file = folder / "orchard.toml"
    file.write_text(file.read_text().replace('"A"', '"Q"'))
    for what in (
        "drawing.svg",
        "drawing.dxf",
        "charts",
        "sheets.pdf",
        "idler-places?idler=guide idler",
    ):
        answer = tab.client.get(f"/api/builds/orchard/{what}")
        assert answer.status_code == 422
        assert answer.json()["error"]["problems"][0]["line"]
