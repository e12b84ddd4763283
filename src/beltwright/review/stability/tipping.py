"""When a build tips, on slopes and in turns, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.stability.centre_of_gravity import Balance
from beltwright.physics.stability.cornering import fastest_turn, sideways_limit, tightest_turn
from beltwright.physics.stability.slope import (
    LEFT,
    RIGHT,
    TipAxis,
    pivoting_axes,
    rigid_axes,
    static_limit,
)
from beltwright.review.case import Case
from beltwright.review.motion.ground import grounds, steepest
from beltwright.review.nominal import nominal
from beltwright.review.stability.centre_of_gravity import (
    State,
    states,
    track_front,
    track_rear,
    wheelbase,
)

CHART_RADII = np.linspace(0.5, 12.0, 47)
"""Turn radii of the chart [m]."""


class SlopeLimit(NamedTuple):
    """The slope at which the machine tips to one side or end, and in which state it does so first.

    static  least over all states [rad], shape (...)
    state   the state that tips first in the nominal build
    """

    static: Array
    state: State


def tip_axes(case: Case) -> tuple[TipAxis, ...]:
    """The lines about which the machine can fall."""
    return case.once("stability.tip_axes", lambda: _tip_axes(case))


def _tip_axes(case: Case) -> tuple[TipAxis, ...]:
    sizes = (wheelbase(case), track_front(case), track_rear(case))
    wheels = case.build.wheels
    if wheels.front_axle == "rigid":
        return rigid_axes(*sizes)
    pivot = case.need(
        wheels.front_pivot_height,
        "wheels.front_pivot_height",
        "Measure from the ground to the middle of the front axle's pivot bolt and write it, for "
        'example front_pivot_height = "260 mm".',
    )
    return pivoting_axes(*sizes, pivot)


def slope_limit(case: Case, *downhill: float) -> SlopeLimit:
    """The static limit with downhill in any of the directions given [rad from straight ahead]."""
    return case.once(("stability.slope", downhill), lambda: _slope_limit(case, downhill))


def _slope_limit(case: Case, downhill: tuple[float, ...]) -> SlopeLimit:
    limits = [least_limit(case, state.balance, *downhill) for state in states(case)]
    first = int(np.argmin([nominal(limit) for limit in limits]))
    static = limits[0]
    for limit in limits[1:]:
        static = np.minimum(static, limit)
    return SlopeLimit(np.atleast_1d(static), states(case)[first])


def least_limit(case: Case, balance: Balance, *downhill: float) -> Array:
    """The static limit of a machine balanced so, the least of the directions given [rad]."""
    least = static_limit(tip_axes(case), balance, downhill[0])
    for direction in downhill[1:]:
        least = np.minimum(least, static_limit(tip_axes(case), balance, direction))
    return least


def side_limit(case: Case) -> SlopeLimit:
    """The slope across which the machine tips, to whichever side [rad]."""
    return slope_limit(case, LEFT, RIGHT)


def sideways_hold(case: Case) -> Array:
    """Sideways push over weight at which the machine tips [1]."""
    return sideways_limit(side_limit(case).static)


def tipping_speed(case: Case, radius: ArrayLike, side_slope: ArrayLike = 0.0) -> Array:
    """Speed [m/s] at which it tips in a turn of a radius [m], ground falling outwards."""
    return fastest_turn(radius, sideways_hold(case), side_slope)


def tipping_radius(case: Case, speed: ArrayLike, side_slope: ArrayLike = 0.0) -> Array:
    """Turn radius [m] at which it tips at a speed [m/s], ground falling outwards."""
    return tightest_turn(speed, sideways_hold(case), side_slope)


def with_weight_lowered(case: Case, drop: float) -> Array:
    """Side limit [rad] with the whole weight lower by so much [m]; a what-if for the words."""
    balance = side_limit(case).state.balance
    lower = Balance(balance.mass, balance.x, balance.y, balance.z - drop)
    return least_limit(case, lower, LEFT, RIGHT)


def with_tracks_wider(case: Case, more: float) -> Array:
    """Side limit [rad] with both tracks wider by so much [m]; a what-if for the words."""
    sizes = (wheelbase(case), track_front(case) + more, track_rear(case) + more)
    pivot = case.build.wheels.front_pivot_height
    if case.build.wheels.front_axle == "rigid" or pivot is None:
        axes = rigid_axes(*sizes)
    else:
        axes = pivoting_axes(*sizes, case.si(pivot))
    balance = side_limit(case).state.balance
    return np.minimum(static_limit(axes, balance, LEFT), static_limit(axes, balance, RIGHT))


class TurnCurve(NamedTuple):
    """Fastest turns on one side slope, for a chart.

    side_slope  of the ground, falling to the outside of the turn [rad]
    tips        speed at which it tips [m/s], shape (radii, ...)
    slides      speed at which its tyres let go on the usual ground [m/s], shape (radii, ...)
    """

    side_slope: float
    tips: Array
    slides: Array


class TurnAndSlope(NamedTuple):
    """Speed against turn radius on the level and on side slopes.

    radius  of the path of the centre of gravity [m], shape (radii,)
    """

    radius: Array
    ground: str
    curves: tuple[TurnCurve, ...]


def turn_and_slope(case: Case) -> TurnAndSlope:
    """The chart of speed against turn radius: level, half and all of the steepest slope."""
    slope = nominal(steepest(case))
    usual = grounds(case)[0]
    radius = CHART_RADII[:, None]
    return TurnAndSlope(
        radius=CHART_RADII,
        ground=usual.name,
        curves=tuple(
            TurnCurve(
                side_slope=part * slope,
                tips=tipping_speed(case, radius, part * slope),
                slides=fastest_turn(radius, usual.grip, part * slope),
            )
            for part in (0.0, 0.5, 1.0)
        ),
    )


def lightest_front(case: Case) -> State:
    """The state of the machine in which the front wheels carry the least share, nominal build,
    nose up on the steepest slope."""
    slope = steepest(case)
    return min(states(case), key=lambda state: nominal(front_share(state, slope)))


def front_share(state: State, slope: ArrayLike = 0.0) -> Array:
    """Share of the weight that the front wheels carry, standing nose up on a slope [1]."""
    chassis = state.chassis
    return np.asarray(
        (chassis.ahead - chassis.height * np.tan(slope)) / np.asarray(chassis.wheelbase)
    )
