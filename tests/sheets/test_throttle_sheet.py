"""The throttle's sheet: its steps in order, cautions beside them, what a fish scale reads."""

from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from beltwright.build.model import Build
from beltwright.build.reading import read_build
from beltwright.drawing.pdf import pdf
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.review import review
from beltwright.review.throttle.levers import arm_lever
from beltwright.review.throttle.stroke import closings
from beltwright.sheets.throttle_sheet import throttle_sheets

EXAMPLE = Path(__file__).parents[2] / "examples" / "orchard-hauler" / "build.toml"


@pytest.fixture(scope="module")
def build() -> Build:
    return read_build(EXAMPLE)


def words_of(build: Build) -> str:
    pages = throttle_sheets(Case(build), review(build, 0), "2024-01-01")
    data = pdf(pages, "throttle")
    text = " ".join(page.extract_text() for page in PdfReader(BytesIO(data)).pages)
    return " ".join(text.split())


def test_the_steps_stand_in_their_order(build: Build) -> None:
    words = words_of(build)
    steps = (
        "Engine off",
        "speed lever and nothing else",
        "fall back to its idle stop",
        "of wire must be loose",
        "meet its own stop",
        "Pull one spring off at a time",
        "All springs on",
        "engine running",
    )
    places = [words.index(step) for step in steps]
    assert places == sorted(places)


def test_the_cautions_stand_beside_their_steps(build: Build) -> None:
    words = words_of(build)
    assert words.index("Never alter, wire up") < words.index("Unhook the wire")
    assert words.index("Pull one spring off") < words.index("eye protection")
    assert "local codes" in words


def test_every_spring_is_named_and_its_reading_told(build: Build) -> None:
    words, case = words_of(build), Case(build)
    radius = float(arm_lever(case).radius[0])
    for one in closings(case):
        reading = case.units.show(float(one.springs.flat[0]) / radius, Kind.FORCE)
        assert f"{f'without the {one.broken}' if one.broken else 'all on'} {reading}" in words


def test_what_still_blocks_it_is_told(build: Build) -> None:
    assert build.throttle is not None
    assert "No finding about the throttle stands in the way" in words_of(build)
    one = build.throttle.model_copy(update={"spring": build.throttle.spring[:1]})
    blocked = words_of(build.model_copy(update={"throttle": one}))
    assert "second, independent spring" in blocked


def test_a_throttle_of_which_little_is_known_has_its_steps_all_the_same(build: Build) -> None:
    assert build.throttle is not None
    bare = type(build.throttle)()
    words = words_of(build.model_copy(update={"throttle": bare}))
    assert "Pull one spring off at a time." in words
    assert "fish scale should read" not in words
