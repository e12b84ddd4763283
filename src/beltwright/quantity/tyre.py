"""Tyre sizes as moulded on the sidewall, and what they say about diameter, width and rim.

Inch sizes with three numbers ("20x8-8") name the outside diameter, section width and rim diameter
in inches, unloaded and inflated (practice of the Tire and Rim Association). Metric sizes
("145/70-6") name the width in mm, the height of the side as a share of it, and the rim in inches
(ISO 4223-1 terms). Two-number sizes ("4.00-8", "4.80/4.00-8") name width and rim alone; the
diameter is then a rule of thumb.
"""

import re
from dataclasses import dataclass

from beltwright.quantity.errors import QuantityError
from beltwright.quantity.kinds import Kind
from beltwright.quantity.number import tidy
from beltwright.quantity.units import INCH
from beltwright.quantity.values import Quantity
from beltwright.quantity.written import place_of

_INCH = float(INCH)
_N = r"([0-9]{1,3}(?:\.[0-9]{1,2})?)"
_RIM = rf" ?(?:-|R|B| ) ?{_N}"
_TAIL = r"(?: ?(?:NHS|TL|TT|[0-9]{1,2} ?PR))*"
_THREE = re.compile(rf"(?:AT ?)?{_N} ?[x×*/] ?{_N}{_RIM}{_TAIL}", re.IGNORECASE)
_METRIC = re.compile(rf"([0-9]{{2,3}}) ?/ ?([0-9]{{2,3}}){_RIM}{_TAIL}", re.IGNORECASE)
_DOUBLE = re.compile(
    rf"([0-9]\.[0-9]{{1,2}}) ?/ ?([0-9]\.[0-9]{{1,2}}){_RIM}{_TAIL}", re.IGNORECASE
)
_TWO = re.compile(rf"([0-9]{{1,2}}(?:\.[0-9]{{1,2}})?){_RIM}{_TAIL}", re.IGNORECASE)

DIAMETER_SPREAD = 0.03
"""Half-width of the outside diameter of a three-number or metric size (from memory) [1]."""
WIDTH_SPREAD = 0.05
"""Half-width of the section width, which follows the rim width (from memory) [1]."""
SIDE_OF_TWO = (0.92, 0.13)
"""Height of the side over width, and its half-width, of a size such as 4.00-8 (from memory) [1]."""
SIDE_OF_DOUBLE = (0.86, 0.10)
"""The same for a size such as 4.80/4.00-8 (from memory) [1]."""

_SIZE = "moulded size; the tyre itself may differ, so measure it"
_THUMB = "rule of thumb from the width; measure the tyre"
_EXAMPLE = "20x8-8"


@dataclass(frozen=True)
class Tyre:
    """The sizes that a sidewall states; each is a length with the tolerance that it deserves."""

    outside: Quantity
    width: Quantity
    rim: Quantity
    text: str
    key: str = ""


@dataclass(frozen=True)
class _Sizes:
    """Sizes in metres, half-width of the outside diameter, and what the diameter rests on."""

    outside: float
    spread: float
    width: float
    rim: float
    assumed: str


def read_tyre(text: str, key: str = "") -> Tyre:
    """Read a moulded tyre size; raise QuantityError if it is none."""
    sizes = _sizes(tidy(text)) if len(text) <= 40 else None
    if sizes is None:
        raise _refusal(text, f'"{text[:40]}" is no tyre size that is known here.')
    if not 0.04 <= sizes.rim < sizes.outside <= 2.0 or not 0.02 <= sizes.width < sizes.outside:
        raise _refusal(text, f'"{text}" names a tyre that cannot be: look at the sidewall again.')
    place = key or place_of(text)

    def length(name: str, value: float, half: float, assumed: str) -> Quantity:
        part = f"{place}.{name}" if place else ""
        return Quantity(value, half, half, Kind.LENGTH, "in", str(text), part, assumed)

    return Tyre(
        length("outside", sizes.outside, sizes.spread, sizes.assumed),
        length("width", sizes.width, WIDTH_SPREAD * sizes.width, _SIZE),
        length("rim", sizes.rim, 0.0, ""),
        str(text),
        place,
    )


def _refusal(text: str, reason: str) -> QuantityError:
    """Say that a text is no tyre size."""
    return QuantityError(text[:40], "the size on the sidewall", reason, _EXAMPLE)


def _sizes(text: str) -> _Sizes | None:
    """Take the size apart by its form; a metric size is known by its width of 60 mm and more."""
    metric = _METRIC.fullmatch(text)
    if metric and float(metric[1]) >= 60:
        return _metric(*(float(part) for part in metric.groups()))
    if double := _DOUBLE.fullmatch(text):
        return _by_width(float(double[1]), float(double[3]), *SIDE_OF_DOUBLE)
    if three := _THREE.fullmatch(text):
        outside, width, rim = (float(part) * _INCH for part in three.groups())
        return _Sizes(outside, DIAMETER_SPREAD * outside, width, rim, _SIZE)
    if two := _TWO.fullmatch(text):
        return _by_width(float(two[1]), float(two[2]), *SIDE_OF_TWO)
    return None


def _metric(width_mm: float, side_percent: float, rim_inches: float) -> _Sizes:
    """Work out a metric size: rim and twice the height of the side."""
    width, rim = width_mm / 1000, rim_inches * _INCH
    outside = rim + 2 * width * side_percent / 100
    return _Sizes(outside, DIAMETER_SPREAD * outside, width, rim, _SIZE)


def _by_width(width_inches: float, rim_inches: float, side: float, spread: float) -> _Sizes:
    """Work out a two-number size from the usual height of the side over the width."""
    width, rim = width_inches * _INCH, rim_inches * _INCH
    return _Sizes(rim + 2 * side * width, 2 * spread * width, width, rim, _THUMB)
