"""The search for other parts: start, look, stop, apply one of its options.

What searches is loaded when it is first asked for, so that the first view does not wait for it.
"""

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from beltwright.web.api.builds import asked_for
from beltwright.web.api.searching import search_routes, started
from beltwright.web.api.sent import Seen, sent
from beltwright.web.searches import Work
from beltwright.web.standing import Standing


async def _start(request: Request) -> Response:
    _, build = asked_for(request)

    def work(standing: Standing) -> Work:
        from beltwright.web.choosing import work_for

        assert standing.build is not None
        return work_for(standing.build, build.path)

    return await started(request, "options", await sent(request, Seen), work)


def _data(found: Any) -> dict[str, Any]:
    from beltwright.web.choosing import chosen_data

    return chosen_data(found)


def _text_with(found: Any, number: int, text: str) -> str:
    from beltwright.web.choosing import text_with

    return text_with(found, number, text)


ROUTES = search_routes(
    "/builds/{build}/choose", "options", _start, _data, _text_with, "option {number} of the search"
)
