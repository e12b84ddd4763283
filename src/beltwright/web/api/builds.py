"""The builds in the folder: list, look, try, new, copy."""

from functools import partial
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from beltwright.build.starter import starter_text
from beltwright.web.api.addresses import address
from beltwright.web.api.sent import Duplicate, New, Trial, sent
from beltwright.web.desk import Desk, desk_of
from beltwright.web.open_build import OpenBuild
from beltwright.web.screen import Screen, screen_of
from beltwright.web.showing import as_shown, counted
from beltwright.web.trying import tried


async def _list(request: Request) -> Response:
    return JSONResponse(await run_in_threadpool(counted, desk_of(request)))


async def _look(request: Request) -> Response:
    desk, build = asked_for(request)
    return JSONResponse(await run_in_threadpool(as_shown, desk, build, screen_of(request)))


async def _try(request: Request) -> Response:
    desk, build = asked_for(request)
    trial = await sent(request, Trial)
    screen = screen_of(request)
    work = partial(tried, desk, build, trial.version, trial.edits, screen, moving=trial.moving)
    return JSONResponse(await run_in_threadpool(work))


async def _new(request: Request) -> Response:
    desk, new = desk_of(request), await sent(request, New)
    return JSONResponse(await run_in_threadpool(_write_new, desk, new.name, starter_text()), 201)


async def _duplicate(request: Request) -> Response:
    desk, build = asked_for(request)
    wanted = await sent(request, Duplicate)
    text = await run_in_threadpool(build.seen, wanted.version)
    return JSONResponse(await run_in_threadpool(_write_new, desk, wanted.name, text), 201)


def _write_new(desk: Desk, name: str, text: str) -> dict[str, Any]:
    desk.folder.write_new(name, text)
    return as_shown(desk, desk.open(name), Screen())


def asked_for(request: Request) -> tuple[Desk, OpenBuild]:
    """The desk, and the build that the address names."""
    desk = desk_of(request)
    return desk, desk.open(request.path_params["build"])


ROUTES = [
    address("/builds", get=_list, post=_new),
    address("/builds/{build}", get=_look),
    address("/builds/{build}/try", post=_try),
    address("/builds/{build}/duplicate", post=_duplicate),
]
