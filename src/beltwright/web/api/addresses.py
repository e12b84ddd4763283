"""One address of the API with everything that can be done at it."""

from collections.abc import Awaitable, Callable

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

Answer = Callable[[Request], Awaitable[Response]]


def address(
    path: str,
    *,
    get: Answer | None = None,
    post: Answer | None = None,
    delete: Answer | None = None,
) -> Route:
    """A route for all methods of a path, so that a refused method names all the others."""
    given = {"GET": get, "POST": post, "DELETE": delete}
    answers = {method: answer for method, answer in given.items() if answer is not None}

    async def answer(request: Request) -> Response:
        return await answers["GET" if request.method == "HEAD" else request.method](request)

    return Route(path, answer, methods=list(answers))
