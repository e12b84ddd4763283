"""The build file as a typed model: everything the builder knows or has measured."""

from typing import Literal

from pydantic import Field

from beltwright.build.drive import Drive
from beltwright.build.driveline import Belt, Chain, Gearbox, GearPair, Idler, Pulley, Shaft
from beltwright.build.fields import Title
from beltwright.build.ground import Ground
from beltwright.build.guards import Guard
from beltwright.build.linkage import Linkage
from beltwright.build.plate import Plate
from beltwright.build.row import Row
from beltwright.build.shop import Choose, Hole, Obstacle, Part
from beltwright.build.throttle import Throttle
from beltwright.build.vehicle import Brake, Engine, Goals, Machine, Steering, Wheels


class Show(Row):
    """Units to print in; anything left out follows what the builder writes most."""

    length: Literal["mm", "cm", "m", "in", "in 1/16", "in 1/32", "ft"] | None = Field(
        None, description="unit of lengths; in 1/16 and in 1/32 show fractions as on a tape"
    )
    speed: Literal["km/h", "mph", "m/s"] | None = Field(None, description="unit of speeds")
    power: Literal["kW", "hp"] | None = Field(None, description="unit of power")
    torque: Literal["N·m", "lb-ft"] | None = Field(None, description="unit of torque")
    force: Literal["N", "lbf", "kgf"] | None = Field(None, description="unit of forces")
    mass: Literal["kg", "lb"] | None = Field(None, description="unit of masses")
    temperature: Literal["°C", "°F"] | None = Field(None, description="unit of temperatures")
    pressure: Literal["kPa", "bar", "psi"] | None = Field(None, description="unit of pressures")


class Build(Row):
    """A build file."""

    format: Literal[1] = Field(description="which form of this file it is written in")
    name: Title = Field(description="what you call the machine", examples=["Orchard crate hauler"])
    story: str = Field(
        "",
        description="what it was and what it is to become, in a sentence",
        examples=["A ride-on machine with a dead cutting deck becomes a crate hauler."],
    )
    show: Show = Show()
    goals: Goals = Goals()
    machine: Machine = Machine()
    engine: Engine = Engine()
    shaft: tuple[Shaft, ...] = ()
    pulley: tuple[Pulley, ...] = ()
    idler: tuple[Idler, ...] = ()
    belt: tuple[Belt, ...] = ()
    chain: tuple[Chain, ...] = ()
    gear: tuple[GearPair, ...] = ()
    gearbox: Gearbox | None = None
    wheels: Wheels = Wheels()
    brake: Brake | None = None
    throttle: Throttle | None = None
    linkage: tuple[Linkage, ...] = ()
    steering: Steering | None = None
    obstacle: tuple[Obstacle, ...] = ()
    guard: tuple[Guard, ...] = ()
    hole: tuple[Hole, ...] = ()
    plate: tuple[Plate, ...] = ()
    part: tuple[Part, ...] = ()
    ground: tuple[Ground, ...] = ()
    drive: tuple[Drive, ...] = ()
    choose: Choose = Choose()

    def shaft_names(self) -> tuple[str, ...]:
        """Every shaft that a stage may start from or lead to."""
        made = (self.gearbox.output,) if self.gearbox else ()
        named = [s.name for s in self.shaft]
        return (*named, *(name for name in made if name not in named))
