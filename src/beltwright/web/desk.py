"""Everything that this start of the program has open: builds, listeners, searches."""

import asyncio
import threading
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from beltwright.web.folder import Folder
from beltwright.web.news import News
from beltwright.web.open_build import OpenBuild, Text
from beltwright.web.searches import Searches
from beltwright.web.standing import MOST_KEPT, Once, Standing, standing_of

LOOK_EVERY = 0.5
"""Seconds between two looks at the files, so that an editor's change shows at once."""


class Desk:
    """The builds that have been opened, each with its queue of changes."""

    def __init__(self, folder: Folder) -> None:
        self.folder = folder
        self.news = News()
        self.searches = Searches()
        self._lock = threading.Lock()
        self._opened: dict[Path, OpenBuild] = {}
        self._standings = Once(MOST_KEPT)
        self._told: dict[OpenBuild, str] = {}

    def open(self, name: str) -> OpenBuild:
        """The build of that name."""
        path = self.folder.find(name)
        with self._lock:
            return self._opened.setdefault(path, OpenBuild(name, path))

    def standing(self, build: OpenBuild) -> Standing:
        """How the build stands now."""
        return self._standing_of(build, build.now())

    def standing_before(self, build: OpenBuild, standing: Standing) -> Standing | None:
        """How the build stood before the change that led to this standing, None for the first."""
        before = build.before(standing.version)
        return None if before is None else self._standing_of(build, before)

    def _standing_of(self, build: OpenBuild, text: Text) -> Standing:
        return self._standings((build.path, text.version), lambda: _standing(text, build.path.name))

    async def tell(self, build: OpenBuild) -> None:
        """Tells who listens when the build is not what they were last told."""
        version = await run_in_threadpool(build.glance)
        if version is not None and self._told.get(build) != version:
            self._told[build] = version
            self.news.tell(build.name, version)

    async def watch(self) -> None:
        """Looks at the opened files for as long as the program runs."""
        while True:
            await asyncio.sleep(LOOK_EVERY)
            for build in list(self._opened.values()):
                await self.tell(build)


def _standing(current: Text, name: str) -> Standing:
    if current.refused is not None:
        return Standing("", current.version, {}, None, current.refused)
    return standing_of(current.text, current.version, name)


def desk_of(request: Request) -> Desk:
    """The desk of the application that was asked."""
    desk: Desk = request.app.state.desk
    return desk
