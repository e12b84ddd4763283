"""The drawing of a build as it stands in a page."""

from typing import Any

from beltwright.build.model import Build
from beltwright.review.case import Case
from beltwright.review.review import SAMPLES, Review
from beltwright.views.charts import charts
from beltwright.web.chart_columns import chart_columns
from beltwright.web.refusal import CannotRead, NotYet, as_problems
from beltwright.web.standing import Standing


def scene(standing: Standing, review: Review | None) -> str:
    """The belt layout as SVG, "" where there is nothing to draw."""
    if standing.build is None or review is None:
        return ""
    return ""


def drawing(standing: Standing) -> str:
    """The belt layout as a drawing that stands alone."""
    raise NotYet("The drawing is not there yet.")


def chart_data(standing: Standing) -> dict[str, Any]:
    """The charts of a build as columns, and for each that can't be drawn what to measure."""
    build = standing.build
    if build is None:
        raise CannotRead(as_problems(standing.refused))
    return standing.once("charts", lambda: _chart_data(build))


def _chart_data(build: Build) -> dict[str, Any]:
    drawn, missing = charts(Case(build, SAMPLES))
    return {
        "charts": [chart_columns(name, chart) for name, chart in drawn.items()],
        "missing": missing,
    }


def sheets(standing: Standing, paper: str) -> bytes:
    """The shop sheets as one PDF."""
    raise NotYet("The sheets are not there yet.")
