"""All shop sheets of a build, each a PDF of its own."""

from beltwright.build.model import Build
from beltwright.drawing.pdf import pdf
from beltwright.drawing.sheet import A4, Paper
from beltwright.options.idler_place import places_of
from beltwright.review.case import Case
from beltwright.review.review import SAMPLES, Review, review
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
        **_to_make(build, found, made_on, paper),
    }
    if build.throttle:
        from beltwright.sheets.throttle_sheet import throttle_sheets

        pages = throttle_sheets(Case(build), found, made_on, paper)
        sheets["throttle"] = pdf(pages, f"{build.name}: set the throttle")
    if build.guard:
        from beltwright.sheets.guard_sheet import guard_sheets

        pages = guard_sheets(Case(build), found, made_on, paper)
        sheets["guards"] = pdf(pages, f"{build.name}: bend guards and keepers")
    return sheets


def _to_make(build: Build, found: Review, made_on: str, paper: Paper) -> dict[str, bytes]:
    """What to get, to drill and to cut, as far as the build has any of it."""
    case = Case(build)
    sheets = {}
    if build.part:
        from beltwright.sheets.shopping_sheet import shopping_pages

        pages = shopping_pages(case, found, made_on, paper)
        sheets["to-get-and-make"] = pdf(pages, f"{build.name}: to get and to make")
    if build.hole or any(pulley.hub for pulley in build.pulley):
        from beltwright.sheets.hole_sheet import hole_pages

        pages = hole_pages(case, found, made_on, paper)
        sheets["holes-and-hubs"] = pdf(pages, f"{build.name}: holes and hubs")
    if build.plate:
        from beltwright.sheets.plate_sheet import plate_pages

        pages = plate_pages(case, found, made_on, paper)
        sheets["plates"] = pdf(pages, f"{build.name}: plates and brackets, true size")
    return sheets
