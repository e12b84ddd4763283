"""The shop in the build file: obstacles, holes, parts and their prices, what may be chosen."""

from typing import Literal, Self

from pydantic import Field, model_validator

from beltwright.build.fields import Length, Money, Name, Point, Size
from beltwright.build.row import Row


class Obstacle(Row):
    """Something that the belt may touch."""

    name: Name
    outline: tuple[Point, ...] = Field(
        min_length=3,
        description="corners in order",
        examples=[[["560 mm", "185 mm"], ["585 mm", "185 mm"], ["585 mm", "210 mm"]]],
    )
    from_height: Length | None = Field(
        None, description="height of its underside above ground", examples=["300 mm"]
    )
    to_height: Size | None = Field(
        None, description="height of its top above ground", examples=["420 mm"]
    )
    gap: Size | None = Field(None, description="gap that the belt must keep from it")


class Hole(Row):
    """A measured hole that should take a thread."""

    name: Name
    diameter: Size = Field(description="as it is now", examples=["8.5 ± 0.1 mm"])
    thread: str = Field(description='wanted thread: "M10", "3/8-16 UNC", "1/4 NPT", ...')
    depth: Size | None = Field(None, description="depth of full diameter, or wall thickness")
    material: Literal["cast iron", "steel", "aluminium", "brass"] | None = Field(
        None, description="what it is drilled in"
    )
    room: Size | None = Field(None, description="thickness of metal round the hole")


class Part(Row):
    """A part that the build needs or that lies in the bin."""

    name: Name
    use: str | None = Field(None, description="which pulley, idler, belt or job it serves")
    source: str | None = Field(None, alias="from", description='which donor, "shop", or "make"')
    have: bool = Field(False, description="true once it lies on the bench")
    price: Money | None = Field(None, description="of one, as paid or asked for")
    quantity: int = Field(1, ge=1, description="how many the build needs")
    kind: Literal["pulley", "idler", "belt", "sprocket", "tyre", "other"] = Field(
        "other", description="what it is"
    )
    outside: Size | None = Field(None, description="outside diameter of a pulley or idler")
    section: str | None = Field(
        None, description="section of a belt, or of a pulley's groove", examples=["A"]
    )
    length: Size | None = Field(
        None, description="length of a belt, as printed on it", examples=["76 in"]
    )
    length_is: Literal["inside", "pitch", "outside"] | None = Field(
        None, description="which of its lengths the belt's maker prints"
    )
    teeth: int | None = Field(None, description="teeth of a sprocket", examples=[18])
    bore: Size | None = Field(
        None, description="bore of a pulley or sprocket", examples=["25.4 mm"]
    )
    size: str | None = Field(None, description="tyre size as moulded, or chain size")


class Vary(Row):
    """One thing that may be chosen differently."""

    of: str = Field(description="name of the pulley, idler, belt, shaft, chain or wheel")
    what: str = Field(description="the value that may change, for example outside")
    bin: bool = Field(False, description="take what lies in the bin (parts with have = true)")
    prices: bool = Field(False, description="take what the price list offers")
    values: tuple[str, ...] = Field((), description="or one of these")
    low: Length | None = Field(None, description="or anything from here ...")
    high: Length | None = Field(None, description="... to here ...")
    step: Size | None = Field(None, description="... in steps of this")

    @model_validator(mode="after")
    def _some_choice(self) -> Self:
        ranged = (self.low, self.high, self.step)
        if any(v is not None for v in ranged) and any(v is None for v in ranged):
            raise ValueError("a range needs low, high and step together")
        if not (self.bin or self.prices or self.values or self.low):
            raise ValueError("say where to choose from: bin, prices, values, or low/high/step")
        return self


class Choose(Row):
    """What may vary, and where prices stand."""

    price_list: str | None = Field(None, description="CSV file beside the build file")
    vary: tuple[Vary, ...] = ()
