"""The walk against brute force: nothing that keeps every limit is missed, nothing else passes."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from itertools import product
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beltwright.build.model import Build
from beltwright.build.reading import read_text
from beltwright.options import walk as walking
from beltwright.options.family import Axis, Family, families
from beltwright.options.limit import Limit, held_in
from beltwright.options.offering import choices
from beltwright.options.plan import plan
from beltwright.options.speed_limits import speed_limits
from beltwright.options.tally import Tally
from beltwright.options.walk import Share, Walk
from beltwright.physics.arrays import Array
from beltwright.quantity import Quantity
from beltwright.review.case import Case

BARE = """
format = 1
name = "bare"
[[shaft]]
name = "engine"
at = ["1 mm", "1 mm"]
slot_to = ["9 mm", "9 mm"]
[[pulley]]
name = "p"
shaft = "engine"
outside = "1 mm"
groove = "A"
"""


def _axes(sizes: Sequence[int], draw: np.random.Generator) -> tuple[Axis, ...]:
    keys = ("shaft.engine.at.0", "shaft.engine.at.1", "shaft.engine.slot_to.0", "pulley.p.outside")
    return tuple(
        Axis(
            choice=place,
            options=np.arange(size, dtype=np.int32),
            values={key: draw.integers(1, 20, size).astype(float)},
            price=draw.integers(0, 9, size).astype(float),
            to_buy=np.ones(size),
        )
        for place, (size, key) in enumerate(zip(sizes, keys, strict=False))
    )


def _quantities(build: Build) -> list[Quantity]:
    shaft, pulley = build.shaft[0], build.pulley[0]
    assert shaft.slot_to is not None
    assert pulley.outside is not None
    return [shaft.at[0], shaft.at[1], shaft.slot_to[0], pulley.outside]


def _sum_of(which: Sequence[int], case: Case) -> Array:
    quantities = _quantities(case.build)
    total = np.zeros(1)
    for place in which:
        total = total + case.si(quantities[place])
    return total


@st.composite
def _problems(
    draw: Callable[..., Any],
) -> tuple[Family, list[Limit], float | None]:
    count = draw(st.integers(1, 4))
    sizes = [draw(st.integers(1, 6)) for _ in range(count)]
    family = Family(read_text(BARE), _axes(sizes, np.random.default_rng(draw(st.integers(0, 99)))))
    # an axis of one option is written into the build by `families`; here it must not vary either
    axes = tuple(replace(axis, values={}) if len(axis) == 1 else axis for axis in family.axes)
    subsets = st.lists(st.integers(0, count - 1), min_size=0, max_size=count, unique=True)
    limits = [
        Limit(
            f"limit.{n}",
            "is out",
            partial(_sum_of, draw(subsets)),
            at_least=partial(_sum_of, draw(subsets)) if draw(st.booleans()) else None,
            at_most=partial(_sum_of, draw(subsets)) if draw(st.booleans()) else None,
        )
        for n in range(draw(st.integers(0, 4)))
    ]
    spare = draw(st.one_of(st.none(), st.floats(0.0, 36.0)))
    return replace(family, axes=axes), limits, spare


def _brute_force(
    family: Family, limits: Sequence[Limit], spare: float | None
) -> set[tuple[int, ...]]:
    grid = np.array(list(product(*(range(len(axis)) for axis in family.axes))), dtype=np.int32)
    case = family.case(list(grid.T))
    kept = np.ones(len(grid), dtype=bool)
    for limit in limits:
        kept &= np.broadcast_to(held_in(limit, case).kept(), len(grid))
    if spare is not None:
        prices = [axis.price[places] for axis, places in zip(family.axes, grid.T, strict=True)]
        kept &= np.sum(prices, axis=0) <= spare + walking.CENT_PART
    return {tuple(row) for row in grid[kept].tolist()}


def _walked(
    family: Family, limits: Sequence[Limit], spare: float | None, share: Share = walking.WHOLE
) -> tuple[list[tuple[int, ...]], Tally]:
    tally = Tally(tuple(len(axis) for axis in family.axes))
    planned = plan(family, limits)
    order = [axis.choice for axis in planned.family.axes]
    found = []
    for rows in Walk(planned, tally, spare, share).blocks():
        table = np.stack(rows.places, axis=1)[:, np.argsort(order)]
        found += [tuple(row) for row in table.tolist()]
    return found, tally


@settings(max_examples=150, deadline=None)
@given(_problems(), st.sampled_from([2, 7, 65_536]))
def test_the_walk_finds_what_brute_force_finds(
    problem: tuple[Family, list[Limit], float | None], block: int
) -> None:
    family, limits, spare = problem
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(walking, "BRANCHES", block)
        patch.setattr(walking, "CANDIDATES", block)
        found, tally = _walked(family, limits, spare)
    assert len(found) == len(set(found))
    assert set(found) == _brute_force(family, limits, spare)
    assert len(found) + sum(tally.total.values()) == family.size


@settings(max_examples=60, deadline=None)
@given(_problems(), st.integers(2, 4))
def test_shares_add_up_to_the_whole(
    problem: tuple[Family, list[Limit], float | None], shares: int
) -> None:
    family, limits, spare = problem
    whole, counted = _walked(family, limits, spare)
    parts = [_walked(family, limits, spare, Share(n, shares)) for n in range(shares)]
    assert sorted(c for found, _ in parts for c in found) == sorted(whole)
    together = Tally(counted.sizes)
    for _, tally in parts:
        together.join(tally)
    assert together.total == counted.total
    for reason, counts in counted.turned_away.items():
        for mine, theirs in zip(counts, together.turned_away[reason], strict=True):
            assert mine.tolist() == theirs.tolist()


@settings(max_examples=60, deadline=None)
@given(_problems())
def test_every_option_is_counted_as_often_as_it_was_turned_away(
    problem: tuple[Family, list[Limit], float | None],
) -> None:
    family, limits, spare = problem
    found, tally = _walked(family, limits, spare)
    for place, axis in enumerate(family.axes):
        left = np.bincount([candidate[place] for candidate in found], minlength=len(axis))
        away = sum((counts[place] for counts in tally.turned_away.values()), np.zeros(len(axis)))
        assert (left + away).tolist() == [family.size / len(axis)] * len(axis)


def test_cheap_limits_come_before_the_axes_that_they_do_not_need(open_build: Build) -> None:
    family = next(families(open_build, choices(open_build)))
    planned = plan(family, list(speed_limits(open_build)))
    assert [axis.choice for axis in planned.family.axes][:2] == [0, 1]
    assert planned.limits_at(1)
    assert not planned.limits_at(len(family.axes) - 1)
