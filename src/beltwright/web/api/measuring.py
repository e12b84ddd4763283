"""Readings that the page sends to be measured; nothing is kept of them."""

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from beltwright.web.api.addresses import address
from beltwright.web.api.builds import asked_for
from beltwright.web.api.sent import sent_file
from beltwright.web.recording import speed_from


async def _recording(request: Request) -> Response:
    asked_for(request)
    data, words = await sent_file(request, "recording", ("cylinders", "strokes"))
    return JSONResponse(await run_in_threadpool(speed_from, data, words))


ROUTES = [
    address("/builds/{build}/recording", post=_recording),
]
