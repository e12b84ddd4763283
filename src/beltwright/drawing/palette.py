"""Colours on light and dark paper, and their contrast.

Verdict colours come from the colour-blind-safe set. Contrast is that of WCAG 2.2, "relative
luminance" and "contrast ratio".
"""

from beltwright.drawing.colour_set import BLACK, BLUE, GREEN, ORANGE, SKY_BLUE, VERMILLION
from beltwright.drawing.ink import Colour

LIGHT: dict[Colour, str] = {
    Colour.INK: "#1b1d1f",
    Colour.QUIET: "#5a5f63",
    Colour.PAPER: "#fdfcf9",
    Colour.TINT: "#f3f0e9",
    Colour.BELT: "#cfcabd",
    Colour.ACCENT: BLUE,
    Colour.SOUND: GREEN,
    Colour.MARGINAL: ORANGE,
    Colour.MARGINAL_RIM: "#1b1d1f",  # orange alone is too faint on light paper
    Colour.STOP: VERMILLION,
    Colour.NOT_KNOWN: BLUE,
}

DARK: dict[Colour, str] = {
    Colour.INK: "#e6e1d6",
    Colour.QUIET: "#a3a39c",
    Colour.PAPER: "#16191b",
    Colour.TINT: "#22272a",
    Colour.BELT: "#4a4f50",
    Colour.ACCENT: SKY_BLUE,
    Colour.SOUND: GREEN,
    Colour.MARGINAL: ORANGE,
    Colour.MARGINAL_RIM: ORANGE,
    Colour.STOP: VERMILLION,
    Colour.NOT_KNOWN: SKY_BLUE,
}

PRINT: dict[Colour, str] = {**LIGHT, Colour.INK: BLACK, Colour.PAPER: "#ffffff"}
"""Black on white; a printer has no paper colour."""


def relative_luminance(colour: str) -> float:
    """Relative luminance of a "#rrggbb" colour, 0 for black to 1 for white."""
    channels = [int(colour[i : i + 2], 16) / 255.0 for i in (1, 3, 5)]
    red, green, blue = [
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    ]
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21."""
    lighter, darker = sorted((relative_luminance(one), relative_luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)
