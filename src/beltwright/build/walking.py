"""Every number of a build, in file order."""

from collections.abc import Iterator

from pydantic import BaseModel

from beltwright.build.model import Build, Show
from beltwright.quantity import Goal, Kind, Quantity, Units

_SHOWN_KINDS = {
    "length": Kind.LENGTH,
    "speed": Kind.SPEED,
    "power": Kind.POWER,
    "torque": Kind.TORQUE,
    "force": Kind.FORCE,
    "mass": Kind.MASS,
    "temperature": Kind.TEMPERATURE,
    "pressure": Kind.PRESSURE,
}

_NUMBERS = (Quantity, Goal)


def quantities(part: object) -> Iterator[Quantity | Goal]:
    """The quantities and goals in a part of a build, in file order."""
    if isinstance(part, _NUMBERS):
        yield part
    elif isinstance(part, BaseModel):
        for name in type(part).model_fields:
            yield from quantities(getattr(part, name))
    elif isinstance(part, tuple):
        for item in part:
            yield from quantities(item)


def units_of(build: Build) -> Units:
    """The units to print in: as the builder asked, else as they write most."""
    return Units.of(quantities(build), chosen=_chosen(build.show))


def _chosen(show: Show) -> dict[Kind, str]:
    asked = {kind: getattr(show, name) for name, kind in _SHOWN_KINDS.items()}
    return {kind: unit for kind, unit in asked.items() if unit is not None}
