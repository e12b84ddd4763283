"""The starter teaches and is a good build."""

from pathlib import Path

import pytest

from beltwright.build.reading import read_build
from beltwright.build.starter import AlreadyThere, starter_text, write_starter


def test_it_is_a_good_build(tmp_path: Path) -> None:
    path = write_starter(tmp_path / "mine")
    assert path == tmp_path / "mine.toml"
    assert read_build(path).name == "My cart"


def test_it_explains_every_table() -> None:
    lines = starter_text().splitlines()
    comments = sum(line.lstrip().startswith("#") for line in lines)
    assert comments > len([line for line in lines if line.startswith("[")])


def test_it_is_not_written_over_a_file(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("mine", encoding="utf-8")
    with pytest.raises(AlreadyThere, match="left alone"):
        write_starter(path)
    assert path.read_text() == "mine"
