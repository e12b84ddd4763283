"""`beltwright chart` writes charts and says what is missing."""

from pathlib import Path
from xml.etree import ElementTree

import pytest
from PIL import Image

from beltwright.cli import main

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"


def test_a_named_chart_is_written_as_svg(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["chart", str(EXAMPLE), "speed", "-o", str(tmp_path / "out")]) == 0
    path = tmp_path / "out" / "orchard-hauler-speed.svg"
    assert ElementTree.parse(path).getroot().tag.endswith("svg")
    assert str(path) in capsys.readouterr().out
    assert [file.name for file in path.parent.iterdir()] == [path.name]


def test_charts_as_pictures(tmp_path: Path) -> None:
    assert main(["chart", str(EXAMPLE), "speed", "--png", "-o", str(tmp_path)]) == 0
    with Image.open(tmp_path / "orchard-hauler-speed.png") as picture:
        assert picture.width > 1000


def test_an_unknown_chart_says_which_there_are(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["chart", str(EXAMPLE), "noise", "-o", str(tmp_path)]) == 2
    assert "speed" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_a_folder_that_cannot_be_written_to_is_told_in_plain_words(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("not a folder")
    assert main(["chart", str(EXAMPLE), "speed", "-o", str(tmp_path / "file")]) == 2
    said = capsys.readouterr().err
    assert "could not be saved" in said
    assert "Traceback" not in said
