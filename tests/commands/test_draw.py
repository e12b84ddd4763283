"""`beltwright draw` writes the belt layout."""

from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pytest
from pypdf import PdfReader

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
    assert ".svg or .pdf" in capsys.readouterr().err
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
