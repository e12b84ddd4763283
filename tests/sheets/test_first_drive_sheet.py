"""The first drive on paper: its steps in order, what to expect, what still blocks it."""

import re
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from beltwright.build.reading import read_build
from beltwright.drawing.extent import bounds
from beltwright.drawing.pdf import pdf
from beltwright.drawing.sheet import A4, LETTER, Paper
from beltwright.review.finding import Verdict
from beltwright.review.review import Review, review
from beltwright.sheets.binder import Binder
from beltwright.sheets.first_drive_sheet import first_drive_pages
from beltwright.views.first_drive import STEPS

EXAMPLES = Path(__file__).parents[2] / "examples"


def found(name: str) -> Review:
    """The review of an example."""
    return review(read_build(EXAMPLES / name / "build.toml"), samples=50)


def words(review_: Review, paper: Paper = A4) -> str:
    """What stands on the sheets."""
    pages = pdf(first_drive_pages(review_, "2031-11-08", paper), "First drive")
    text = "\n".join(page.extract_text() for page in PdfReader(BytesIO(pages)).pages)
    return " ".join(text.split())


def test_the_steps_stand_in_order_with_their_cautions() -> None:
    text = words(found("path-sweeper"))
    places = [text.index(f"{number}. {step.title}") for number, step in enumerate(STEPS, 1)]
    assert places == sorted(places)
    for step in STEPS:
        assert " ".join(f"Caution: {step.caution}".split()[:5]) in text


def test_every_step_says_what_to_expect() -> None:
    plan = found("path-sweeper")
    text = words(plan)
    for step in STEPS:
        spoken = [each for each in plan.findings if step.speaks(each.id)]
        assert spoken
        for finding in spoken:
            assert finding.shown.split()[0] in text


def test_nobody_is_asked_to_read_what_must_not_be_reached() -> None:
    told = {"climb.front_lift", "stability.side_slope", "gearbox.case_pressure"}
    ids = {finding.id for finding in found("path-sweeper").findings}
    for step in STEPS:
        spoken = {id_ for id_ in ids if step.speaks(id_)}
        assert {id_ for id_ in spoken if not step.reads(id_)} == spoken & told
    assert not any(step.speaks("brake.torque") for step in STEPS), "no tool of a shop reads it"


def test_the_press_says_how_far_it_moves_the_belt() -> None:
    plan = found("path-sweeper")
    presses = [each for each in plan.findings if each.id.endswith(".press_test")]
    assert presses
    for press in presses:
        assert re.fullmatch(r"[0-9.]+ N moves it [0-9.]+ mm", press.shown)
        assert press.shown in words(plan)


@pytest.mark.parametrize(("name", "blocked"), [("puller", True), ("path-sweeper", False)])
def test_what_says_stop_stands_before_the_first_step(name: str, blocked: bool) -> None:
    plan = found(name)
    text = words(plan)
    assert ("Do not drive yet" in text) is blocked
    assert (plan.count(Verdict.STOP) > 0) is blocked
    if blocked:
        assert text.index("Do not drive yet") < text.index(STEPS[0].title)


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_all_ink_stays_on_the_paper(paper: Paper) -> None:
    for page in first_drive_pages(found("puller"), "2031-11-08", paper):
        (x0, y0), (x1, y1) = bounds(page.ink)
        assert x0 >= 5.0
        assert y0 >= 5.0
        assert x1 <= paper.width - 5.0
        assert y1 <= paper.height - 5.0


def test_it_is_in_the_binder_of_every_build() -> None:
    assert "first-drive" in Binder(read_build(EXAMPLES / "puller" / "build.toml"), "").names
