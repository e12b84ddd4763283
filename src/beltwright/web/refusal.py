"""Why the page refuses a request: one error shape for all of them.

Refusal                 any refusal, with its status and reason
├── NotThere            404: no such build, version, photo or search
├── Stale               409: the file changed since the page read it
├── Taken               409: a build of that name is there already
└── CannotRead          422: what was sent or written can't be used; carries the problems
"""

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from beltwright.build.errors import BuildError

Problem = dict[str, Any]
"""file, line, key, found, expected, example, reason."""

_PLAIN = {
    400: "This request can't be understood.",
    403: "This is not allowed from here.",
    404: "There is nothing at this address.",
    405: "This address can't be used that way.",
    408: "Sending took too long. Try again.",
    413: "This is too large.",
    415: "This kind of data is not taken here.",
}
_STATUS_WORD = {"Bad Request", "Forbidden", "Not Found", "Method Not Allowed"}


class Refusal(HTTPException):
    """A refusal with its reason in the builder's words."""

    def __init__(
        self, status: int, reason: str, problems: Sequence[Problem] = (), **more: object
    ) -> None:
        super().__init__(status, reason)
        self.problems = tuple(problems)
        self.more = more


class NotThere(Refusal):
    """What was asked for is not in the folder."""

    def __init__(self, what: str) -> None:
        super().__init__(404, what)


class Stale(Refusal):
    """The file is not the one that the page showed."""

    def __init__(self, seen: str, current: str) -> None:
        super().__init__(
            409,
            "The build file changed since this page read it. Look at the change, then try again.",
            seen=seen,
            current=current,
        )


class Taken(Refusal):
    """A name that another build has."""

    def __init__(self, name: str) -> None:
        super().__init__(409, f"There is a build called {name!r} already. Choose another name.")


class CannotRead(Refusal):
    """The build file, or what was to be written into it, can't be used."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        reason = str(problems[0]["reason"]) if problems else "The build file can't be used."
        super().__init__(422, reason, problems)


def as_problems(refused: BuildError | None) -> list[Problem]:
    """What is wrong with a file, as data."""
    return [] if refused is None else [asdict(problem) for problem in refused.problems]


def error_body(
    status: int, reason: str, problems: Sequence[Problem] = (), **more: object
) -> dict[str, Any]:
    """The one shape of an error."""
    return {"error": {"status": status, "reason": reason, "problems": list(problems), **more}}


def as_json(refused: HTTPException) -> JSONResponse:
    """A refusal as the API sends it."""
    if isinstance(refused, Refusal):
        body = error_body(refused.status_code, refused.detail, refused.problems, **refused.more)
    else:
        body = error_body(refused.status_code, plain_reason(refused))
    return JSONResponse(body, refused.status_code, headers=dict(refused.headers or {}))


def plain_reason(refused: HTTPException) -> str:
    """The reason in plain words, also where the framework refused."""
    if not refused.detail or refused.detail in _STATUS_WORD:
        return _PLAIN.get(refused.status_code, "This did not work.")
    return refused.detail


async def unexpected(_request: Request, _error: Exception) -> Response:
    """Says that something went wrong inside, and nothing about how."""
    reason = "Something went wrong inside. Nothing was written. Try again."
    return JSONResponse(error_body(500, reason), 500)
