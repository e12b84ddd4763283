"""One build file that is open: read from the disk every time, changed one change at a time."""

import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from beltwright.build.errors import BuildError, ChangedUnderneath, NotSaved
from beltwright.build.file_text import decoded
from beltwright.build.reading import read_text
from beltwright.build.saving import Version, list_history, restore, save, version_of, version_text
from beltwright.web.at_rest import bytes_at_rest
from beltwright.web.edits import Edit, edited_text
from beltwright.web.refusal import CannotRead, NotThere, Refusal, Stale, as_problems
from beltwright.web.undo import Undo


@dataclass(frozen=True)
class Text:
    """What stands in the file: its text and its mark; `refused` where it is no text."""

    text: str
    version: str
    refused: BuildError | None = None


class OpenBuild:
    """A build file, its queue of changes, and what can be undone.

    The lock is the queue: a change is read, checked and saved while no other change of this page
    runs. An editor is not held up by it; `save` notices what an editor did in between.
    """

    def __init__(self, name: str, path: Path) -> None:
        self.name = name
        self.path = path
        self._lock = threading.RLock()
        self._undo = Undo()
        self._usable: Text | None = None
        self._before: Text | None = None
        self._spoilt = False

    @property
    def can_undo(self) -> bool:
        """Whether a change of this session can be undone, or a file that was spoilt put right."""
        return self._spoilt or self._undo.can_undo

    @property
    def can_redo(self) -> bool:
        """Whether something undone can be redone."""
        return self._undo.can_redo

    def now(self) -> Text:
        """What stands in the file; a change by an editor becomes one that can be undone."""
        with self._lock:
            current = self._read()
            if self._usable is None or current.version != self._usable.version:
                self._notice(current)
            usable = self._usable
            self._spoilt = usable is not None and usable.version != current.version
            return current

    def before(self, version: str) -> Text | None:
        """What stood before the last change, whoever made it, if that change made this version."""
        with self._lock:
            now = self._usable
            return self._before if now is not None and now.version == version else None

    def glance(self) -> str | None:
        """The version that stands in the file, None while there is no file."""
        try:
            return self.now().version
        except Refusal:
            return None

    def seen(self, version: str) -> str:
        """The text, if it is still the one that the page has seen."""
        return self._still(version).text

    def edit(self, seen: str, edits: Sequence[Edit], note: str) -> None:
        """Saves changes, all of them or none."""
        name = self.path.name
        self.change(seen, lambda text: edited_text(text, edits, name), note or _note_for(edits))

    def change(self, seen: str, write: Callable[[str], str], note: str) -> None:
        """Saves the text that `write` makes of the one that stands."""
        with self._lock:
            text = self._still(seen).text
            changed, worth = write(text), self._worth_bringing_back(text)
            if changed != text:
                self._save(changed, seen, note)
                self._undo.changed(worth)

    def undo(self, seen: str) -> None:
        """Brings back the text before the last change, or the last one that could be used."""
        with self._lock:
            text = self._still(seen).text
            if self._spoilt and self._usable is not None:
                self._save(self._usable.text, seen, "put right")
                return
            if not self.can_undo:
                raise Refusal(409, "There is nothing to undo.")
            self._save(self._undo.earlier(), seen, "undone")
            self._undo.undone(text)

    def redo(self, seen: str) -> None:
        """Brings back the text that was undone last."""
        with self._lock:
            text = self._still(seen).text
            if not self.can_redo:
                raise Refusal(409, "There is nothing to redo.")
            worth = self._worth_bringing_back(text)
            self._save(self._undo.later(), seen, "redone")
            self._undo.redone(worth)

    def restore(self, seen: str, version: str) -> None:
        """Lets an earlier version stand again."""
        with self._lock:
            worth = self._worth_bringing_back(self._still(seen).text)
            if version != seen:
                self._kept(version)
                self._written(seen, lambda: restore(self.path, version, seen))
                self._undo.changed(worth)

    def history(self) -> list[dict[str, Any]]:
        """The versions that were kept, newest first."""
        return [_shown(version) for version in list_history(self.path)]

    def earlier(self, version: str) -> dict[str, Any]:
        """A version that was kept, with its text."""
        return {**_shown(self._kept(version)), "text": version_text(self.path, version)}

    def _kept(self, version: str) -> Version:
        for kept in list_history(self.path):
            if kept.version == version:
                return kept
        raise NotThere("There is no such version.")

    def _read(self) -> Text:
        try:
            raw = bytes_at_rest(self.path)
        except OSError:
            raise NotThere(f"{self.path.name} can't be read. Is it still there?") from None
        version = version_of(raw)
        try:
            return Text(decoded(raw, self.path.name), version)
        except BuildError as refused:
            return Text("", version, refused)

    def _notice(self, current: Text) -> None:
        """Notes a text that this page did not write, once it can be used."""
        try:
            if current.refused is not None:
                return
            read_text(current.text, self.path.name)
        except BuildError:
            return
        if self._usable is not None:
            self._undo.changed(self._usable.text)
        self._stands(current)

    def _worth_bringing_back(self, text: str) -> str:
        """The text that stands, or where it was spoilt the last that could be used."""
        return self._usable.text if self._spoilt and self._usable is not None else text

    def _still(self, seen: str) -> Text:
        current = self.now()
        if current.version != seen:
            raise Stale(seen, current.version)
        return current

    def _save(self, text: str, seen: str, note: str) -> None:
        self._written(seen, lambda: save(self.path, text, seen, note))

    def _written(self, seen: str, write: Callable[[], str]) -> None:
        try:
            write()
        except ChangedUnderneath:
            raise Stale(seen, self.now().version) from None
        except BuildError as refused:
            raise CannotRead(as_problems(refused)) from None
        except NotSaved as failed:
            raise Refusal(503, str(failed)) from None
        self._stands(self._read())

    def _stands(self, text: Text) -> None:
        if self._usable is not None and self._usable.version != text.version:
            self._before = self._usable
        self._usable = text
        self._spoilt = False


def _note_for(edits: Sequence[Edit]) -> str:
    keys = list(dict.fromkeys(edit.key for edit in edits))
    shown = ", ".join(keys[:3])
    return shown if len(keys) <= 3 else f"{shown} and {len(keys) - 3} more"


def _shown(version: Version) -> dict[str, Any]:
    at: datetime = version.saved_at
    return {"version": version.version, "saved_at": at.isoformat(), "note": version.note}
