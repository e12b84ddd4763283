"""A file that an editor empties to write it anew is not taken for one that lacks everything."""

from pathlib import Path

import pytest

from beltwright.web import at_rest
from beltwright.web.at_rest import bytes_at_rest
from beltwright.web.folder import Folder
from beltwright.web.open_build import OpenBuild

TEXT = 'format = 1\nname = "Barrow"\n'


@pytest.fixture
def emptied(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A file that an editor has just emptied, and fills while it is waited for."""
    file = tmp_path / "barrow.toml"
    file.write_text("")

    def fill(_: float) -> None:
        file.write_text(TEXT)

    monkeypatch.setattr(at_rest, "_pause", fill)
    return file


def test_a_build_that_is_being_written_is_found(emptied: Path) -> None:
    assert Folder(emptied.parent).find("barrow") == emptied


def test_a_build_that_is_being_written_is_waited_for(emptied: Path) -> None:
    assert OpenBuild("barrow", emptied).now().text == TEXT


def test_a_file_that_stays_empty_is_empty(tmp_path: Path) -> None:
    file = tmp_path / "barrow.toml"
    file.write_text("")
    assert bytes_at_rest(file) == b""
    assert Folder(tmp_path).builds() == {}
