"""The search for a place for one more idler: start, look, stop, see a map, put one in.

What searches is loaded when it is first asked for, so that the first view does not wait for it.
"""

from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from beltwright.web.api.addresses import address
from beltwright.web.api.searching import found_of, search_of, search_routes, started
from beltwright.web.api.sent import OneMoreIdler, sent
from beltwright.web.refusal import NotThere
from beltwright.web.searches import Work
from beltwright.web.standing import Standing

WHAT = "idler"


async def _start(request: Request) -> Response:
    body = await sent(request, OneMoreIdler)

    def work(standing: Standing) -> Work:
        from beltwright.web.new_idler import work_for

        return work_for(standing, body.belt, body.outside)

    return await started(request, WHAT, body, work)


async def _map(request: Request) -> Response:
    from beltwright.web.new_idler import place_map

    search, number = search_of(request, WHAT), request.path_params["place"]
    if not number.isdecimal():
        raise NotThere("Places go by their number.")
    return JSONResponse(await run_in_threadpool(place_map, found_of(search), int(number)))


def _data(found: Any) -> dict[str, Any]:
    from beltwright.web.new_idler import places_data

    return places_data(found)


def _text_with(found: Any, number: int, text: str) -> str:
    from beltwright.web.new_idler import text_with

    return text_with(found, number, text)


PATH = "/builds/{build}/new-idler"

ROUTES = [
    *search_routes(PATH, WHAT, _start, _data, _text_with, "one more idler"),
    address(f"{PATH}/{{job}}/places/{{place}}", get=_map),
]
