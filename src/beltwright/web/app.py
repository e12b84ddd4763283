"""The local page as an application: routes, the door before them, one shape for every error."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from pathlib import Path

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles

from beltwright.web import entrance, pages
from beltwright.web.api import (
    builds,
    choosing,
    description,
    editing,
    measuring,
    new_idler,
    pictures,
)
from beltwright.web.desk import Desk
from beltwright.web.door import Door
from beltwright.web.folder import Folder
from beltwright.web.refusal import as_json, plain_reason, unexpected
from beltwright.web.safety import Safety

STATIC = Path(__file__).parent / "static"

_API = [
    *description.ROUTES,
    *builds.ROUTES,
    *editing.ROUTES,
    *pictures.ROUTES,
    *choosing.ROUTES,
    *new_idler.ROUTES,
    *measuring.ROUTES,
]


def make_app(folder: Path, door: Door, lan_address: str = "") -> Safety:
    """The page for the builds in a folder, for whoever the door lets in."""
    app = Starlette(
        routes=[
            *entrance.ROUTES,
            *pages.ROUTES,
            Mount("/api", routes=_API),
            Mount("/static", StaticFiles(directory=STATIC), name="static"),
        ],
        exception_handlers={HTTPException: _refused, Exception: unexpected},
        lifespan=_while_running,
    )
    app.state.desk = Desk(Folder(folder))
    app.state.door = door
    app.state.lan_address = lan_address
    return Safety(app, door)


@asynccontextmanager
async def _while_running(app: Starlette) -> AsyncIterator[None]:
    desk: Desk = app.state.desk
    watching = asyncio.create_task(desk.watch())
    try:
        yield
    finally:
        desk.searches.stop_all()
        watching.cancel()
        with suppress(asyncio.CancelledError):
            await watching


async def _refused(request: Request, refused: Exception) -> Response:
    """A refusal: a page for who reads pages, JSON for the API."""
    assert isinstance(refused, HTTPException)
    if request.url.path.startswith("/api"):
        return as_json(refused)
    data = {"status": refused.status_code, "reason": plain_reason(refused)}
    return pages.page(request, "refused.html", data, refused.status_code)
