"""Changes of a build file: edit, undo, redo, the kept history, and news of changes."""

import json
from collections.abc import AsyncIterator, Callable
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response, StreamingResponse

from beltwright.web.api.addresses import address
from beltwright.web.api.builds import asked_for
from beltwright.web.api.sent import Edits, Restore, Seen, sent
from beltwright.web.desk import Desk
from beltwright.web.open_build import OpenBuild
from beltwright.web.screen import Screen, screen_of
from beltwright.web.showing import as_shown


async def _edit(request: Request) -> Response:
    desk, build = asked_for(request)
    body = await sent(request, Edits)
    return await saved(
        request, desk, build, lambda: build.edit(body.version, body.edits, body.note)
    )


async def _undo(request: Request) -> Response:
    desk, build = asked_for(request)
    body = await sent(request, Seen)
    return await saved(request, desk, build, lambda: build.undo(body.version))


async def _redo(request: Request) -> Response:
    desk, build = asked_for(request)
    body = await sent(request, Seen)
    return await saved(request, desk, build, lambda: build.redo(body.version))


async def _restore(request: Request) -> Response:
    desk, build = asked_for(request)
    body = await sent(request, Restore)
    return await saved(request, desk, build, lambda: build.restore(body.version, body.to))


async def saved(
    request: Request, desk: Desk, build: OpenBuild, save: Callable[[], object]
) -> Response:
    """Saves, tells the other pages, and answers with how the build stands then."""
    shown = await run_in_threadpool(_save, desk, build, save, screen_of(request))
    await desk.tell(build)
    return JSONResponse(shown)


def _save(
    desk: Desk, build: OpenBuild, save: Callable[[], object], screen: Screen
) -> dict[str, Any]:
    save()
    return as_shown(desk, build, screen)


async def _history(request: Request) -> Response:
    _, build = asked_for(request)
    return JSONResponse(await run_in_threadpool(build.history))


async def _earlier(request: Request) -> Response:
    _, build = asked_for(request)
    version = request.path_params["version"]
    return JSONResponse(await run_in_threadpool(build.earlier, version))


async def _events(request: Request) -> Response:
    desk, build = asked_for(request)
    headers = {"X-Accel-Buffering": "no"}
    return StreamingResponse(_news(desk, build), 200, headers, "text/event-stream")


async def _news(desk: Desk, build: OpenBuild) -> AsyncIterator[str]:
    """What stands now, then every change; a comment in between keeps the line open."""
    news = desk.news.listen(build.name)
    await anext(news)  # so that a change while the file is read is heard
    yield _event((await run_in_threadpool(build.now)).version)
    async for version in news:
        yield ": still here\n\n" if version is None else _event(version)


def _event(version: str) -> str:
    return f"event: changed\ndata: {json.dumps({'version': version})}\n\n"


ROUTES = [
    address("/builds/{build}/edit", post=_edit),
    address("/builds/{build}/undo", post=_undo),
    address("/builds/{build}/redo", post=_redo),
    address("/builds/{build}/restore", post=_restore),
    address("/builds/{build}/history", get=_history),
    address("/builds/{build}/history/{version}", get=_earlier),
    address("/builds/{build}/events", get=_events),
]
