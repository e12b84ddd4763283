"""Colours on light and dark paper; those of the verdicts come from the colour-blind-safe set."""

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
