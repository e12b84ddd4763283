"""A build's gearbox at work, as numbers: what makes heat in it and what carries it off."""

from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import BigGear, Gearbox, Oil, Seal
from beltwright.physics.arrays import Array
from beltwright.physics.gearbox.cooling import Case as GearCase
from beltwright.physics.gearbox.cooling import conductance
from beltwright.physics.gearbox.heat import lumped_capacity
from beltwright.physics.gearbox.loss import DippingGear, bearing_loss, churning_loss, mesh_loss
from beltwright.physics.gearbox.oil import (
    WaltherLine,
    density,
    heat_capacity,
    kinematic_viscosity,
    walther_line,
)
from beltwright.physics.gearbox.seal import seal_loss
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError, unlisted
from beltwright.review.driveline.routes import Gear, gears, route_to
from beltwright.review.driveline.speed import gearbox_input_speed, governed, speed_in
from beltwright.review.engine.torque import rating
from beltwright.review.nominal import nominal
from beltwright.tables.loading import UnlistedError
from beltwright.tables.oils import GreaseError, OilGrade, oil

AT_40, AT_100 = 313.15, 373.15
STEEL_HEAT, ALUMINIUM_HEAT = 480.0, 900.0
"""Heat capacities [J/(kg·K)]: Incropera and DeWitt, table A.1."""

CHURNING_WHY = (
    "walls close to the gears change the churned loss by up to a factor of two (assumed; ISO/TR "
    "14179 was not confirmed)"
)
SEALS_WHY = "three published estimates of lip friction differ; the range spans them"
BEARINGS_WHY = "three to five small ball bearings on the fast shafts (assumed)"
REACHED_WHY = "under a machine the air moves at 0.2 to 0.8 of the ground speed (assumed)"
MESH_WHY = "one mesh of small cut gears with its bearings loses 0.5 to 2.5 % (common practice)"
GEAR_WHY = (
    "the size of the largest gear in the oil is a guess; with the case open, write big_gear under "
    "gearbox"
)


class LossParts(NamedTuple):
    """What becomes heat in the gearbox [W], shape (...)."""

    mesh: Array
    churning: Array
    seals: Array
    bearings: Array

    @property
    def total(self) -> Array:
        """All of it."""
        return self.mesh + self.churning + self.seals + self.bearings


class LipSeal(NamedTuple):
    """A seal at work: shaft diameter [m] and speed [rad/s], shape (...)."""

    where: str
    material: str
    diameter: Array
    speed: Array


class Thermal(NamedTuple):
    """A gearbox at work, with all that its heat depends on; SI, shape (...).

    power            enters the gearbox [W]
    mesh             of it becomes heat under load [W]
    gear, gear_speed the largest gear in the oil, and how fast it turns
    oil              viscosity–temperature line
    oil_density      at 15 °C [kg/m³]
    input_speed      of the input shaft [rad/s]
    bearing          mean diameter of its bearings [m] and how many there are
    seal_doubt       −1 for the lowest published estimate of lip friction, +1 for the highest
    churning_factor, loss_factor, conductance_factor
                     corrections of the formulas, from doubt or from a measured run
    """

    power: Array
    mesh: Array
    gear: DippingGear
    gear_speed: Array
    input_speed: Array
    oil: WaltherLine
    oil_density: float
    oil_at_40: float
    seals: tuple[LipSeal, ...]
    seal_doubt: Array
    bearing: Array
    bearings: Array
    case: GearCase
    ground_speed: Array
    reached: Array
    capacity: Array
    air: Array
    churning_factor: Array
    loss_factor: Array
    conductance_factor: Array

    def parts(self, temperature: Array) -> LossParts:
        """What becomes heat at an oil temperature [K]."""
        viscosity = kinematic_viscosity(self.oil, temperature)
        weight = density(self.oil_density, temperature)
        churned = churning_loss(self.gear, self.gear_speed, weight, viscosity)
        rolling = bearing_loss(self.bearing, self.input_speed, 0.0, viscosity)
        sealed = np.zeros(1)
        for each in self.seals:
            sealed = sealed + self._seal(each, temperature)
        return LossParts(
            mesh=self.loss_factor * self.mesh,
            churning=self.loss_factor * self.churning_factor * churned,
            seals=self.loss_factor * sealed,
            bearings=self.loss_factor * self.bearings * rolling,
        )

    def loss(self, temperature: Array) -> Array:
        """All heat made at an oil temperature [K]."""
        return self.parts(temperature).total

    def conductance(self, temperature: Array) -> Array:
        """Heat given off for each kelvin above the air [W/K]."""
        given = conductance(self.case, temperature, self.air, self.ground_speed, self.reached)
        return np.asarray(self.conductance_factor * given)

    def _seal(self, seal: LipSeal, temperature: Array) -> Array:
        loss = seal_loss(seal.diameter, seal.speed, temperature, self.oil_at_40)
        side = np.where(self.seal_doubt > 0.0, loss.high - loss.usual, loss.usual - loss.low)
        return np.asarray(loss.usual + self.seal_doubt * side)


def gearbox(case: Case) -> Gearbox:
    """The gearbox that the questions are about."""
    box = case.build.gearbox
    assert box is not None
    return box


def oil_grade(case: Case) -> OilGrade:
    """The oil in the gearbox by its grade."""
    grade = _oil(case).grade
    try:
        return oil(grade)
    except GreaseError:
        raise NotKnownError(
            "gearbox.oil.grade",
            "Feel the case after 20 minutes of work; if it is filled with oil instead, write its "
            "grade.",
            "Grease has no viscosity that heat can be worked out from.",
        ) from None
    except UnlistedError as unknown:
        raise unlisted("gearbox.oil.grade", f"oil {grade}", unknown) from None


def oil_volume(case: Case) -> Array:
    """Oil in the gearbox [m³]."""
    return case.si(_oil(case).volume)


def seals(case: Case) -> tuple[LipSeal, ...]:
    """The lip seals, with their shafts governed and in top gear for the output."""
    fastest = min((g for g in gears(case) if g.forward), key=lambda g: g.ratio)
    return tuple(_seal(case, seal, fastest) for seal in gearbox(case).seals)


def case_air(case: Case) -> Array:
    """The hottest air that the machine works in [K]."""
    return case.suppose(
        case.build.machine.air,
        "machine.air",
        "28 ± 5 °C",
        Kind.TEMPERATURE,
        'a summer day (assumed): write the hottest air that you work in, for example air = "30 °C"',
    )


def at_work(case: Case, gear: Gear, air: Array, duty: Array) -> Thermal:
    """The gearbox in a gear, in air of that temperature [K], at that share of full power [1]."""
    grade = oil_grade(case)
    turning = gearbox_input_speed(case)
    arriving = route_to(case, gearbox(case).input).efficiency
    power = duty * rating(case).power * arriving
    dipping, turns = _big_gear(case)
    return Thermal(
        power=power,
        mesh=_mesh(case, power),
        gear=dipping,
        gear_speed=turning / turns,
        input_speed=turning,
        oil=walther_line(grade.at_40, AT_40, grade.at_100, AT_100),
        oil_density=grade.density,
        oil_at_40=grade.at_40,
        seals=tuple(_seal(case, seal, gear) for seal in gearbox(case).seals),
        seal_doubt=_guess(case, "gearbox.seal_friction", "0 ± 1", SEALS_WHY),
        bearing=_guess(case, "gearbox.bearing", "32 ± 6 mm", BEARINGS_WHY, Kind.LENGTH),
        bearings=_guess(case, "gearbox.bearings", "4 ± 1", BEARINGS_WHY),
        case=_outside(case),
        ground_speed=speed_in(case, gear, governed(case)),
        reached=_guess(case, "gearbox.air_reached", "0.5 ± 0.3", REACHED_WHY),
        capacity=_capacity(case, grade),
        air=air,
        churning_factor=_guess(case, "gearbox.churning", "1 +1 -0.5", CHURNING_WHY),
        loss_factor=np.ones(1),
        conductance_factor=np.ones(1),
    )


def _guess(case: Case, key: str, text: str, why: str, kind: Kind = Kind.RATIO) -> Array:
    """A supposed number; its doubt is left out once a measured run stands in for it."""
    drawn = case.suppose(None, key, text, kind, why)
    return drawn if gearbox(case).measured is None else drawn[:1]


def _mesh(case: Case, power: Array) -> Array:
    given = gearbox(case).efficiency
    if given is not None:
        return power * (1.0 - case.si(given))
    share = _guess(case, "gearbox.mesh_share", "1.5 % ± 1 %", MESH_WHY)
    meshes = _guess(case, "gearbox.meshes", "3", "two gear pairs and a bevel pair (assumed)")
    return mesh_loss(power, share, meshes)


def _big_gear(case: Case) -> tuple[DippingGear, Array]:
    gear: BigGear | None = gearbox(case).big_gear
    if gear is not None:
        outside, width, dip = case.si(gear.outside), case.si(gear.width), case.si(gear.dip)
        turns = case.si(gear.turns)
    else:
        key = "gearbox.big_gear"
        outside = _guess(case, f"{key}.outside", "110 ± 25 mm", GEAR_WHY, Kind.LENGTH)
        width = _guess(case, f"{key}.width", "14 ± 4 mm", GEAR_WHY, Kind.LENGTH)
        dip = _guess(case, f"{key}.dip", "35 ± 15 mm", GEAR_WHY, Kind.LENGTH)
        turns = _guess(case, f"{key}.turns", "2 ± 0.6", GEAR_WHY)
    return DippingGear(0.5 * outside, width, dip, oil_volume(case)), turns


def _oil(case: Case) -> Oil:
    found = gearbox(case).oil
    if found is None:
        raise NotKnownError(
            "gearbox.oil",
            "Drain the gearbox into a measuring jug, read the grade off the can that refills it, "
            'and write oil = { volume = "0.6 L", grade = "SAE 90" }.',
        )
    return found


def _seal(case: Case, seal: Seal, gear: Gear) -> LipSeal:
    turning = gearbox_input_speed(case)
    if seal.shaft == "output":
        turning = governed(case) / route_to(case, gearbox(case).output).total_ratio(gear)
    return LipSeal(seal.where, seal.material, case.si(seal.diameter), turning)


def _outside(case: Case) -> GearCase:
    size = gearbox(case).case_size
    how = (
        "Measure length, width and height of the case without its shafts, and write case_size = "
        '["320 mm", "180 mm", "160 mm"].'
    )
    length, width, height = (
        case.need(side, "gearbox.case_size", how) for side in (size or (None, None, None))
    )
    why = "fins and axle tubes add to the six faces, frame and dirt take away (assumed)"
    free = _guess(case, "gearbox.free_area", "0.9 ± 0.15", why)
    paint = _guess(case, "gearbox.emissivity", "0.85 ± 0.1", "painted, oily or dirty (handbooks)")
    faces = 2.0 * (length * width + length * height + width * height)
    return GearCase(area=free * faces, height=height, width=width, emissivity=paint)


def _capacity(case: Case, grade: OilGrade) -> Array:
    mass = case.need(
        gearbox(case).case_mass,
        "gearbox.case_mass",
        'Weigh the gearbox on a bathroom scale and write it, for example case_mass = "14 kg".',
    )
    why = "share of aluminium in case and gears (assumed)"
    light = _guess(case, "gearbox.aluminium_share", "0.4 ± 0.3", why)
    metal = STEEL_HEAT + light * (ALUMINIUM_HEAT - STEEL_HEAT)
    filled = oil_volume(case) * grade.density
    return lumped_capacity(mass, metal, filled, heat_capacity(grade.density, 330.0))


def gearbox_place(case: Case) -> tuple[float, float, float] | None:
    """Where its input shaft stands, for the balloons of its findings [m]."""
    shaft = next((s for s in case.build.shaft if s.name == gearbox(case).input), None)
    if shaft is None:
        return None
    x, y = (nominal(case.si(each)) for each in shaft.at)
    return (x, y, 0.0)
