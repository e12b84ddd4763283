"""The field types of the build file: text in the builder's words, checked as it is read."""

from collections.abc import Callable
from dataclasses import dataclass
from math import isfinite
from typing import Annotated, Any
from unicodedata import category

from pydantic import AfterValidator, Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from beltwright.build.goals import about, at_least, at_most
from beltwright.quantity import (
    Goal,
    Kind,
    Quantity,
    QuantityError,
    Tyre,
    read_quantity,
    read_tyre,
)

LONGEST_NAME = 60
LONGEST_PART = 20.0
"""No part of a cart is longer, or lies farther from its rear axle [m]."""

_CONTROLS = ("Cc", "Cs", "Zl", "Zp")
_TURNING_MARKS = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
"""Marks that make a terminal write backwards; a name with one is not read as it is written."""


def _printable(name: str) -> str:
    """Give a name back, or refuse one that a terminal or a sheet cannot show on one line."""
    if not name.strip():
        raise ValueError("a name has at least one letter")
    if any(category(c) in _CONTROLS or c in _TURNING_MARKS for c in name):
        raise ValueError("a name stands on one line and has nothing in it that cannot be printed")
    return name


Name = Annotated[
    str,
    Field(max_length=LONGEST_NAME, description="what you call it; findings go by it"),
    AfterValidator(_printable),
]
"""What the builder calls a thing; findings and drawings are named by it."""

Title = Annotated[str, Field(min_length=1, max_length=120), AfterValidator(_printable)]
"""What the builder calls the whole machine."""


@dataclass(frozen=True)
class Reads:
    """Tells the model how a field's text is read and how the JSON Schema describes it."""

    read: Callable[[str, Kind], Any]
    kind: Kind
    what: str
    examples: tuple[str, ...]
    above_zero: bool = False
    at_most: float | None = None

    def _validate(self, raw: object) -> object:
        if isinstance(raw, str):
            read = self.read(raw, self.kind)
            if self.at_most is not None and abs(read.value) > self.at_most:
                raise self._too_large(raw)
            if self.at_most is not None and self.kind is Kind.RATIO and read.value < 0.0:
                raise QuantityError(raw, self.what, "A share is never below 0.", self.examples[0])
            return read.above_zero() if self.above_zero else read
        if isinstance(raw, Quantity | Goal | Tyre):
            return raw
        raise self._no_text(raw)

    def _too_large(self, raw: str) -> QuantityError:
        reason = (
            f'More than {self.at_most:.0%} cannot be right here. Is the "%" missing?'
            if self.kind is Kind.RATIO
            else f"No cart is that large: {self.at_most:g} m is the most that can be right here."
        ).replace("0%", "0 %")
        return QuantityError(raw, self.what, reason, self.examples[0])

    def _no_text(self, raw: object) -> QuantityError:
        if isinstance(raw, bool) or not isinstance(raw, int | float):
            return QuantityError(
                str(raw), self.what, "A text in quotes belongs here.", self.examples[0]
            )
        reason = "Put it in quotes, with its unit where it has one."
        unit = self.examples[0].split(" ")[-1] if " " in self.examples[0] else ""
        example = f"{raw} {unit}".strip() if isfinite(raw) else self.examples[0]
        return QuantityError(str(raw), self.what, reason, example)

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "string", "description": self.what, "examples": list(self.examples)}


def _tyre(text: str, _: Kind) -> Tyre:
    return read_tyre(text)


_Q = read_quantity

Length = Annotated[
    Quantity,
    Reads(
        _Q,
        Kind.LENGTH,
        "a length with its unit",
        ("118 ± 1 mm", "4 5/8 in"),
        at_most=LONGEST_PART,
    ),
]
Size = Annotated[
    Quantity,
    Reads(
        _Q,
        Kind.LENGTH,
        "a length above zero with its unit",
        ("95 ± 0.5 mm", "3 3/4 in"),
        above_zero=True,
        at_most=LONGEST_PART,
    ),
]
Way = Annotated[
    Quantity, Reads(_Q, Kind.LENGTH, "a distance with its unit", ("120 m", "400 ft"), True)
]
"""A distance over the ground, which is longer than any part."""
Angle = Annotated[Quantity, Reads(_Q, Kind.ANGLE, "an angle with its unit", ("24 deg",))]
Mass = Annotated[Quantity, Reads(_Q, Kind.MASS, "a mass with its unit", ("82 kg", "180 lb"), True)]
Speed = Annotated[Quantity, Reads(_Q, Kind.SPEED, "a speed with its unit", ("12 km/h", "8 mph"))]
Rotation = Annotated[
    Quantity, Reads(_Q, Kind.ROTATION, "a speed of turning with its unit", ("3300 rpm",), True)
]
Power = Annotated[
    Quantity, Reads(_Q, Kind.POWER, "a power with its unit", ("9.3 kW", "12.5 hp"), True)
]
Torque = Annotated[
    Quantity, Reads(_Q, Kind.TORQUE, "a torque with its unit", ("20 N·m", "15 lb-ft"))
]
Force = Annotated[Quantity, Reads(_Q, Kind.FORCE, "a force with its unit", ("180 N", "40 lbf"))]
Push = Annotated[
    Quantity, Reads(_Q, Kind.FORCE, "a force above zero with its unit", ("350 ± 50 N",), True)
]
Temperature = Annotated[
    Quantity, Reads(_Q, Kind.TEMPERATURE, "a temperature with its unit", ("20 °C", "68 °F"))
]
SpringRate = Annotated[
    Quantity, Reads(_Q, Kind.SPRING_RATE, "a spring rate with its unit", ("2.4 N/mm",))
]
Volume = Annotated[
    Quantity, Reads(_Q, Kind.VOLUME, "a volume with its unit", ("0.6 L", "20 fl oz"), True)
]
Money = Annotated[
    Quantity, Reads(_Q, Kind.MONEY, "an amount of money with its currency", ("35 EUR",))
]
Share = Annotated[Quantity, Reads(_Q, Kind.RATIO, "a share or a plain number", ("85 %", "0.35"))]
Part = Annotated[
    Quantity, Reads(_Q, Kind.RATIO, "a part of the whole, 0 to 100 %", ("30 %", "0.3"), at_most=1.0)
]
Slip = Annotated[
    Quantity, Reads(_Q, Kind.RATIO, "a part lost, 0 to 50 %", ("3 % ± 1 %",), at_most=0.5)
]
Efficiency = Annotated[
    Quantity,
    Reads(
        _Q,
        Kind.RATIO,
        "the part passed on, above 0 to 100 %",
        ("95 %", "0.95"),
        True,
        at_most=1.0,
    ),
]
Friction = Annotated[
    Quantity,
    Reads(_Q, Kind.RATIO, "a friction, above 0 up to 2", ("0.35 ± 0.05",), True, at_most=2.0),
]
Time = Annotated[Quantity, Reads(_Q, Kind.TIME, "a time with its unit", ("0.8 s", "30 min"))]
TimeTaken = Annotated[
    Quantity, Reads(_Q, Kind.TIME, "a time above zero with its unit", ("9.4 ± 0.3 s",), True)
]
Slope = Annotated[
    Quantity, Reads(_Q, Kind.ANGLE, "a slope, as a percentage or an angle", ("20 %", "11 deg"))
]
Count = Annotated[
    Quantity, Reads(_Q, Kind.RATIO, "a number of turns", ("10", "18.5 ± 0.2"), above_zero=True)
]
TyreSize = Annotated[
    Tyre, Reads(_tyre, Kind.LENGTH, "a tyre size as moulded on the sidewall", ("20x8.00-8",))
]
SpeedGoal = Annotated[
    Goal,
    Reads(
        about,
        Kind.SPEED,
        "a range or a limit of speed; a single one is met within 5 %",
        ("18 to 22 km/h", "at most 3 km/h"),
    ),
]
SlowGoal = Annotated[
    Goal, Reads(at_most, Kind.SPEED, "a limit or a range of speed", ("at most 3 km/h",))
]
SlopeGoal = Annotated[
    Goal, Reads(at_least, Kind.ANGLE, "a slope to be climbed", ("20 %", "at least 15 %"))
]
LengthGoal = Annotated[Goal, Reads(at_most, Kind.LENGTH, "a limit of length", ("at most 4 m",))]
MoneyGoal = Annotated[Goal, Reads(at_most, Kind.MONEY, "a limit of money", ("160 EUR",))]

Point = tuple[Length, Length]
"""A point in the plan: x (forward), y (left)."""

Place = tuple[Length, Length, Length]
"""A place on the machine: x (forward), y (left), z (up)."""
