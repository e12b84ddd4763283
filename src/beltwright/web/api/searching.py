"""What all searches share: started on the text that was seen, looked at, stopped, put in."""

from collections.abc import Callable
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from beltwright.web.api.addresses import Answer, address
from beltwright.web.api.builds import asked_for
from beltwright.web.api.editing import saved
from beltwright.web.api.sent import Apply, Seen, sent
from beltwright.web.refusal import CannotRead, Refusal, Stale, as_problems
from beltwright.web.searches import Search, Work
from beltwright.web.standing import Standing


async def started(
    request: Request, what: str, body: Seen, work: Callable[[Standing], Work]
) -> Response:
    """Starts a search of the build as the page has seen it."""
    desk, build = asked_for(request)
    standing = await run_in_threadpool(desk.standing, build)
    if standing.version != body.version:
        raise Stale(body.version, standing.version)
    if standing.build is None:
        raise CannotRead(as_problems(standing.refused))
    doing = await run_in_threadpool(work, standing)
    search = desk.searches.start(build.name, standing.version, what, doing)
    return JSONResponse({"job": search.id}, 202)


def search_of(request: Request, what: str) -> Search:
    """The search that is asked about."""
    desk, build = asked_for(request)
    return desk.searches.find(build.name, request.path_params["job"], what)


def search_routes(
    path: str,
    what: str,
    start: Answer,
    data: Callable[[Any], Any],
    write: Callable[[Any, int, str], str],
    note: str,
) -> list[Route]:
    """The addresses of one kind of search.

    `data` tells what was found; `write` puts one of it, by its number, into the build's text, which
    is saved under `note`.
    """

    async def look(request: Request) -> Response:
        return await _looked_at(search_of(request, what), data)

    async def stop(request: Request) -> Response:
        search = search_of(request, what)
        search.stopping.set()
        return await _looked_at(search, data)

    async def apply(request: Request) -> Response:
        return await _applied(request, search_of(request, what), write, note)

    return [
        address(path, post=start),
        address(f"{path}/{{job}}", get=look, delete=stop),
        address(f"{path}/{{job}}/apply", post=apply),
    ]


async def _looked_at(search: Search, data: Callable[[Any], Any]) -> Response:
    return JSONResponse(await run_in_threadpool(_shown, search, data))


def found_of(search: Search) -> Any:
    """What a search found, once it is done."""
    if search.found is None:
        raise Refusal(409, "The search is not done. Wait for it, or stop it.")
    return search.found


def _shown(search: Search, data: Callable[[Any], Any]) -> dict[str, Any]:
    return {
        "job": search.id,
        "version": search.version,
        "state": search.state,
        "reason": search.reason,
        "progress": search.progress,
        "found": None if search.found is None else data(search.found),
    }


async def _applied(
    request: Request, search: Search, write: Callable[[Any, int, str], str], note: str
) -> Response:
    desk, build = asked_for(request)
    body = await sent(request, Apply)
    found = found_of(search)
    if body.version != search.version:
        raise Stale(search.version, body.version)

    def put_in(text: str) -> str:
        return write(found, body.option, text)

    told = note.format(number=body.option)
    return await saved(request, desk, build, lambda: build.change(body.version, put_in, told))
