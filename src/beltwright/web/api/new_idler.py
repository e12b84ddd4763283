"""The search for a place for one more idler: start, look, stop, see a map, put one in.

What searches is loaded when it is first asked for, so that the first view does not wait for it.
"""

from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from beltwright.web.api.addresses import address
from beltwright.web.api.searching import looked_at, search_of, started, taken
from beltwright.web.api.sent import OneMoreIdler, sent
from beltwright.web.refusal import NotThere, Refusal
from beltwright.web.searches import Search, Work
from beltwright.web.standing import Standing


async def _start(request: Request) -> Response:
    body = await sent(request, OneMoreIdler)

    def work(standing: Standing) -> Work:
        from beltwright.web.new_idler import work_for

        return work_for(standing, body.belt, body.outside)

    return await started(request, "idler", body, work)


async def _progress(request: Request) -> Response:
    return await looked_at(_search(request), _data)


async def _stop(request: Request) -> Response:
    search = _search(request)
    search.stopping.set()
    return await looked_at(search, _data)


async def _map(request: Request) -> Response:
    from beltwright.web.new_idler import place_map

    search, number = _search(request), request.path_params["place"]
    if not number.isdecimal():
        raise NotThere("Places go by their number.")
    if search.found is None:
        raise Refusal(409, "The search is not done. Wait for it, or stop it.")
    return JSONResponse(await run_in_threadpool(place_map, search.found, int(number)))


async def _apply(request: Request) -> Response:
    return await taken(request, _search(request), _text_with, "one more idler")


def _search(request: Request) -> Search:
    return search_of(request, "idler")


def _data(found: Any) -> dict[str, Any]:
    from beltwright.web.new_idler import places_data

    return places_data(found)


def _text_with(found: Any, number: int, text: str) -> str:
    from beltwright.web.new_idler import text_with

    return text_with(found, number, text)


ROUTES = [
    address("/builds/{build}/new-idler", post=_start),
    address("/builds/{build}/new-idler/{job}", get=_progress, delete=_stop),
    address("/builds/{build}/new-idler/{job}/places/{place}", get=_map),
    address("/builds/{build}/new-idler/{job}/apply", post=_apply),
]
