"""Names in a build that must agree with each other: shafts, pulleys, belts, currencies."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Protocol

from beltwright.build.linkage_references import linkage_refusals, named_by_linkages
from beltwright.build.model import Build
from beltwright.build.places import Path
from beltwright.build.refusal import Refusal
from beltwright.quantity import Kind, unit_named

_SAME_NAMES = (
    ("shaft",),
    ("pulley", "idler"),
    ("belt", "chain", "gear"),
    ("obstacle",),
    ("guard",),
    ("hole",),
    ("ground",),
    ("drive",),
    ("plate",),
    ("linkage",),
)
"""Groups of tables in which a name may stand only once."""


class Named(Protocol):
    """A table that has a name."""

    @property
    def name(self) -> str:
        """Its name."""


def reference_refusals(build: Build) -> list[Refusal]:
    """Give every name that stands twice or leads nowhere, and money of two currencies."""
    return [
        *_doubled(build),
        *_doubled_inside(build),
        *_unknown(build),
        *_locked(build),
        *linkage_refusals(build),
        *_upside_down(build),
        *_currencies(build),
    ]


def _doubled(build: Build) -> Iterator[Refusal]:
    """Find names that two tables of a group share."""
    for group in _SAME_NAMES:
        seen: dict[str, str] = {}
        for table in group:
            rows: tuple[Named, ...] = getattr(build, table)
            for index, row in enumerate(rows):
                if row.name in seen:
                    other = seen[row.name]
                    reason = f"A {other} has this name already. Give each a name of its own."
                    yield Refusal((table, index, "name"), reason, f'"{row.name}"')
                seen.setdefault(row.name, table)


def _doubled_inside(build: Build) -> Iterator[Refusal]:
    """Find names that two holes of a plate share, or two springs of the throttle."""
    for path, rows, what in _rows_inside(build):
        seen: set[str] = set()
        for place, row in enumerate(rows):
            if row.name in seen:
                reason = f"A {what} has this name already. Give each a name of its own."
                yield Refusal((*path, place, "name"), reason, f'"{row.name}"')
            seen.add(row.name)


def _rows_inside(build: Build) -> Iterator[tuple[Path, tuple[Named, ...], str]]:
    """Give the named rows that stand inside a table, and what they are."""
    for index, plate in enumerate(build.plate):
        yield ("plate", index, "hole"), plate.hole, "hole of this plate"
    if build.throttle:
        yield ("throttle", "spring"), build.throttle.spring, "spring of the throttle"


def _unknown(build: Build) -> Iterator[Refusal]:
    """Find names that no table has."""
    shafts = build.shaft_names()
    for path, name in _shafts_named(build):
        yield from _missing(path, name, shafts, "shaft")
    for path, name, there, what in named_by_linkages(build):
        yield from _missing(path, name, there, what)
    turning = [*(p.name for p in build.pulley), *(idler.name for idler in build.idler)]
    for index, belt in enumerate(build.belt):
        for stop, name in enumerate(belt.run):
            yield from _missing(("belt", index, "run", stop), name, turning, "pulley or idler")
    for path, name in _carried(build):
        yield from _missing(path, name, [*turning, *shafts], "idler, pulley or shaft")
    yield from _driven(build)
    yield from _guards(build)
    for index, vary in enumerate(build.choose.vary):
        known = [*turning, *shafts, *_stages(build), "wheels"]
        yield from _missing(("choose", "vary", index, "of"), vary.of, known, "part of the build")


def _carried(build: Build) -> Iterator[tuple[Path, str]]:
    """Give every place where a hole of a plate names what it carries."""
    for index, plate in enumerate(build.plate):
        for place, hole in enumerate(plate.hole):
            if hole.carries is not None:
                yield ("plate", index, "hole", place, "carries"), hole.carries


def _driven(build: Build) -> Iterator[Refusal]:
    """Find gears and belts of a drive that the build does not have."""
    belts = [belt.name for belt in build.belt]
    box = build.gearbox
    forward, reverse = (len(box.forward), len(box.reverse)) if box else (1, 0)
    gears = [str(number) for number in range(1, forward + 1)]
    gears += [f"reverse {number}" for number in range(1, reverse + 1)]
    for index, drive in enumerate(build.drive):
        if drive.gear is not None:
            yield from _missing(("drive", index, "gear"), drive.gear, gears, "gear")
        if drive.belt is not None:
            yield from _missing(("drive", index, "belt"), drive.belt, belts, "belt")


def _guards(build: Build) -> Iterator[Refusal]:
    """Find guards round a wheel that their belt does not run over, and two feet at one end."""
    runs = {belt.name: belt.run for belt in build.belt}
    for index, guard in enumerate(build.guard):
        yield from _missing(("guard", index, "belt"), guard.belt, runs, "belt")
        if guard.belt in runs:
            path, run = ("guard", index, "round"), runs[guard.belt]
            yield from _missing(path, guard.round, run, f"pulley or idler in the {guard.belt}")
        armed = any(idler.name == guard.round and idler.arm for idler in build.idler)
        if guard.fixed_to == "arm" and not armed:
            reason = f"The {guard.round} has no arm. Screw it to the frame, or describe the arm."
            yield Refusal(("guard", index, "fixed_to"), reason, '"arm"')
        if len({foot.end for foot in guard.feet}) < len(guard.feet):
            reason = "There is a foot at this end already; the other end has none."
            yield Refusal(("guard", index, "feet", 1, "end"), reason, f'"{guard.feet[1].end}"')


def _stages(build: Build) -> list[str]:
    """Give the names of everything that drives."""
    belts = [belt.name for belt in build.belt]
    return [*belts, *(chain.name for chain in build.chain), *(pair.name for pair in build.gear)]


def _shafts_named(build: Build) -> Iterator[tuple[Path, str]]:
    """Give every place that names a shaft."""
    for index, pulley in enumerate(build.pulley):
        yield ("pulley", index, "shaft"), pulley.shaft
    for index, chain in enumerate(build.chain):
        yield ("chain", index, "driver", "shaft"), chain.driver.shaft
        yield ("chain", index, "driven", "shaft"), chain.driven.shaft
    for index, pair in enumerate(build.gear):
        yield ("gear", index, "driver", "shaft"), pair.driver.shaft
        yield ("gear", index, "driven", "shaft"), pair.driven.shaft
    if build.gearbox:
        yield ("gearbox", "input"), build.gearbox.input
    if build.brake:
        yield ("brake", "on"), build.brake.on
    if "shaft" in build.engine.model_fields_set:
        yield ("engine", "shaft"), build.engine.shaft
    if "shaft" in build.wheels.model_fields_set:
        yield ("wheels", "shaft"), build.wheels.shaft


def _locked(build: Build) -> Iterator[Refusal]:
    """Find shafts that two sets of teeth drive, or that drive themselves: neither could turn."""
    driven: dict[str, str] = {build.engine.shaft: "the engine"}
    for path, source, target, by in _toothed(build):
        if source == target:
            yield Refusal(path, "A shaft cannot drive itself.", f'"{target}"')
        elif target in driven:
            reason = f"This shaft is driven by {driven[target]} already: both together would lock."
            yield Refusal(path, reason, f'"{target}"')
        driven.setdefault(target, by)


def _toothed(build: Build) -> Iterator[tuple[Path, str, str, str]]:
    """Give every stage that cannot slip: where it names its driven shaft, from, to, its name."""
    if build.gearbox:
        yield ("gearbox", "output"), build.gearbox.input, build.gearbox.output, "the gearbox"
    for index, chain in enumerate(build.chain):
        path = ("chain", index, "driven", "shaft")
        yield path, chain.driver.shaft, chain.driven.shaft, f"the {chain.name}"
    for index, pair in enumerate(build.gear):
        path = ("gear", index, "driven", "shaft")
        yield path, pair.driver.shaft, pair.driven.shaft, f"the {pair.name}"


def _upside_down(build: Build) -> Iterator[Refusal]:
    """Find obstacles whose underside lies above their top: no belt would ever meet them."""
    for index, part in enumerate(build.obstacle):
        low, high = part.from_height, part.to_height
        if low is not None and high is not None and low.value > high.value:
            reason = f"The underside of the {part.name} lies above its top, {high.text}."
            yield Refusal(("obstacle", index, "from_height"), reason, f'"{low.text}"')


def _missing(path: Path, name: str, known: Iterable[str], what: str) -> Iterator[Refusal]:
    """Refuse a name that is not among the known ones, and say which are."""
    if name not in known:
        there = ", ".join(f'"{each}"' for each in dict.fromkeys(known)) or "none yet"
        yield Refusal(path, f"There is no {what} of this name. There are: {there}.", f'"{name}"')


def _currencies(build: Build) -> Iterator[Refusal]:
    """Find money in another currency than most of the build's; nothing here converts it."""
    money = list(_money(build))
    counts = Counter(currency for _, _, currency in money)
    for path, text, currency in money:
        usual = counts.most_common(1)[0][0]
        if currency != usual:
            reason = f"The rest of the money here is in {usual}. Convert it to {usual} yourself."
            yield Refusal(path, reason, f'"{text}"')


def _money(build: Build) -> Iterator[tuple[Path, str, str]]:
    """Give every amount of money: its path, its text and its currency."""
    if build.goals.budget:
        budget = build.goals.budget
        yield ("goals", "budget"), budget.text, unit_named(budget.unit, Kind.MONEY).symbol
    for index, part in enumerate(build.part):
        if part.price:
            price = part.price
            yield ("part", index, "price"), price.text, unit_named(price.unit, Kind.MONEY).symbol
