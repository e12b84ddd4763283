"""All shop sheets of a build, each a PDF of its own."""

from beltwright.build.model import Build
from beltwright.drawing.pdf import pdf
from beltwright.drawing.sheet import A4, Paper
from beltwright.options.idler_place import places_of
from beltwright.review.case import Case
from beltwright.review.review import SAMPLES, review
from beltwright.sheets.belt_layout_sheet import belt_layout_sheets
from beltwright.sheets.review_sheet import review_pages
from beltwright.views.charts import charts


def shop_sheets(
    build: Build, made_on: str, paper: Paper = A4, idler: str | None = None
) -> dict[str, bytes]:
    """The sheets by name: the belt layout at true size, the review, and those of what it has.

    With an idler named, the layout shows every place where it may stand.
    """
    found = review(build)
    drawn, _ = charts(Case(build, SAMPLES))
    sheets = {
        "belt-layout": pdf(
            belt_layout_sheets(
                Case(build),
                found,
                made_on,
                paper,
                None if idler is None else places_of(build, idler),
            ),
            f"{build.name}: belt layout, true size",
        ),
        "review": pdf(review_pages(found, drawn, made_on, paper), f"{build.name}: review"),
    }
    if build.throttle:
        from beltwright.sheets.throttle_sheet import throttle_sheets

        pages = throttle_sheets(Case(build), found, made_on, paper)
        sheets["throttle"] = pdf(pages, f"{build.name}: set the throttle")
    return sheets
