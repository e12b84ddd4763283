"""The search for other parts: start, look, stop, apply one of its options.

What searches is loaded when it is first asked for, so that the first view does not wait for it.
"""

from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from beltwright.web.api.addresses import address
from beltwright.web.api.builds import asked_for
from beltwright.web.api.editing import saved
from beltwright.web.api.sent import Apply, Seen, sent
from beltwright.web.refusal import CannotRead, Refusal, Stale, as_problems
from beltwright.web.searches import Search


async def _start(request: Request) -> Response:
    from beltwright.web.choosing import work_for

    desk, build = asked_for(request)
    body = await sent(request, Seen)
    standing = await run_in_threadpool(desk.standing, build)
    if standing.version != body.version:
        raise Stale(body.version, standing.version)
    if standing.build is None:
        raise CannotRead(as_problems(standing.refused))
    work = await run_in_threadpool(work_for, standing.build, build.path)
    search = desk.searches.start(build.name, standing.version, work)
    return JSONResponse({"job": search.id}, 202)


async def _progress(request: Request) -> Response:
    return JSONResponse(await run_in_threadpool(_shown, _search(request)))


async def _stop(request: Request) -> Response:
    search = _search(request)
    search.stopping.set()
    return JSONResponse(await run_in_threadpool(_shown, search))


async def _apply(request: Request) -> Response:
    desk, build = asked_for(request)
    body, search = await sent(request, Apply), _search(request)
    if search.found is None:
        raise Refusal(409, "The search is not done. Wait for it, or stop it.")
    if body.version != search.version:
        raise Stale(search.version, body.version)
    note = f"option {body.option} of the search"

    def write(text: str) -> str:
        from beltwright.web.choosing import text_with

        return text_with(search.found, body.option, text)

    return await saved(request, desk, build, lambda: build.change(body.version, write, note))


def _search(request: Request) -> Search:
    desk, build = asked_for(request)
    return desk.searches.find(build.name, request.path_params["job"])


def _shown(search: Search) -> dict[str, Any]:
    from beltwright.web.choosing import chosen_data

    found = None if search.found is None else chosen_data(search.found)
    return {
        "job": search.id,
        "version": search.version,
        "state": search.state,
        "reason": search.reason,
        "progress": search.progress,
        "found": found,
    }


ROUTES = [
    address("/builds/{build}/choose", post=_start),
    address("/builds/{build}/choose/{job}", get=_progress, delete=_stop),
    address("/builds/{build}/choose/{job}/apply", post=_apply),
]
