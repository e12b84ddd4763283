"""The OpenAPI description of the API, put together from what may be sent."""

from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import models_json_schema
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from beltwright.web.api.addresses import address
from beltwright.web.api.sent import (
    Apply,
    Duplicate,
    Edits,
    New,
    OneMoreIdler,
    Restore,
    Seen,
    Trial,
)

_BODIES: tuple[type[BaseModel], ...] = (
    Apply,
    Duplicate,
    Edits,
    New,
    OneMoreIdler,
    Restore,
    Seen,
    Trial,
)
_SCHEMA = "#/components/schemas/{model}"

_NAME = {"name": "build", "in": "path", "required": True, "schema": {"type": "string"}}
_VERSION = {"name": "version", "in": "path", "required": True, "schema": {"type": "string"}}
_JOB = {"name": "job", "in": "path", "required": True, "schema": {"type": "string"}}
_PLACE = {"name": "place", "in": "path", "required": True, "schema": {"type": "integer"}}
_PAPER = {
    "name": "paper",
    "in": "query",
    "schema": {"type": "string", "enum": ["A4", "Letter"], "default": "A4"},
}
_SHEETS = [
    "belt-layout",
    "review",
    "to-get-and-make",
    "holes-and-hubs",
    "plates",
    "linkages",
    "throttle",
    "guards",
    "first-drive",
]
_SHEET = {
    "name": "sheet",
    "in": "query",
    "schema": {"type": "string", "enum": _SHEETS, "default": "belt-layout"},
}
_PLATE = {"name": "plate", "in": "query", "schema": {"type": "string"}}
_LINKAGE = {"name": "linkage", "in": "query", "required": True, "schema": {"type": "string"}}
_VIEW = {"name": "view", "in": "query", "schema": {"type": "string"}}
_IDLER = {"name": "idler", "in": "query", "required": True, "schema": {"type": "string"}}

_PROBLEM = {
    "type": "object",
    "required": ["file", "line", "key", "found", "expected", "example", "reason"],
    "properties": {
        "file": {"type": "string"},
        "line": {"type": ["integer", "null"]},
        **{name: {"type": "string"} for name in ("key", "found", "expected", "example", "reason")},
    },
}
_ERROR = {
    "type": "object",
    "required": ["error"],
    "additionalProperties": False,
    "properties": {
        "error": {
            "type": "object",
            "required": ["status", "reason", "problems"],
            "properties": {
                "status": {"type": "integer"},
                "reason": {"type": "string", "minLength": 1},
                "problems": {"type": "array", "items": {"$ref": "#/components/schemas/Problem"}},
                "seen": {"type": "string"},
                "current": {"type": "string"},
            },
        }
    },
}
_FILE = {"type": "string", "format": "binary"}
_TAPS = {
    "type": "array",
    "minItems": 5,
    "maxItems": 5,
    "items": {"type": "array", "minItems": 2, "maxItems": 2, "items": {"type": "number"}},
}
_PHOTO = {
    "type": "object",
    "required": ["photo", "sheet", "long_side", "tapped"],
    "properties": {
        "photo": _FILE,
        "sheet": {"type": "string", "enum": ["A4", "A3", "Letter"]},
        "long_side": {"type": "string", "enum": ["forwards", "across"]},
        "tapped": _TAPS,
        "known": {"type": "string"},
    },
}
_RECORDING = {
    "type": "object",
    "required": ["recording", "cylinders", "strokes"],
    "properties": {
        "recording": _FILE,
        "cylinders": {"type": "integer", "minimum": 1, "maximum": 4},
        "strokes": {"type": "integer", "enum": [2, 4]},
    },
}


def _error(says: str) -> dict[str, Any]:
    schema = {"$ref": "#/components/schemas/Error"}
    return {"description": says, "content": {"application/json": {"schema": schema}}}


_REFUSED = {
    "400": _error("it can't be understood"),
    "401": _error("a phone has to enter the code"),
    "403": _error("not from here, or without the page's token"),
    "404": _error("no such build, version, photo or search"),
    "409": _error("the file changed since it was read, the name is taken, or there is nothing"),
    "413": _error("too large"),
    "415": _error("another kind of data is wanted"),
    "422": _error("what was sent, or the file, can't be used"),
    "503": _error("the disk would not take it"),
}


def _asks(
    says: str,
    *,
    path: tuple[Any, ...] = (_NAME,),
    body: type[BaseModel] | dict[str, Any] | None = None,
    gives: str = "application/json",
    status: int = 200,
) -> dict[str, Any]:
    """One operation: what it does, what it takes, what it gives."""
    operation: dict[str, Any] = {
        "summary": says,
        "parameters": list(path),
        "responses": {
            str(status): {"description": says, "content": {gives: {}}},
            **_REFUSED,
        },
    }
    if isinstance(body, dict):
        operation["requestBody"] = _content("multipart/form-data", body)
    elif body is not None:
        schema = {"$ref": _SCHEMA.format(model=body.__name__)}
        operation["requestBody"] = _content("application/json", schema)
    return operation


def _content(media: str, schema: dict[str, Any]) -> dict[str, Any]:
    return {"required": True, "content": {media: {"schema": schema}}}


PATHS: dict[str, dict[str, dict[str, Any]]] = {
    "/api/builds": {
        "get": _asks("the builds in the folder", path=()),
        "post": _asks("a new build from the starter", path=(), body=New, status=201),
    },
    "/api/builds/{build}": {"get": _asks("how a build stands", path=(_NAME, _VIEW))},
    "/api/builds/{build}/try": {
        "post": _asks("how it would stand", path=(_NAME, _VIEW), body=Trial)
    },
    "/api/builds/{build}/duplicate": {"post": _asks("a copy", body=Duplicate, status=201)},
    "/api/builds/{build}/edit": {"post": _asks("save a change", path=(_NAME, _VIEW), body=Edits)},
    "/api/builds/{build}/undo": {
        "post": _asks("undo the last change", path=(_NAME, _VIEW), body=Seen)
    },
    "/api/builds/{build}/redo": {
        "post": _asks("redo what was undone", path=(_NAME, _VIEW), body=Seen)
    },
    "/api/builds/{build}/restore": {
        "post": _asks("let an earlier text stand", path=(_NAME, _VIEW), body=Restore)
    },
    "/api/builds/{build}/history": {"get": _asks("the versions that were kept")},
    "/api/builds/{build}/history/{version}": {
        "get": _asks("an earlier version", path=(_NAME, _VERSION))
    },
    "/api/builds/{build}/events": {"get": _asks("changes as they come", gives="text/event-stream")},
    "/api/builds/{build}/photo": {
        "get": _asks("the photo under it", gives="image/jpeg"),
        "post": _asks("lay a photo under it", body=_PHOTO, status=201),
    },
    "/api/builds/{build}/recording": {
        "post": _asks("engine speed from a recording; nothing is kept", body=_RECORDING)
    },
    "/api/builds/{build}/drawing.svg": {"get": _asks("its drawing", gives="image/svg+xml")},
    "/api/builds/{build}/linkage.svg": {
        "get": _asks("a linkage's drawing", path=(_NAME, _LINKAGE), gives="image/svg+xml")
    },
    "/api/builds/{build}/drawing.dxf": {
        "get": _asks(
            "its belt layout or a plate at true size", path=(_NAME, _PLATE), gives="image/vnd.dxf"
        )
    },
    "/api/builds/{build}/charts": {"get": _asks("its charts as columns")},
    "/api/builds/{build}/idler-places": {
        "get": _asks("where an idler may stand", path=(_NAME, _IDLER))
    },
    "/api/builds/{build}/sheets.pdf": {
        "get": _asks("one of its sheets", path=(_NAME, _PAPER, _SHEET), gives="application/pdf")
    },
    "/api/builds/{build}/choose": {"post": _asks("start a search", body=Seen, status=202)},
    "/api/builds/{build}/choose/{job}": {
        "get": _asks("how far a search is", path=(_NAME, _JOB)),
        "delete": _asks("stop a search", path=(_NAME, _JOB)),
    },
    "/api/builds/{build}/choose/{job}/apply": {
        "post": _asks("save an option", path=(_NAME, _JOB, _VIEW), body=Apply)
    },
    "/api/builds/{build}/new-idler": {
        "post": _asks("look where one more idler helps", body=OneMoreIdler, status=202)
    },
    "/api/builds/{build}/new-idler/{job}": {
        "get": _asks("how far that search is", path=(_NAME, _JOB)),
        "delete": _asks("stop that search", path=(_NAME, _JOB)),
    },
    "/api/builds/{build}/new-idler/{job}/places/{place}": {
        "get": _asks("the map round a place that was found", path=(_NAME, _JOB, _PLACE))
    },
    "/api/builds/{build}/new-idler/{job}/apply": {
        "post": _asks("put one of the idlers in", path=(_NAME, _JOB, _VIEW), body=Apply)
    },
}


def description() -> dict[str, Any]:
    """The OpenAPI 3.1 document."""
    _, schemas = models_json_schema(
        [(body, "validation") for body in _BODIES], ref_template=_SCHEMA
    )
    return {
        "openapi": "3.1.0",
        "info": {"title": "Beltwright, the local page", "version": "1"},
        "paths": PATHS,
        "components": {"schemas": {"Problem": _PROBLEM, "Error": _ERROR, **schemas["$defs"]}},
    }


async def _description(_request: Request) -> Response:
    return JSONResponse(description())


ROUTES = [
    address("/openapi.json", get=_description),
]
