"""What the belt standards and textbooks say a belt carries: constants and factors."""

from functools import cache
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.quantity.units import INCH
from beltwright.tables.loading import load

Array = NDArray[np.float64]

Form = Literal["industrial", "textbook"]


class IndustrialRating(NamedTuple):
    """A row of belt_industrial_ratings.csv, in the customary units of the formula."""

    section: str
    k1: float
    k2: float
    k3: float
    k4: float
    source: str
    status: str


class TextbookRating(NamedTuple):
    """A row of belt_textbook_ratings.csv, in the customary units of the formula."""

    section: str
    a: float
    c: float
    e: float
    source: str
    status: str


class LightDutyRating(NamedTuple):
    """A row of belt_light_duty_ratings.csv, in the customary units of the formula."""

    section: str
    k1: float
    k2: float
    k3: float
    source: str
    status: str


class RatioFactor(NamedTuple):
    """A row of belt_ratio_factors.csv [1]."""

    form: str
    ratio_from: float
    factor: float
    source: str
    status: str


class LengthFactor(NamedTuple):
    """A row of belt_length_factors.csv: the factor [1] of the belt with that number."""

    section: str
    number: float
    factor: float
    source: str
    status: str


class ServiceFactor(NamedTuple):
    """A row of belt_service_factors.csv [1]."""

    duty: str
    factor: float
    example: str
    source: str
    status: str


class IdlerAddition(NamedTuple):
    """A row of belt_idler_additions.csv: what an idler adds to the service factor [1]."""

    place: str
    tight: bool
    inside: bool
    addition: float
    source: str
    status: str


class BeltFriction(NamedTuple):
    """A row of belt_friction.csv [1]."""

    surface: str
    low: float
    usual: float
    high: float
    source: str
    status: str


class BeltSpeed(NamedTuple):
    """A row of belt_speeds.csv [m/s]."""

    limit: str
    speed: float
    why: str
    source: str
    status: str


def industrial_rating(section: str) -> IndustrialRating:
    """Constants of the IP-20 form; KeyError for a section that it does not rate."""
    return load("belt_industrial_ratings", IndustrialRating).named(section)


def textbook_rating(section: str) -> TextbookRating:
    """Constants of the older form; KeyError for a section that it does not rate."""
    return load("belt_textbook_ratings", TextbookRating).named(section)


def light_duty_rating(section: str) -> LightDutyRating:
    """Constants of the light-duty form; KeyError for a section that it does not rate."""
    return load("belt_light_duty_ratings", LightDutyRating).named(section)


@cache
def _ratio_steps(form: Form) -> tuple[Array, Array]:
    rows = [row for row in load("belt_ratio_factors", RatioFactor) if row.form == form]
    return np.array([row.ratio_from for row in rows]), np.array([row.factor for row in rows])


def ratio_factor(ratio: float | Array, form: Form) -> Array:
    """Factor [1] for the easier bend on the larger pulley; a ratio under 1 counts as its inverse.

    For the industrial form it is the K_SR of its last term, for the textbook form it multiplies
    the diameter.
    """
    ratio_from, factor = _ratio_steps(form)
    either_way = np.maximum(ratio, 1.0 / np.asarray(ratio))
    found: Array = factor[np.searchsorted(ratio_from, either_way, side="right") - 1]
    return found


@cache
def _length_steps(section: str) -> tuple[Array, Array]:
    classical = {"AX": "A", "BX": "B", "3L": "A", "4L": "A", "5L": "B"}.get(section, section)
    rows = [row for row in load("belt_length_factors", LengthFactor) if row.section == classical]
    return np.log([row.number for row in rows]), np.array([row.factor for row in rows])


def length_factor(section: str, inside_length: float | Array) -> Array:
    """Factor [1] for how often a belt of that inside length [m] is bent, held at the table's ends.

    Notched and light-duty sections take the classical section of their groove (assumed).
    """
    logarithm, factor = _length_steps(section)
    return np.interp(np.log(np.asarray(inside_length) / float(INCH)), logarithm, factor)


def service_factor(duty: str) -> ServiceFactor:
    """How much harder the work is than its mean power: light, normal, heavy or jerked."""
    return load("belt_service_factors", ServiceFactor).named(duty)


def idler_addition(*, tight: bool, inside: bool) -> IdlerAddition:
    """What an idler on that span and side of the belt adds to the service factor."""
    for row in load("belt_idler_additions", IdlerAddition):
        if (row.tight, row.inside) == (tight, inside):
            return row
    raise KeyError(f"no idler addition for tight={tight}, inside={inside}")


def belt_friction(surface: str) -> BeltFriction:
    """Friction of a belt on a surface such as "groove dry" or "back on flat steel"."""
    return load("belt_friction", BeltFriction).named(surface)


def belt_speed_limit(limit: str = "classical belt") -> BeltSpeed:
    """The belt speed that is usually not passed."""
    return load("belt_speeds", BeltSpeed).named(limit)
