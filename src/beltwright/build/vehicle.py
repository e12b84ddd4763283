"""The machine in the build file: goals, masses, engine, wheels, brake, steering."""

from typing import Literal, Self

from pydantic import Field, model_validator

from beltwright.build.driveline import Material, Turning
from beltwright.build.fields import (
    Angle,
    Force,
    LengthGoal,
    Mass,
    MoneyGoal,
    Place,
    Point,
    Power,
    Rotation,
    Share,
    Size,
    Slope,
    SlopeGoal,
    SpeedGoal,
    Temperature,
    Time,
    Torque,
    TyreSize,
)
from beltwright.build.row import Row


class Goals(Row):
    """What the finished machine should do."""

    top_speed: SpeedGoal | None = None
    crawl_speed: SpeedGoal | None = Field(None, description="slowest gear at idle")
    climb: SlopeGoal | None = None
    stop_within: LengthGoal | None = Field(None, description="stopping distance from top speed")
    budget: MoneyGoal | None = None


class Scales(Row):
    """What bathroom scales read under the wheels, driver off."""

    front: Mass
    rear: Mass
    left: Mass | None = None
    right: Mass | None = None
    raised_by: Size | None = Field(None, description="how high the front wheels were lifted")
    rear_raised: Mass | None = Field(None, description="rear reading with the front lifted")


class Load(Row):
    """Something heavy that rides along."""

    name: str = "load"
    mass: Mass
    at: Place = Field(description="centre of the load: x forward, y left, z up")


class Driver(Row):
    """Who drives."""

    mass: Mass
    hip: Place = Field(description="hip joint when seated: x forward, y left, z up")


class Machine(Row):
    """The machine as it will be driven."""

    mass: Mass | None = Field(None, description="without driver and load")
    wheelbase: Size | None = None
    track_front: Size | None = None
    track_rear: Size | None = None
    scales: Scales | None = None
    driver: Driver | None = None
    load: tuple[Load, ...] = ()
    ground: tuple[str, ...] = Field(
        ("mown grass",), description="surfaces it will run on, the usual one first"
    )
    slope: Slope | None = Field(None, description="steepest slope it will be driven on")
    descent: Size | None = Field(None, description="length of the longest descent")
    air: Temperature | None = Field(None, description="hottest air it will work in")


class TorquePoint(Row):
    """One measured point of the full-load torque curve."""

    at: Rotation
    torque: Torque


class Flywheel(Row):
    """The engine's flywheel."""

    outside: Size
    material: Material = "cast iron"


class Engine(Row):
    """The engine as it is fitted."""

    power: Power | None = None
    at: Rotation | None = Field(None, description="speed at which that power is rated")
    idle: Rotation | None = None
    no_load: Rotation | None = Field(None, description="governed speed with no load")
    turns: Turning | None = Field(None, description="direction of its shaft, seen from above")
    shaft: str = "engine"
    bore: Size | None = None
    stroke: Size | None = None
    made_for: Rotation | None = Field(None, description="highest speed its maker allows")
    governor: Literal["as made", "altered", "removed"] = "as made"
    curve: tuple[TorquePoint, ...] = ()
    flywheel: Flywheel | None = None


class Wheels(Row):
    """Tyres, and how they are driven."""

    front: TyreSize | None = None
    rear: TyreSize | None = None
    shaft: str = Field("axle", description="the shaft that turns the driven wheels")
    driven: Literal["rear", "front", "all"] = "rear"
    roll_out: Size | None = Field(
        None, description="distance rolled in one turn of a driven wheel, driver seated"
    )
    differential: Literal["open", "locked", "none"] = "open"
    front_axle: Literal["pivoting", "rigid"] = "pivoting"
    front_pivot_height: Size | None = None
    efficiency: Share | None = None


class Lever(Row):
    """One lever between pedal and pad: the arm that is pushed over the arm that pushes."""

    name: str
    pushed: Size
    pushing: Size


class Brake(Row):
    """The service brake, wherever it sits."""

    kind: Literal["disc", "drum", "band"]
    on: str = Field(description="the shaft that it holds")
    material: str | None = Field(None, description="kind of lining, for example moulded")
    friction: Share | None = None
    inner: Size | None = Field(None, description="inner radius of the pad on a disc")
    outer: Size | None = Field(None, description="outer radius of the pad on a disc")
    radius: Size | None = Field(None, description="radius of the drum")
    width: Size | None = Field(None, description="width of shoe or band")
    wrap: Angle | None = Field(None, description="angle that the band wraps")
    faces: int = Field(2, ge=1, le=8, description="rubbing faces of a disc brake")
    shoe: tuple[Angle, Angle] | None = Field(
        None, description="where the lining begins and ends, from the shoe's pivot"
    )
    shoe_pivot: Size | None = Field(None, description="from drum centre to shoe pivot")
    pedal_force: Force | None = None
    levers: tuple[Lever, ...] = ()
    efficiency: Share | None = Field(None, description="what cable and pins leave of the force")
    mass: Mass | None = Field(None, description="mass of the disc or drum that takes the heat")
    reaction: Time | None = None

    @model_validator(mode="after")
    def _sizes(self) -> Self:
        needed = {"disc": ("inner", "outer"), "drum": ("radius",), "band": ("radius", "wrap")}
        for name in needed[self.kind]:
            if getattr(self, name) is None:
                raise ValueError(f"a {self.kind} brake needs its {name}")
        return self


class Steering(Row):
    """Measured points of the steering linkage, wheels straight ahead."""

    kingpins: Size = Field(description="distance between the two kingpins")
    arm: Point = Field(
        description="end of the left steering arm from its kingpin: x forward, y left"
    )
    lock: Angle = Field(description="steer angle of the inner wheel at full lock")
    scrub_radius: Size | None = None
