"""What a screen shows: how wide a paper, and which view of the belts.

A phone's page leaves a cookie that says it is one. A page that was switched to another view names
it in whatever it asks for, and leaves a cookie for the page that is opened next.
"""

from dataclasses import dataclass

from starlette.requests import HTTPConnection

from beltwright.views.layout.screen_layout import SCREEN_WIDTH

COOKIE = "beltwright-screen"
VIEW_COOKIE = "beltwright-view"
PHONE = "phone"
PHONE_WIDTH = 150.0
"""Its lettering can then be read on a phone held in the hand [mm]."""


@dataclass(frozen=True)
class Screen:
    """The width of its paper [mm], and the view that it shows, "" for the first."""

    width: float = SCREEN_WIDTH
    view: str = ""


def screen_of(request: HTTPConnection) -> Screen:
    """The screen of who asks."""
    width = PHONE_WIDTH if request.cookies.get(COOKIE) == PHONE else SCREEN_WIDTH
    opens_page = not request.url.path.startswith("/api")
    left = request.cookies.get(VIEW_COOKIE, "") if opens_page else ""
    return Screen(width, request.query_params.get("view", left))
