"""What one belt has to carry: its driver, where the power goes, torque and speed, as numbers."""

from typing import NamedTuple

from beltwright.build.driveline import Belt, Idler, Pulley
from beltwright.physics.arrays import Array
from beltwright.physics.belt.force import belt_speed, centrifugal_pull
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.pulleys import pitch_diameter
from beltwright.review.driveline.routes import Route, gears, routes
from beltwright.review.driveline.stages import Stage, belt_pulleys
from beltwright.review.engine.torque import no_load, peak_torque, rated_speed, rating
from beltwright.tables.belts import Section, section, section_names


class Task(NamedTuple):
    """What a belt has to carry; pulleys and idlers counted in the order of its run.

    Torque, power and speeds are worked out when asked for, so that a finding about the belt's
    speed does not rest on the engine's torque.

    route   the way from the engine to the driver
    driver  place of the driver in the run
    share   power taken by each over the driver's: −1 driver, 0 idlers, 1 together [1]
    radius  pitch radius of the driver [m]
    """

    case: Case
    route: Route
    driver: int
    share: tuple[float, ...]
    radius: Array

    @property
    def ratio(self) -> Array:
        """Turns of the engine for one of the driver, in the lowest gear [1]."""
        return _ratios(self.case, self.route)[0]

    @property
    def efficiency(self) -> Array:
        """Share of the engine's power that reaches the driver [1]."""
        return self.route.efficiency

    @property
    def torque(self) -> Array:
        """Torque on the driver with the engine at peak torque, lowest gear [N m]."""
        return peak_torque(self.case) * self.ratio * self.efficiency

    @property
    def power(self) -> Array:
        """Power that reaches the driver at the engine's rated point [W]."""
        return rating(self.case).power * self.efficiency

    @property
    def rated(self) -> Array:
        """Speed of the driver at the engine's rated point, fastest gear [rad/s]."""
        return rated_speed(self.case) / _ratios(self.case, self.route)[1]

    @property
    def fastest(self) -> Array:
        """Speed of the driver without load, fastest gear [rad/s]."""
        return no_load(self.case) / _ratios(self.case, self.route)[1]

    @property
    def belt_speed(self) -> Array:
        """Speed of the belt at the engine's rated point [m/s]."""
        return belt_speed(self.radius, self.rated)


def wheel_named(case: Case, name: str) -> Pulley | Idler:
    """The pulley or idler of that name."""
    wheels: tuple[Pulley | Idler, ...] = (*case.build.pulley, *case.build.idler)
    return next(wheel for wheel in wheels if wheel.name == name)


def belt_section(belt: Belt) -> Section:
    """The section of a belt.

    Raises NotKnownError where there is no table of it.
    """
    try:
        return section(belt.section)
    except KeyError:
        raise NotKnownError(
            f"belt.{belt.name}.section",
            f'Use one of {", ".join(section_names())} and write it, for example section = "A".',
            f"There is no table of belt section {belt.section}.",
        ) from None


def task(case: Case, belt: Belt) -> Task:
    """What a belt has to carry.

    Raises NotKnownError where the engine does not reach it.
    """
    return case.once(("belt_task", belt.name), lambda: _task(case, belt))


def _task(case: Case, belt: Belt) -> Task:
    source = _source(case, belt)
    driver = next(p for p in belt_pulleys(case, belt) if p.shaft == source.shaft)
    return Task(
        case=case,
        route=source,
        driver=belt.run.index(driver.name),
        share=_shares(case, belt, source),
        radius=pitch_diameter(case, driver, belt) / 2,
    )


def _source(case: Case, belt: Belt) -> Route:
    """The way from the engine to the belt's driver."""
    reached = [routes(case)[p.shaft] for p in belt_pulleys(case, belt) if p.shaft in routes(case)]
    if not reached:
        raise NotKnownError(
            f"belt.{belt.name}",
            "Let its run name a pulley on a shaft that the engine turns.",
            f"Nothing turns the {belt.name}.",
        )
    return min(reached, key=lambda route: len(route.stages))


def _ratios(case: Case, route: Route) -> tuple[Array, Array]:
    """Turns of the engine for one of a shaft in the lowest and in the fastest gear."""
    ratios = sorted((gear.ratio for gear in gears(case)), reverse=True)
    if not route.geared:
        return route.ratio, route.ratio
    return route.ratio * ratios[0], route.ratio * ratios[-1]


def _shares(case: Case, belt: Belt, source: Route) -> tuple[float, ...]:
    """Who takes the power: the pulleys on the way to the wheels, or all driven ones alike."""
    driven = [p.name for p in belt_pulleys(case, belt) if p.shaft != source.shaft]
    onward = [name for name in driven if _leads_to_wheels(case, belt, name)] or driven
    driver = next(p.name for p in belt_pulleys(case, belt) if p.shaft == source.shaft)
    taken = {name: 1.0 / len(onward) for name in onward} | {driver: -1.0}
    if not onward:
        raise NotKnownError(
            f"belt.{belt.name}.run",
            "Let its run name the pulley that it turns.",
            f"There is nothing that the {belt.name} turns.",
        )
    return tuple(taken.get(name, 0.0) for name in belt.run)


def _leads_to_wheels(case: Case, belt: Belt, pulley: str) -> bool:
    wheels = routes(case).get(case.build.wheels.shaft)
    if wheels is None:
        return False
    target = next(p.shaft for p in case.build.pulley if p.name == pulley)
    return any(_joins(stage, belt, target) for stage in wheels.stages)


def _joins(stage: Stage, belt: Belt, target: str) -> bool:
    return stage.kind == "belt" and stage.name == belt.name and stage.target == target


def centrifugal(case: Case, belt: Belt) -> Array:
    """The pull that only bends the belt's own mass round, all belts of the stage together [N]."""
    mass = belt.count * belt_section(belt).mass.linear_mass
    return centrifugal_pull(mass, task(case, belt).belt_speed)
