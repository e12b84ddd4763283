"""The stroke of a build's throttle as numbers: travel, pulls, and what closes it over the stroke.

The stroke is followed by the arm at the engine, from its idle stop to where full pedal brings it;
arrays have the samples first and the places of the stroke last.
"""

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np

from beltwright.build.throttle import ThrottleSpring
from beltwright.physics.arrays import Array
from beltwright.physics.cable import cable_stretch
from beltwright.physics.spring import SpringOnArm, spring_on_arm
from beltwright.physics.throttle.lever import angle_at_reach, wire_lever, wire_reach
from beltwright.physics.throttle.stroke import (
    opening_pull,
    pedal_push,
    pull_to_lift,
    resisting_torque,
)
from beltwright.review.case import Case, NotKnownError
from beltwright.review.throttle.levers import (
    Lever,
    arm_lever,
    cable,
    described,
    foot_arm,
    pedal_lever,
)

PLACES = 9
"""Places of the stroke that are reckoned."""

ROUNDS = 3
"""Stretch and pull settle far below a micrometre in so many rounds."""


class Travel(NamedTuple):
    """What becomes of the wire that the pedal draws [m].

    drawn    at the pedal, from rest to its stop
    stretch  of wire and housing under the pull at the end
    brought  to the arm: drawn less slack less stretch
    needed   by the arm, from closed to open
    reached  angle of the arm at full pedal, between closed and open [rad]
    """

    drawn: Array
    stretch: Array
    brought: Array
    needed: Array
    reached: Array


class Stroke(NamedTuple):
    """The stroke, place by place.

    arm          angle of the arm [rad]
    pedal        angle of the pedal [rad]
    arm_wire     lever of the wire about the arm's pivot, positive where it opens [m]
    pedal_wire   lever of the wire about the pedal's pivot, positive where it lifts [m]
    springs      each spring by its name
    moments      of each spring by its name, positive where it takes its lever back [N m]
    """

    arm: Array
    pedal: Array
    arm_wire: Array
    pedal_wire: Array
    springs: dict[str, SpringOnArm]
    moments: dict[str, Array]


class Closing(NamedTuple):
    """What closes the arm with the foot off, place by place [N m].

    broken   name of the spring that is off, "" for none
    springs  moment of the springs that are left at the arm
    resists  what they have to overcome
    """

    broken: str
    springs: Array
    resists: Array


def springs_at(case: Case, at: str) -> tuple[ThrottleSpring, ...]:
    """Every spring of the arm or of the pedal."""
    return tuple(spring for spring in described(case).spring if spring.at == at)


def return_springs(case: Case, at: str) -> tuple[ThrottleSpring, ...]:
    """The return springs of the arm or of the pedal."""
    return tuple(spring for spring in springs_at(case, at) if spring.works == "return")


def _spring_over(case: Case, spring: ThrottleSpring, angle: Array) -> SpringOnArm:
    """A spring at angles of its lever, shape (samples, places)."""
    (along, left), (right, up) = spring.lever_hook, spring.fixed_hook
    return spring_on_arm(
        angle,
        (0.0, 0.0),
        (_down(case.si(along)), _down(case.si(left))),
        (_down(case.si(right)), _down(case.si(up))),
        _down(case.si(spring.free)),
        _down(case.si(spring.rate)),
        0.0 if spring.initial is None else _down(case.si(spring.initial)),
        np.inf if spring.longest is None else _down(case.si(spring.longest)),
    )


def _drawn(case: Case, at: str, angle: Array) -> dict[str, SpringOnArm]:
    """Each spring of the arm or of the pedal, by its name, at angles of its lever."""
    return {spring.name: _spring_over(case, spring, angle) for spring in springs_at(case, at)}


def _backs(lever: Lever, drawn: dict[str, SpringOnArm]) -> dict[str, Array]:
    """Moment with which each spring takes its lever back to where it starts [N m]."""
    back = -_down(lever.onward)
    return {name: np.asarray(back * spring.moment) for name, spring in drawn.items()}


def _together(moments: Iterable[Array]) -> Array:
    return np.asarray(sum(moments, start=np.zeros((1, 1))))


def _down(values: Array) -> Array:
    """Samples as a column, to meet the places of the stroke."""
    return np.atleast_1d(values)[:, np.newaxis]


def _wire(lever: Lever, angle: Array) -> tuple[Array, Array]:
    """Reach of the wire, and its lever counter-clockwise, at angles of a lever."""
    end = (_down(lever.housing_end[0]), _down(lever.housing_end[1]))
    radius = _down(lever.radius)
    reach = wire_reach(angle, radius, end)
    return reach, wire_lever(angle, radius, end, reach)


def _stretch(case: Case, closing: Array, wire: Array) -> Array:
    """Stretch of the cable that holds the arm open against a closing moment [m]."""
    made = cable(case)
    pull = opening_pull(closing, _down(arm_lever(case).friction), wire)
    return cable_stretch(pull, _down(made.efficiency), _down(made.length), _down(made.stiffness))


def travel(case: Case) -> Travel:
    """The travel of the wire from the pedal to the arm."""
    return case.once("throttle.travel", lambda: _travel(case))


def _travel(case: Case) -> Travel:
    pedal, arm = pedal_lever(case), arm_lever(case)
    drawn, needed = pedal.travel, -arm.travel
    start_reach = wire_reach(arm.start, arm.radius, arm.housing_end)
    reached = np.broadcast_to(arm.end, np.broadcast_shapes(arm.end.shape, drawn.shape))
    for _ in range(ROUNDS):
        at_end = _down(reached)
        _, wire = _wire(arm, at_end)
        closing = _together(_backs(arm, _drawn(case, "arm", at_end)).values())
        stretch = _stretch(case, closing, _down(arm.onward) * wire)[:, 0]
        brought = drawn - cable(case).slack - stretch
        drawn_in = np.clip(brought, 0.0, np.maximum(needed, 0.0))
        reached = angle_at_reach(
            start_reach - drawn_in, arm.radius, arm.housing_end, arm.start, arm.onward
        )
    return Travel(drawn, stretch, brought, needed, reached)


def stroke(case: Case) -> Stroke:
    """The stroke from the idle stop to where full pedal brings the arm."""
    return case.once("throttle.stroke", lambda: _stroke(case))


def _stroke(case: Case) -> Stroke:
    wrong = wrong_way(case)
    if wrong:
        raise NotKnownError(
            "throttle.travel",
            "Put right what the travel of the throttle says first.",
            f"The wire pulls the {wrong} the wrong way, or over its dead centre.",
        )
    pedal, arm = pedal_lever(case), arm_lever(case)
    share = np.linspace(0.0, 1.0, PLACES)
    angle = _down(arm.start) + share * _down(travel(case).reached - arm.start)
    reach, wire = _wire(arm, angle)
    arm_wire = _down(arm.onward) * wire
    at_arm = _drawn(case, "arm", angle)
    closing = _backs(arm, at_arm)
    stretch = _stretch(case, _together(closing.values()), arm_wire)
    rest = _down(wire_reach(pedal.start, pedal.radius, pedal.housing_end))
    at_pedal = angle_at_reach(
        rest + _down(cable(case).slack) + reach[:, :1] - reach + stretch,
        _down(pedal.radius),
        (_down(pedal.housing_end[0]), _down(pedal.housing_end[1])),
        _down(pedal.start),
        -_down(pedal.onward),
    )
    _, pedal_wire = _wire(pedal, at_pedal)
    lifting = _drawn(case, "pedal", at_pedal)
    return Stroke(
        angle,
        at_pedal,
        arm_wire,
        -_down(pedal.onward) * pedal_wire,
        at_arm | lifting,
        closing | _backs(pedal, lifting),
    )


def moments_of(case: Case, springs: Iterable[ThrottleSpring]) -> Array:
    """Moment with which some springs together take their lever back, over the stroke [N m]."""
    moments = stroke(case).moments
    return _together(moments[spring.name] for spring in springs)


def wrong_way(case: Case) -> str:
    """Which of the levers the wire pulls the wrong way at an end of its swing, "" if neither."""
    for lever, name, turns in (
        (pedal_lever(case), "pedal", -1.0),
        (arm_lever(case), "arm", 1.0),
    ):
        ends = np.stack([lever.start[:1], lever.end[:1]], axis=1)
        _, wire = _wire(lever, ends)
        if np.any(turns * lever.onward[0] * wire[0] <= 0.0):
            return name
    return ""


def foot_push(case: Case, broken: str = "") -> Array:
    """How hard the foot pushes over the stroke, all springs on or one off [N]."""
    return case.once(("throttle.push", broken), lambda: _foot_push(case, broken))


def _foot_push(case: Case, broken: str) -> Array:
    made = stroke(case)
    at_arm, at_pedal = (
        tuple(s for s in springs_at(case, at) if s.name != broken) for at in ("arm", "pedal")
    )
    friction = _down(arm_lever(case).friction)
    pull = opening_pull(moments_of(case, at_arm), friction, made.arm_wire)
    return pedal_push(
        pull / _down(cable(case).efficiency),
        made.pedal_wire,
        moments_of(case, at_pedal),
        _down(pedal_lever(case).friction),
        _down(foot_arm(case)),
    )


def closings(case: Case) -> tuple[Closing, ...]:
    """What closes the arm with every return spring whole, then with each one off in turn."""
    return case.once("throttle.closings", lambda: tuple(_closings(case)))


def _closings(case: Case) -> list[Closing]:
    names = [spring.name for at in ("arm", "pedal") for spring in return_springs(case, at)]
    return [_closing(case, broken) for broken in ("", *names)]


def _closing(case: Case, broken: str) -> Closing:
    made, pedal, arm = stroke(case), pedal_lever(case), arm_lever(case)
    at_arm, at_pedal = (
        tuple(s for s in return_springs(case, at) if s.name != broken) for at in ("arm", "pedal")
    )
    pull = pull_to_lift(
        moments_of(case, at_pedal),
        _down(pedal.friction),
        made.pedal_wire,
        _down(cable(case).efficiency),
    )
    return Closing(
        broken,
        moments_of(case, at_arm),
        resisting_torque(_down(arm.friction), pull, made.arm_wire),
    )
