"""The driveline as a graph of shafts joined by stages, walked from the engine to the ground."""

from math import prod
from typing import NamedTuple

import numpy as np

from beltwright.physics.arrays import Array
from beltwright.review.case import Case, NotKnownError
from beltwright.review.driveline.stages import STAGES, Stage

ENGINE_TURNS = "clockwise"


class Route(NamedTuple):
    """How a shaft is reached from the engine: the stages, and what they make of its turning."""

    case: Case
    shaft: str
    stages: tuple[Stage, ...]

    @property
    def sense(self) -> int:
        """+1 where the shaft turns counter-clockwise seen from above, -1 where clockwise."""
        return engine_sense(self.case) * prod(stage.sense for stage in self.stages)

    @property
    def ratio(self) -> Array:
        """Turns of the engine for one turn of the shaft, the gears left out [1]."""
        return self.case.once(("driveline.ratio", self.shaft), self._ratio)

    @property
    def efficiency(self) -> Array:
        """Share of the engine's power that arrives [1]."""
        return self.case.once(("driveline.efficiency", self.shaft), self._efficiency)

    @property
    def geared(self) -> bool:
        """Whether the shaft lies behind the gearbox."""
        return any(stage.kind == "gearbox" for stage in self.stages)

    def total_ratio(self, gear: "Gear") -> Array:
        """Turns of the engine for one turn of this shaft in a gear [1]."""
        return self.ratio * gear.ratio if self.geared else self.ratio

    def _ratio(self) -> Array:
        return prod((stage.ratio() for stage in self.stages), start=np.ones(1))

    def _efficiency(self) -> Array:
        return prod((stage.efficiency() for stage in self.stages), start=np.ones(1))


class Gear(NamedTuple):
    """One gear of the gearbox (or the only one, where there is no gearbox)."""

    name: str
    ratio: float
    forward: bool


def gears(case: Case) -> tuple[Gear, ...]:
    """The gears in the order of the build file, forward ones first."""
    return case.once("driveline.gears", lambda: _gears(case))


def _gears(case: Case) -> tuple[Gear, ...]:
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
            "Describe the belt, chain, gear or gearbox that drives it.",
            f"Nothing leads from the engine to the shaft “{shaft}”.",
        )
    return found


def engine_sense(case: Case) -> int:
    """+1 where the engine's shaft turns counter-clockwise seen from above, -1 where clockwise.

    Most small upright engines turn clockwise seen from above (common practice, no source). One that
    lies across turns either way seen from the right, as its shaft comes out on the left or there.

    Raises NotKnownError where it lies across and its direction is not written.
    """
    if case.build.engine.turns is None and _engine_lies_across(case):
        raise engine_direction_missing()
    return 1 if (case.build.engine.turns or ENGINE_TURNS) == "counter-clockwise" else -1


def engine_direction_missing() -> NotKnownError:
    """Says how to find out which way an engine turns that lies across."""
    return NotKnownError(
        "engine.turns",
        "Take off the spark lead, stand on the right of the machine, pull the starter cord slowly "
        'and see which way the shaft turns; write it, for example turns = "clockwise".',
    )


def _engine_lies_across(case: Case) -> bool:
    name = case.build.engine.shaft
    return any(shaft.name == name and shaft.axis == "cross" for shaft in case.build.shaft)


def _walk(case: Case) -> dict[str, Route]:
    start = case.build.engine.shaft
    found = {start: Route(case, start, ())}
    waiting = [start]
    while waiting:
        source = waiting.pop(0)
        for stage in (stage for kind in STAGES for stage in kind(case, source)):
            if stage.target not in found:
                stages = (*found[source].stages, stage)
                found[stage.target] = Route(case, stage.target, stages)
                waiting.append(stage.target)
    return found
