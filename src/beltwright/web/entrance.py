"""The way in: with the key of this start, with the code on a phone, else words that say how."""

import re

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from beltwright.web.door import ENTRANCE, Door, at_this_machine
from beltwright.web.pages import page

LASTS = 7 * 24 * 3600
"""Seconds that a browser keeps the cookie, so that a bookmark works after it was closed; a cookie
of an earlier start opens nothing."""


async def _look(request: Request) -> Response:
    door: Door = request.app.state.door
    to = _on_this_page(request.query_params.get("to", "/"))
    key = request.query_params.get("key")
    if door.may_look(request):
        return RedirectResponse(to, 303)
    if key is None or request.method != "GET":
        return _closed(request, to)
    return _let_in(door, to) if door.key.take(key) else _closed(request, to, spent=True)


async def _enter(request: Request) -> Response:
    door: Door = request.app.state.door
    form = await request.form(max_files=0, max_fields=4)
    typed = form.get("code", "")
    if door.code is None or not isinstance(typed, str) or not door.code.take(typed):
        return _closed(request, "/", wrong=True)
    return _let_in(door, "/")


def _let_in(door: Door, to: str) -> Response:
    """Hands out the cookie, and leads on to an address that has no secret in it."""
    answer = RedirectResponse(to, 303)
    name, seat = door.seats.cookie_name, door.seats.issue()
    answer.set_cookie(name, seat, LASTS, path="/", httponly=True, samesite="strict")
    return answer


def _closed(request: Request, to: str, wrong: bool = False, spent: bool = False) -> Response:
    data = {
        "at_this_machine": at_this_machine(request),
        "code": request.query_params.get("code", ""),
        "wrong": wrong,
        "spent": spent,
        "to": to,
    }
    return page(request, "enter.html", data, 403 if wrong or spent else 200)


def _on_this_page(to: str) -> str:
    """An address within the page; who follows a link is not led elsewhere by it."""
    return to if re.match(r"/(?![/\\])", to) and to.isprintable() else "/"


ROUTES = [
    Route(ENTRANCE, _look, methods=["GET"]),
    Route(ENTRANCE, _enter, methods=["POST"]),
]
