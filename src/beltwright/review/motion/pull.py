"""How hard a build pulls, what it climbs, how fast it gets and how soon, as numbers."""

from functools import partial
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt
from beltwright.physics.arrays import Array, ArrayLike
from beltwright.physics.motion.climb import climb_before_lift, climb_by_grip, climb_by_power
from beltwright.physics.motion.clutch_start import (
    ClutchStart,
    clutch_start,
    heat_taken,
    inertia_at_clutch,
)
from beltwright.physics.motion.run_up import RunUp, run_up
from beltwright.physics.motion.top_speed import (
    EngineRange,
    Resistance,
    TopSpeed,
    resisting_force,
    top_speed,
)
from beltwright.physics.motion.top_speed import Gear as MotionGear
from beltwright.physics.motion.traction import ThrustLimits, thrust_limits
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.driveline.pulleys import roll_out
from beltwright.review.driveline.routes import Gear, gears, route_to
from beltwright.review.engine.torque import (
    engine_torque,
    governor_begins,
    no_load,
    peak_torque,
    rating,
)
from beltwright.review.motion.ground import Ground, grounds, steepest
from beltwright.review.nominal import nominal
from beltwright.review.stability.centre_of_gravity import State, laden, states
from beltwright.tables.belts import section

CHART_SPEEDS = 25
"""Points on each gear's curve of pull."""

RUBBER_HEAT = 1900.0
"""Specific heat of belt rubber and cord [J/(kg K)], from memory, medium."""

BELT_SHARE = 0.5
"""Share of the clutch's heat that stays in the belt; the pulleys take the rest (assumed)."""

NEARLY = 0.9
"""Share of the top speed to which a run-up is timed: the last tenth creeps up for ever."""


def idle_or_usual(case: Case) -> Array:
    """Idle speed [rad/s], or what such engines idle at."""
    return case.suppose(
        case.build.engine.idle,
        "engine.idle",
        "1600 ± 200 rpm",
        Kind.ROTATION,
        "small engines idle at 1400 to 1800 rpm (common practice, no source)",
    )


def engine_range(case: Case) -> EngineRange:
    """The engine as the driveline feels it."""
    return case.once("motion.engine", lambda: _engine_range(case))


def _engine_range(case: Case) -> EngineRange:
    begins = governor_begins(case)
    return EngineRange(
        torque=partial(engine_torque, case),
        slowest=np.minimum(idle_or_usual(case), begins),
        governed=begins,
        no_load=no_load(case),
    )


def geared(case: Case, gear: Gear) -> MotionGear:
    """A gear from the engine shaft to the ground."""
    return case.once(("motion.gear", gear.name), lambda: _geared(case, gear))


def _geared(case: Case, gear: Gear) -> MotionGear:
    route = route_to(case, case.build.wheels.shaft)
    measured = case.build.wheels.efficiency
    return MotionGear(
        ratio=route.total_ratio(gear),
        efficiency=route.efficiency if measured is None else case.si(measured),
        rolling_radius=roll_out(case) / (2.0 * np.pi),
    )


def resistance(case: Case, ground: Ground, slope: ArrayLike = 0.0) -> Resistance:
    """What holds the laden machine back on a ground."""
    drag_area = case.suppose(
        None,
        "machine.drag_area",
        "0.7 ± 0.2 m²",
        Kind.AREA,
        "drag coefficient times frontal area of a seated driver (common practice, no source)",
    )
    return Resistance(laden(case).balance.mass, ground.rolling, slope, 0.0, drag_area)


def limits(case: Case, state: State, ground: Ground, slope: ArrayLike) -> ThrustLimits:
    """The thrust at which tyres spin and at which the front lifts [N]."""
    return thrust_limits(
        state.chassis, ground.grip, case.build.wheels.driven, slope, ground.rolling
    )


def lifts_first(case: Case, ground: Ground, slope: ArrayLike) -> State:
    """The state of the machine, laden or with its driver alone, whose front lifts most readily
    before its tyres spin, in the nominal build."""
    found = [(limits(case, state, ground, slope), state) for state in states(case)]
    return min(
        found,
        key=lambda each: (
            nominal(each[0].lift / each[0].slip),
            nominal(each[0].lift / each[1].chassis.weight),
        ),
    )[1]


def front_ballast(state: State, ground: Ground, margin: float) -> Array:
    """Mass over the front axle, at the height of the weight, with which the tyres spin before
    the front lifts, the lifting thrust so many times the spinning one [kg]; infinite where no mass
    does it.

    From lift = margin × spin with the thrusts of `limits`: b + f h = m μ h L / (L + (m − 1) μ h).
    """
    chassis = state.chassis
    turned = ground.grip * np.asarray(chassis.height)
    ahead = margin * turned * chassis.wheelbase / (chassis.wheelbase + (margin - 1.0) * turned)
    wanted = np.asarray(ahead - ground.rolling * chassis.height)
    left = np.asarray(chassis.wheelbase - wanted)
    ballast = chassis.mass * np.maximum(wanted - chassis.ahead, 0.0)
    return np.where(left > 0.0, ballast / np.where(left > 0.0, left, 1.0), np.inf)


def peak_thrust(case: Case, gear: Gear) -> Array:
    """The most that a gear can push with, tyres holding [N]."""
    return geared(case, gear).thrust(peak_torque(case))


class Climb(NamedTuple):
    """The steepest slope that the slowest gear climbs on a ground, and what ends it [rad]."""

    power: Array
    grip: Array
    lift: Array

    @property
    def slope(self) -> Array:
        """The least of the three [rad]."""
        return np.atleast_1d(np.minimum(np.minimum(self.power, self.grip), self.lift))

    @property
    def ends_with(self) -> str:
        """What ends the nominal climb, in words."""
        three = {
            "the engine has no more": self.power,
            "the tyres spin": self.grip,
            "the front wheels lift": self.lift,
        }
        return min(three, key=lambda words: nominal(three[words]))


def climb(case: Case, ground: Ground, gear: Gear) -> Climb:
    """What a gear climbs on a ground, fully laden, at a crawl."""
    chassis = laden(case).chassis
    driven = case.build.wheels.driven
    lifted = climb_before_lift(chassis)
    return Climb(
        power=climb_by_power(chassis.weight, peak_thrust(case, gear), ground.rolling),
        grip=climb_by_grip(chassis, ground.grip, driven, ground.rolling),
        lift=lifted,
    )


def top_speed_on(case: Case, ground: Ground, gear: Gear, slope: ArrayLike = 0.0) -> TopSpeed:
    """The speed that a gear settles at on a ground, fully laden [m/s]."""
    return top_speed(engine_range(case), geared(case, gear), resistance(case, ground, slope))


def fastest_gear_on(case: Case, ground: Ground) -> tuple[Gear, TopSpeed]:
    """The forward gear that is fastest on a level ground in the nominal build, and its speed."""
    return case.once(("motion.fastest", ground.name), lambda: _fastest_gear_on(case, ground))


def _fastest_gear_on(case: Case, ground: Ground) -> tuple[Gear, TopSpeed]:
    forward = sorted((gear for gear in gears(case) if gear.forward), key=lambda gear: gear.ratio)
    best = (forward[0], top_speed_on(case, ground, forward[0]))
    for gear in forward[1:]:
        most = geared(case, gear).road_speed(no_load(case))
        if nominal(best[1].speed) >= nominal(most):
            break
        slower = (gear, top_speed_on(case, ground, gear))
        best = max(best, slower, key=lambda pair: nominal(pair[1].speed))
    return best


def run_up_on(case: Case, ground: Ground, gear: Gear, target: ArrayLike) -> RunUp:
    """Time and distance from standing to a speed, started in that gear and kept in it."""
    engine = engine_range(case)
    most = limits(case, laden(case), ground, 0.0).usable
    return run_up(
        engine, [geared(case, gear)], resistance(case, ground), target, engine.governed, most
    )


class Start(NamedTuple):
    """One start from standing with the belt clutch.

    clutch  times, heat and speed
    rise    how much hotter the belt gets [K], None where the belt is not known
    belt    the belt that slips
    """

    clutch: ClutchStart
    rise: Array | None
    belt: str


def start(case: Case, ground: Ground, gear: Gear, slope: ArrayLike) -> Start:
    """A start in a gear on a slope, the clutch passing on what the engine gives at its best."""
    geared_down = geared(case, gear)
    held = resisting_force(resistance(case, ground, slope), 0.0)
    load = held * geared_down.rolling_radius / (geared_down.ratio * geared_down.efficiency)
    torque = peak_torque(case)
    # what the gears lose on the way, the clutch has to bring as well
    inertia = inertia_at_clutch(
        laden(case).balance.mass / np.asarray(geared_down.efficiency),
        geared_down.rolling_radius,
        geared_down.ratio,
    )
    slipping = clutch_start(torque, torque, load, np.inf, inertia, rating(case).speed)
    belt = clutch_belt(case)
    if belt is None:
        return Start(slipping, None, "")
    mass = section(belt.section).mass.linear_mass * case.si(belt.length) * belt.count
    return Start(slipping, heat_taken(slipping.work, BELT_SHARE, mass, RUBBER_HEAT), belt.name)


def clutch_belt(case: Case) -> Belt | None:
    """The first belt with an idler on an arm, which is the clutch."""
    arms = {idler.name for idler in case.build.idler if idler.arm is not None}
    return next((belt for belt in case.build.belt if arms & set(belt.run)), None)


class PullCurve(NamedTuple):
    """Pull against speed in one gear.

    speed  over the ground [m/s], shape (points, ...)
    pull   at the driven tyres [N], shape (points, ...)
    """

    gear: Gear
    speed: Array
    pull: Array


class Holding(NamedTuple):
    """What holds the machine back, against speed [N], shape (points, ...)."""

    words: str
    speed: Array
    force: Array


class PullCurves(NamedTuple):
    """Pull in every forward gear with what it has to beat and what the ground can take.

    spins  thrust at which the tyres spin on the usual ground, level [N]
    lifts  thrust at which the front lifts, level [N]
    """

    ground: str
    gears: tuple[PullCurve, ...]
    holding: tuple[Holding, ...]
    spins: Array
    lifts: Array


def pull_curves(case: Case) -> PullCurves:
    """The chart of pull against speed on the usual ground, fully laden."""
    engine, usual = engine_range(case), grounds(case)[0]
    part = np.linspace(0.0, 1.0, CHART_SPEEDS)[:, None]
    turns = engine.slowest + part * (np.asarray(engine.no_load) - engine.slowest)
    torque = engine.torque(turns)
    curves = tuple(
        PullCurve(gear, geared(case, gear).road_speed(turns), geared(case, gear).thrust(torque))
        for gear in gears(case)
        if gear.forward
    )
    fastest = max(float(np.max(curve.speed)) for curve in curves)
    speed = fastest * part
    slope = steepest(case)
    level = resisting_force(resistance(case, usual), speed)
    uphill = resisting_force(resistance(case, usual, slope), speed)
    most = limits(case, laden(case), usual, 0.0)
    return PullCurves(
        ground=usual.name,
        gears=curves,
        holding=(Holding("level", speed, level), Holding("steepest slope", speed, uphill)),
        spins=np.atleast_1d(most.slip),
        lifts=np.atleast_1d(most.lift),
    )
