"""Numbers as people write them: decimals, a decimal comma, fractions and mixed numbers."""

import re
from fractions import Fraction

_DIGITS = r"[0-9]+"
_DECIMAL = rf"(?:{_DIGITS}(?:[.,]{_DIGITS})*|[.,]{_DIGITS})(?:[eE][+-]?{_DIGITS})?"
_FRACTION = rf"{_DIGITS} ?/ ?{_DIGITS}"

NUMBER = rf"(?>{_DIGITS}(?: |-){_FRACTION}|{_FRACTION}|{_DECIMAL})"
"""Pattern of a number without its sign, on text that `tidy` has been over; taken whole or not."""

_MARKS = str.maketrans(
    dict.fromkeys("\t\xa0\u1680\u2002\u2003\u2004\u2005\u2007\u2008\u2009\u200a\u202f", " ")
    | dict.fromkeys("\u200b\u2060\ufeff", "")
    | {"−": "-", "‐": "-", "‑": "-", "⁄": "/", "∕": "/", "⋅": "·", "∙": "·", "•": "·"}
    | {"′": "'", "’": "'", "ʹ": "'", "″": '"', "”": '"', "“": '"', "ʺ": '"'}
    | {"º": "°", "˚": "°", "％": "%", "－": "-", "＋": "+"}
    | {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8"}
    | {"⅞": " 7/8", "⅓": " 1/3", "⅔": " 2/3", "⅙": " 1/6", "⅚": " 5/6"}
)

MAX_EXPONENT = 30
MAX_DIGITS = 40


class NumberError(ValueError):
    """A number that could be read two ways, or none; the text says what to do."""


def tidy(text: str) -> str:
    """Bring the many marks for space, minus, fraction and inch to one each."""
    marked = text.translate(_MARKS).replace("''", '"').replace("+/-", "±").replace("+-", "±")
    return re.sub(r" +", " ", marked).strip()


def read_number(text: str) -> Fraction:
    """Read an unsigned number that matches NUMBER, exactly."""
    if len(text) > MAX_DIGITS:
        raise NumberError("This number has too many digits.")
    mixed = re.fullmatch(rf"(?:({_DIGITS})[ -])?({_DIGITS}) ?/ ?({_DIGITS})", text)
    if mixed:
        return _mixed(*mixed.groups())
    return _decimal(text)


def _mixed(whole: str | None, over: str, under: str) -> Fraction:
    """Add a whole number and a fraction."""
    if int(under) == 0:
        raise NumberError("A fraction over 0 has no value.")
    part = Fraction(int(over), int(under))
    if whole is not None and part >= 1:
        raise NumberError(f"{whole} {over}/{under} has a fraction that is not less than 1.")
    return int(whole or 0) + part


def _decimal(text: str) -> Fraction:
    """Read a decimal; one comma may stand for the point where it cannot mean thousands."""
    figures, _, exponent = text.lower().partition("e")
    if exponent and abs(int(exponent)) > MAX_EXPONENT:
        raise NumberError("This number is far too large or too small.")
    if "," in figures:
        figures = _without_comma(figures)
    if figures.count(".") > 1:
        raise NumberError(f"{text} has more than one decimal point. Write thousands without one.")
    return Fraction(f"{figures}e{exponent}" if exponent else figures)


def _without_comma(figures: str) -> str:
    """Turn a decimal comma into a point, or refuse what may be a thousands comma."""
    whole, *rest = figures.split(",")
    if len(rest) > 1 or "." in figures:
        raise NumberError(f"{figures} has marks between thousands. Leave them out.")
    thousands = len(rest[0]) == 3 and len(whole) <= 3 and whole.strip("0") and whole[0] != "0"
    if thousands:
        raise NumberError(
            f"{figures} may mean {whole}{rest[0]} or {whole}.{rest[0]}. Write one of these."
        )
    return f"{whole}.{rest[0]}"
