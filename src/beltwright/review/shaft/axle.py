"""Torque on the axle, the last gears and the chain, as numbers."""

from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Chain, Shaft
from beltwright.physics.arrays import Array
from beltwright.physics.gravity import STANDARD_GRAVITY
from beltwright.physics.shaft.axle_torque import (
    against_donor,
    axle_torque,
    drive_torque,
    grip_torque,
)
from beltwright.physics.shaft.chain import chain_speed, sprocket_pitch_diameter, working_pull
from beltwright.physics.shaft.overhung import yield_factor
from beltwright.quantity import Kind
from beltwright.review.case import Case, unlisted
from beltwright.review.driveline.pulleys import roll_out
from beltwright.review.driveline.routes import gears, route_to
from beltwright.review.driveline.speed import governed, low_gear, top_gear
from beltwright.review.engine.torque import peak_torque
from beltwright.review.motion.ground import HARD, grippiest, ground
from beltwright.review.motion.pull import limits
from beltwright.review.shaft.steel import JERK, yield_strength
from beltwright.review.stability.centre_of_gravity import laden
from beltwright.tables.chains import ChainSize, chain_size
from beltwright.tables.loading import UnlistedError


class Twist(NamedTuple):
    """How the worst single load twists a shaft behind the gearbox, shape (...).

    torque    the most that a jerk puts on it, on each half of an axle with an open differential
              [N·m]
    diameter  of the shaft [m]
    yields    stress at which it stays twisted [Pa]
    used      share of what it stands once, in a jerk [1]
    """

    torque: Array
    diameter: Array
    yields: Array
    used: Array


def wheel_grip(case: Case) -> Array:
    """Torque on the driven wheels at which they spin, or the front lifts, on level ground [N·m]."""
    thrust = limits(case, laden(case), grippiest(case), 0.0).usable
    return thrust * roll_out(case) / (2.0 * np.pi)


def engine_puts(case: Case, shaft: str) -> Array:
    """The most torque that the engine can put on a shaft, slowest gear [N·m]."""
    route = route_to(case, shaft)
    slowest = max(gears(case), key=lambda gear: gear.ratio)
    return drive_torque(peak_torque(case), route.total_ratio(slowest), route.efficiency)


def torque_at(case: Case, shaft: str) -> Array:
    """The torque that a shaft on the way to the wheels sees: the engine's or the grip's [N·m]."""
    return axle_torque(engine_puts(case, shaft), wheel_grip(case) / _behind(case, shaft))


def jerk_at(case: Case, shaft: str) -> Array:
    """The most that a jerk puts on a shaft on the way to the wheels [N·m].

    The engine's torque comes on at once; what the tyres pass on dry, hard ground bounds it.
    """
    state, hard = laden(case), ground(case, HARD)
    # no more than the whole weight bears on the driven wheels, however far the front rises
    most = np.minimum(limits(case, state, hard, 0.0).slip, hard.grip * state.chassis.weight)
    spins = most * roll_out(case) / (2.0 * np.pi) / _behind(case, shaft)
    return np.atleast_1d(axle_torque(JERK * engine_puts(case, shaft), spins))


def _behind(case: Case, shaft: str) -> Array:
    """Torque at the wheels over that on a shaft before them [1]."""
    here, wheels = route_to(case, shaft), route_to(case, case.build.wheels.shaft)
    return wheels.ratio / here.ratio * wheels.efficiency / here.efficiency


def twisted_shafts(case: Case) -> list[Shaft]:
    """The shafts behind the gearbox whose diameter is known."""
    build = case.build
    behind = {build.wheels.shaft, *(end.shaft for c in build.chain for end in (c.driver, c.driven))}
    if build.gearbox is not None:
        behind.add(build.gearbox.output)
    return [shaft for shaft in build.shaft if shaft.name in behind and shaft.diameter is not None]


def halved(case: Case, shaft: Shaft) -> bool:
    """Whether an open differential gives each half of the shaft half of its torque."""
    return shaft.name == case.build.wheels.shaft and case.build.wheels.differential == "open"


def twist(case: Case, shaft: Shaft) -> Twist:
    """How a jerk twists a shaft whose diameter is known; a solid axle by one wheel alone."""
    assert shaft.diameter is not None
    torque = jerk_at(case, shaft.name) * (0.5 if halved(case, shaft) else 1.0)
    thick, yields = case.si(shaft.diameter), yield_strength(case, shaft.name)
    return Twist(torque, thick, yields, 1.0 / yield_factor(thick, 0.0, torque, yields))


def donor_torque(case: Case) -> Array:
    """The torque that the donor could put on the output of the same gearbox [N·m]."""
    box = case.build.gearbox
    donor = box.donor if box else None
    assert box is not None
    mass = case.need(
        donor.mass if donor else None,
        "gearbox.donor.mass",
        "Take the donor's mass from its plate or its manual, add a rider of 80 kg, and write donor "
        '= { mass = "260 kg" }.',
    )
    outside = case.need(
        donor.tyre_outside if donor else None,
        "gearbox.donor.tyre_outside",
        'Measure the donor\'s drive tyre across, and write donor = { tyre_outside = "457 mm" }.',
    )
    why = "ride-on machines stand with 55 to 65 % of their mass on the drive wheels (assumed)"
    share = case.suppose(None, "gearbox.donor.rear_share", "60 % ± 5 %", Kind.RATIO, why)
    why = "height of the donor's weight over its wheelbase, rider seated (assumed)"
    tall = case.suppose(None, "gearbox.donor.height_share", "0.45 ± 0.08", Kind.RATIO, why)
    grip = grippiest(case).grip
    # pulling hard moves load to the rear, in the donor as here
    load = mass * share * STANDARD_GRAVITY / (1.0 - np.minimum(grip * tall, 0.9))
    grips = grip_torque(load, grip, 0.5 * outside)
    return axle_torque(_donor_engine(case), grips)


def output_against_donor(case: Case) -> Array:
    """Torque on the gearbox's output and last gear pair over the donor's [1]."""
    assert case.build.gearbox is not None
    return against_donor(torque_at(case, case.build.gearbox.output), donor_torque(case))


def chain_row(chain: Chain) -> ChainSize:
    """The chain's row in the table of sizes."""
    try:
        return chain_size(chain.size)
    except UnlistedError as unknown:
        raise unlisted(f"chain.{chain.name}.size", f"chain {chain.size}", unknown) from None


def chain_pull(case: Case, chain: Chain) -> Array:
    """The hardest pull on a chain [N]."""
    row = chain_row(chain)
    wheel = sprocket_pitch_diameter(row.pitch, chain.driven.teeth)
    torque = torque_at(case, chain.driven.shaft)
    return np.atleast_1d(working_pull(torque, wheel, row.linear_mass, speed_of(case, chain)))


def speed_of(case: Case, chain: Chain) -> Array:
    """How fast a chain runs in the slowest gear, in which it is pulled hardest [m/s]."""
    return _chain_speed(case, chain, slow=True)


def fastest_speed_of(case: Case, chain: Chain) -> Array:
    """How fast a chain runs in top gear [m/s]."""
    return _chain_speed(case, chain, slow=False)


def _chain_speed(case: Case, chain: Chain, slow: bool) -> Array:
    gear = low_gear(case) if slow else top_gear(case)
    turning = governed(case) / route_to(case, chain.driven.shaft).total_ratio(gear)
    return chain_speed(chain_row(chain).pitch, chain.driven.teeth, turning)


def _donor_engine(case: Case) -> Array:
    """What the donor's engine could put on the output in the slowest gear [N·m], no bound known
    where its power or input speed is not."""
    box = case.build.gearbox
    assert box is not None
    if box.donor is None or box.donor.power is None or box.stock_input is None:
        return np.full(1, np.inf)
    turning = case.si(box.stock_input)
    output = route_to(case, box.output)
    shaft = route_to(case, box.input)
    ratio = max(*box.forward, *box.reverse) if box.reverse else max(box.forward)
    return case.si(box.donor.power) / turning * ratio * output.efficiency / shaft.efficiency
