"""The driveline as a graph of shafts joined by stages, walked from the engine to the ground."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from beltwright.build.driveline import Belt, Chain, Gearbox, GearPair, Pulley
from beltwright.physics.arrays import Array
from beltwright.physics.gearing import belt_ratio, tooth_ratio
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.pulleys import pitch_diameter

ENGINE_TURNS = "clockwise"


@dataclass(frozen=True)
class Stage:
    """One step of the driveline between two shafts.

    ratio       turns of the source for one turn of the target [1]; 1 for the gearbox, whose
                gears come on top
    sense       +1 where both turn the same way seen along their axes, -1 where they don't
    efficiency  share of the power that arrives [1]
    """

    name: str
    kind: str
    source: str
    target: str
    ratio: Array
    sense: int
    efficiency: Array


@dataclass(frozen=True)
class Route:
    """How a shaft is reached from the engine: the ratio without the gears, and the stages."""

    shaft: str
    ratio: Array
    sense: int
    efficiency: Array
    stages: tuple[Stage, ...]

    @property
    def geared(self) -> bool:
        """Whether the shaft lies behind the gearbox."""
        return any(stage.kind == "gearbox" for stage in self.stages)

    def total_ratio(self, gear: "Gear") -> Array:
        """Turns of the engine for one turn of this shaft in a gear [1]."""
        return self.ratio * gear.ratio if self.geared else self.ratio


@dataclass(frozen=True)
class Gear:
    """One gear of the gearbox (or the only one, where there is no gearbox)."""

    name: str
    ratio: float
    forward: bool


def gears(case: Case) -> tuple[Gear, ...]:
    """The gears in the order of the build file, forward ones first."""
    box = case.build.gearbox
    if box is None:
        return (Gear("1", 1.0, True),)
    forward = (Gear(str(n), r, True) for n, r in enumerate(box.forward, 1))
    reverse = (Gear(f"r{n}", r, False) for n, r in enumerate(box.reverse, 1))
    return (*forward, *reverse)


def routes(case: Case) -> dict[str, Route]:
    """The way from the engine to every shaft that it turns."""
    return case.once("driveline.routes", lambda: _walk(case))


def route_to(case: Case, shaft: str) -> Route:
    """The way from the engine to one shaft.

    Raises NotKnownError where nothing drives it.
    """
    found = routes(case).get(shaft)
    if found is None:
        raise NotKnownError(
            f"shaft.{shaft}",
            f"Nothing leads from the engine to the shaft {shaft!r}: describe the belt, chain, gear "
            "or gearbox that drives it.",
        )
    return found


def engine_sense(case: Case) -> int:
    """+1 where the engine's shaft turns counter-clockwise seen from above, -1 where clockwise.

    Most small upright engines turn clockwise seen from above (common practice, no source).
    """
    return 1 if (case.build.engine.turns or ENGINE_TURNS) == "counter-clockwise" else -1


def _walk(case: Case) -> dict[str, Route]:
    start = case.build.engine.shaft
    one = np.ones(1)
    found = {start: Route(start, one, engine_sense(case), one, ())}
    waiting = [start]
    while waiting:
        source = waiting.pop(0)
        for stage in _stages_from(case, source):
            if stage.target not in found:
                found[stage.target] = _extended(found[source], stage)
                waiting.append(stage.target)
    return found


def _extended(route: Route, stage: Stage) -> Route:
    return replace(
        route,
        shaft=stage.target,
        ratio=route.ratio * stage.ratio,
        sense=route.sense * stage.sense,
        efficiency=route.efficiency * stage.efficiency,
        stages=(*route.stages, stage),
    )


def _stages_from(case: Case, source: str) -> Iterator[Stage]:
    for belt in case.build.belt:
        yield from _belt_stages(case, belt, source)
    for chain in case.build.chain:
        yield from _chain_stages(case, chain, source)
    for pair in case.build.gear:
        yield from _gear_stages(case, pair, source)
    if case.build.gearbox and case.build.gearbox.input == source:
        yield _gearbox_stage(case, case.build.gearbox)


def belt_pulleys(case: Case, belt: Belt) -> tuple[Pulley, ...]:
    """The pulleys of a belt that turn with a shaft, in belt order."""
    named = {p.name: p for p in case.build.pulley}
    return tuple(named[name] for name in belt.run if name in named)


def _belt_stages(case: Case, belt: Belt, source: str) -> Iterator[Stage]:
    pulleys = belt_pulleys(case, belt)
    driver = next((p for p in pulleys if p.shaft == source), None)
    if driver is None:
        return
    creep = case.suppose(
        None, "belt.creep", "1 % ± 1 %", Kind.RATIO, "creep of a loaded V-belt (common practice)"
    )
    efficiency = case.suppose(
        None,
        "belt.efficiency",
        "95 % ± 2 %",
        Kind.RATIO,
        "V-belt drives pass 93 to 97 % of the power (common practice, no source)",
    )
    for pulley in pulleys:
        if pulley.shaft != source:
            ratio = belt_ratio(
                pitch_diameter(case, driver, belt), pitch_diameter(case, pulley, belt), creep
            )
            sense = 1 if pulley.runs_on == driver.runs_on else -1
            yield Stage(belt.name, "belt", source, pulley.shaft, ratio, sense, efficiency)


def _chain_stages(case: Case, chain: Chain, source: str) -> Iterator[Stage]:
    if chain.driver.shaft != source:
        return
    ratio = np.atleast_1d(tooth_ratio(chain.driver.teeth, chain.driven.teeth))
    efficiency = case.suppose(
        chain.efficiency,
        f"chain.{chain.name}.efficiency",
        "96 % ± 2 %",
        Kind.RATIO,
        "an oiled roller chain passes 94 to 98 % of the power (common practice, no source)",
    )
    yield Stage(chain.name, "chain", source, chain.driven.shaft, ratio, 1, efficiency)


def _gear_stages(case: Case, pair: GearPair, source: str) -> Iterator[Stage]:
    if pair.driver.shaft != source:
        return
    ratio = np.atleast_1d(tooth_ratio(pair.driver.teeth, pair.driven.teeth))
    efficiency = case.suppose(
        pair.efficiency,
        f"gear.{pair.name}.efficiency",
        "96 % ± 2 %",
        Kind.RATIO,
        "an open spur pair passes 94 to 98 % of the power (common practice, no source)",
    )
    sense = 1 if pair.inside else -1
    yield Stage(pair.name, "gear", source, pair.driven.shaft, ratio, sense, efficiency)


def _gearbox_stage(case: Case, box: Gearbox) -> Stage:
    efficiency = case.suppose(
        box.efficiency,
        "gearbox.efficiency",
        "85 % ± 7 %",
        Kind.RATIO,
        "small splash-oiled gearboxes pass 78 to 92 % of the power (common practice, no source)",
    )
    return Stage("gearbox", "gearbox", box.input, box.output, np.ones(1), 1, efficiency)
