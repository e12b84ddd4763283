"""Lettering: widths, breaks and fractions."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib import font_manager
from PIL import ImageFont

from beltwright.drawing.lettering import (
    CAPITAL_HEIGHT,
    set_fractions,
    shortened,
    text_width,
    wrap,
)

SAMPLES = (
    "Orchard crate hauler",
    "620 ±1 mm",
    "Print at actual size, 100 %. Lay a steel rule on both rulers before you cut.",
    "⌀4 in × 38° ≤ 12.5 hp",
    "Move the guide idler 14 mm to the left, or use a belt 1 in longer.",
)


@pytest.mark.parametrize("text", SAMPLES)
@pytest.mark.parametrize("bold", [False, True])
def test_kept_room_is_that_of_the_printed_font(text: str, bold: bool) -> None:
    weight = "bold" if bold else "normal"
    file = font_manager.findfont(font_manager.FontProperties(family="DejaVu Sans", weight=weight))
    printed = ImageFont.truetype(file, 1000).getlength(text) / 1000.0
    kept = text_width(text, CAPITAL_HEIGHT, bold)
    assert 0.98 * printed <= kept <= 1.10 * printed  # letters are grouped into ten widths


@given(st.text(alphabet="abcdefg 123", max_size=200), st.floats(5.0, 80.0))
def test_wrapping_keeps_every_word_in_order(text: str, width: float) -> None:
    lines = wrap(text, width, 2.5)
    assert " ".join(lines).split() == text.split()
    assert all(text_width(line, 2.5) <= width for line in lines if " " in line)


@given(st.text(max_size=60), st.floats(10.0, 100.0))
def test_shortened_text_fits(text: str, width: float) -> None:
    assert text_width(shortened(text, width, 2.5), 2.5) <= width + 1e-9


@pytest.mark.parametrize(
    ("written", "set_as"),
    [
        ("4 5/8 in", "4⁵⁄₈ in"),
        ("27/64 in", "²⁷⁄₆₄ in"),
        ("⌀1 1/4", "⌀1¹⁄₄"),
        ("km/h", "km/h"),
        ("20x8-8", "20x8-8"),
        ("1/3", "1/3"),
        ("2031/04/08", "2031/04/08"),
    ],
)
def test_only_inch_fractions_are_set_as_fractions(written: str, set_as: str) -> None:
    assert set_fractions(written) == set_as
