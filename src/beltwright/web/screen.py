"""How wide a paper a screen shows; a phone's page leaves a cookie that says it is one."""

from starlette.requests import HTTPConnection

from beltwright.views.belt_layout import SCREEN_WIDTH

COOKIE = "beltwright-screen"
PHONE = "phone"
PHONE_WIDTH = 150.0
"""Its lettering can then be read on a phone held in the hand [mm]."""


def paper_width(request: HTTPConnection) -> float:
    """The width of the paper for who asks [mm]."""
    return PHONE_WIDTH if request.cookies.get(COOKIE) == PHONE else SCREEN_WIDTH
