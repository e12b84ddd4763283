"""The field types of the build file: text in the builder's words, checked as it is read."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from beltwright.quantity import (
    Goal,
    Kind,
    Quantity,
    QuantityError,
    Tyre,
    read_goal,
    read_quantity,
    read_tyre,
)


@dataclass(frozen=True)
class Reads:
    """Tells the model how a field's text is read and how the JSON Schema describes it."""

    read: Callable[[str, Kind], Any]
    kind: Kind
    what: str
    examples: tuple[str, ...]
    above_zero: bool = False

    def _validate(self, raw: object) -> object:
        if isinstance(raw, str):
            read = self.read(raw, self.kind)
            return read.above_zero() if self.above_zero else read
        if isinstance(raw, Quantity | Goal | Tyre):
            return raw
        raise self._no_text(raw)

    def _no_text(self, raw: object) -> QuantityError:
        number = isinstance(raw, int | float) and not isinstance(raw, bool)
        if not number:
            return QuantityError(
                str(raw), self.what, "A text in quotes belongs here.", self.examples[0]
            )
        reason = "Put it in quotes, with its unit where it has one."
        unit = self.examples[0].split(" ")[-1] if " " in self.examples[0] else ""
        return QuantityError(str(raw), self.what, reason, f"{raw} {unit}".strip())

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
_G = read_goal

Length = Annotated[
    Quantity, Reads(_Q, Kind.LENGTH, "a length with its unit", ("118 ± 1 mm", "4 5/8 in"))
]
Size = Annotated[
    Quantity,
    Reads(_Q, Kind.LENGTH, "a length above zero with its unit", ("95 ± 0.5 mm", "3 3/4 in"), True),
]
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
Time = Annotated[Quantity, Reads(_Q, Kind.TIME, "a time with its unit", ("0.8 s", "30 min"))]
Slope = Annotated[
    Quantity, Reads(_Q, Kind.ANGLE, "a slope, as a percentage or an angle", ("20 %", "11 deg"))
]
TyreSize = Annotated[
    Tyre, Reads(_tyre, Kind.LENGTH, "a tyre size as moulded on the sidewall", ("20x8.00-8",))
]
SpeedGoal = Annotated[
    Goal, Reads(_G, Kind.SPEED, "a range or a limit of speed", ("18 to 22 km/h", "at most 3 km/h"))
]
SlopeGoal = Annotated[
    Goal, Reads(_G, Kind.ANGLE, "a slope to be climbed", ("20 %", "at least 15 %"))
]
LengthGoal = Annotated[Goal, Reads(_G, Kind.LENGTH, "a limit of length", ("at most 4 m",))]
MoneyGoal = Annotated[Goal, Reads(_G, Kind.MONEY, "a limit of money", ("160 EUR",))]

Point = tuple[Length, Length]
"""A point in the plan: x (forward), y (left)."""

Place = tuple[Length, Length, Length]
"""A place on the machine: x (forward), y (left), z (up)."""
