"""The review on paper says what the review says."""

from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from beltwright.build.reading import read_build, read_text
from beltwright.drawing.extent import bounds
from beltwright.drawing.pdf import pdf
from beltwright.drawing.sheet import A4, LETTER, Paper
from beltwright.review.finding import Verdict
from beltwright.review.review import Review, review
from beltwright.sheets.review_sheet import review_pages

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"


@pytest.fixture(scope="module")
def found() -> Review:
    return review(read_build(EXAMPLE), samples=50)


def words(review_: Review, paper: Paper = A4) -> str:
    pages = pdf(review_pages(review_, {}, "2031-05-04", paper), "Review")
    text = "\n".join(page.extract_text() for page in PdfReader(BytesIO(pages)).pages)
    return " ".join(text.split())


def test_every_finding_stands_on_paper(found: Review) -> None:
    text = words(found)
    for finding in found.findings:
        assert finding.title.split()[0] in text
        assert finding.shown.split()[0] in text


def test_what_is_not_sound_says_what_to_do_and_its_caution(found: Review) -> None:
    text = words(found)
    for finding in found.findings:
        if finding.verdict in (Verdict.STOP, Verdict.MARGINAL):
            assert " ".join(finding.meaning.split()[:4]) in text
            assert not finding.caution or "Caution:" in text


def test_the_same_words_stand_once_on_paper() -> None:
    short = read_text(EXAMPLE.read_text(encoding="utf-8").replace('"76 in"', '"50 in"'))
    bare = review(short, samples=0)
    waiting = [each for each in bare.findings if each.remedy.startswith("First put its run right")]
    assert len(waiting) > 10
    assert words(bare).count("First put its run right") == 1
    assert all(each.title.split()[-1] in words(bare) for each in waiting)


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_all_ink_stays_on_the_paper(found: Review, paper: Paper) -> None:
    for page in review_pages(found, {}, "2031-05-04", paper):
        (x0, y0), (x1, y1) = bounds(page.ink)
        assert x0 >= 5.0
        assert y0 >= 5.0
        assert x1 <= paper.width - 5.0
        assert y1 <= paper.height - 5.0


def test_the_same_review_prints_the_same(found: Review) -> None:
    first, second = (pdf(review_pages(found, {}, "2031-05-04"), "Review") for _ in range(2))
    assert first == second
