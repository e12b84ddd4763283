"""The build file as a typed model: everything the builder knows or has measured."""

from collections.abc import Iterable
from typing import Literal, Self

from pydantic import Field, model_validator

from beltwright.build.driveline import Belt, Chain, Gearbox, GearPair, Idler, Pulley, Shaft
from beltwright.build.row import Row
from beltwright.build.shop import Choose, Hole, Obstacle, Part
from beltwright.build.vehicle import Brake, Engine, Goals, Machine, Steering, Wheels


class Show(Row):
    """Units to print in; anything left out follows what the builder writes most."""

    length: Literal["mm", "cm", "m", "in", "in 1/16", "in 1/32", "ft"] | None = None
    speed: Literal["km/h", "mph", "m/s"] | None = None
    power: Literal["kW", "hp"] | None = None
    torque: Literal["N·m", "lb-ft"] | None = None
    force: Literal["N", "lbf", "kgf"] | None = None
    mass: Literal["kg", "lb"] | None = None
    temperature: Literal["°C", "°F"] | None = None
    pressure: Literal["kPa", "bar", "psi"] | None = None


class Build(Row):
    """A build file."""

    format: Literal[1]
    name: str = Field(min_length=1, max_length=120)
    story: str = ""
    show: Show = Show()
    goals: Goals = Goals()
    machine: Machine = Machine()
    engine: Engine = Engine()
    shaft: tuple[Shaft, ...] = ()
    pulley: tuple[Pulley, ...] = ()
    idler: tuple[Idler, ...] = ()
    belt: tuple[Belt, ...] = ()
    chain: tuple[Chain, ...] = ()
    gear: tuple[GearPair, ...] = ()
    gearbox: Gearbox | None = None
    wheels: Wheels = Wheels()
    brake: Brake | None = None
    steering: Steering | None = None
    obstacle: tuple[Obstacle, ...] = ()
    hole: tuple[Hole, ...] = ()
    part: tuple[Part, ...] = ()
    choose: Choose = Choose()

    @model_validator(mode="after")
    def _names(self) -> Self:
        problems = [*_doubled_names(self), *_unknown_names(self)]
        if problems:
            raise ValueError("; ".join(problems))
        return self

    def shaft_names(self) -> tuple[str, ...]:
        """Every shaft that a stage may start from or lead to."""
        made = (self.gearbox.output,) if self.gearbox else ()
        named = [s.name for s in self.shaft]
        return (*named, *(name for name in made if name not in named))


def _doubled_names(build: Build) -> Iterable[str]:
    groups: dict[str, Iterable[str]] = {
        "shaft": (s.name for s in build.shaft),
        "pulley or idler": _wheel_names(build),
        "belt, chain or gear": _stage_names(build),
        "obstacle": (o.name for o in build.obstacle),
        "hole": (h.name for h in build.hole),
    }
    for what, names in groups.items():
        seen: set[str] = set()
        for name in names:
            if name in seen:
                yield f"two {what}s are called {name!r}; give each a name of its own"
            seen.add(name)


def _wheel_names(build: Build) -> list[str]:
    return [*(p.name for p in build.pulley), *(i.name for i in build.idler)]


def _stage_names(build: Build) -> list[str]:
    return [
        *(b.name for b in build.belt),
        *(c.name for c in build.chain),
        *(g.name for g in build.gear),
    ]


def _unknown_names(build: Build) -> Iterable[str]:
    shafts = build.shaft_names()
    wheels = _wheel_names(build)
    for pulley in build.pulley:
        yield from _missing(pulley.shaft, shafts, f"pulley {pulley.name!r}", "shaft")
    for belt in build.belt:
        for name in belt.run:
            yield from _missing(name, wheels, f"the run of belt {belt.name!r}", "pulley or idler")
    for chain in build.chain:
        for wheel in (chain.driver, chain.driven):
            yield from _missing(wheel.shaft, shafts, f"chain {chain.name!r}", "shaft")
    for pair in build.gear:
        for wheel in (pair.driver, pair.driven):
            yield from _missing(wheel.shaft, shafts, f"gear {pair.name!r}", "shaft")
    if build.gearbox:
        yield from _missing(build.gearbox.input, shafts, "the gearbox input", "shaft")
    if build.brake:
        yield from _missing(build.brake.on, shafts, "the brake", "shaft")


def _missing(name: str, known: Iterable[str], where: str, what: str) -> Iterable[str]:
    names = sorted(known)
    if name not in names:
        there = ", ".join(repr(n) for n in names) or "none"
        yield f"{where} names {what} {name!r}, which is not there; there are: {there}"
