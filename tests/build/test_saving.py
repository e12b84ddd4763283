"""Saving never loses a file, whatever goes wrong."""

import errno
import os
import threading
from pathlib import Path
from typing import Any

import pytest

from beltwright.build.errors import BuildError, ChangedUnderneath, NotSaved
from beltwright.build.saving import list_history, open_text, restore, save, version_of, version_text

ONE = 'format = 1\nname = "one"\n'
TWO = 'format = 1\nname = "two"\n'
THREE = 'format = 1\nname = "three"\n'


@pytest.fixture
def build(tmp_path: Path) -> Path:
    """A saved build file."""
    path = tmp_path / "hauler.toml"
    path.write_text(ONE, encoding="utf-8")
    return path


def left_over(build: Path) -> list[Path]:
    """Give the files that a save left lying about."""
    return list(build.parent.rglob("*.part"))


def test_a_save_puts_the_text_there_and_keeps_what_stood_there(build: Path) -> None:
    version = save(build, TWO, version_of(ONE), "renamed it")
    assert open_text(build) == (TWO, version)
    newest, oldest = list_history(build)
    assert (newest.version, newest.note) == (version, "renamed it")
    assert oldest.path.read_text() == ONE
    assert left_over(build) == []


def test_a_new_file(tmp_path: Path) -> None:
    save(tmp_path / "new.toml", ONE, "")
    assert (tmp_path / "new.toml").read_text() == ONE


def test_a_file_that_is_there_is_not_taken_for_a_new_one(build: Path) -> None:
    with pytest.raises(ChangedUnderneath):
        save(build, TWO, "")


def test_a_file_changed_underneath_is_not_overwritten(build: Path) -> None:
    seen = version_of(ONE)
    build.write_text(THREE, encoding="utf-8")
    with pytest.raises(ChangedUnderneath, match="Nothing was overwritten"):
        save(build, TWO, seen)
    assert build.read_text() == THREE


def test_a_file_deleted_underneath_is_noticed(build: Path) -> None:
    build.unlink()
    with pytest.raises(ChangedUnderneath):
        save(build, TWO, version_of(ONE))


def test_a_bad_build_is_not_saved(build: Path) -> None:
    with pytest.raises(BuildError):
        save(build, "format = 1\n", version_of(ONE))
    assert build.read_text() == ONE
    assert list_history(build) == ()


@pytest.mark.parametrize("step", ["fsync", "replace", "write"])
def test_a_full_disk_leaves_the_old_file(
    build: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    save(build, TWO, version_of(ONE))
    real: Any = getattr(os, "fdopen" if step == "write" else step)
    calls = []

    def full(*args: Any, **kwargs: Any) -> Any:
        # The history takes its copy; the build file itself meets the full disk.
        calls.append(args)
        target = str(args[-1]) if step == "replace" else ""
        if (step == "replace" and ".beltwright" in target) or (
            step != "replace" and len(calls) < 2
        ):
            return real(*args, **kwargs)
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fdopen" if step == "write" else step, full)
    with pytest.raises(NotSaved, match="No space left"):
        save(build, THREE, version_of(TWO))
    monkeypatch.undo()
    assert build.read_text() == TWO
    assert left_over(build) == []
    assert [version.path.read_text() for version in list_history(build)] == [TWO, ONE]


def test_no_permission_leaves_the_old_file(build: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr("tempfile.mkstemp", refuse)
    with pytest.raises(NotSaved, match="Permission denied"):
        save(build, TWO, version_of(ONE))
    assert build.read_text() == ONE


def test_an_earlier_version_comes_back_and_nothing_is_lost(build: Path) -> None:
    two = save(build, TWO, version_of(ONE))
    three = save(build, THREE, two)
    one = restore(build, version_of(ONE), three)
    assert open_text(build) == (ONE, one)
    assert [v.path.read_text() for v in list_history(build)] == [ONE, THREE, TWO, ONE]


def test_a_change_by_an_editor_is_kept_too(build: Path) -> None:
    two = save(build, TWO, version_of(ONE))
    build.write_text(THREE, encoding="utf-8")
    save(build, ONE, version_of(THREE))
    assert [v.path.read_text() for v in list_history(build)] == [ONE, THREE, TWO, ONE]
    assert version_text(build, two) == TWO


def test_an_unknown_version_is_told(build: Path) -> None:
    with pytest.raises(KeyError):
        restore(build, "0" * 16, version_of(ONE))


def test_mode_and_links_stay(build: Path, tmp_path: Path) -> None:
    build.chmod(0o640)
    link = tmp_path / "link.toml"
    link.symlink_to(build)
    save(link, TWO, version_of(ONE))
    assert link.is_symlink()
    assert build.read_text() == TWO
    assert build.stat().st_mode & 0o777 == 0o640


def test_a_byte_order_mark_does_not_hide_the_version(build: Path) -> None:
    build.write_bytes(b"\xef\xbb\xbf" + ONE.encode())
    text, seen = open_text(build)
    assert text == ONE
    two = save(build, TWO, seen)
    assert build.read_bytes() == b"\xef\xbb\xbf" + TWO.encode(), "what the editor put there stays"
    assert open_text(build) == (TWO, two)


def test_an_earlier_version_comes_back_letter_for_letter(build: Path) -> None:
    windows = ONE.replace("\n", "\r\n").encode()
    build.write_bytes(windows)
    two = save(build, TWO, version_of(windows))
    assert restore(build, version_of(windows), two) == version_of(windows)
    assert build.read_bytes() == windows


def test_of_many_writers_at_once_one_wins_and_the_rest_are_told(build: Path) -> None:
    seen, won, told = version_of(ONE), [], []

    def write(number: int) -> None:
        try:
            won.append(save(build, f'format = 1\nname = "n{number}"\n', seen))
        except ChangedUnderneath as late:
            told.append(late)

    writers = [threading.Thread(target=write, args=(number,)) for number in range(8)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert (len(won), len(told)) == (1, 7)
    assert version_of(build.read_bytes()) == won[0]
