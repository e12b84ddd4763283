"""The pedal and the arm at the engine as levers on the throttle's wire, and the wire's cable."""

from typing import NamedTuple

import numpy as np

from beltwright.build.fields import Point
from beltwright.build.throttle import Throttle
from beltwright.physics.arrays import Array
from beltwright.physics.cable import cable_efficiency, play_in_bends, strand_stiffness
from beltwright.physics.throttle.lever import wire_reach
from beltwright.quantity import Kind, Quantity
from beltwright.review.case import Case, NotKnownError
from beltwright.review.nominal import nominal

STEEL_MODULUS = 207e9
"""Of carbon steel [Pa]: Shigley, Mechanical Engineering Design, 9th ed., table A-5."""

ANGLES_HOW = (
    "Look squarely at the plane in which it swings, lay a phone's level along the line from the "
    "pivot to the hole of the wire, and write the angle at both ends of the swing, "
    "counter-clockwise from the right, for example "
)


class Lever(NamedTuple):
    """A lever on the wire, its pivot at 0, 0.

    start        angle with the foot off [rad]
    end          angle with the pedal at its stop, or the arm open [rad]
    radius       from the pivot to the hole of the wire [m]
    housing_end  where the housing of the cable ends [m]
    onward       +1 where it swings counter-clockwise from start to end, -1 where clockwise
    friction     of its pivot [N m]
    """

    start: Array
    end: Array
    radius: Array
    housing_end: tuple[Array, Array]
    onward: Array
    friction: Array

    @property
    def travel(self) -> Array:
        """How much the wire that stands out grows from start to end [m]."""
        reaches = [wire_reach(a, self.radius, self.housing_end) for a in (self.end, self.start)]
        return np.asarray(reaches[0] - reaches[1])


class Cable(NamedTuple):
    """The cable between them.

    slack       wire drawn out at the pedal before the arm moves [m]
    efficiency  share of the pull that its bends leave [1]
    length      of the wire [m]
    stiffness   of wire and housing together, per strain of the wire [N]
    bends       added up [rad]
    play        travel that the wire loses as it crosses the housing in its bends [m]
    """

    slack: Array
    efficiency: Array
    length: Array
    stiffness: Array
    bends: Array
    play: Array


def described(case: Case) -> Throttle:
    """The throttle of a build that has one."""
    assert case.build.throttle is not None
    return case.build.throttle


def foot_arm(case: Case) -> Array:
    """From the pedal's pivot to where it is pressed [m]."""
    return case.need(
        described(case).pedal.foot,
        "throttle.pedal.foot",
        "Measure from the pedal's pivot to where foot or hand presses, and write it under "
        '[throttle.pedal], for example foot = "180 mm".',
    )


def pedal_lever(case: Case) -> Lever:
    """The pedal or the hand lever."""
    return case.once("throttle.pedal", lambda: _pedal_lever(case))


def _pedal_lever(case: Case) -> Lever:
    pedal = described(case).pedal
    how = f'{ANGLES_HOW}rest = "100 deg", full = "78 deg" under [throttle.pedal].'
    rest = case.need(pedal.rest, "throttle.pedal.rest", how)
    full = case.need(pedal.full, "throttle.pedal.full", how)
    radius = case.need(
        pedal.arm,
        "throttle.pedal.arm",
        "Measure from the pedal's pivot to the hole of the wire, and write it under "
        '[throttle.pedal], for example arm = "60 mm".',
    )
    onward = _swings(rest, full, "throttle.pedal.full", how)
    push = case.suppose(
        pedal.friction,
        "throttle.pedal.friction",
        "2 ± 1 N",
        Kind.FORCE,
        "push at the foot that a clean, greased pedal needs without springs (common practice, no "
        "source)",
    )
    # the wire pulls the pedal back against the foot
    end = _housing_end(case, pedal.housing_end, "pedal", (rest + full) / 2.0, radius, -onward)
    return Lever(rest, full, radius, end, onward, push * foot_arm(case))


def arm_lever(case: Case) -> Lever:
    """The arm at the engine."""
    return case.once("throttle.arm", lambda: _arm_lever(case))


def _arm_lever(case: Case) -> Lever:
    arm = described(case).arm
    how = f'{ANGLES_HOW}closed = "60 deg", open = "105 deg" under [throttle.arm].'
    closed = case.need(arm.closed, "throttle.arm.closed", how)
    opened = case.need(arm.open, "throttle.arm.open", how)
    radius = case.need(
        arm.radius,
        "throttle.arm.radius",
        "Measure from the arm's pivot to the hole of the wire, and write it under "
        '[throttle.arm], for example radius = "25 mm".',
    )
    onward = _swings(closed, opened, "throttle.arm.open", how)
    pull = case.suppose(
        arm.friction,
        "throttle.arm.friction",
        "2 ± 1 N",
        Kind.FORCE,
        "pull at the hole that a clean arm needs without springs (common practice, no source)",
    )
    end = _housing_end(case, arm.housing_end, "arm", (closed + opened) / 2.0, radius, onward)
    return Lever(closed, opened, radius, end, onward, pull * radius)


def _housing_end(
    case: Case, given: Point | None, name: str, middle: Array, radius: Array, turns: Array
) -> tuple[Array, Array]:
    """Where the housing ends: as measured, else so that the wire pulls squarely in mid-swing."""
    if given is not None:
        return case.si(given[0]), case.si(given[1])
    away = case.suppose(
        None,
        f"throttle.{name}.free_wire",
        "60 ± 20 mm",
        Kind.LENGTH,
        "the wire is taken to pull squarely in mid-swing, from a housing that ends so far from the "
        "hole (common practice, no source); housing_end tells it",
    )
    along, across = (np.cos(middle), np.sin(middle)), (-np.sin(middle), np.cos(middle))
    x, y = (radius * along[i] + away * turns * across[i] for i in (0, 1))
    return np.asarray(x), np.asarray(y)


def cable(case: Case) -> Cable:
    """The cable, with what is not measured supposed."""
    return case.once("throttle.cable", lambda: _cable(case))


def _cable(case: Case) -> Cable:
    given = described(case).cable
    bends = case.suppose(
        given.bends,
        "throttle.cable.bends",
        "270 ± 90 deg",
        Kind.ANGLE,
        "three quarters of a turn from pedal to engine (common practice, no source)",
    )
    friction = case.suppose(
        given.friction,
        "throttle.cable.friction",
        "0.15 ± 0.05",
        Kind.RATIO,
        "wire in a housing, from lined and oiled to dry (common practice, no source)",
    )
    wire = case.suppose(
        given.wire,
        "throttle.cable.wire",
        "1.5 ± 0.3 mm",
        Kind.LENGTH,
        "a usual throttle wire (common practice, no source)",
    )
    length = case.suppose(
        given.length,
        "throttle.cable.length",
        "1.5 ± 0.5 m",
        Kind.LENGTH,
        "from a pedal in front to an engine behind (common practice, no source)",
    )
    play = play_in_bends(bends, _clearance(case, given.housing_bore, wire))
    return Cable(
        slack=_slack(case, play),
        efficiency=cable_efficiency(friction, bends),
        length=length,
        stiffness=strand_stiffness(wire, STEEL_MODULUS, _stiffness_share(case)),
        bends=bends,
        play=play,
    )


def _clearance(case: Case, bore: Quantity | None, wire: Array) -> Array:
    if bore is not None:
        return np.maximum(case.si(bore) - wire, 0.0)
    return case.suppose(
        None,
        "throttle.cable.clearance",
        "0.5 ± 0.3 mm",
        Kind.LENGTH,
        "bore of the housing less the wire (common practice, no source)",
    )


def _stiffness_share(case: Case) -> Array:
    """Stiffness of wire and housing over that of a solid steel rod as thick as the wire."""
    return case.suppose(
        None,
        "throttle.cable.stiffness",
        "0.2 ± 0.1",
        Kind.RATIO,
        "of a solid rod: a strand has about 0.4, and its housing gives as much again (common "
        "practice, no source)",
    )


def _slack(case: Case, play: Array) -> Array:
    """As measured, else a little to reach the idle stop and what the bends take."""
    given = described(case).cable.slack
    if given is not None:
        return case.si(given)
    least = case.suppose(
        None,
        "throttle.cable.least_slack",
        "1.5 ± 0.5 mm",
        Kind.LENGTH,
        "slack beside what the bends take, so that the idle stop is reached (common practice, no "
        "source)",
    )
    return least + play


def _swings(first: Array, last: Array, key: str, how: str) -> Array:
    """Which way a lever swings; one that does not cannot be reckoned with."""
    if nominal(first) == nominal(last):
        raise NotKnownError(key, how, "Both ends of the swing are written with the same angle.")
    return np.sign(last - first)
