"""The search for other parts: start, look, stop, apply one of its options.

What searches is loaded when it is first asked for, so that the first view does not wait for it.
"""

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from beltwright.web.api.addresses import address
from beltwright.web.api.builds import asked_for
from beltwright.web.api.searching import looked_at, search_of, started, taken
from beltwright.web.api.sent import Seen, sent
from beltwright.web.searches import Search, Work
from beltwright.web.standing import Standing


async def _start(request: Request) -> Response:
    _, build = asked_for(request)

    def work(standing: Standing) -> Work:
        from beltwright.web.choosing import work_for

        assert standing.build is not None
        return work_for(standing.build, build.path)

    return await started(request, "options", await sent(request, Seen), work)


async def _progress(request: Request) -> Response:
    return await looked_at(_search(request), _data)


async def _stop(request: Request) -> Response:
    search = _search(request)
    search.stopping.set()
    return await looked_at(search, _data)


async def _apply(request: Request) -> Response:
    return await taken(request, _search(request), _text_with, "option {number} of the search")


def _search(request: Request) -> Search:
    return search_of(request, "options")


def _data(found: Any) -> dict[str, Any]:
    from beltwright.web.choosing import chosen_data

    return chosen_data(found)


def _text_with(found: Any, number: int, text: str) -> str:
    from beltwright.web.choosing import text_with

    return text_with(found, number, text)


ROUTES = [
    address("/builds/{build}/choose", post=_start),
    address("/builds/{build}/choose/{job}", get=_progress, delete=_stop),
    address("/builds/{build}/choose/{job}/apply", post=_apply),
]
