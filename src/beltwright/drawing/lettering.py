"""Lettering: how wide a line of text runs, where it breaks, and how fractions are set.

Widths are those of a wide sans serif in common use, so that text set in the reader's own font
takes no more room than was kept for it.
"""

import re

CAPITAL_HEIGHT = 0.73
"""Height of a capital in multiples of the font size."""

LINE_PITCH = 2.1
"""Distance of lines in multiples of the height of a capital."""

_WIDTHS = {
    0.29: "'ijlIJ",
    0.34: " ,./:;\\|",
    0.39: "-f()[]tr!",
    0.50: '"*_`°sz?',
    0.58: "cLFkvxyPTY⌀",
    0.63: "aeoESbdghnpqu$0123456789{}",
    0.70: "ABCKRVXZ",
    0.78: "DGHNOQU&",
    0.84: "w#+<=>^~±×−≤≥",
    0.98: "M%mW@",
}
_WIDTH_OF = {letter: width for width, letters in _WIDTHS.items() for letter in letters}
_OTHER = 0.65
_BOLD = 1.14

_SUPERSCRIPT = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_SUBSCRIPT = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_INCH_FRACTION = re.compile(r"(?<![\w./])(?:(\d+) )?(\d{1,2})/(2|4|8|16|32|64)(?![\w./])")


def text_width(text: str, height: float, bold: bool = False) -> float:
    """Room to keep for a line of text, in the unit of the height of its capitals."""
    advance = sum(_WIDTH_OF.get(letter, _OTHER) for letter in text)
    return advance * height / CAPITAL_HEIGHT * (_BOLD if bold else 1.0)


def wrap(text: str, width: float, height: float, bold: bool = False) -> list[str]:
    """The text broken between words into lines no wider than `width`.

    A single word wider than that stands on a line of its own.
    """
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if line and text_width(longer, height, bold) > width:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line] if line else lines


def shortened(text: str, width: float, height: float, bold: bool = False) -> str:
    """The text, or its beginning and an ellipsis, no wider than `width`."""
    if text_width(text, height, bold) <= width:
        return text
    kept = text
    while kept and text_width(kept.rstrip() + "…", height, bold) > width:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def set_fractions(text: str) -> str:
    """Inch fractions set as fractions: "4 5/8 in" becomes "4⁵⁄₈ in"."""

    def set_one(match: re.Match[str]) -> str:
        whole, upper, lower = match.groups(default="")
        return f"{whole}{upper.translate(_SUPERSCRIPT)}⁄{lower.translate(_SUBSCRIPT)}"

    return _INCH_FRACTION.sub(set_one, text)
