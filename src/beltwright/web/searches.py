"""Searches that run while the page stays usable: started, looked at, stopped."""

import secrets
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from beltwright.web.refusal import NotThere, Refusal

MOST_KEPT = 8
"""Finished searches that can still be looked at."""

Progress = dict[str, Any]
Report = Callable[[Progress], None]
Work = Callable[[Report, threading.Event], Any]
"""Does the search: reports as it goes, returns early once the event is set."""


@dataclass
class Search:
    """One search of one build, for `what`: "options" or "idler"."""

    id: str
    build: str
    version: str
    what: str
    stopping: threading.Event = field(default_factory=threading.Event)
    progress: Progress = field(default_factory=dict)
    state: str = "running"
    found: Any = None
    reason: str = ""

    def run(self, work: Work) -> None:
        """Does the work and notes how it ended."""
        try:
            self.found = work(self.report, self.stopping)
            self.state = "stopped" if self.stopping.is_set() else "finished"
        except Exception as error:  # noqa: BLE001 - shown on the page; the thread has nobody else
            self.reason = str(error) or "The search broke off."
            self.state = "failed"

    def report(self, progress: Progress) -> None:
        """Notes how far it is."""
        self.progress = progress


class Searches:
    """The searches of this session; one at a time, because they use every core."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._kept: dict[str, Search] = {}

    def start(self, build: str, version: str, what: str, work: Work) -> Search:
        """Starts a search in a thread of its own."""
        with self._lock:
            if any(search.state == "running" for search in self._kept.values()):
                raise Refusal(409, "A search is running. Stop it first, or wait for it.")
            search = Search(secrets.token_urlsafe(9), build, version, what)
            self._kept[search.id] = search
            while len(self._kept) > MOST_KEPT:
                del self._kept[next(iter(self._kept))]
        threading.Thread(target=search.run, args=(work,), name="search", daemon=True).start()
        return search

    def find(self, build: str, id_: str, what: str) -> Search:
        """A search of a build."""
        search = self._kept.get(id_)
        if search is None or (search.build, search.what) != (build, what):
            raise NotThere("There is no such search. Start it again.")
        return search

    def stop_all(self) -> None:
        """Stops whatever runs."""
        for search in list(self._kept.values()):
            search.stopping.set()
