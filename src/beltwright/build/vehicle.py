"""The machine in the build file: goals, masses, engine, wheels, brake, steering."""

import math
from typing import Literal, Self

from pydantic import Field, model_validator

from beltwright.build.driveline import Material, Turning
from beltwright.build.fields import (
    Angle,
    Efficiency,
    Friction,
    LengthGoal,
    Mass,
    MoneyGoal,
    Name,
    Place,
    Point,
    Power,
    Push,
    Rotation,
    Size,
    Slope,
    SlopeGoal,
    SlowGoal,
    Speed,
    SpeedGoal,
    Temperature,
    Time,
    Torque,
    TyreSize,
    Way,
)
from beltwright.build.row import Row


class Goals(Row):
    """What the finished machine should do."""

    top_speed: SpeedGoal | None = Field(
        None, description="fastest gear, governed", examples=["12 to 15 km/h"]
    )
    crawl_speed: SlowGoal | None = Field(
        None, description="slowest gear at idle", examples=["at most 2.5 km/h"]
    )
    climb: SlopeGoal | None = Field(
        None, description="slope that it should climb loaded", examples=["at least 20 %"]
    )
    stop_within: LengthGoal | None = Field(
        None, description="stopping distance from top speed", examples=["at most 4 m"]
    )
    budget: MoneyGoal | None = Field(None, description="what may be spent", examples=["160 EUR"])


class Scales(Row):
    """What bathroom scales read under the wheels, driver off."""

    front: Mass = Field(description="both front wheels together", examples=["88 ± 2 kg"])
    rear: Mass = Field(description="both rear wheels together", examples=["126 ± 2 kg"])
    left: Mass | None = Field(None, description="both left wheels together")
    right: Mass | None = Field(None, description="both right wheels together")
    raised_by: Size | None = Field(None, description="how high the front wheels were lifted")
    rear_raised: Mass | None = Field(None, description="rear reading with the front lifted")


class Load(Row):
    """Something heavy that rides along."""

    name: Name = "load"
    mass: Mass = Field(description="how heavy it is", examples=["70 ± 10 kg"])
    at: Place = Field(description="centre of the load: x forward, y left, z up")


class Driver(Row):
    """Who drives."""

    mass: Mass = Field(description="with boots and clothes", examples=["82 ± 2 kg"])
    hip: Place = Field(description="hip joint when seated: x forward, y left, z up")


class Machine(Row):
    """The machine as it will be driven."""

    mass: Mass | None = Field(None, description="without driver and load", examples=["214 ± 6 kg"])
    wheelbase: Size | None = Field(None, description="between the axles", examples=["1235 ± 5 mm"])
    track_front: Size | None = Field(
        None, description="between the middles of the front tyres", examples=["690 ± 5 mm"]
    )
    track_rear: Size | None = Field(
        None, description="between the middles of the rear tyres", examples=["710 ± 5 mm"]
    )
    scales: Scales | None = None
    driver: Driver | None = None
    load: tuple[Load, ...] = ()
    ground: tuple[str, ...] = Field(
        ("mown grass",), description="surfaces it will run on, the usual one first"
    )
    slope: Slope | None = Field(None, description="steepest slope it will be driven on")
    descent: Way | None = Field(
        None, description="length of the longest descent", examples=["120 m"]
    )
    air: Temperature | None = Field(None, description="hottest air it will work in")


class TorquePoint(Row):
    """One measured point of the full-load torque curve."""

    at: Rotation = Field(description="engine speed of the point")
    torque: Torque = Field(description="full-load torque there")


class Flywheel(Row):
    """The engine's flywheel."""

    outside: Size = Field(description="outside diameter", examples=["230 mm"])
    material: Material = Field("cast iron", description="what it is made of")


class Engine(Row):
    """The engine as it is fitted."""

    power: Power | None = Field(None, description="rated power", examples=["9.3 kW"])
    at: Rotation | None = Field(None, description="speed at which that power is rated")
    idle: Rotation | None = Field(None, description="speed at idle", examples=["1600 ± 100 rpm"])
    no_load: Rotation | None = Field(None, description="governed speed with no load")
    turns: Turning | None = Field(
        None,
        description="direction of its shaft, seen from above (from the right if it lies across)",
    )
    shaft: str = Field("engine", description="name of the shaft that it turns")
    bore: Size | None = Field(None, description="cylinder bore", examples=["87 mm"])
    stroke: Size | None = Field(None, description="piston stroke", examples=["67 mm"])
    made_for: Rotation | None = Field(None, description="highest speed its maker allows")
    governor: Literal["as made", "altered", "removed"] = Field(
        "as made", description="whether the governor is still as its maker left it"
    )
    curve: tuple[TorquePoint, ...] = ()
    flywheel: Flywheel | None = None


class Wheels(Row):
    """Tyres, and how they are driven."""

    front: TyreSize | None = Field(
        None, description="as moulded on the sidewall", examples=["15x6.00-6"]
    )
    rear: TyreSize | None = Field(
        None, description="as moulded on the sidewall", examples=["20x8.00-8"]
    )
    shaft: str = Field("axle", description="the shaft that turns the driven wheels")
    driven: Literal["rear", "front", "all"] = Field("rear", description="which wheels are driven")
    roll_out: Size | None = Field(
        None, description="distance rolled in one turn of a driven wheel, driver seated"
    )
    tyre_speed: Speed | None = Field(
        None,
        description="lowest speed that a tyre is made for, as its side or its maker says",
        examples=["20 km/h"],
    )
    differential: Literal["open", "locked", "none"] = Field(
        "open", description="what joins the two driven wheels"
    )
    front_axle: Literal["pivoting", "rigid"] = Field(
        "pivoting", description="whether the front axle swings"
    )
    front_pivot_height: Size | None = Field(
        None, description="height of its pivot above ground", examples=["260 mm"]
    )
    efficiency: Efficiency | None = Field(
        None, description="what the axle passes on", examples=["95 %"]
    )


class Lever(Row):
    """One lever between pedal and pad: the arm that is pushed over the arm that pushes."""

    name: Name
    pushed: Size = Field(description="arm that is pushed", examples=["240 mm"])
    pushing: Size = Field(description="arm that pushes on", examples=["45 mm"])


class Brake(Row):
    """The service brake, wherever it sits."""

    kind: Literal["disc", "drum", "band"] = Field(description="how it is made")
    on: str = Field(description="the shaft that it holds")
    material: str | None = Field(None, description="kind of lining, for example moulded")
    friction: Friction | None = Field(None, description="lining on metal", examples=["0.35"])
    inner: Size | None = Field(None, description="inner radius of the pad on a disc")
    outer: Size | None = Field(None, description="outer radius of the pad on a disc")
    pad: Size | None = Field(
        None,
        description="length of the pad on a disc, along the middle of its track",
        examples=["32 mm"],
    )
    radius: Size | None = Field(None, description="radius of the drum")
    width: Size | None = Field(None, description="width of shoe or band")
    wrap: Angle | None = Field(None, description="angle that the band wraps")
    faces: int = Field(2, ge=1, le=8, description="rubbing faces of a disc brake")
    shoe: tuple[Angle, Angle] | None = Field(
        None, description="where the lining begins and ends, from the shoe's pivot"
    )
    shoe_pivot: Size | None = Field(None, description="from drum centre to shoe pivot")
    shoe_arm: Size | None = Field(
        None, description="from shoe pivot to where cam or cable pushes the shoe"
    )
    helped: bool | None = Field(
        None,
        description="true for a band whose drum, driving forwards, runs from the pinned end to "
        "the pedal's end, and so helps the pedal: it drags the band away from its pin; false for "
        "one that runs to the pinned end",
    )
    pedal_force: Push | None = Field(
        None, description="what the foot gives in an emergency", examples=["350 ± 50 N"]
    )
    linkage: str | None = Field(
        None,
        description="name of the linkage that works it; its leverage then stands in for the "
        "levers up to its arm, and levers go on from there",
        examples=["brake rod"],
    )
    levers: tuple[Lever, ...] = ()
    efficiency: Efficiency | None = Field(
        None, description="what cable and pins leave of the force"
    )
    mass: Mass | None = Field(None, description="mass of the disc or drum that takes the heat")
    reaction: Time | None = Field(None, description="time from seeing to braking", examples=["1 s"])

    @model_validator(mode="after")
    def _sizes(self) -> Self:
        needed = {"disc": ("inner", "outer"), "drum": ("radius",), "band": ("radius", "wrap")}
        for name in needed[self.kind]:
            if getattr(self, name) is None:
                raise ValueError(f"a {self.kind} brake needs its {name}")
        if self.inner and self.outer and self.inner.value >= self.outer.value:
            raise ValueError("inner and outer are the wrong way round: the pad has no width")
        if self.shoe and not 0.0 <= self.shoe[0].value < self.shoe[1].value <= math.pi:
            raise ValueError("a lining begins before it ends, and both within 0 and 180 deg")
        return self


class Steering(Row):
    """Measured points of the steering linkage, wheels straight ahead."""

    kingpins: Size = Field(description="distance between the two kingpins")
    arm: Point = Field(
        description="end of the left steering arm from its kingpin: x forward, y left"
    )
    lock: Angle = Field(description="steer angle of the inner wheel at full lock")
    scrub_radius: Size | None = Field(
        None,
        description="from the kingpin line to the middle of the tyre, on the ground",
        examples=["60 mm"],
    )

    @model_validator(mode="after")
    def _turns(self) -> Self:
        if not 0.0 < self.lock.low <= self.lock.high < math.pi / 2.0:
            raise ValueError("the lock, with its tolerance, lies between 0 and 90 deg")
        return self
