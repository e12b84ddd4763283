"""Contrast on light and dark paper, as WCAG 2.2 asks."""

import pytest

from beltwright.drawing.ink import Colour
from beltwright.drawing.palette import DARK, LIGHT, PRINT, contrast

THEMES = {"light": LIGHT, "dark": DARK, "print": PRINT}

TEXT = (Colour.INK, Colour.QUIET, Colour.ACCENT)
MARKS = (Colour.SOUND, Colour.STOP, Colour.NOT_KNOWN, Colour.MARGINAL_RIM)


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
