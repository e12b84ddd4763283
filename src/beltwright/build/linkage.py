"""Rods between a lever and an arm in the build file: brake, shift, clutch and throttle linkages.

Angles run from the pivot to the hole of the rod's end, counter-clockwise. A lever that turns about
a cross line is seen from the right and counts from straight ahead; about an upright line from
above, from straight ahead; about a line along the machine from behind, from straight to the right.
"""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from beltwright.build.fields import (
    Angle,
    Efficiency,
    Force,
    Name,
    Place,
    Push,
    Size,
)
from beltwright.build.row import Row

Axis = Annotated[
    Literal["cross", "upright", "along"],
    Field(
        description="how its pivot lies: across the machine, upright, or along it; angles are then "
        "seen from the right, from above or from behind"
    ),
]

_PIVOT = "middle of its pivot, where the circle of the rod's end has its centre: x, y, z"


class LinkageLever(Row):
    """The lever or pedal that hand or foot moves, or the other arm of a bell crank."""

    pivot: Place | None = Field(None, description=f"{_PIVOT}; the driving arm's if left out")
    axis: Axis = "cross"
    radius: Size | None = Field(
        None, description="from the pivot to the hole of the rod's end", examples=["60 ± 0.5 mm"]
    )
    neutral: Angle | None = Field(
        None,
        description="angle to that hole, lever in neutral or let go; on a bell crank with the "
        "driving arm at its neutral",
        examples=["270 ± 1 deg"],
    )
    travel: tuple[Angle, Angle] | None = Field(
        None,
        description="the same angle at both ends of what the lever can travel, counted on past "
        "360 or below 0",
        examples=[["245 deg", "300 deg"]],
    )
    handle: Size | None = Field(
        None,
        description="from the pivot to where hand or foot pushes, square to the push",
        examples=["300 ± 5 mm"],
    )
    effort: Push | None = Field(
        None, description="most that hand or foot should need", examples=["120 N"]
    )


class Rod(Row):
    """The rod from the lever to the arm, straight, a joint at each end."""

    length: Size | None = Field(
        None,
        description="between the middles of both eyes, as it is screwed now; left out, the review "
        "says how long to make it",
        examples=["412 ± 1 mm"],
    )
    adjusts: Size | None = Field(
        None,
        description="how far its threaded ends let it grow, and as far shrink",
        examples=["12 mm"],
    )
    diameter: Size | None = Field(None, description="of the rod", examples=["8 mm"])
    joint_limit: Angle | None = Field(
        None,
        description="how far its ball joints tilt to each side before they bind",
        examples=["15 deg"],
    )


class ArmPosition(Row):
    """A position that the arm must reach: a detent, or where the lining bites."""

    name: Name
    angle: Angle = Field(description="of the arm in this position", examples=["102 ± 1 deg"])
    within: Angle | None = Field(
        None, description="how far off the arm may stand and still do it", examples=["3 deg"]
    )
    notch: Angle | None = Field(
        None, description="angle of the lever at which its gate has the notch for it"
    )


class DrivenArm(Row):
    """The arm that the rod moves, on the gearbox, the brake, the clutch or a bell crank."""

    pivot: Place | None = Field(None, description=_PIVOT)
    axis: Axis = "cross"
    radius: Size | None = Field(
        None, description="from the pivot to the hole of the rod's end", examples=["55 ± 0.5 mm"]
    )
    neutral: Angle | None = Field(
        None, description="angle to that hole, arm in neutral or at rest", examples=["90 ± 1 deg"]
    )
    force: Force | None = Field(
        None,
        description="pull at that hole, square to the arm, that moves it: hook a fish scale in",
        examples=["60 ± 10 N"],
    )
    position: tuple[ArmPosition, ...] = ()


class Linkage(Row):
    """A rod from a lever to an arm: for brake, gears, clutch or throttle."""

    name: Name
    works: Literal["brake", "shift", "clutch", "throttle", "other"] = Field(
        description="what it is for"
    )
    driven_by: str | None = Field(
        None,
        description="name of the linkage whose arm turns this lever, on one bell crank or cross "
        "shaft; leave it out where hand or foot does",
    )
    lever: LinkageLever = LinkageLever()
    rod: Rod = Rod()
    arm: DrivenArm = DrivenArm()
    belongs: tuple[str, ...] = Field(
        (),
        description="obstacles, pulleys and idlers that are part of it, such as its own lever or "
        "the idler that its arm swings",
    )
    efficiency: Efficiency | None = Field(
        None, description="what its pivots and joints leave of the force", examples=["90 % ± 5 %"]
    )

    @model_validator(mode="after")
    def _travel_of_its_own(self) -> Self:
        if self.driven_by is not None and self.lever.travel is not None:
            raise ValueError("the travel of a driven lever follows from its driver: leave it out")
        return self

    @model_validator(mode="after")
    def _neutral_in_travel(self) -> Self:
        travel, neutral = self.lever.travel, self.lever.neutral
        if travel is None or neutral is None:
            return self
        low, high = sorted(travel, key=lambda end: end.value)
        if low.value == high.value:
            raise ValueError("the lever has no travel: both ends are alike")
        if not low.low <= neutral.value <= high.high:
            raise ValueError(
                f"the lever's neutral, {neutral.text}, lies outside of its travel; count angles on "
                "past 360 deg or below 0 deg, so that they follow one another"
            )
        return self
