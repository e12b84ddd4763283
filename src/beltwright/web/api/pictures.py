"""Pictures of a build: its photo, drawing, charts, idler places and sheets."""

from dataclasses import asdict

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from beltwright.web.api.addresses import address
from beltwright.web.api.builds import asked_for
from beltwright.web.api.sent import sent_file
from beltwright.web.idler_places import idler_places
from beltwright.web.photo import keep_photo, photo_of
from beltwright.web.photo_taps import tapped_on
from beltwright.web.refusal import Refusal
from beltwright.web.scene import chart_data, contours, drawing, linkage_drawing, sheet

_STANDS_ALONE = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'none'"
)
"""A drawing opened by itself carries its own style, and no script may run in it."""

PAPERS = ("A4", "Letter")


async def _photo(request: Request) -> Response:
    _, build = asked_for(request)
    photo = await run_in_threadpool(photo_of, build.path)
    return Response(photo, media_type="image/jpeg")


async def _keep_photo(request: Request) -> Response:
    desk, build = asked_for(request)
    data, words = await sent_file(request, "photo", ("known", "sheet", "long_side", "tapped"))
    tapped = await run_in_threadpool(lambda: tapped_on(desk.standing(build), words))
    kept = await run_in_threadpool(keep_photo, build.path, data, tapped)
    return JSONResponse(asdict(kept), 201)


async def _drawing(request: Request) -> Response:
    desk, build = asked_for(request)
    svg = await run_in_threadpool(lambda: drawing(desk.standing(build)))
    return Response(svg, 200, {"Content-Security-Policy": _STANDS_ALONE}, "image/svg+xml")


async def _contours(request: Request) -> Response:
    desk, build = asked_for(request)
    plate = request.query_params.get("plate")
    dxf = await run_in_threadpool(lambda: contours(desk.standing(build), plate))
    # a plate's name may hold letters that no header takes
    headers = {"Content-Disposition": 'attachment; filename="drawing.dxf"'}
    return Response(dxf, 200, headers, "image/vnd.dxf")


async def _linkage(request: Request) -> Response:
    desk, build = asked_for(request)
    name = request.query_params.get("linkage", "")
    svg = await run_in_threadpool(lambda: linkage_drawing(desk.standing(build), name))
    return Response(svg, 200, {"Content-Security-Policy": _STANDS_ALONE}, "image/svg+xml")


async def _charts(request: Request) -> Response:
    desk, build = asked_for(request)
    return JSONResponse(await run_in_threadpool(lambda: chart_data(desk.standing(build))))


async def _idler_places(request: Request) -> Response:
    desk, build = asked_for(request)
    idler = request.query_params.get("idler", "")
    places = await run_in_threadpool(lambda: idler_places(desk.standing(build), idler))
    return JSONResponse(places)


async def _sheet(request: Request) -> Response:
    desk, build = asked_for(request)
    paper = request.query_params.get("paper", "A4")
    name = request.query_params.get("sheet", "belt-layout")
    if paper not in PAPERS:
        raise Refusal(422, "Choose the paper: A4 or Letter.")
    pdf = await run_in_threadpool(lambda: sheet(desk.standing(build), name, paper))
    headers = {"Content-Disposition": f'inline; filename="{name}.pdf"'}
    return Response(pdf, 200, headers, "application/pdf")


ROUTES = [
    address("/builds/{build}/photo", get=_photo, post=_keep_photo),
    address("/builds/{build}/drawing.svg", get=_drawing),
    address("/builds/{build}/linkage.svg", get=_linkage),
    address("/builds/{build}/drawing.dxf", get=_contours),
    address("/builds/{build}/charts", get=_charts),
    address("/builds/{build}/idler-places", get=_idler_places),
    address("/builds/{build}/sheets.pdf", get=_sheet),
]
