"""The driveline in the build file: shafts, pulleys, idlers, belts, chains, gears, the gearbox."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from beltwright.build.fields import (
    Angle,
    Efficiency,
    Force,
    Friction,
    Length,
    Mass,
    Name,
    Part,
    Point,
    Power,
    Rotation,
    Share,
    Size,
    Slip,
    SpringRate,
    Temperature,
    Time,
    Volume,
)
from beltwright.build.row import Row

Turning = Literal["clockwise", "counter-clockwise"]
"""Direction of turning as seen from above (upright shafts) or from the right (cross shafts)."""

Ratio = Annotated[float, Field(gt=0.0, le=1.0e5, allow_inf_nan=False)]
"""Turns in for one turn out: 12.1 stands for 12.1:1."""

Material = Literal["cast iron", "steel", "pressed steel", "aluminium", "plastic"]


class Key(Row):
    """The parallel key between a shaft and a hub."""

    width: Size = Field(description="width of the key")
    height: Size = Field(description="height of the key")
    length: Size = Field(description="length of the key that bears in the hub")


class Shaft(Row):
    """A shaft that carries pulleys, sprockets or gears."""

    name: Name
    at: Point = Field(description="centre: x forward, y left (z up instead of y on cross shafts)")
    axis: Literal["upright", "cross"] = Field(
        "upright", description="upright shafts are seen from above, cross shafts from the right"
    )
    diameter: Size | None = Field(None, description="diameter where the hub sits")
    slot_to: Point | None = Field(
        None, description="other end of the slot in which this shaft can be slid"
    )
    bearing_limit: Rotation | None = Field(None, description="speed its bearings are made for")


class Hub(Row):
    """How a pulley sits on its shaft."""

    bore: Size | None = Field(None, description="bore of the hub", examples=["25.4 mm"])
    length: Size | None = Field(None, description="length of the hub along the shaft")
    outside: Size | None = Field(None, description="outside diameter of the hub")
    key: Key | None = Field(None, description="the parallel key")
    set_screw: str | None = Field(None, description="thread of the set screw, for example M8")
    overhang: Size | None = Field(
        None, description="from the middle of the groove to the nearest bearing"
    )
    donor_overhang: Size | None = Field(
        None, description="the same with the pulley that the donor had there"
    )
    donor_outside: Size | None = Field(
        None, description="outside diameter of the pulley that the donor had there"
    )


class Pulley(Row):
    """A grooved pulley that turns with its shaft."""

    name: Name
    shaft: str = Field(description="name of the shaft that it turns with")
    outside: Size | None = Field(None, description="outside diameter, over the rim")
    pitch: Size | None = Field(None, description="pitch diameter, where the belt's cord runs")
    groove: str = Field(description="belt section that the groove is cut for, for example A")
    groove_angle: Angle | None = Field(
        None, description="angle between the groove walls", examples=["34 deg"]
    )
    height: Size | None = Field(None, description="height of the groove's middle above ground")
    across: Length | None = Field(
        None,
        description="on a shaft that lies across: from the machine's middle to that of the groove, "
        "to the left",
        examples=["-140 mm"],
    )
    runs_on: Literal["inside", "back"] = Field(
        "inside", description="the inside of the belt, or its back, which turns it the other way"
    )
    material: Material = Field("cast iron", description="what it is made of")
    hub: Hub | None = None

    @model_validator(mode="after")
    def _one_diameter(self) -> Self:
        if (self.outside is None) == (self.pitch is None):
            raise ValueError("a pulley needs either its outside or its pitch diameter")
        return self


class Spring(Row):
    """The tension spring that pulls an idler arm."""

    rate: SpringRate = Field(description="pull a length of stretch", examples=["2.4 N/mm"])
    free: Size = Field(description="length between the hooks with no load")
    initial: Force | None = Field(None, description="pull at which the coils begin to open")
    longest: Size | None = Field(None, description="length past which it stays stretched")
    arm_hook: Point = Field(
        description="hook on the arm: along the arm from its pivot, then to the left of it"
    )
    frame_hook: Point = Field(description="hook on the frame: x, y")


class Arm(Row):
    """The swinging arm of an idler."""

    pivot: Point = Field(description="where the arm turns: x, y")
    length: Size = Field(description="from the pivot to the centre of the idler")
    width: Size | None = Field(
        None, description="width of the bar that it is made of", examples=["25 mm"]
    )
    driving: Literal["by belt length"] | Angle = Field(
        "by belt length", description="angle in drive, counter-clockwise from straight ahead"
    )
    released: Angle = Field(description="angle with the clutch down")
    furthest: Angle | None = Field(None, description="angle at which the arm meets its stop")
    spring: Spring | None = Field(None, description="the spring that pulls the arm")


class Idler(Row):
    """A pulley that only guides or tightens the belt."""

    name: Name
    outside: Size = Field(description="outside diameter", examples=["83 mm"])
    face: Literal["flat", "grooved"] = Field("flat", description="shape of its rim")
    groove: str | None = Field(None, description="belt section of a grooved idler")
    runs_on: Literal["back", "inside"] = Field(
        "back", description="the back of the belt, or its inside like a drive pulley"
    )
    at: Point | None = Field(None, description="centre of an idler that stands still")
    arm: Arm | None = Field(None, description="the arm of an idler that swings")
    height: Size | None = Field(
        None, description="height of its middle above ground", examples=["342 mm"]
    )
    across: Length | None = Field(
        None,
        description="of a belt on shafts that lie across: from the machine's middle to its own, to "
        "the left",
        examples=["-140 mm"],
    )
    bearing_limit: Rotation | None = Field(
        None, description="speed its bearing is made for", examples=["9000 rpm"]
    )

    @model_validator(mode="after")
    def _one_place(self) -> Self:
        if (self.at is None) == (self.arm is None):
            raise ValueError("an idler needs either a place (at) or an arm")
        if self.face == "grooved" and self.groove is None:
            raise ValueError("a grooved idler needs its groove, for example groove = 'A'")
        return self


COVERED_BY = (
    "what keeps hands out of all of it, where that is no bent guard: a hood, a footboard, a tunnel"
)


class Belt(Row):
    """A V-belt and the way it runs."""

    name: Name
    section: str = Field(description="as printed on the belt: A, B, 4L, 5L, ...")
    length: Size = Field(description="as printed on the belt", examples=["76 in"])
    length_is: Literal["inside", "pitch", "outside"] = Field(
        description="which of its lengths the maker prints"
    )
    run: tuple[str, ...] = Field(min_length=2, description="pulleys and idlers in belt order")
    count: int = Field(1, ge=1, le=8, description="belts side by side")
    tension: Force | None = Field(
        None, description="strand tension at rest, where no spring gives it"
    )
    stretch: Part | None = Field(None, description="growth in length allowed for wear")
    friction: Friction | None = Field(None, description="belt on groove wall")
    slip: Slip | None = Field(
        None,
        description="share of its speed that it loses under load, creep included",
        examples=["3 % ± 1 %"],
    )
    covered_by: str | None = Field(
        None, min_length=1, description=COVERED_BY, examples=["hood and footboard"]
    )


class Wheel(Row):
    """A sprocket or a gear on a shaft."""

    shaft: str = Field(description="name of the shaft that it turns with")
    teeth: int = Field(gt=0, le=400, description="how many teeth it has", examples=[18])


class Chain(Row):
    """A roller chain stage."""

    name: Name
    size: str = Field(description="ISO 606 or ANSI number, for example 08B or 40")
    driver: Wheel
    driven: Wheel
    efficiency: Efficiency | None = Field(
        None, description="share of the power that the chain passes on", examples=["96 %"]
    )
    covered_by: str | None = Field(
        None, min_length=1, description=COVERED_BY, examples=["chain case"]
    )


class GearPair(Row):
    """A pair of gears on two shafts."""

    name: Name
    driver: Wheel
    driven: Wheel
    inside: bool = Field(False, description="true for a pinion inside a ring gear")
    efficiency: Efficiency | None = Field(
        None, description="share of the power that the pair passes on", examples=["97 %"]
    )


class Oil(Row):
    """What fills the gearbox."""

    volume: Volume = Field(description="oil that the gearbox holds when filled to its mark")
    grade: str = Field(description="as printed on the can, for example SAE 90")


class Seal(Row):
    """A lip seal on a gearbox shaft."""

    where: str = Field(description="what you call its place", examples=["input"])
    diameter: Size = Field(
        description="diameter of the shaft that its lip runs on", examples=["25 mm"]
    )
    shaft: Literal["input", "output"] = Field(
        description="whether its shaft turns with the input or the output"
    )
    material: Literal["nitrile", "acrylic", "fluoro rubber", "silicone"] = Field(
        "nitrile", description="what its lip is made of"
    )


class BigGear(Row):
    """The largest gear that dips into the oil, as far as the open case shows it."""

    outside: Size = Field(description="diameter over the tips of its teeth")
    width: Size = Field(description="width of its teeth", examples=["14 mm"])
    dip: Size = Field(description="how deep it hangs in the oil at rest")
    turns: Share = Field(description="turns of the input for one turn of this gear")


class WarmReading(Row):
    """One reading of a measured warm-up."""

    after: Time = Field(description="time since the cold start")
    oil: Temperature = Field(description="of the oil, or of the case at oil height")


class MeasuredRun(Row):
    """A measured warm-up of the gearbox, from cold, at governed speed."""

    air: Temperature = Field(description="of the air during the run")
    gear: int = Field(ge=1, description="forward gear that was driven")
    duty: Part = Field(description="share of full engine power that the run took, on average")
    reading: tuple[WarmReading, ...] = Field(min_length=1)


class Donor(Row):
    """What the gearbox stood in, as far as it is known."""

    mass: Mass | None = Field(None, description="donor with its rider")
    power: Power | None = Field(None, description="rated power of its engine")
    tyre_outside: Size | None = Field(None, description="outside diameter of its drive tyres")


class Gearbox(Row):
    """A gearbox or transaxle with one ratio a gear."""

    input: str = Field(description="the shaft that drives it")
    output: Name = Field("axle", description="name of the shaft that comes out of it")
    forward: tuple[Ratio, ...] = Field(
        min_length=1, description="turns of the input for one turn of the wheels, a gear"
    )
    reverse: tuple[Ratio, ...] = Field((), description="the same of the reverse gears")
    stock_input: Rotation | None = Field(None, description="speed at which its donor turned it")
    donor_input_turns: Turning | None = Field(
        None,
        description="input direction, seen from above (from the right if it lies across), that "
        "drove the donor forwards",
    )
    mounted: Literal["as in the donor", "turned round", "upside down"] = Field(
        "as in the donor", description="how it stands in this machine"
    )
    efficiency: Efficiency | None = Field(
        None, description="share of the power that leaves it, cold and warm alike"
    )
    oil: Oil | None = None
    vent: Literal["none", "plug", "hose"] | None = Field(
        None, description="how the air in it gets out as it warms"
    )
    vent_bore: Size | None = Field(
        None, description="bore of the vent at its narrowest", examples=["4 mm"]
    )
    vent_length: Size | None = Field(None, description="length of the vent hose")
    duty: Part | None = Field(
        None, description="share of full engine power that a working hour takes, on average"
    )
    big_gear: BigGear | None = None
    measured: MeasuredRun | None = Field(None, description="a measured warm-up")
    seals: tuple[Seal, ...] = ()
    case_mass: Mass | None = Field(
        None, description="mass of the gearbox without its oil", examples=["14 kg"]
    )
    case_size: tuple[Size, Size, Size] | None = Field(
        None, description="length, width and height of the case"
    )
    air_space: Volume | None = Field(None, description="air left in the case above the oil")
    donor: Donor | None = None
