"""A build with one more number written into it, at the place where the file would have it."""

from typing import Any, cast

from beltwright.build.ground import Ground
from beltwright.build.model import Build
from beltwright.quantity import Kind, Quantity, show_quantity
from beltwright.quantity.units import unit_named
from beltwright.review.case import Case

Place = tuple[str, ...]
"""The steps to a value in the build file; rows by their name."""


def with_quantity(build: Build, place: Place, quantity: Quantity) -> Build:
    """The build with a quantity at a place; a ground that was not tried yet gets its row."""
    if place[0] == "ground" and all(row.name != place[1] for row in build.ground):
        build = build.model_copy(update={"ground": (*build.ground, Ground(name=place[1]))})
    return cast(Build, _with(build, place, quantity))


def at_place(build: Build, place: Place) -> Quantity | None:
    """What stands at a place, None where nothing does."""
    here: Any = build
    for step in place:
        if isinstance(here, tuple):
            here = next((row for row in here if row.name == step), None)
        else:
            here = getattr(here, step, None)
        if here is None:
            return None
    return here if isinstance(here, Quantity) else None


def _with(part: Any, place: Place, quantity: Quantity) -> Any:
    if not place:
        return quantity
    step, rest = place[0], place[1:]
    if isinstance(part, tuple):
        return tuple(_with(row, rest, quantity) if row.name == step else row for row in part)
    return part.model_copy(update={step: _with(getattr(part, step), rest, quantity)})


def key_of(place: Place) -> str:
    """The dotted key of a place."""
    return ".".join(place)


def quantity_at(case: Case, place: Place, kind: Kind, value: float, doubt: float) -> Quantity:
    """A quantity as the builder would write it there, in their own unit."""
    unit = _unit(case, place, kind)
    plain = Quantity(value, doubt, doubt, kind, unit, "", key_of(place))
    return Quantity(value, doubt, doubt, kind, unit, as_text(plain), key_of(place))


def as_text(quantity: Quantity) -> str:
    """A quantity as text that reads back; each share has its own per cent sign."""
    text = show_quantity(quantity)
    percent = quantity.kind is Kind.RATIO and text.endswith("%")
    return text.replace(" ± ", " % ± ") if percent else text


def _unit(case: Case, place: Place, kind: Kind) -> str:
    stands = at_place(case.build, place)
    if stands is not None:
        return unit_named(stands.unit, kind).symbol
    if kind is Kind.RATIO:
        return "%" if place[-1] in _IN_PER_CENT else ""
    return case.units[kind].symbol


_IN_PER_CENT = ("slip", "efficiency", "duty")


def line_of(place: Place, text: str) -> str:
    """The line of the build file that writes it, with the table that it belongs in."""
    if place[0] == "ground":
        return f'[[ground]] name = "{place[1]}", {place[2]} = "{text}"'
    if len(place) == 2:
        return f'[{place[0]}] {place[1]} = "{text}"'
    inner = ".".join((place[0], *place[2:-1]))
    if len(place) == 3:
        return f'[[{place[0]}]] {place[1]}: {place[2]} = "{text}"'
    return f'[{inner}] of the {place[1]}: {place[-1]} = "{text}"'
