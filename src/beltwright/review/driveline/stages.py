"""The kinds of stage that join two shafts: belt, chain, gear pair, gearbox.

A further kind, with a fixed ratio or a range of them, is one more function that gives `Stage`s from
a shaft, listed in `STAGES`.
"""

from collections.abc import Callable, Iterator
from functools import partial
from typing import NamedTuple

import numpy as np

from beltwright.build.driveline import Belt, Pulley
from beltwright.build.fields import Share
from beltwright.physics.arrays import Array
from beltwright.physics.gearing import belt_ratio, tooth_ratio
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.pulleys import pitch_diameter


class Stage(NamedTuple):
    """One step of the driveline between two shafts.

    sense       +1 where both turn the same way seen along their axes, -1 where they don't
    ratio       gives the turns of the source for one turn of the target [1]; 1 for the gearbox,
                whose gears come on top
    efficiency  gives the share of the power that arrives [1]

    Ratio and efficiency are worked out when asked for, so that a finding about the way round alone
    does not rest on numbers that it has no use for.
    """

    name: str
    kind: str
    source: str
    target: str
    sense: int
    ratio: Callable[[], Array]
    efficiency: Callable[[], Array]


def belt_pulleys(case: Case, belt: Belt) -> tuple[Pulley, ...]:
    """The pulleys of a belt that turn with a shaft, in belt order."""
    named = {p.name: p for p in case.build.pulley}
    return tuple(named[name] for name in belt.run if name in named)


def runs_flat(case: Case, belt: Belt) -> bool:
    """Whether the pulleys of a belt turn about parallel lines, so that it is not twisted."""
    axes = {shaft.name: shaft.axis for shaft in case.build.shaft}
    return len({axes[p.shaft] for p in belt_pulleys(case, belt) if p.shaft in axes}) < 2


def twisted(belt: Belt) -> NotKnownError:
    """Says why nothing is worked out for a belt whose shafts are not parallel."""
    return NotKnownError(
        f"belt.{belt.name}.run",
        "Bring the drive round the corner with a bevel gear, or take an engine or a gearbox whose "
        "shaft lies the other way. A V-belt that is twisted rolls over and jumps off unless its "
        "spans are long and its grooves deep: leave that to a belt maker's own rules.",
        f"The shafts of the {belt.name} are not parallel, so that it is twisted on its way (a "
        "quarter turn). Such a belt is not worked out.",
    )


def _belts(case: Case, source: str) -> Iterator[Stage]:
    for belt in case.build.belt:
        pulleys = belt_pulleys(case, belt)
        driver = next((p for p in pulleys if p.shaft == source), None)
        if driver is None:
            continue
        for driven in pulleys:
            if driven.shaft != source:
                yield Stage(
                    belt.name,
                    "belt",
                    source,
                    driven.shaft,
                    1 if driven.runs_on == driver.runs_on else -1,
                    partial(_belt_ratio, case, belt, driver, driven),
                    partial(_belt_efficiency, case),
                )


def _belt_ratio(case: Case, belt: Belt, driver: Pulley, driven: Pulley) -> Array:
    creep = case.suppose(
        belt.slip,
        "belt.creep",
        "1 % ± 1 %",
        Kind.RATIO,
        "a loaded V-belt creeps by up to 2 % (common practice)",
    )
    return belt_ratio(pitch_diameter(case, driver, belt), pitch_diameter(case, driven, belt), creep)


def _belt_efficiency(case: Case) -> Array:
    return case.suppose(
        None,
        "belt.efficiency",
        "95 % ± 2 %",
        Kind.RATIO,
        "V-belt drives pass 93 to 97 % of the power (common practice, no source)",
    )


def _chains(case: Case, source: str) -> Iterator[Stage]:
    for chain in case.build.chain:
        if chain.driver.shaft == source:
            yield Stage(
                chain.name,
                "chain",
                source,
                chain.driven.shaft,
                1,
                partial(_tooth_ratio, chain.driver.teeth, chain.driven.teeth),
                partial(
                    _tooth_efficiency,
                    case,
                    chain.efficiency,
                    f"chain.{chain.name}.efficiency",
                    "an oiled roller chain",
                ),
            )


def _gear_pairs(case: Case, source: str) -> Iterator[Stage]:
    for pair in case.build.gear:
        if pair.driver.shaft == source:
            yield Stage(
                pair.name,
                "gear",
                source,
                pair.driven.shaft,
                1 if pair.inside else -1,
                partial(_tooth_ratio, pair.driver.teeth, pair.driven.teeth),
                partial(
                    _tooth_efficiency,
                    case,
                    pair.efficiency,
                    f"gear.{pair.name}.efficiency",
                    "an open spur pair",
                ),
            )


def _tooth_ratio(driver_teeth: int, driven_teeth: int) -> Array:
    return np.atleast_1d(tooth_ratio(driver_teeth, driven_teeth))


def _tooth_efficiency(case: Case, given: Share | None, key: str, what: str) -> Array:
    return case.suppose(
        given,
        key,
        "96 % ± 2 %",
        Kind.RATIO,
        f"{what} passes 94 to 98 % of the power (common practice, no source)",
    )


def _gearbox(case: Case, source: str) -> Iterator[Stage]:
    box = case.build.gearbox
    if box is not None and box.input == source:
        yield Stage(
            "gearbox",
            "gearbox",
            source,
            box.output,
            1,
            partial(np.ones, 1),
            partial(_gearbox_efficiency, case, box.efficiency),
        )


def _gearbox_efficiency(case: Case, given: Share | None) -> Array:
    return case.suppose(
        given,
        "gearbox.efficiency",
        "85 % ± 7 %",
        Kind.RATIO,
        "small splash-oiled gearboxes pass 78 to 92 % of the power (common practice, no source)",
    )


STAGES: tuple[Callable[[Case, str], Iterator[Stage]], ...] = (
    _belts,
    _chains,
    _gear_pairs,
    _gearbox,
)
"""Every kind of stage, as a function from a shaft to the stages that it drives."""
