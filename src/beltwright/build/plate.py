"""Plates and brackets in the build file: outline, holes, and where they sit on the machine."""

from typing import Literal, Self

from pydantic import Field, model_validator

from beltwright.build.fields import Angle, Length, Name, Point, Size
from beltwright.build.row import Row

PlateMaterial = Literal[
    "mild steel", "unknown steel", "stainless steel", "hard aluminium", "soft aluminium"
]


class PlateHole(Row):
    """A hole in a plate, or a slot."""

    name: Name
    place: Point | None = Field(
        None,
        description="centre on the plate: to the right of its lower left corner, then up",
    )
    carries: str | None = Field(
        None,
        description="idler, pulley or shaft that it carries: the hole then stands at its centre, "
        "or at the pivot of its arm, and moves with it",
        examples=["clutch idler"],
    )
    diameter: Size | None = Field(None, description="of a plain hole", examples=["10.5 mm"])
    thread: str | None = Field(
        None, description='thread to be cut in it: "M8", "3/8-16 UNC", ...', examples=["M8"]
    )
    slot: Point | None = Field(
        None,
        description="how far a slot runs on from there: to the right, then up",
    )
    stand_off: Length | None = Field(
        None,
        description="from the middle of the plate's thickness to the middle of the belt",
        examples=["28 mm"],
    )

    @model_validator(mode="after")
    def _one_of_each(self) -> Self:
        if (self.place is None) == (self.carries is None):
            raise ValueError("a hole needs either its place or what it carries")
        if (self.diameter is None) == (self.thread is None):
            raise ValueError("a hole needs either its diameter or its thread")
        return self


class Plate(Row):
    """A mounting plate or bracket that is cut from sheet or bar."""

    name: Name
    material: PlateMaterial | None = Field(
        None, description="what it is cut from", examples=["mild steel"]
    )
    thickness: Size | None = Field(None, description="of the sheet", examples=["8 mm"])
    rectangle: tuple[Size, Size] | None = Field(
        None, description="width and height of a plain one", examples=[["120 mm", "80 mm"]]
    )
    outline: tuple[Point, ...] | None = Field(
        None,
        min_length=3,
        description="corners in order, from the lower left one to the right, then up",
    )
    at: Point | None = Field(
        None,
        description="where its lower left corner lies on the machine, seen as the belt is",
    )
    turned: Angle | None = Field(
        None,
        description="how far it is turned from straight ahead, counter-clockwise",
        examples=["90 deg"],
    )
    height: Size | None = Field(
        None,
        description="height of the middle of its thickness above ground, of one that lies flat",
        examples=["297 mm"],
    )
    gap: Size | None = Field(
        None, description="gap that a belt must keep from it", examples=["6 mm"]
    )
    hole: tuple[PlateHole, ...] = ()

    @model_validator(mode="after")
    def _one_outline(self) -> Self:
        if (self.rectangle is None) == (self.outline is None):
            raise ValueError("a plate needs either its outline or a rectangle")
        if self.at is None and any(hole.carries for hole in self.hole):
            raise ValueError("a plate that carries something needs its place on the machine (at)")
        return self
