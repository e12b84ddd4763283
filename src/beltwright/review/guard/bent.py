"""A guard or keeper as it is to be bent: its legs, angles, marks and form, as numbers."""

from math import cos, pi, sin
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.build.guards import Bending, Foot, Guard
from beltwright.physics.arrays import Array
from beltwright.physics.outline import Outline
from beltwright.physics.sheet_metal.bend import setback
from beltwright.physics.sheet_metal.polygon import (
    SHARPEST,
    bends_for_corner_error,
    corner_error,
)
from beltwright.physics.sheet_metal.spring_back import over_bend_ratio
from beltwright.physics.sheet_metal.strip import (
    BentForm,
    FlatStrip,
    bent_form,
    flat_strip,
    other_face,
)
from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout, belt_layout
from beltwright.review.case import Case
from beltwright.review.nominal import nominal
from beltwright.tables.sheet_metals import SheetMetal, sheet_metal

STAND_OFF = 0.001
"""A corner stands no further than this outside the curve, where the jaws allow it [m] (assumed)."""

EIGHTH_INCH = 0.003175
"""Usual gap of a keeper [m] (common practice, no source)."""

MOST_OVER = 2.0
"""A strip that must be bent twice as far as it is to stay is sprung into place, not bent [1]."""

JAWS = {"pliers": "10 mm", "vice": "12 mm", "brake": "10 mm"}
"""Flat strip that each way of bending needs to hold (assumed)."""


class Bent(NamedTuple):
    """A guard as it is to be bent; lengths along its face towards the belt.

    guard      as written
    layout     of its belt
    place      of its pulley in the run
    turn       +1 where the belt turns left round the pulley, −1 to the right
    metal      of the strip
    total      angle of the arc [rad]
    bends      round the pulley
    gap        from the belt's outer face to the flats [m]
    curve      radius that the flats touch [m]
    face       radius of the belt's outer face on the pulley, a sample each [m]
    ends       straight, before and after the arc [m]
    radius     inside radius of the bends [m]
    thickness  of the strip [m]
    k_factor   how deep the neutral line lies, over the thickness [1]
    angles     of all bends, positive towards the belt [rad]
    flat       the strip laid flat
    form       its face towards the belt in the plane of the belt, in the build as written
    """

    guard: Guard
    layout: Layout
    place: int
    turn: int
    metal: SheetMetal
    total: float
    bends: int
    gap: Array
    curve: Array
    face: Array
    ends: tuple[Array, Array]
    radius: Array
    thickness: Array
    k_factor: Array
    angles: Array
    flat: FlatStrip
    form: BentForm

    @property
    def belt(self) -> Belt:
        """The belt that it follows."""
        return self.layout.belt

    @property
    def angle(self) -> float:
        """Angle of each bend round the pulley [rad]."""
        return self.total / self.bends

    @property
    def wrap(self) -> float:
        """How far the belt lies on the pulley in drive [rad]."""
        return nominal(self.layout.path.wrap[self.place])

    @property
    def feet_before(self) -> int:
        """Bends before those round the pulley."""
        return len(self.angles) - self.bends - sum(f.end == "last" for f in self.guard.feet)

    @property
    def middle(self) -> tuple[float, float, float]:
        """The middle of the strip's arc on the machine: x forward, y left, z up [m]."""
        at = self.feet_before + (self.bends + 1) // 2
        height = self.layout.wheels[self.place].height
        return self.layout.on_machine(self.form.x[at], self.form.y[at], height)

    @property
    def over_bend(self) -> tuple[float, float]:
        """By how much further a bend is taken than it is to stay, from ... to [1].

        The formula gives the low end; the high end is what the trade reckons, where that is more.
        """
        r, t = nominal(self.radius), nominal(self.thickness)
        low, high = (
            float(over_bend_ratio(r, t, strength, self.metal.modulus))
            for strength in (self.metal.strength_low, self.metal.strength_high)
        )
        high = max(high, 1.0 + self.metal.springback / (0.5 * pi))
        return min(low, MOST_OVER), min(high, MOST_OVER)


def bent(case: Case, guard: Guard) -> Bent:
    """A guard as it is to be bent.

    Raises NotKnownError where its belt has no run or the strip's thickness is not written.
    """
    return case.once(("bent", guard.name), lambda: _bent(case, guard))


def jaws(case: Case, guard: Guard) -> Array:
    """Flat strip that the jaws need beside a bend [m]."""
    way = guard.bending or Bending()
    return case.suppose(
        way.grip,
        f"guard.{guard.name}.bending.grip",
        JAWS[way.method],
        Kind.LENGTH,
        f"flat strip that {way.method} need to hold (assumed)"
        if way.method == "pliers"
        else f"flat strip that a {way.method} needs to hold (assumed)",
    )


def strip_width(case: Case, guard: Guard) -> Array:
    """Width of a guard's strip, along the shafts [m]."""
    return case.suppose(
        guard.strip.width if guard.strip else None,
        f"guard.{guard.name}.strip.width",
        "25 mm",
        Kind.LENGTH,
        "wide enough to cover the belt with a margin on both sides (assumed)",
    )


def strip_outline(shape: Bent, feet: bool = True) -> Outline:
    """The strip's edge in the plane of the belt, corner by corner; with its feet or without."""
    x, y = other_face(shape.form, shape.turn * shape.thickness[:1])
    first, last = 0, len(shape.form.x)
    if not feet:
        first = shape.feet_before
        last -= len(shape.angles) - shape.bends - first
    part = slice(first, last)
    return Outline(
        np.concatenate(np.broadcast_arrays(shape.form.x[part], x[part][::-1])),
        np.concatenate(np.broadcast_arrays(shape.form.y[part], y[part][::-1])),
        0.0,
        0.0,
    )


def widest(shape: Bent) -> Array:
    """The largest gap between belt and strip, in drive [m]: at a corner or at a straight end."""
    corner = shape.curve + corner_error(shape.curve, shape.angle, shape.radius) - shape.face
    spare = max(0.5 * (shape.wrap - shape.total), 0.0)
    tips = []
    for end in shape.ends:
        # a belt that lies on the pulley further than the strip goes round turns away from its end
        beyond = np.minimum(np.arctan2(end, shape.curve), spare)
        tips.append(shape.curve * np.cos(beyond) + end * np.sin(beyond) - shape.face)
    return np.asarray(np.maximum(corner, np.maximum(*tips)))


def _bent(case: Case, guard: Guard) -> Bent:
    belt = next(one for one in case.build.belt if one.name == guard.belt)
    layout = belt_layout(case, belt)
    place = belt.run.index(guard.round)
    turn = layout.wheels[place].side * (1 if nominal(layout.path.sense) > 0.0 else -1)
    thickness = _thickness(case, guard)
    metal = sheet_metal(guard.strip.material if guard.strip else "soft steel")
    radius, k = _inside_radius(case, guard, thickness), _k_factor(case, guard, metal)
    face, gap = _outer_face(layout, place), wanted_gap(case, guard, layout)
    curve = face[:1] + gap
    wrap = nominal(layout.path.wrap[place])
    total = wrap if guard.over == "wrap" else nominal(case.si(guard.over))
    count = _bends(case, guard, nominal(curve), total, nominal(radius))
    heading = np.arctan2(
        nominal(layout.path.spans[place - 1].heading_y),
        nominal(layout.path.spans[place - 1].heading_x),
    ) + turn * 0.5 * (wrap - total)
    ends = _straight_ends(case, guard)
    legs, angles = _legs(case, guard, curve, ends, total / count, count)
    centre = nominal(layout.path.run.x[place]), nominal(layout.path.run.y[place])
    x, y, way_in = _start(case, guard, centre, turn, nominal(curve), heading)
    return Bent(
        guard=guard,
        layout=layout,
        place=place,
        turn=turn,
        metal=metal,
        total=total,
        bends=count,
        gap=gap,
        curve=curve,
        face=face,
        ends=ends,
        radius=radius,
        thickness=thickness,
        k_factor=k,
        angles=angles,
        flat=flat_strip(legs, angles[:, None], radius, thickness, k),
        form=bent_form(legs[:, :1], turn * angles[:, None], x, y, way_in),
    )


def _outer_face(layout: Layout, place: int) -> Array:
    """Radius of the face that the belt turns outwards on a wheel [m]."""
    wheel, own = layout.wheels[place], layout.section
    above = own.belt_above_pitch if wheel.side > 0 else own.belt_below_pitch
    return np.atleast_1d(wheel.pitch_radius + above)


def _thickness(case: Case, guard: Guard) -> Array:
    """Of the strip [m]."""
    return case.need(
        guard.strip.thickness if guard.strip else None,
        f"guard.{guard.name}.strip.thickness",
        "Close a caliper on the strip and write its thickness, for example "
        'strip = { material = "soft steel", thickness = "2 mm" }.',
    )


def _inside_radius(case: Case, guard: Guard, thickness: Array) -> Array:
    """Of each bend [m]."""
    return case.suppose(
        (guard.bending or Bending()).inside_radius,
        f"guard.{guard.name}.bending.inside_radius",
        f"{1e3 * nominal(thickness):.3g} mm",
        Kind.LENGTH,
        "a strip bends by hand to about its own thickness on the inside (common practice)",
    )


def _k_factor(case: Case, guard: Guard, metal: SheetMetal) -> Array:
    """How deep in the strip the neutral line of a bend lies [1]."""
    return case.suppose(
        (guard.bending or Bending()).k_factor,
        f"guard.{guard.name}.bending.k_factor",
        f"{metal.k:.3f} +{metal.k_high - metal.k:.3f} -{metal.k - metal.k_low:.3f}",
        Kind.RATIO,
        f"where the neutral line of a bend in {metal.name} lies ({metal.source}, {metal.status})",
    )


def wanted_gap(case: Case, guard: Guard, layout: Layout) -> Array:
    """From the belt's outer face to the strip [m]."""
    key = f"guard.{guard.name}.gap"
    if guard.kind == "guard":
        why = "room for the belt to tremble and to flap (assumed)"
        return case.suppose(guard.gap, key, "12 mm", Kind.LENGTH, why)
    usual = min(EIGHTH_INCH, 0.5 * layout.section.cross.height)
    why = "a keeper stands 1/8 in to half a belt's thickness off the belt (common practice)"
    return case.suppose(guard.gap, key, f"{1e3 * usual:.2g} mm", Kind.LENGTH, why)


def _bends(case: Case, guard: Guard, curve: float, total: float, radius: float) -> int:
    """How many bends: as written, or enough to follow the curve and no more than the jaws allow."""
    least = int(np.ceil(total / SHARPEST))
    if guard.bending is not None and guard.bending.count is not None:
        return max(guard.bending.count, least)
    count = int(bends_for_corner_error(curve, total, STAND_OFF, radius))
    room = nominal(jaws(case, guard))
    while count > least and _flat(curve, total / count, radius) < room:
        count -= 1
    return count


def _flat(curve: float, angle: float, radius: float) -> float:
    """What stays straight between two bends [m]."""
    return float(2.0 * (setback(angle, curve) - setback(angle, radius)))


def most_bends(case: Case, shape: Bent) -> int:
    """The most bends that the jaws allow."""
    room, curve = nominal(jaws(case, shape.guard)), nominal(shape.curve)
    radius, count = nominal(shape.radius), 60
    while count > 1 and _flat(curve, min(shape.total / count, SHARPEST), radius) < room:
        count -= 1
    return count


def _straight_ends(case: Case, guard: Guard) -> tuple[Array, Array]:
    """Straight ends before and after the pulley [m]."""
    before, after = guard.ends or (None, None)
    why = "a straight end holds the belt a little before and after the pulley (assumed)"
    key = f"guard.{guard.name}.ends"
    return (
        case.suppose(before, f"{key}.0", "15 mm", Kind.LENGTH, why),
        case.suppose(after, f"{key}.1", "15 mm", Kind.LENGTH, why),
    )


def _feet(guard: Guard) -> tuple[Foot | None, Foot | None]:
    by_end = {foot.end: foot for foot in guard.feet}
    return by_end.get("first"), by_end.get("last")


def _legs(
    case: Case, guard: Guard, curve: Array, ends: tuple[Array, Array], angle: float, count: int
) -> tuple[Array, Array]:
    """Legs from corner to corner of the face towards the belt, and the bends between them."""
    half = setback(angle, curve)
    before, after = ends
    first, last = _feet(guard)
    legs: list[Array] = [before + half, *[2.0 * half] * (count - 1), after + half]
    angles = [angle] * count
    if first is not None:
        legs, angles = [case.si(first.length), *legs], [-nominal(case.si(first.angle)), *angles]
    if last is not None:
        legs, angles = [*legs, case.si(last.length)], [*angles, -nominal(case.si(last.angle))]
    return np.stack(np.broadcast_arrays(*legs)), np.array(angles)


def _start(
    case: Case,
    guard: Guard,
    centre: tuple[float, float],
    turn: int,
    curve: float,
    heading: float,
) -> tuple[float, float, float]:
    """Where the strip begins beside the pulley, and which way its first leg runs."""
    out = heading - turn * 0.5 * pi
    before = nominal(_straight_ends(case, guard)[0])
    x = centre[0] + curve * cos(out) - before * cos(heading)
    y = centre[1] + curve * sin(out) - before * sin(heading)
    foot, _ = _feet(guard)
    if foot is None:
        return x, y, heading
    way = heading + turn * nominal(case.si(foot.angle))
    long = nominal(case.si(foot.length))
    return x - long * cos(way), y - long * sin(way), way
