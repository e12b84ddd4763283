"""What the review says about each pulley and idler of a belt: wrap, side, line and speed."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from beltwright.build.driveline import Belt, Idler, Pulley
from beltwright.physics.arrays import Array
from beltwright.physics.belt.own_gap import fleet_angle
from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout, belt_layout, belt_run
from beltwright.review.belt.task import belt_section
from beltwright.review.belt.wheels import BeltWheel, place_missing
from beltwright.review.case import Case
from beltwright.review.draft import Ask, Draft
from beltwright.review.driveline.routes import route_to
from beltwright.review.driveline.speed import governed, top_gear
from beltwright.review.finding import Verdict
from beltwright.review.nearness import falls_short, goes_over
from beltwright.review.nominal import nominal
from beltwright.tables.belts import section

LEAST_DRIVE_WRAP = np.radians(120.0)
"""Wrap that a pulley which passes power should have [rad]: common practice, no source."""

SLIPPING_WRAP = np.radians(90.0)
"""Wrap below which it is taken to slip whatever the spring does [rad] (assumed)."""

LEAST_IDLER_WRAP = np.radians(3.0)
"""Wrap that keeps an idler turning with its belt [rad] (assumed)."""

FLEET_LIMIT = np.radians(1.0)
"""Climb of a span between pulleys of different height [rad]: V-belts are held to half a degree,
light machines are seen to live with one (common practice, no source)."""

FLEET_NEAR = 0.5
"""Share of that limit from which it is watched."""

WASHERS = 0.006
"""How far washers bring a wheel in line [m]: common practice, no source."""

MISTAKEN = 0.05
"""A step of more than this between the wheels of one belt is likely a slip of the pen [m]."""

IDLER_BEARING = "9000 rpm"
GEOMETRY = "plane geometry of common tangents, exact"


def questions(case: Case, belt: Belt) -> Iterator[Ask]:
    """The questions about the pulleys and idlers of one belt."""
    head = f"belt.{belt.name}"
    for place, name in enumerate(belt.run):
        yield Ask(f"{head}.wrap.{name}", f"Wrap on the {name}", partial(_wrap, case, belt, place))
    idlers = {idler.name: idler for idler in case.build.idler}
    if any(name in idlers and idlers[name].arm is not None for name in belt.run):
        yield Ask(
            f"{head}.idler_side",
            f"Side of the clutch idler, {belt.name}",
            partial(_idler_side, case, belt),
        )
    yield Ask(f"{head}.fleet", f"Misalignment of the {belt.name}", partial(_fleet, case, belt))
    for place, name in enumerate(belt.run):
        if name in idlers and _groove_on_back(idlers[name]):
            yield Ask(
                f"{head}.face.{name}", f"Face of the {name}", partial(_face, case, belt, place)
            )
        if name in idlers:
            yield Ask(
                f"{head}.idler_speed.{name}",
                f"Speed of the {name}",
                partial(_idler_speed, case, belt, place),
            )


def _wrap(case: Case, belt: Belt, place: int) -> Draft:
    layout = belt_layout(case, belt)
    wheel, wrap = layout.wheels[place], layout.where_it_runs(layout.path.wrap[place])
    drives = isinstance(wheel.of, Pulley)
    wanted = LEAST_DRIVE_WRAP if drives else LEAST_IDLER_WRAP
    show = partial(case.units.show, kind=Kind.ANGLE)
    stops = drives and nominal(wrap) < SLIPPING_WRAP
    return Draft(
        kind=Kind.ANGLE,
        value=wrap,
        at_least=wanted,
        worst=Verdict.STOP if stops else Verdict.MARGINAL,
        stops=np.atleast_1d(wrap < SLIPPING_WRAP) & drives,
        meaning=f"The belt lies {show(nominal(wrap))} round the {wheel.name}.",
        remedy=_wrap_remedy(drives) if falls_short(wrap, wanted) else "",
        formula="wrap = change of the belt's heading",
        working=f"span in {show(_heading(layout, place - 1))}, out {show(_heading(layout, place))}",
        source=f"{GEOMETRY}; {'120° on drive pulleys: common practice' if drives else 'assumed'}",
        leaves_out="whether the wrap holds the torque, which the grip of the belt says",
        caution="A belt with too little wrap slips and burns. Keep hands out of its run."
        if stops
        else "",
        place=layout.stands(place),
    )


def _wrap_remedy(drives: bool) -> str:
    if drives:
        return (
            "Press an idler on the belt's back near this pulley, or move its neighbours apart. "
            "Choose looks where one more idler may stand."
        )
    return "Move the idler further into the belt, so that it keeps turning with it."


def _heading(layout: Layout, place: int) -> float:
    span = layout.path.spans[place]
    return float(np.arctan2(nominal(span.heading_y), nominal(span.heading_x)))


def _idler_side(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    assert layout.mover is not None
    place, count = layout.mover.place, len(layout.wheels)
    _ = layout.travel  # says what is missing where nothing drives the belt
    before, after = layout.strand((place - 1) % count), layout.strand(place)
    slack = "tight" not in (before, after)
    driver = belt.run[layout.driver or 0]
    return Draft(
        holds=np.array([slack]),
        worst=Verdict.MARGINAL,
        says="on the slack side" if slack else "on the tight side",
        meaning=f"The {driver} pays the belt out towards the idler, where it is slack."
        if slack
        else f"The idler stands where the {driver} pulls the belt in: its spring must hold the "
        "whole pull, and the clutch snatches.",
        remedy=""
        if slack
        else "Put the idler on the other run of the belt, between the driver and the pulley after "
        "it in the way that the belt travels.",
        formula="the belt leaves its driver slack and comes back to it tight",
        working=f"the belt travels {_order(layout)}",
        source="common practice; equilibrium of the belt round its driver",
        leaves_out="driving downhill, when the engine brakes and both sides change places",
        place=layout.stands(place),
    )


def _order(layout: Layout) -> str:
    """The run as the belt travels it, from the driver on."""
    names, start, way = layout.belt.run, layout.driver or 0, layout.along
    return " → ".join(names[(start + way * step) % len(names)] for step in range(len(names) + 1))


def _fleet_remedy(angle: Array, level: str) -> str:
    if not goes_over(angle, FLEET_LIMIT, FLEET_NEAR):
        return ""
    if goes_over(angle[:1], FLEET_LIMIT, FLEET_NEAR):
        return level
    return (
        "Lay a straight-edge across both rims and measure the step between them to the "
        "millimetre: heights above the ground are too rough to tell."
    )


_STEPS = {
    ("upright", True): ("higher", "Lower the {}"),
    ("upright", False): ("lower", "Raise the {}"),
    ("cross", True): ("further left", "Bring the {} to the right"),
    ("cross", False): ("further right", "Bring the {} to the left"),
}
"""How a wheel stands that is ahead along its shaft or behind, and what brings it in line."""


def _fleet(case: Case, belt: Belt) -> Draft:
    layout = belt_layout(case, belt)
    wheels, count = layout.wheels, len(layout.wheels)
    missing = next((wheel for wheel in wheels if wheel.height is None), None)
    if missing is not None:
        raise place_missing(missing, layout.plane)
    angles = [
        layout.where_it_runs(_climb(layout, place, wheels[place], wheels[(place + 1) % count]))
        for place in range(count)
    ]
    worst = int(np.argmax([nominal(angle) for angle in angles]))
    first, second = wheels[worst], wheels[(worst + 1) % count]
    assert first.height is not None
    assert second.height is not None
    rise = nominal(second.height - first.height)
    show = partial(case.units.show, kind=Kind.LENGTH)
    span = nominal(layout.path.spans[worst].length)
    stands, move = _STEPS[layout.plane, rise > 0.0]
    return Draft(
        kind=Kind.ANGLE,
        value=angles[worst],
        at_most=FLEET_LIMIT,
        near=FLEET_NEAR,
        worst=Verdict.MARGINAL,
        meaning=f"The {second.name} stands {show(abs(rise))} {stands} than the {first.name}, the "
        "steepest span of the run."
        if rise
        else "All stand in line, as far as they are measured.",
        remedy=_fleet_remedy(
            angles[worst],
            f"{move.format(second.name)} by {show(abs(rise))}{_way_to_move(second, rise)}.",
        ),
        formula="tan(angle) = step between the grooves / span",
        working=f"{show(abs(rise))} / {show(span)}",
        source="geometry; half a degree to one degree: common practice, no source",
        leaves_out="shafts that do not stand parallel",
        place=layout.stands((worst + 1) % count),
    )


def _way_to_move(wheel: BeltWheel, rise: float) -> str:
    """How a wheel is brought in line along its shaft."""
    if abs(rise) <= WASHERS:
        return ", with washers or by turning its hub over"
    how = (
        ": move its bracket"
        if isinstance(wheel.of, Idler)
        else (": slide it along its shaft, or fit one with another hub")
    )
    return f"{how}; or see whether its height is written right" if abs(rise) > MISTAKEN else how


def _climb(layout: Layout, place: int, first: BeltWheel, second: BeltWheel) -> Array:
    assert first.height is not None
    assert second.height is not None
    return fleet_angle(second.height - first.height, layout.path.spans[place].length)


def _groove_on_back(idler: Idler) -> bool:
    return idler.face == "grooved" and idler.runs_on == "back"


def _face(case: Case, belt: Belt, place: int) -> Draft:
    layout, own = belt_run(case, belt), belt_section(belt)
    wheel = layout.wheels[place]
    assert isinstance(wheel.of, Idler)
    groove = section(str(wheel.of.groove))
    sinks = groove.cross.top_width >= own.cross.top_width
    show = partial(case.units.show, kind=Kind.LENGTH)
    return Draft(
        holds=np.array([False]),
        worst=Verdict.STOP if sinks else Verdict.MARGINAL,
        says="grooved, on the belt's back",
        meaning="The back of the belt drops into the groove wide side first: nothing wedges, the "
        "belt rolls over and jumps off."
        if sinks
        else "The back of the belt rides on the two lips of the groove, which cut it and let it "
        "wander.",
        remedy=f"Use a flat idler in place of the {wheel.name}, wider than the belt by a finger, "
        "or set it on the inside of the belt.",
        formula="the back of a V-belt wants a flat rim; a groove takes its flanks alone",
        working=f"back of a {belt.section} belt {show(own.cross.top_width)} wide, groove "
        f"{wheel.of.groove} {show(groove.cross.top_width)}",
        source="RMA IP-20, section on idlers: outside idlers are flat (from memory, high); widths: "
        f"{own.cross.source}",
        leaves_out="double-sided belts, which are made for grooves on both sides; how deep the "
        "belt sinks, so that arm angle and wraps of this run are rough",
        caution="A belt that rolls over can jump off without warning. Keep its guards on."
        if sinks
        else "",
        place=layout.on_machine(wheel.x, wheel.y, wheel.height),
    )


def _idler_speed(case: Case, belt: Belt, place: int) -> Draft:
    layout = belt_layout(case, belt)
    wheel = layout.wheels[place]
    assert isinstance(wheel.of, Idler)
    _ = layout.travel  # says what is missing where nothing drives the belt
    assert layout.driver is not None
    driver = layout.wheels[layout.driver]
    assert isinstance(driver.of, Pulley)
    turns = governed(case) / route_to(case, driver.of.shaft).total_ratio(top_gear(case))
    speed = np.atleast_1d(turns * driver.pitch_radius / wheel.pitch_radius)
    limit = case.suppose(
        wheel.of.bearing_limit,
        f"idler.{wheel.name}.bearing_limit",
        IDLER_BEARING,
        Kind.ROTATION,
        "a sealed ball bearing of 15 to 17 mm bore is commonly rated for 9,000 rpm and more "
        "(common practice, from memory)",
    )
    show = partial(case.units.show, kind=Kind.ROTATION)
    size = partial(case.units.show, kind=Kind.LENGTH, unit=case.units.caliper())
    return Draft(
        kind=Kind.ROTATION,
        value=speed,
        at_most=limit,
        worst=Verdict.MARGINAL,
        meaning=f"The {wheel.name} turns at {nominal(speed) / nominal(limit):.0%} of what its "
        "bearing is made for.",
        remedy="Use a larger idler, or one with a faster bearing."
        if goes_over(speed, limit)
        else "",
        formula="idler speed = driver speed × pitch radius of driver / pitch radius on idler",
        working=f"{show(nominal(turns))} × {size(nominal(driver.pitch_radius))} / "
        f"{size(nominal(wheel.pitch_radius))} = {show(nominal(speed))}",
        source="kinematics; limit read off the bearing"
        if wheel.of.bearing_limit is not None
        else "kinematics; limit supposed",
        leaves_out="heat and dust, which end sealed bearings sooner than speed",
        place=layout.stands(place),
    )
