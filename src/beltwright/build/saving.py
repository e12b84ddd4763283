"""Saving of a build file without ever losing one.

The new text is written aside in the same folder, flushed to the disk and renamed over the old one.
Every version that was saved is kept in `.beltwright/history/NAME/` beside the file. A file that
changed since it was read is not overwritten.
"""

import contextlib
import hashlib
import os
import re
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from beltwright.build.errors import ChangedUnderneath, NotSaved
from beltwright.build.file_text import MARK, decoded, file_bytes
from beltwright.build.reading import read_text

_STAMP = "%Y%m%dT%H%M%S.%fZ"
_KEPT = re.compile(r"([0-9]{8}T[0-9]{6}\.[0-9]{6}Z)-([0-9a-f]{16})\.toml")


@dataclass(frozen=True)
class Version:
    """One saved version of a build file: when, its mark, where it is kept, and what was done."""

    saved_at: datetime
    version: str
    path: Path
    note: str


def version_of(text: str | bytes) -> str:
    """Give the mark by which a version is known: the same text has the same mark."""
    raw = text.encode() if isinstance(text, str) else text
    return hashlib.sha256(raw).hexdigest()[:16]


def open_text(path: Path | str) -> tuple[str, str]:
    """Give the text of a build file and its version; raise BuildError if it is no text."""
    where = Path(path)
    raw = file_bytes(where)
    return decoded(raw, where.name), version_of(raw)


def save(path: Path | str, text: str, seen: str, note: str = "") -> str:
    """Save a build file and give its new version.

    `seen` is the version that was read before the edit, "" for a file that is to be new. Raises
    BuildError if the text is no good build, ChangedUnderneath if the file is not the one seen,
    NotSaved if the disk does not take it; in each case the file is as it was.
    """
    read_text(text, Path(path).name)
    return _saved(path, lambda before: _marked_as(before, text.encode()), seen, note)


def list_history(path: Path | str) -> tuple[Version, ...]:
    """Give the versions that were saved of a build file, the newest first."""
    folder = _history(Path(os.path.realpath(path)))
    if not folder.is_dir():
        return ()
    kept = [(_KEPT.fullmatch(file.name), file) for file in folder.iterdir()]
    versions = [
        Version(
            datetime.strptime(name[1], _STAMP).replace(tzinfo=UTC), name[2], file, _note_of(file)
        )
        for name, file in kept
        if name
    ]
    return tuple(sorted(versions, key=lambda version: version.saved_at, reverse=True))


def version_text(path: Path | str, version: str) -> str:
    """Give the text of a kept version; raise KeyError if it is not kept."""
    return decoded(_version_bytes(path, version), Path(path).name)


def restore(path: Path | str, version: str, seen: str) -> str:
    """Save a kept version as the present one, letter for letter; what stood there is kept too."""
    raw = _version_bytes(path, version)
    name = Path(path).name
    read_text(decoded(raw, name), name)
    return _saved(path, lambda _: raw, seen, f"went back to version {version}")


def _version_bytes(path: Path | str, version: str) -> bytes:
    """Give a kept version as it was written."""
    for kept in list_history(path):
        if kept.version == version:
            return kept.path.read_bytes()
    raise KeyError(version)


def _marked_as(before: bytes | None, raw: bytes) -> bytes:
    """Give a text its byte order mark, where the file that it replaces has one."""
    return MARK + raw if before is not None and before.startswith(MARK) else raw


def _saved(path: Path | str, write: Callable[[bytes | None], bytes], seen: str, note: str) -> str:
    """Put what `write` makes of the present file in its place, if that is the one seen."""
    where = Path(os.path.realpath(path))
    try:
        with _alone(where):
            before = where.read_bytes() if where.exists() else None
            if (version_of(before) if before is not None else "") != seen:
                raise ChangedUnderneath(where)
            new = write(before)
            _save(where, new, before, note)
    except OSError as error:
        raise NotSaved(where, error.strerror or str(error)) from error
    return version_of(new)


def _save(where: Path, new: bytes, before: bytes | None, note: str) -> None:
    """Keep both versions, then put the new one in place."""
    if before is not None and not _is_kept(where, before):
        _keep(_place_in_history(where, before), before, "")
    kept = _place_in_history(where, new)
    try:
        _keep(kept, new, note)
        _write_aside(where, new)
    except OSError:
        for file in (kept, kept.with_suffix(".txt")):
            file.unlink(missing_ok=True)
        raise


def _place_in_history(where: Path, raw: bytes) -> Path:
    """Give the file in which a version is to be kept."""
    return _history(where) / f"{datetime.now(UTC).strftime(_STAMP)}-{version_of(raw)}.toml"


def _keep(kept: Path, raw: bytes, note: str) -> None:
    """Put a version and its note into the history."""
    kept.parent.mkdir(parents=True, exist_ok=True)
    _write_aside(kept, raw)
    if note:
        _write_aside(kept.with_suffix(".txt"), note.encode())


def _is_kept(where: Path, raw: bytes) -> bool:
    """Tell whether the newest version in the history is this one."""
    newest = list_history(where)[:1]
    return bool(newest) and newest[0].version == version_of(raw)


def _note_of(kept: Path) -> str:
    """Give the note of a kept version."""
    note = kept.with_suffix(".txt")
    return note.read_text(encoding="utf-8") if note.exists() else ""


def _history(where: Path) -> Path:
    """Give the folder in which the versions of a file are kept."""
    return where.parent / ".beltwright" / "history" / where.stem


def _write_aside(where: Path, raw: bytes) -> None:
    """Write beside the file, flush to the disk, and rename over it in one step."""
    handle, aside = tempfile.mkstemp(prefix=f".{where.name}.", suffix=".part", dir=where.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(raw)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(aside, where.stat().st_mode if where.exists() else 0o644)
        os.replace(aside, where)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(aside)
        raise
    _flush_folder(where.parent)


def _flush_folder(folder: Path) -> None:
    """Let the disk know of the rename, so that a pulled plug does not undo it."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextlib.contextmanager
def _alone(where: Path) -> Iterator[None]:
    """Let one writer of a file in at a time."""
    import fcntl

    folder = where.parent / ".beltwright"
    folder.mkdir(exist_ok=True)
    with (folder / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield
