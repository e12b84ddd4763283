"""The drawing of a build as it stands in a page."""

from typing import Any

from beltwright.review.review import Review
from beltwright.web.refusal import NotYet
from beltwright.web.standing import Standing


def scene(standing: Standing, review: Review | None) -> str:
    """The belt layout as SVG, "" where there is nothing to draw."""
    if standing.build is None or review is None:
        return ""
    return ""


def drawing(standing: Standing) -> str:
    """The belt layout as a drawing that stands alone."""
    raise NotYet("The drawing is not there yet.")


def charts(standing: Standing) -> list[dict[str, Any]]:
    """The charts of a build as columns."""
    return []


def sheets(standing: Standing, paper: str) -> bytes:
    """The shop sheets as one PDF."""
    raise NotYet("The sheets are not there yet.")
