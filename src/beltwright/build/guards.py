"""Guards and belt keepers in the build file: bent strips that go round a pulley."""

from math import pi, radians
from typing import Literal, Self

from pydantic import Field, model_validator

from beltwright.build.fields import (
    Angle,
    Name,
    Part,
    Size,
)
from beltwright.build.row import Row

SheetMetalName = Literal[
    "soft steel",
    "cold-rolled steel",
    "galvanised steel",
    "stainless steel",
    "soft aluminium",
    "hard aluminium",
    "soft brass",
    "hard brass",
]


SHARPEST_FOOT = radians(150.0)
"""A strip that is folded further back is no foot [rad]."""


class StripHole(Row):
    """A hole that a strip has already, in the middle of its width."""

    from_end: Size = Field(
        description="from the first end of the strip at hand to the middle of the hole",
        examples=["20 mm"],
    )
    diameter: Size = Field(description="diameter of the hole", examples=["8.5 mm"])


class Strip(Row):
    """The strip that a guard or keeper is bent from."""

    material: SheetMetalName = Field("soft steel", description="what it is made of")
    thickness: Size | None = Field(None, description="thickness", examples=["2 mm"])
    width: Size | None = Field(
        None, description="width, which stands along the shafts", examples=["25 mm"]
    )
    length: Size | None = Field(
        None, description="length of the strip at hand, as it lies flat", examples=["310 mm"]
    )
    holes: tuple[StripHole, ...] = ()


class Bending(Row):
    """How the strip is bent."""

    method: Literal["pliers", "vice", "brake"] = Field("pliers", description="what holds it")
    inside_radius: Size | None = Field(
        None, description="radius on the inside of a bend", examples=["2 mm"]
    )
    grip: Size | None = Field(
        None,
        description="width of the jaws, which need as much flat strip beside a bend",
        examples=["10 mm"],
    )
    k_factor: Part | None = Field(
        None,
        description="how deep the line lies that keeps its length in a bend, as a share of the "
        "thickness, from a test bend",
        examples=["0.42"],
    )
    count: int | None = Field(
        None, ge=1, le=60, description="bends round the pulley; worked out where left out"
    )


class Foot(Row):
    """A foot at an end of the strip, bent away from the belt, by which it is screwed on."""

    end: Literal["first", "last"] = Field(
        description="first is where the belt comes to the pulley, in the order of its run"
    )
    length: Size = Field(description="over the outside of its bend", examples=["25 mm"])
    angle: Angle = Field(
        description="by which it is bent out of the end of the strip", examples=["90 deg"]
    )

    @model_validator(mode="after")
    def _stands_off(self) -> Self:
        if not 0.0 <= self.angle.value <= SHARPEST_FOOT:
            raise ValueError("a foot is bent by 0 to 150 deg, for example 90 deg")
        return self


class Guard(Row):
    """A bent strip that keeps a slack belt in its groove, or fingers out of it."""

    name: Name
    kind: Literal["keeper", "guard"] = Field(
        "keeper", description="a keeper holds the slack belt; a guard keeps hands off"
    )
    belt: str = Field(description="the belt that it follows")
    round: str = Field(description="the pulley or idler that it goes round")
    gap: Size | None = Field(
        None, description="from the belt's outer face to the strip, in drive", examples=["4 mm"]
    )
    over: Literal["wrap"] | Angle = Field(
        "wrap", description="as far as the belt lies on the pulley, or an angle in its middle"
    )
    ends: tuple[Size, Size] | None = Field(
        None,
        description="straight ends along the belt, before the pulley and after it",
        examples=[["15 mm", "20 mm"]],
    )
    strip: Strip | None = None
    bending: Bending | None = None
    fixed_to: Literal["frame", "arm"] = Field(
        "frame", description="what it is screwed to: the frame, or the arm of its idler"
    )
    feet: tuple[Foot, ...] = Field((), max_length=2)

    @model_validator(mode="after")
    def _goes_round(self) -> Self:
        if self.over != "wrap" and not 0.0 < self.over.value < 2.0 * pi:
            raise ValueError('over is "wrap" or an angle of less than a full turn')
        return self
