"""The drawing, the charts and the sheets of a build, as a page shows them."""

from datetime import date
from typing import Any

from beltwright.build.model import Build
from beltwright.drawing.sheet import PAPERS
from beltwright.drawing.svg import svg
from beltwright.review.case import Case
from beltwright.review.review import SAMPLES, Review
from beltwright.views.belt_layout import belt_layout_pages, belt_layout_svg
from beltwright.views.charts import charts
from beltwright.web.chart_columns import chart_columns
from beltwright.web.refusal import CannotRead, NotThere, as_problems
from beltwright.web.standing import Standing


def scene(standing: Standing, width: float) -> str:
    """The belt layout for the page on paper of a width [mm], "" where there is nothing to draw."""
    build, review = standing.build, standing.review
    if build is None or review is None:
        return ""
    return standing.once(("scene", width), lambda: belt_layout_svg(Case(build), review, width))


def trial_scene(case: Case, review: Review, width: float) -> str:
    """The belt layout of a build that is only tried."""
    return belt_layout_svg(case, review, width)


def drawing(standing: Standing) -> str:
    """The belt layout as a sheet that stands alone."""
    build, review = _usable(standing), standing.review
    assert review is not None
    pages = belt_layout_pages(Case(build), review, date.today().isoformat())
    if not pages:
        raise NotThere("There is no belt to draw.")
    return svg(pages[0])


def chart_data(standing: Standing) -> dict[str, Any]:
    """The charts of a build as columns, and for each that can't be drawn what to measure."""
    build = _usable(standing)
    return standing.once("charts", lambda: _chart_data(build))


def sheet(standing: Standing, name: str, paper: str) -> bytes:
    """One of the shop sheets as PDF."""
    from beltwright.sheets.binder import shop_sheets

    build = _usable(standing)
    made_on = date.today().isoformat()
    sheets = standing.once(
        ("sheets", paper, made_on), lambda: shop_sheets(build, made_on, PAPERS[paper])
    )
    if name not in sheets:
        raise NotThere(f"There is no such sheet; there are: {', '.join(sheets)}.")
    return sheets[name]


def _usable(standing: Standing) -> Build:
    if standing.build is None:
        raise CannotRead(as_problems(standing.refused))
    return standing.build


def _chart_data(build: Build) -> dict[str, Any]:
    drawn, missing = charts(Case(build, SAMPLES))
    return {
        "charts": [chart_columns(name, chart) for name, chart in drawn.items()],
        "missing": missing,
    }
