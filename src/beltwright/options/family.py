"""Families of candidates: one build for each structure, and axes of numbers that vary within it.

A belt of another section or a tyre of another size changes which formulas and tables apply, so it
needs a build of its own.  Diameters, lengths and places only change numbers, and are worked out as
arrays.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

import numpy as np
from numpy.typing import NDArray

from beltwright.build.model import Build
from beltwright.options.editing import edited, value_at
from beltwright.options.option import Choice, Edit, Option
from beltwright.options.wanted import ChoiceError
from beltwright.physics.arrays import Array
from beltwright.quantity import Kind, Quantity, Tyre, read_quantity
from beltwright.review.case import Case

Places = NDArray[np.int32]
"""Places of options on an axis, a candidate each."""


@dataclass(frozen=True)
class Axis:
    """The options of one choice that share a structure.

    choice   which choice
    options  the places of these options in the choice
    values   for every key, its number with each option [SI]
    price    what each costs [money]
    to_buy   parts to buy for each [1]
    """

    choice: int
    options: Places
    values: Mapping[str, Array]
    price: Array
    to_buy: Array

    def __len__(self) -> int:
        return len(self.options)


@dataclass(frozen=True)
class Family:
    """A build, and the axes along which its candidates lie."""

    build: Build
    axes: tuple[Axis, ...]

    @property
    def size(self) -> int:
        """How many candidates there are."""
        return prod(len(axis) for axis in self.axes)

    @property
    def keys(self) -> frozenset[str]:
        """Every key that varies."""
        return frozenset(key for axis in self.axes for key in axis.values)

    def case(self, rows: Sequence[Places]) -> Case:
        """The candidates at these places of the first axes, as arrays."""
        replaced = {
            key: values[places]
            for axis, places in zip(self.axes, rows, strict=False)
            for key, values in axis.values.items()
        }
        return Case(self.build, replaced=replaced)


def families(build: Build, choices: Sequence[Choice]) -> Iterator[Family]:
    """Every family of the choices; together they hold every candidate exactly once."""
    _refuse_shared_keys(choices)
    split = [_by_structure(build, place, choice) for place, choice in enumerate(choices)]
    for parts in product(*split):
        structure = [edit for edits, _ in parts for edit in edits]
        yield Family(edited(build, structure), tuple(axis for _, axis in parts))


def _refuse_shared_keys(choices: Sequence[Choice]) -> None:
    owner: dict[str, Choice] = {}
    for choice in choices:
        for key in {edit.key for option in choice.options for edit in option.edits}:
            if owner.setdefault(key, choice) is not choice:
                names = f"{owner[key].name} and {choice.name}"
                raise ChoiceError(f"{names} both change {key}; leave only one of them open")


def _by_structure(build: Build, place: int, choice: Choice) -> list[tuple[tuple[Edit, ...], Axis]]:
    keys = sorted({edit.key for option in choice.options for edit in option.edits})
    numbers = [key for key in keys if _is_number(value_at(build, key))]
    others = [key for key in keys if key not in numbers]
    groups: dict[tuple[Edit, ...], list[int]] = {}
    for number, option in enumerate(choice.options):
        groups.setdefault(_structure(build, option, others), []).append(number)
    return [
        _group(build, place, choice, members, structure, numbers)
        for structure, members in groups.items()
    ]


def _group(
    build: Build,
    place: int,
    choice: Choice,
    members: Sequence[int],
    structure: tuple[Edit, ...],
    numbers: Sequence[str],
) -> tuple[tuple[Edit, ...], Axis]:
    """A structure and its axis; an only option varies nothing and is written into the build."""
    if len(members) > 1:
        return structure, _axis(build, place, choice, members, numbers)
    only = choice.options[members[0]].edits
    return tuple({*structure, *only}), _axis(build, place, choice, members, ())


def _is_number(value: object) -> bool:
    return isinstance(value, Quantity) and value.kind is not Kind.MONEY


def _structure(build: Build, option: Option, keys: Sequence[str]) -> tuple[Edit, ...]:
    texts = {edit.key: edit.text for edit in option.edits}
    return tuple(Edit(key, texts.get(key, _text(value_at(build, key)))) for key in keys)


def _text(value: object) -> str:
    return value.text if isinstance(value, Quantity | Tyre) else str(value)


def _axis(
    build: Build, place: int, choice: Choice, members: Sequence[int], keys: Sequence[str]
) -> Axis:
    options = [choice.options[member] for member in members]
    values = {key: _numbers(build, key, options) for key in keys}
    for key, numbers in values.items():
        _check_ends(build, key, numbers, options)
    return Axis(
        choice=place,
        options=np.array(members, dtype=np.int32),
        values=values,
        price=np.array([option.price for option in options]),
        to_buy=np.array([float(option.to_buy) for option in options]),
    )


def _numbers(build: Build, key: str, options: Sequence[Option]) -> Array:
    now = value_at(build, key)
    found = []
    for option in options:
        text = next((edit.text for edit in option.edits if edit.key == key), None)
        found.append(now.value if text is None else read_quantity(text, now.kind, key).value)
    return np.array(found)


def _check_ends(build: Build, key: str, numbers: Array, options: Sequence[Option]) -> None:
    """Have the model read the smallest and the largest: what lies between is then allowed too."""
    for end in (int(numbers.argmin()), int(numbers.argmax())):
        edited(build, [edit for edit in options[end].edits if edit.key == key])
