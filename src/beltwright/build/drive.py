"""What was read on a drive: one reading a row, or several readings of one drive."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from beltwright.build.fields import (
    Count,
    Length,
    Name,
    Part,
    Push,
    Rotation,
    Size,
    Slope,
    Speed,
    Temperature,
    Time,
    TimeTaken,
    Way,
)
from beltwright.build.row import Row

Sign = Literal[
    "belt squeals",
    "belt smells",
    "belt jumped off",
    "belt rubs",
    "stalls when clutch goes up",
    "jerks when clutch goes up",
    "creeps with clutch down",
    "front lifts",
    "wheels spin",
    "drives the wrong way",
    "brake pulls to one side",
    "brake smells",
    "oil at a seal",
    "oil out of the vent",
    "jumps out of gear",
    "engine hunts",
]
"""What a driver sees, hears or smells, in words that the review can do something with."""

GearName = Annotated[str, Field(pattern=r"^(reverse )?[1-9][0-9]?$", max_length=12)]
Day = Annotated[str, Field(pattern=r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$")]

_TOGETHER = (
    ("distance", "time"),
    ("rolled", "wheel_turns"),
    ("reached", "reached_in"),
    ("case", "after"),
    ("press", "moved"),
)
"""What says nothing without the other."""

_OF_A_BELT = ("slack", "press")


class Drive(Row):
    """What one drive showed, and how it was driven."""

    name: Name
    date: Day | None = Field(None, description="day of the drive", examples=["2031-05-04"])
    ground: str | None = Field(
        None, description="kind of ground; the usual one if left out", examples=["gravel"]
    )
    laden: bool = Field(False, description="true with every load of the machine aboard")
    gear: GearName | None = Field(
        None, description="gear as you shift it", examples=["4", "reverse 1"]
    )
    engine: Literal["governed", "idle"] | Rotation = Field(
        "governed",
        description="engine speed as a counter read it; governed or idle where it was held so",
        examples=["3340 ± 20 rpm"],
    )
    air: Temperature | None = Field(None, description="of the air", examples=["18 ± 1 °C"])
    slope: Slope | None = Field(
        None, description="slope driven up, level if left out", examples=["12 ± 1 %"]
    )
    speed: Speed | None = Field(
        None, description="steady speed over the ground", examples=["8.1 ± 0.2 km/h"]
    )
    distance: Way | None = Field(
        None, description="marked distance driven at a steady speed", examples=["20 ± 0.1 m"]
    )
    time: TimeTaken | None = Field(
        None, description="time for that distance", examples=["9.4 ± 0.3 s"]
    )
    engine_turns: Count | None = Field(
        None,
        description="turns of the engine, by hand and on blocks, for the turns of the wheels",
        examples=["18.5 ± 0.2"],
    )
    wheel_turns: Count | None = Field(
        None,
        description="turns of the driven wheels; of two that turn unevenly, the mean",
        examples=["1"],
    )
    rolled: Way | None = Field(
        None,
        description="distance rolled along the ground in the turns of the wheels",
        examples=["5.85 ± 0.02 m"],
    )
    braked_from: Speed | None = Field(
        None,
        description="speed as the brake bit; what the gear gives if left out",
        examples=["5.8 ± 0.2 km/h"],
    )
    stopped_in: Way | None = Field(
        None,
        description="from the mark where the brake bit to where it stood",
        examples=["1.9 ± 0.1 m"],
    )
    locked: bool | None = Field(None, description="whether the braked wheels slid")
    case: Temperature | None = Field(
        None, description="of the gearbox case at oil height", examples=["48 ± 2 °C"]
    )
    after: Time | None = Field(
        None, description="minutes of driving since the cold start", examples=["30 ± 2 min"]
    )
    duty: Part | None = Field(
        None,
        description="share of full engine power that those minutes took, on average",
        examples=["30 % ± 10 %"],
    )
    climbed: Literal["yes", "stalled", "wheels spun", "belt slipped", "front lifted"] | None = (
        Field(None, description="how the climb of that slope ended")
    )
    belt: str | None = Field(None, description="the belt that was felt", examples=["clutch belt"])
    slack: Length | None = Field(
        None,
        description="belt to spare with the clutch down: 3.14 times the gap with all of it "
        "gathered at one pulley",
        examples=["22 ± 3 mm"],
    )
    press: Push | None = Field(
        None,
        description="press on the middle of the belt's longest span, clutch up, engine stopped",
        examples=["12 ± 1 N"],
    )
    moved: Size | None = Field(
        None, description="how far that press moved it", examples=["9 ± 0.5 mm"]
    )
    reached: Speed | None = Field(
        None, description="speed reached from standing, full throttle", examples=["5 km/h"]
    )
    reached_in: TimeTaken | None = Field(
        None, description="time that it took", examples=["1.4 ± 0.2 s"]
    )
    signs: tuple[Sign, ...] = Field(
        (), description="what was seen, heard or smelled", examples=[["belt squeals"]]
    )

    @model_validator(mode="after")
    def _whole(self) -> Self:
        for pair in _TOGETHER:
            given = [name for name in pair if getattr(self, name) is not None]
            if pair == ("rolled", "wheel_turns") and given == ["wheel_turns"]:
                given = [] if self.engine_turns is not None else given
            if len(given) == 1:
                missing = next(name for name in pair if name not in given)
                raise ValueError(f"{given[0]} says nothing without {missing}")
        if self.engine_turns is not None and self.wheel_turns is None:
            raise ValueError("engine_turns says nothing without wheel_turns")
        if self.climbed is not None and self.slope is None:
            raise ValueError("climbed says nothing without slope")
        if self.belt is None and any(getattr(self, name) is not None for name in _OF_A_BELT):
            raise ValueError("say which belt: belt = ...")
        if self.speed is not None and self.distance is not None:
            raise ValueError("write either speed, or distance and time")
        return self
