"""How charts look: the line widths of the drawings, and series told apart without colour."""

from typing import Any

from beltwright.drawing.colour_set import BLUE, GREEN, VERMILLION
from beltwright.drawing.ink import Colour
from beltwright.drawing.palette import LIGHT
from beltwright.drawing.paper_units import POINT

WIDE, NARROW = 0.5 / POINT, 0.25 / POINT

INK, QUIET, PAPER = LIGHT[Colour.INK], LIGHT[Colour.QUIET], LIGHT[Colour.PAPER]
LIMIT = LIGHT[Colour.STOP]

SERIES: tuple[tuple[str, tuple[float, ...], str], ...] = (
    (INK, (), "o"),
    (BLUE, (6.0, 2.0), "s"),
    (VERMILLION, (10.0, 2.0, 1.0, 2.0), "^"),
    (GREEN, (2.0, 1.5), "D"),
    (INK, (12.0, 3.0), "v"),
    (BLUE, (1.0, 1.5), "P"),
    (VERMILLION, (4.0, 1.5, 1.0, 1.5, 1.0, 1.5), "X"),
    (GREEN, (8.0, 2.0, 3.0, 2.0), "*"),
)
"""Colour, dashes in line widths, and point mark of each series; dash and mark never repeat."""

THEMED = {INK: "ink", QUIET: "quiet", PAPER: "paper", BLUE: "accent"}
"""Colours that the screen's light or dark theme replaces."""

RC: dict[str, Any] = {
    "font.family": "DejaVu Sans",
    "font.size": 9.0,
    "text.color": INK,
    "axes.edgecolor": INK,
    "axes.labelcolor": INK,
    "axes.linewidth": NARROW,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.facecolor": PAPER,
    "axes.axisbelow": True,
    "axes.unicode_minus": True,
    "figure.facecolor": PAPER,
    "grid.color": QUIET,
    "grid.linewidth": NARROW / 2.0,
    "grid.alpha": 0.35,
    "xtick.color": INK,
    "ytick.color": INK,
    "xtick.major.width": NARROW,
    "ytick.major.width": NARROW,
    "hatch.linewidth": NARROW,
    "hatch.color": LIMIT,
    "lines.linewidth": WIDE,
    "lines.markersize": 4.5,
    "svg.fonttype": "none",
    "svg.hashsalt": "beltwright",
}
"""Settings of the chart library."""
