"""Belt sections and the lengths that they are sold in."""

from functools import cache
from heapq import nsmallest
from math import inf, nan, tan
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from beltwright.quantity.units import INCH as EXACT_INCH
from beltwright.tables.loading import load

INCH = float(EXACT_INCH)

Array = NDArray[np.float64]

LengthIs = Literal["inside", "pitch", "outside"]
"""Along which line of the belt its maker measured the length that is printed on it."""


class CrossSection(NamedTuple):
    """A row of belt_sections.csv; lengths [m], angle [rad]."""

    section: str
    family: str
    top_width: float
    height: float
    angle: float
    source: str
    status: str


class PitchLine(NamedTuple):
    """A row of belt_pitch_lines.csv [m]."""

    section: str
    outside_less_pitch: float
    doubt: float
    source: str
    status: str
    datum_width: float = nan


class LengthCorrection(NamedTuple):
    """A row of belt_length_corrections.csv [m]."""

    section: str
    inside_to_pitch: float
    pitch_to_outside: float
    marked_by: str
    source: str
    status: str


class Bending(NamedTuple):
    """A row of belt_bending.csv: smallest sheave [m], kb [N m] and fatigue pull [N]."""

    section: str
    smallest_sheave: float
    source: str
    status: str
    kb: float = nan
    fatigue_pull: float = nan
    fatigue_exponent: float = nan


class Mass(NamedTuple):
    """A row of belt_masses.csv [kg/m]."""

    section: str
    linear_mass: float
    source: str
    status: str


class Groove(NamedTuple):
    """A row of belt_grooves.csv: the angle [rad] up to a diameter [m]."""

    section: str
    by: str
    up_to: float
    angle: float
    source: str
    status: str


class StandardLength(NamedTuple):
    """A row of belt_standard_lengths.csv [m]."""

    size: str
    section: str
    number: int
    pitch_length: float
    source: str
    status: str


class SoldRange(NamedTuple):
    """A row of belt_sold_lengths.csv [m]."""

    section: str
    first: float
    last: float
    step: float
    tolerance: float
    source: str
    status: str


class Allowance(NamedTuple):
    """A row of belt_allowances.csv: how far the centres must move, as a share of the length [1]."""

    move: str
    share: float
    why: str
    source: str
    status: str


class Section(NamedTuple):
    """Everything that is known about one belt section, in SI."""

    cross: CrossSection
    pitch_line: PitchLine
    lengths: LengthCorrection
    bending: Bending
    mass: Mass

    @property
    def name(self) -> str:
        """The section as it is printed on the belt."""
        return self.cross.section

    @property
    def family(self) -> str:
        """classical, notched or light duty."""
        return self.cross.family

    @property
    def rim_above_pitch(self) -> float:
        """How far a standard sheave's outside radius stands above its pitch radius [m]."""
        return self.pitch_line.outside_less_pitch / 2

    @property
    def belt_above_pitch(self) -> float:
        """How much of the belt lies outside its pitch line [m].

        Where the datum width is known it is worked from the belt's own slope; otherwise the top of
        the belt is taken as flush with a standard rim.
        """
        width = self.pitch_line.datum_width
        if np.isnan(width):
            return self.rim_above_pitch
        return (self.cross.top_width - width) / 2 / tan(self.cross.angle / 2)

    @property
    def belt_below_pitch(self) -> float:
        """How much of the belt lies inside its pitch line [m]."""
        return self.cross.height - self.belt_above_pitch


class SoldLength(NamedTuple):
    """One belt that the trade sells."""

    size: str
    section: str
    marked: float
    marked_by: str
    pitch_length: float
    tolerance: float
    standard: bool
    source: str
    status: str


def section_names() -> tuple[str, ...]:
    """The sections that there are tables for."""
    return tuple(row.section for row in load("belt_sections", CrossSection))


@cache
def section(name: str) -> Section:
    """The section called `name`, such as "A" or "4L"; KeyError lists the known ones."""
    key = name.strip().upper()
    return Section(
        cross=load("belt_sections", CrossSection).named(key),
        pitch_line=load("belt_pitch_lines", PitchLine).named(key),
        lengths=load("belt_length_corrections", LengthCorrection).named(key),
        bending=load("belt_bending", Bending).named(key),
        mass=load("belt_masses", Mass).named(key),
    )


def outside_to_pitch(name: str, outside_diameter: float | Array) -> float | Array:
    """Pitch (datum) diameter [m] of a standard sheave of that outside diameter [m]."""
    return outside_diameter - section(name).pitch_line.outside_less_pitch


def pitch_to_outside(name: str, pitch_diameter: float | Array) -> float | Array:
    """Outside diameter [m] of a standard sheave of that pitch (datum) diameter [m]."""
    return pitch_diameter + section(name).pitch_line.outside_less_pitch


@cache
def _grooves(name: str) -> tuple[str, Array, Array]:
    rows = [row for row in load("belt_grooves", Groove) if row.section == section(name).name]
    limits = np.array([row.up_to for row in rows])
    return rows[0].by, limits, np.array([row.angle for row in rows])


def groove_angle(name: str, pitch_diameter: float | Array) -> Array:
    """Groove angle [rad] that the standard gives a sheave of that pitch diameter [m]."""
    by, limits, angles = _grooves(name)
    keyed = pitch_diameter if by == "pitch" else pitch_to_outside(name, pitch_diameter)
    # a table diameter belongs to its own row even after the rounding of inches to metres
    found: Array = angles[np.searchsorted(limits * (1 + 1e-12), keyed, side="left")]
    return found


def pitch_length(name: str, length: float | Array, length_is: LengthIs) -> float | Array:
    """Pitch length [m] of a belt whose `length` [m] is printed as inside, pitch or outside."""
    lengths = section(name).lengths
    if length_is == "inside":
        return length + lengths.inside_to_pitch
    if length_is == "outside":
        return length - lengths.pitch_to_outside
    return length


@cache
def sold_lengths(name: str) -> tuple[SoldLength, ...]:
    """Every length of the section that the trade sells or a standard lists, shortest first."""
    belt = section(name)
    standard = {
        row.size: row
        for row in load("belt_standard_lengths", StandardLength)
        if row.section == belt.name
    }
    sold = {}
    tolerance = inf
    for row in load("belt_sold_lengths", SoldRange):
        if row.section != belt.name:
            continue
        tolerance = row.tolerance
        for step in range(round((row.last - row.first) / row.step) + 1):
            one = _sold(belt, row.first + step * row.step, row)
            sold[one.size] = one
    for size, listed in standard.items():
        sold[size] = SoldLength(
            size=size,
            section=belt.name,
            marked=listed.number * INCH,
            marked_by="inside",
            pitch_length=listed.pitch_length,
            tolerance=sold[size].tolerance if size in sold else tolerance,
            standard=True,
            source=listed.source,
            status=listed.status,
        )
    return tuple(sorted(sold.values(), key=lambda one: one.pitch_length))


def _sold(belt: Section, marked: float, row: SoldRange) -> SoldLength:
    by: LengthIs = "outside" if belt.lengths.marked_by == "outside" else "inside"
    inches = marked / INCH
    # a light-duty belt prints tenths of an inch of its outside length, the others whole inches
    number = round(inches * 10) if by == "outside" else round(inches)
    return SoldLength(
        size=f"{belt.name}{number}",
        section=belt.name,
        marked=marked,
        marked_by=by,
        pitch_length=float(pitch_length(belt.name, marked, by)),
        tolerance=row.tolerance,
        standard=False,
        source=row.source,
        status=row.status,
    )


def nearest_lengths(name: str, wanted: float, count: int) -> tuple[SoldLength, ...]:
    """The `count` sold belts whose pitch length is nearest to `wanted` [m], nearest first."""
    return tuple(
        nsmallest(count, sold_lengths(name), key=lambda one: abs(one.pitch_length - wanted))
    )


def allowance(move: str) -> Allowance:
    """How far the centres must be able to move: "take up" or "fitting"."""
    return load("belt_allowances", Allowance).named(move)
