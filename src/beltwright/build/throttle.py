"""The throttle in the build file: pedal or hand lever, cable, arm at the engine, return springs.

Each lever is measured in its own plane, looked at squarely: its pivot is 0, 0, right and up are
positive as they are seen, and angles run counter-clockwise from the right.
"""

from typing import Literal

from pydantic import Field

from beltwright.build.fields import (
    Angle,
    Force,
    Friction,
    Length,
    Name,
    Point,
    Size,
    SpringRate,
)
from beltwright.build.row import Row


class ThrottlePedal(Row):
    """The throttle's pedal or hand lever, seen squarely: its pivot is 0, 0."""

    arm: Size | None = Field(
        None, description="from its pivot to the hole of the wire", examples=["60 ± 1 mm"]
    )
    foot: Size | None = Field(
        None,
        description="from its pivot to where foot or hand presses, square to the push",
        examples=["180 ± 5 mm"],
    )
    rest: Angle | None = Field(
        None,
        description="let go: angle from its pivot to the hole of the wire, counter-clockwise from "
        "the right",
        examples=["100 ± 1 deg"],
    )
    full: Angle | None = Field(
        None, description="the same angle, pressed to its own stop", examples=["78 ± 1 deg"]
    )
    housing_end: Point | None = Field(
        None, description="where the cable's housing ends: to the right of its pivot, then up"
    )
    friction: Force | None = Field(
        None,
        description="push at the foot that just moves it, springs and wire unhooked",
        examples=["2 ± 1 N"],
    )
    stop: Literal["screw", "fixed", "none"] | None = Field(
        None, description="the stop that the pedal itself meets when it is pressed fully"
    )


class ThrottleCable(Row):
    """The throttle's cable: a wire in a housing."""

    slack: Length | None = Field(
        None,
        description="wire that can be drawn out at the pedal before the arm moves",
        examples=["3 ± 0.5 mm"],
    )
    bends: Angle | None = Field(
        None, description="all bends of the housing added up", examples=["270 ± 30 deg"]
    )
    length: Size | None = Field(
        None, description="of the wire, hook to hook", examples=["1400 ± 20 mm"]
    )
    wire: Size | None = Field(
        None, description="diameter of the wire over its strands", examples=["1.5 ± 0.1 mm"]
    )
    housing_bore: Size | None = Field(
        None, description="inside diameter of the housing or its liner", examples=["2 ± 0.1 mm"]
    )
    friction: Friction | None = Field(
        None,
        description="friction of the wire in its housing: about 0.1 lined and oiled, 0.2 dry",
        examples=["0.12 ± 0.03"],
    )


class ThrottleArm(Row):
    """The arm at the engine that the wire pulls, seen squarely: its pivot is 0, 0."""

    works: Literal["speed lever", "governor arm", "carburettor"] | None = Field(
        None,
        description="what it is: the speed lever that stretches the governor's spring, the "
        "governor's own arm, or the butterfly of the carburettor",
    )
    radius: Size | None = Field(
        None, description="from its pivot to the hole of the wire", examples=["25 ± 0.5 mm"]
    )
    closed: Angle | None = Field(
        None,
        description="at the idle stop: angle from its pivot to the hole of the wire, "
        "counter-clockwise from the right",
        examples=["60 ± 1 deg"],
    )
    open: Angle | None = Field(
        None, description="the same angle at the full-speed stop", examples=["105 ± 1 deg"]
    )
    housing_end: Point | None = Field(
        None, description="where the cable's housing ends: to the right of its pivot, then up"
    )
    friction: Force | None = Field(
        None,
        description="pull at the hole that just moves it, springs and wire unhooked",
        examples=["2 ± 1 N"],
    )
    stop_screw: Literal["as made", "moved"] = Field(
        "as made", description="whether the full-speed stop screw is as its maker set it"
    )


class ThrottleSpring(Row):
    """A tension spring on the pedal or on the arm at the engine."""

    name: Name
    at: Literal["arm", "pedal"] = Field(description="which of the two it pulls")
    works: Literal["return", "governor"] = Field(
        "return", description="a return spring, or the governor's own, which only makes it heavier"
    )
    rate: SpringRate = Field(description="pull a length of stretch", examples=["0.3 ± 0.03 N/mm"])
    free: Size = Field(description="length between the hooks with no load", examples=["45 ± 1 mm"])
    initial: Force | None = Field(
        None, description="pull at which the coils begin to open", examples=["3 ± 1 N"]
    )
    longest: Size | None = Field(None, description="length past which it stays stretched")
    lever_hook: Point = Field(
        description="its hook on the lever: from the pivot towards the hole of the wire, then to "
        "the left of that line",
    )
    fixed_hook: Point = Field(
        description="its hook on the frame: to the right of the lever's pivot, then up",
    )


class Throttle(Row):
    """The throttle, from the foot or the hand to the engine."""

    worked_by: Literal["foot", "hand"] = Field("foot", description="what presses it")
    pedal: ThrottlePedal = ThrottlePedal()
    cable: ThrottleCable = ThrottleCable()
    arm: ThrottleArm = ThrottleArm()
    spring: tuple[ThrottleSpring, ...] = ()
