"""Contrast of the colours on light and dark paper and on the charts.

WCAG 2.2, W3C Recommendation (2023): definitions "relative luminance" and "contrast ratio"; 1.4.3
asks 4.5 : 1 of text, 1.4.11 asks 3 : 1 of graphical objects. Black on white is 21 : 1 by
definition. #767676 is the darkest-needed grey that still gives 4.5 : 1 on white and #777777 no
longer does; #949494 gives 3 : 1 and #959595 does not (widely published examples; from memory).
"""

import pytest

from beltwright.drawing.chart_style import SERIES
from beltwright.drawing.ink import Colour
from beltwright.drawing.palette import DARK, LIGHT, PRINT

THEMES = {"light": LIGHT, "dark": DARK, "print": PRINT}

TEXT = (Colour.INK, Colour.QUIET, Colour.ACCENT)
MARKS = (Colour.SOUND, Colour.STOP, Colour.NOT_KNOWN, Colour.MARGINAL_RIM)


def relative_luminance(colour: str) -> float:
    """Of a "#rrggbb" colour, 0 for black to 1 for white."""
    channels = [int(colour[i : i + 2], 16) / 255.0 for i in (1, 3, 5)]
    red, green, blue = [
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    ]
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21."""
    lighter, darker = sorted((relative_luminance(one), relative_luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize(
    ("grey", "limit", "passes"),
    [
        ("#000000", 20.999_999, True),
        ("#767676", 4.5, True),
        ("#777777", 4.5, False),
        ("#949494", 3.0, True),
        ("#959595", 3.0, False),
    ],
)
def test_contrast_is_measured_as_published(grey: str, limit: float, passes: bool) -> None:
    assert (contrast(grey, "#ffffff") >= limit) is passes


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("colour", TEXT)
def test_text_reads(theme: str, colour: Colour) -> None:
    """WCAG 2.2, 1.4.3: text needs 4.5 : 1."""
    colours = THEMES[theme]
    assert contrast(colours[colour], colours[Colour.PAPER]) >= 4.5
    assert contrast(colours[colour], colours[Colour.TINT]) >= 4.5


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("colour", MARKS)
def test_marks_show(theme: str, colour: Colour) -> None:
    """WCAG 2.2, 1.4.11: graphical objects need 3 : 1."""
    colours = THEMES[theme]
    assert contrast(colours[colour], colours[Colour.PAPER]) >= 3.0


@pytest.mark.parametrize("theme", THEMES)
def test_the_filled_half_shows_within_its_rim(theme: str) -> None:
    colours = THEMES[theme]
    filling, rim = colours[Colour.MARGINAL], colours[Colour.MARGINAL_RIM]
    assert filling == rim or contrast(filling, rim) >= 3.0


@pytest.mark.parametrize("theme", THEMES)
def test_a_belt_shows_by_its_outline(theme: str) -> None:
    colours = THEMES[theme]
    assert contrast(colours[Colour.INK], colours[Colour.BELT]) >= 3.0


def test_the_series_of_a_chart_show() -> None:
    for colour, *_ in SERIES:
        assert contrast(colour, LIGHT[Colour.PAPER]) >= 3.0
