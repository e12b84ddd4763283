"""Tells every open page when a build file changes."""

import asyncio
from collections import defaultdict
from collections.abc import AsyncGenerator

HEARTBEAT = 15.0
"""Seconds of silence after which a line is sent, so that a page that left is noticed."""


class News:
    """Who listens to which build. Used on the event loop only."""

    def __init__(self) -> None:
        self._listeners: dict[str, set[asyncio.Queue[str]]] = defaultdict(set)

    def tell(self, build: str, version: str) -> None:
        """Tells the listeners of a build; one that has not heard the last news hears only this."""
        for queue in self._listeners[build]:
            if queue.full():
                queue.get_nowait()
            queue.put_nowait(version)

    def listeners(self, build: str) -> int:
        """How many listen."""
        return len(self._listeners[build])

    async def listen(
        self, build: str, heartbeat: float = HEARTBEAT
    ) -> AsyncGenerator[str | None, None]:
        """None once it listens, the versions as they come, and None after every silence."""
        queue: asyncio.Queue[str] = asyncio.Queue(1)
        self._listeners[build].add(queue)
        try:
            yield None
            while True:
                try:
                    yield await asyncio.wait_for(queue.get(), heartbeat)
                except TimeoutError:
                    yield None
        finally:
            self._listeners[build].discard(queue)
