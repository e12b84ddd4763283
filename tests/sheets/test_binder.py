"""The binder holds a sheet for everything that a build has, and no other."""

from pathlib import Path

from beltwright.build.model import Build
from beltwright.build.reading import read_build, read_text
from beltwright.sheets.binder import SHEETS, Binder, shop_sheets
from beltwright.web.api.description import PATHS

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"
ALWAYS = ("belt-layout", "review", "first-drive")


def test_a_bare_build_has_layout_review_and_first_drive() -> None:
    bare = read_text('format = 1\nname = "bare"\n')
    assert Binder(bare, "2031-05-04").names == ALWAYS
    assert tuple(shop_sheets(bare, "2031-05-04")) == ALWAYS


def test_each_further_sheet_goes_with_what_it_is_about() -> None:
    build = read_build(EXAMPLE)
    whole = set(Binder(build, "2031-05-04").names)
    for name, table in (("plates", "plate"), ("to-get-and-make", "part")):
        assert name in whole
        without: Build = build.model_copy(update={table: ()})
        assert set(Binder(without, "2031-05-04").names) == whole - {name}


def test_a_sheet_begins_as_pdf() -> None:
    binder = Binder(read_build(EXAMPLE), "2031-05-04")
    assert binder.sheet("plates").startswith(b"%PDF-")


def test_the_page_describes_every_sheet() -> None:
    (sheet,) = (
        parameter
        for parameter in PATHS["/api/builds/{build}/sheets.pdf"]["get"]["parameters"]
        if parameter["name"] == "sheet"
    )
    assert set(sheet["schema"]["enum"]) == set(SHEETS)
