"""A verdict in a terminal: mark, word and colour, always together."""

from beltwright.drawing.colour_set import BLUE, GREEN, ORANGE, SKY_BLUE, VERMILLION
from beltwright.review.finding import Verdict

MARKS = {
    Verdict.STOP: "■",
    Verdict.MARGINAL: "◐",
    Verdict.NOT_KNOWN: "◌",
    Verdict.SOUND: "○",
}
"""Filled square, half-filled, dashed and open circle, as on the drawings."""

STYLES = {
    Verdict.STOP: f"bold {VERMILLION}",
    Verdict.MARGINAL: ORANGE,
    Verdict.NOT_KNOWN: SKY_BLUE,
    Verdict.SOUND: GREEN,
}

ACCENT = BLUE
