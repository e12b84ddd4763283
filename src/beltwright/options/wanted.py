"""Options that the builder wants tried: listed values, and steps of a range."""

import re
from collections.abc import Iterator
from math import floor, hypot

from beltwright.build.driveline import Shaft
from beltwright.build.errors import BuildFileError
from beltwright.build.row import Row
from beltwright.build.shop import Vary
from beltwright.options.option import Edit
from beltwright.quantity import Kind, Quantity, read_quantity, unit_named
from beltwright.review.names.naming import choice_name

POINTS = {"at": "at", "pivot": "arm.pivot", "spring hook": "arm.spring.frame_hook"}
"""Points that a builder may move, and where they stand."""

PATHS = {
    **{
        f"{name} {axis}": f"{path}.{n}"
        for name, path in POINTS.items()
        for n, axis in ((0, "x"), (1, "y"))
    },
    "driver teeth": "driver.teeth",
    "driven teeth": "driven.teeth",
}
"""What may change, in words, and where it stands below its table."""

ROUNDING = 1e-9
"""Share of a step by which rounding may push the end of a range past its last step [1]."""

MOST_STEPS = 100_000


class ChoiceError(BuildFileError):
    """A [[choose.vary]] that cannot be used; says what to write."""


def wanted_texts(vary: Vary) -> Iterator[str]:
    """The values that the builder listed, then the steps of the range."""
    yield from vary.values
    if vary.low is None or vary.high is None or vary.step is None:
        return
    unit = unit_named(vary.step.unit, Kind.LENGTH)
    low, high, step = (unit.from_si(q.value) for q in (vary.low, vary.high, vary.step))
    count = floor((high - low) / step + ROUNDING) + 1
    if not 1 <= count <= MOST_STEPS:
        raise ChoiceError(
            f"{choice_name(vary.of, vary.what)}: the range makes {count} steps; use 1 to "
            f"{MOST_STEPS}"
        )
    for n in range(count):
        yield f"{low + n * step:.9g} {unit.symbol}"


def wanted_edits(vary: Vary, thing: Row, key: str, text: str) -> tuple[Edit, ...]:
    """What the build file would say with this value."""
    if vary.what == "slot":
        if not isinstance(thing, Shaft):
            raise ChoiceError(f"{vary.of} has no slot; only a shaft with slot_to has one")
        return _along_slot(thing, key, text)
    if vary.what in POINTS:
        return _both_axes(f"{key}.{POINTS[vary.what]}", text)
    return (Edit(f"{key}.{PATHS.get(vary.what, vary.what)}", text),)


def _both_axes(key: str, text: str) -> tuple[Edit, ...]:
    # a comma followed by a space parts the two; one without a space is a decimal comma
    parts = re.split(r";\s*|,\s+", text.strip())
    if len(parts) != 2:
        raise ChoiceError(f'{text!r} is no point; write x and y, for example "430 mm, 124 mm"')
    return tuple(Edit(f"{key}.{axis}", part) for axis, part in enumerate(parts))


def _along_slot(shaft: Shaft, key: str, text: str) -> tuple[Edit, ...]:
    if shaft.slot_to is None:
        raise ChoiceError(f"{shaft.name} has no slot_to; write the other end of its slot")
    start, end = shaft.at, shaft.slot_to
    dx, dy = end[0].value - start[0].value, end[1].value - start[1].value
    slid = read_quantity(text, Kind.LENGTH).value
    reach = hypot(dx, dy)
    if not 0.0 <= slid <= reach * (1.0 + ROUNDING):
        raise ChoiceError(f"{text} lies outside the slot of {shaft.name}")
    return (
        _moved(start[0], f"{key}.at.0", slid * dx / reach),
        _moved(start[1], f"{key}.at.1", slid * dy / reach),
    )


def _moved(start: Quantity, key: str, by: float) -> Edit:
    unit = unit_named(start.unit, Kind.LENGTH)
    return Edit(key, f"{unit.from_si(start.value + by):.9g} {unit.symbol}")
