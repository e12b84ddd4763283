"""`beltwright draw` writes the belt layout."""

from io import BytesIO
from itertools import combinations
from math import hypot
from pathlib import Path
from xml.etree import ElementTree

import pytest
from ezdxf.filemanagement import readfile
from pypdf import PdfReader

from beltwright.build.reading import read_build
from beltwright.cli import main

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"


def test_the_drawing_is_svg_by_default(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["draw", str(EXAMPLE)]) == 0
    assert ElementTree.parse(tmp_path / "orchard-hauler.svg").getroot().tag.endswith("svg")
    assert capsys.readouterr().out == "Drawn: orchard-hauler.svg\n"


def test_the_drawing_as_pdf_on_letter(tmp_path: Path) -> None:
    path = tmp_path / "layout.pdf"
    assert main(["draw", str(EXAMPLE), "-o", str(path), "--paper", "Letter"]) == 0
    (page,) = PdfReader(BytesIO(path.read_bytes())).pages
    assert {round(float(side)) for side in page.mediabox[2:]} == {612, 792}


def test_a_bad_build_writes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text("format = 1\n", encoding="utf-8")
    assert main(["draw", str(bad), "-o", str(tmp_path / "bad.svg")]) == 2
    assert not (tmp_path / "bad.svg").exists()
    assert "Traceback" not in capsys.readouterr().err


def test_the_places_of_an_idler_are_hatched(tmp_path: Path) -> None:
    path = tmp_path / "places.svg"
    assert main(["draw", str(EXAMPLE), "-o", str(path), "--idler", "guide idler"]) == 0
    assert 'id="idler-map"' in path.read_text(encoding="utf-8")
    assert "Best centre of the guide idler" in path.read_text(encoding="utf-8")


def test_an_idler_that_is_not_there_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "places.svg"
    assert main(["draw", str(EXAMPLE), "-o", str(path), "--idler", "no such"]) == 2
    assert "'guide idler'" in capsys.readouterr().err
    assert not path.exists()


def test_an_ending_that_is_no_drawing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "layout.png"
    assert main(["draw", str(EXAMPLE), "-o", str(path)]) == 2
    assert ".svg, .pdf or .dxf" in capsys.readouterr().err
    assert not path.exists()


def test_a_build_without_a_belt(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    bare = tmp_path / "bare.toml"
    bare.write_text('format = 1\nname = "Bare"\n', encoding="utf-8")
    assert main(["draw", str(bare), "-o", str(tmp_path / "bare.svg")]) == 2
    assert "no belt to draw" in capsys.readouterr().err
    assert not (tmp_path / "bare.svg").exists()


def test_a_file_where_a_folder_should_be(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    assert main(["draw", str(EXAMPLE), "-o", str(tmp_path / "file" / "x.svg")]) == 2
    assert "is a file, not a folder" in capsys.readouterr().err


def test_the_layout_at_true_size_for_a_drawing_program(tmp_path: Path) -> None:
    """Shaft centres stand as far apart as the build file has them; nothing needs mending."""
    path = tmp_path / "layout.dxf"
    assert main(["draw", str(EXAMPLE), "-o", str(path)]) == 0
    document = readfile(path)
    assert document.audit().errors == []
    shafts = {shaft.name: shaft for shaft in read_build(EXAMPLE).shaft}
    engine, box = (shafts[name].at for name in ("engine", "gearbox input"))
    wanted = hypot(*(1e3 * (engine[i].value - box[i].value) for i in (0, 1)))
    centres = {circle.dxf.center.vec2 for circle in document.modelspace().query("CIRCLE")}
    apart = [one.distance(other) for one, other in combinations(centres, 2)]
    assert any(gap == pytest.approx(wanted, abs=1e-6) for gap in apart)


def test_a_plate_for_a_cutting_table(tmp_path: Path) -> None:
    """Its pivot hole stands where the build has the pivot, counted from the plate's corner."""
    path = tmp_path / "bracket.dxf"
    assert main(["draw", str(EXAMPLE), "--plate", "clutch arm bracket", "-o", str(path)]) == 0
    document = readfile(path)
    assert document.audit().errors == []
    build = read_build(EXAMPLE)
    (plate,) = build.plate
    pivot = next(idler for idler in build.idler if idler.name == "clutch idler").arm
    assert pivot is not None
    assert plate.at is not None
    wanted = [1e3 * (pivot.pivot[i].value - plate.at[i].value) for i in (0, 1)]
    holes = document.modelspace().query('CIRCLE[layer=="holes"]')
    assert len(holes) == len(plate.hole)
    assert any(
        (hole.dxf.center.x, hole.dxf.center.y) == pytest.approx(tuple(wanted)) for hole in holes
    )
    outline = document.modelspace().query('LWPOLYLINE[layer=="outline"]')
    assert len(outline) == 1


def test_a_plate_at_true_size_as_pdf(tmp_path: Path) -> None:
    path = tmp_path / "bracket.pdf"
    assert main(["draw", str(EXAMPLE), "--plate", "clutch arm bracket", "-o", str(path)]) == 0
    (page,) = PdfReader(BytesIO(path.read_bytes())).pages
    assert "clutch arm bracket, true size" in page.extract_text()


def test_a_plate_names_its_own_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["draw", str(EXAMPLE), "--plate", "clutch arm bracket"]) == 0
    assert (tmp_path / "orchard-hauler-clutch-arm-bracket.svg").exists()


def test_a_plate_that_is_not_there_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "x.dxf"
    assert main(["draw", str(EXAMPLE), "--plate", "no such", "-o", str(path)]) == 2
    assert "'clutch arm bracket'" in capsys.readouterr().err
    assert not path.exists()


def test_a_plate_of_a_thread_that_nobody_cuts_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = EXAMPLE.read_text(encoding="utf-8").replace('diameter = "8.4 mm"', 'thread = "M8,5"', 1)
    build = tmp_path / "odd.toml"
    build.write_text(text, encoding="utf-8")
    path = tmp_path / "x.dxf"
    assert main(["draw", str(build), "--plate", "clutch arm bracket", "-o", str(path)]) == 2
    assert "M8,5" in capsys.readouterr().err
    assert not path.exists()
