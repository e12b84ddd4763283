"""The pages: one template for each place, filled from plain data."""

import asyncio
from datetime import date
from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route
from starlette.templating import Jinja2Templates

from beltwright.drawing.svg import stylesheet
from beltwright.quantity import Units
from beltwright.review.names.naming import choice_name, name_of
from beltwright.review.spread import MOST_MEASUREMENTS
from beltwright.views.assumed import capital
from beltwright.web.desk import Desk, desk_of
from beltwright.web.door import Door
from beltwright.web.forms.place_forms import forms_for
from beltwright.web.forms.sketch import SKETCHES
from beltwright.web.range_bar import range_bar
from beltwright.web.refusal import NotThere
from beltwright.web.screen import Screen, screen_of
from beltwright.web.showing import as_shown, compared, counts, listed, phone

PLACES = ("measure", "choose", "check", "make", "prove")
"""In the order of the work."""

PATIENCE = 2.0
"""Seconds that a browser may show nothing; then the page says that it is at work."""


def _today() -> str:
    return date.today().isoformat()


templates = Jinja2Templates(Path(__file__).parent / "templates")
templates.env.globals.update(
    choice_name=choice_name,
    most_measurements=MOST_MEASUREMENTS,
    name_of=name_of,
    range_bar=range_bar,
    sentence=capital,
    sketch_words=SKETCHES,
    today=_today,
    zip=zip,
)
templates.env.trim_blocks = templates.env.lstrip_blocks = True


def page(request: Request, name: str, data: dict[str, Any], status: int = 200) -> Response:
    """A page with the token that its changes need, none for who was not let in."""
    door: Door = request.app.state.door
    seat = door.cookie(request)
    data["token"] = door.seats.token(seat) if seat and door.may_look(request) else ""
    return templates.TemplateResponse(request, name, data, status)


async def _builds(request: Request) -> Response:
    desk = desk_of(request)
    rows = await run_in_threadpool(listed, desk)
    data = {"folder": desk.folder.path.resolve().name, "builds": rows, "phone": phone(request)}
    return page(request, "builds.html", data)


async def _counts(request: Request) -> Response:
    desk = desk_of(request)
    found = await run_in_threadpool(_count, desk, request.path_params["build"])
    return page(request, "counts.html", {"counts": found})


async def _build(request: Request) -> Response:
    return RedirectResponse(f"{request.url.path.rstrip('/')}/check", 303)


async def _place(request: Request) -> Response:
    place = request.path_params["place"]
    if place not in PLACES:
        raise NotThere("There is no such place.")
    work = asyncio.ensure_future(_shown(request))
    if "hx-request" not in request.headers:  # what a script asks for, it waits for
        await asyncio.wait({work}, timeout=PATIENCE)
        if not work.done():
            return _waiting(request, work)
    build = await work
    units = await run_in_threadpool(_units, desk_of(request), build["name"])
    forms = forms_for(place, build["values"], units)
    data = {"place": place, "places": PLACES, "build": build, "paper": units.paper(), **forms}
    return page(request, f"{place}.html", data)


def _waiting(request: Request, work: "asyncio.Future[Any]") -> Response:
    """A page that says that the review is at work; the work goes on, and the next look has it."""
    work.add_done_callback(asyncio.Future.exception)
    data = {"name": request.path_params["build"], "address": request.url.path}
    return page(request, "waiting.html", data, 202)


async def _compare(request: Request) -> Response:
    a, b = request.query_params.get("a", ""), request.query_params.get("b", "")
    return page(request, "compare.html", await run_in_threadpool(compared, desk_of(request), a, b))


async def _history(request: Request) -> Response:
    build = desk_of(request).open(request.path_params["build"])
    versions = await run_in_threadpool(build.history)
    return page(request, "history.html", {"build": await _shown(request), "versions": versions})


async def _version(request: Request) -> Response:
    build = desk_of(request).open(request.path_params["build"])
    earlier = await run_in_threadpool(build.earlier, request.path_params["version"])
    return page(request, "version.html", {"build": await _shown(request), "earlier": earlier})


async def _shown(request: Request) -> dict[str, Any]:
    desk = desk_of(request)
    return await run_in_threadpool(_show, desk, request.path_params["build"], screen_of(request))


def _count(desk: Desk, name: str) -> dict[str, int]:
    return counts(desk.standing(desk.open(name)).review)


def _units(desk: Desk, name: str) -> Units:
    """The units of a build, the usual ones where it can't be used."""
    review = desk.standing(desk.open(name)).review
    return Units() if review is None else review.units


def _show(desk: Desk, name: str, screen: Screen) -> dict[str, Any]:
    return as_shown(desk, desk.open(name), screen)


async def _drawing_style(_request: Request) -> Response:
    return Response(stylesheet(), media_type="text/css")


ROUTES = [
    Route("/static/drawing.css", _drawing_style),
    Route("/", _builds),
    Route("/compare", _compare),
    Route("/b/{build}", _build),
    Route("/b/{build}/counts", _counts),
    Route("/b/{build}/history", _history),
    Route("/b/{build}/history/{version}", _version),
    Route("/b/{build}/{place}", _place),
]
