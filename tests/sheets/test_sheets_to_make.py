"""The sheets for the counter, for holes and for plates say what the review says."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from beltwright.build.model import Build
from beltwright.build.reading import read_build, read_text
from beltwright.drawing.extent import bounds
from beltwright.drawing.ink import Page
from beltwright.drawing.pdf import pdf
from beltwright.drawing.sheet import A4, LETTER, Paper
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.money.sums import cost_of, money
from beltwright.review.review import Review, review
from beltwright.review.thread.holes import insert_for, larger_threads, tap_hole
from beltwright.sheets.hole_sheet import hole_pages
from beltwright.sheets.plate_sheet import plate_pages
from beltwright.sheets.shopping_sheet import shopping_pages
from beltwright.tables.drills import nearest_drill

EXAMPLES = Path(__file__).parents[2] / "examples"
HAULER = EXAMPLES / "orchard-hauler" / "build.toml"
PULLER = EXAMPLES / "puller" / "build.toml"
Pages = Callable[[Case, Review, str, Paper], list[Page]]
MADE: tuple[Pages, ...] = (shopping_pages, hole_pages, plate_pages)


def words(build: Build, pages: Pages, paper: Paper = A4) -> str:
    made = pages(Case(build), review(build, 0), "2031-05-04", paper)
    text = " ".join(page.extract_text() for page in PdfReader(BytesIO(pdf(made, "t"))).pages)
    return " ".join(text.split())


def hauler(*changes: tuple[str, str]) -> Build:
    text = HAULER.read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return read_text(text)


@pytest.mark.parametrize("pages", MADE)
@pytest.mark.parametrize("paper", [A4, LETTER])
def test_all_ink_stays_on_the_paper(pages: Pages, paper: Paper) -> None:
    for path in (HAULER, PULLER):
        build = read_build(path)
        for page in pages(Case(build), review(build, 0), "2031-05-04", paper):
            (x0, y0), (x1, y1) = bounds(page.ink)
            assert min(x0, y0) >= 5.0
            assert x1 <= page.width - 5.0
            assert y1 <= page.height - 5.0


@pytest.mark.parametrize("pages", MADE)
def test_every_sheet_has_tools_and_cautions(pages: Pages) -> None:
    said = words(hauler(), pages)
    assert "Caution:" in said
    assert "Tools:" in said or "To take along:" in said


@pytest.mark.parametrize("path", [HAULER, PULLER], ids=["euros", "dollars"])
def test_the_money_is_that_of_the_review(path: Path) -> None:
    build = read_build(path)
    case, said = Case(build), words(build, shopping_pages)
    sums = money(case)
    for amount in (sums.spent, sums.to_buy, sums.to_make, sums.total):
        assert case.units.show(float(amount[0]), Kind.MONEY) in said
    for part in build.part:
        assert part.name.split()[0] in said
        if part.price is not None:
            assert case.units.show(float(cost_of(case, part)[0]), Kind.MONEY) in said
    for part in sums.unpriced:
        assert part.name in said.partition("No price yet")[2]


def test_parts_are_told_by_what_the_counter_asks_for() -> None:
    said = words(hauler(), shopping_pages)
    for marking in ("printed A76", "section A", "bore 25.4 mm", "key 6.35 mm", "M8", "3 N/mm"):
        assert marking in said


def test_what_no_entry_covers_stands_open() -> None:
    build = hauler()
    assert "On no list yet" not in words(build, shopping_pages)
    kept = tuple(part for part in build.part if part.use not in ("traction belt", "engine pulley"))
    spring = tuple(part for part in kept if part.use != "spring of the clutch idler")
    lacking: Build = build.model_copy(update={"part": spring})
    open_ = words(lacking, shopping_pages).partition("On no list yet")[2].partition("Money")[0]
    for name in ("traction belt", "engine pulley", "spring of the clutch idler"):
        assert name in open_
    assert "guide idler" not in open_


def test_places_are_donors_bin_shop_and_bench() -> None:
    said = words(hauler(), shopping_pages)
    places = ["From the donor, old mower deck", "From the shop", "To make"]
    assert [said.index(place) for place in places] == sorted(said.index(p) for p in places)
    bare = hauler().model_copy(
        update={
            "part": tuple(
                part.model_copy(update={"source": None}) for part in hauler().part if part.have
            )
        }
    )
    assert "From the bin" in words(bare, shopping_pages)


def test_a_worn_hole_is_told_its_drills_from_the_review() -> None:
    build = hauler()
    case, said = Case(build), words(build, hole_pages)
    hole = next(hole for hole in build.hole if hole.name == "idler bracket")
    for remake in (next(insert_for(case, hole)), next(larger_threads(case, hole))):
        assert remake.name in said
        assert nearest_drill(remake.drill, metric=True).name in said
    assert "only" in said.partition("Leave it")[2]


def test_a_tight_hole_is_drilled_and_a_good_one_is_tapped() -> None:
    tight = hauler(('diameter = "8.9 ± 0.1 mm"', 'diameter = "8 ± 0.1 mm"'))
    hole = next(hole for hole in tight.hole if hole.name == "idler bracket")
    drill = nearest_drill(tap_hole(hole), metric=True).name
    assert f"nearest drill {drill}), then tap it" in words(tight, hole_pages)
    good = hauler(('diameter = "8.9 ± 0.1 mm"', 'diameter = "8.5 ± 0.1 mm"'))
    assert "Tap it as it is" in words(good, hole_pages)


def test_a_hole_of_an_unknown_thread_is_not_lost() -> None:
    odd = hauler(('thread = "M10"', 'thread = "M9,5"'))
    assert "Measure first" in words(odd, hole_pages)


def test_hubs_have_their_readings_and_a_blank_for_each() -> None:
    said = words(hauler(), hole_pages)
    for reading in ("Bore, twice", "Key: width, height, length", "Set screw M8"):
        assert reading in said
    assert "25.38 mm to 25.5 mm" in said


def test_the_template_is_as_large_as_the_plate() -> None:
    build = hauler()
    said = words(build, plate_pages)
    for text in ("pivot, carries the clutch idler", "100 mm", "120 mm", "50 mm", "95 mm", "⌀10.5"):
        assert text in said
    assert f"No finding about the {build.plate[0].name} stands in the way." in said


def test_a_weak_plate_says_what_stands_in_its_way() -> None:
    thin = hauler(('thickness = "6 mm"', 'thickness = "1 mm"'))
    assert f"These findings about the {thin.plate[0].name} still stand" in words(thin, plate_pages)


def test_a_plate_that_cannot_be_drawn_yet_says_why() -> None:
    text = HAULER.read_text(encoding="utf-8").replace('diameter = "8.4 mm"', 'thread = "M8,5"', 1)
    assert "Not drawn yet" in words(read_text(text), plate_pages)


def test_a_large_plate_goes_over_several_sheets() -> None:
    wide = hauler(
        ('["100 mm", "0 mm"], ["100 mm", "40 mm"]', '["600 mm", "0 mm"], ["600 mm", "40 mm"]')
    )
    said = words(wide, plate_pages)
    assert "Map of" in said
