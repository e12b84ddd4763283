"""What identifies a part at the counter: sizes and markings, in the trade's words."""

from collections.abc import Iterator

from beltwright.build.driveline import Belt, Chain, Hub, Idler, Pulley, Spring
from beltwright.build.plate import Plate
from beltwright.build.shop import Part
from beltwright.quantity import Kind, Quantity
from beltwright.review.belt.length import sold_as
from beltwright.review.case import Case, NotKnownError
from beltwright.review.money.sums import spring_of
from beltwright.tables.belts import section
from beltwright.views.hole_words import marked


def named_words(case: Case, name: str) -> str:
    """What identifies the thing of the build that a part serves, "" where there is none."""
    return next((_listed(words) for each, words in _things(case) if each == name), "")


def _things(case: Case) -> Iterator[tuple[str, Iterator[str]]]:
    """Everything that a part may serve, with its words."""
    build = case.build
    yield from ((pulley.name, _pulley(case, pulley)) for pulley in build.pulley)
    yield from ((idler.name, _idler(case, idler)) for idler in build.idler)
    yield from ((belt.name, _belt(case, belt)) for belt in build.belt)
    yield from ((chain.name, _chain(chain)) for chain in build.chain)
    yield from ((plate.name, _plate(case, plate)) for plate in build.plate)
    for idler in build.idler:
        if idler.arm and idler.arm.spring:
            yield spring_of(idler), _spring(case, idler.arm.spring)


def part_words(case: Case, part: Part) -> str:
    """What identifies a part: the thing that it serves, else what its own row says."""
    served = named_words(case, part.use) if part.use and _stands_for(case, part) else ""
    return served or _listed(_own(case, part))


def _stands_for(case: Case, part: Part) -> bool:
    """Whether a part is what it serves, and not one of several pieces of it."""
    return sum(each.use == part.use for each in case.build.part) == 1


def _listed(words: Iterator[str]) -> str:
    return "; ".join(words)


def _pulley(case: Case, pulley: Pulley) -> Iterator[str]:
    count = max((belt.count for belt in case.build.belt if pulley.name in belt.run), default=1)
    grooves = f"{count} grooves" if count > 1 else "groove"
    yield f"{grooves} for section {pulley.groove}"
    if pulley.outside is not None:
        yield f"{_size(case, pulley.outside)} over the rim"
    if pulley.pitch is not None:
        yield f"{_size(case, pulley.pitch)} pitch diameter"
    if pulley.hub is not None:
        yield from _hub(case, pulley.hub)
    yield pulley.material


def _hub(case: Case, hub: Hub) -> Iterator[str]:
    if hub.bore is not None:
        yield f"bore {_size(case, hub.bore)}"
    if hub.key is not None:
        sides = (hub.key.width, hub.key.height, hub.key.length)
        yield f"key {' × '.join(_size(case, side) for side in sides)}"
    if hub.set_screw is not None:
        yield f"set screw {hub.set_screw}"


def _idler(case: Case, idler: Idler) -> Iterator[str]:
    yield f"{idler.face} face" if idler.groove is None else f"grooved for section {idler.groove}"
    yield f"{_size(case, idler.outside)} over the rim"
    if idler.bearing_limit is not None:
        yield f"bearing for {case.units.show(idler.bearing_limit.value, Kind.ROTATION)}"


def _spring(case: Case, spring: Spring) -> Iterator[str]:
    yield "tension spring with hooks"
    yield f"{case.units.show(spring.rate.value, Kind.SPRING_RATE)}"
    yield f"{_size(case, spring.free)} between the hooks with no load"
    if spring.longest is not None:
        yield f"stretches to {_size(case, spring.longest)}"


def _belt(case: Case, belt: Belt) -> Iterator[str]:
    own = section(belt.section).cross
    if belt.count > 1:
        yield f"{belt.count} of one set"
    yield f"section {belt.section}, {marked(case, own.top_width)} wide at the top"
    yield f"{belt.length.text} {belt.length_is} length"
    try:
        sold = sold_as(case, belt)
    except NotKnownError:
        sold = None
    if sold is not None:
        yield f"printed {sold.size}"


def _chain(chain: Chain) -> Iterator[str]:
    yield f"roller chain {chain.size}, with its link"
    yield f"sprockets of {chain.driver.teeth} and {chain.driven.teeth} teeth"


def _plate(case: Case, plate: Plate) -> Iterator[str]:
    if plate.material is not None:
        yield plate.material
    if plate.thickness is not None:
        yield f"{_size(case, plate.thickness)} thick"
    width, height = plate_size(plate)
    yield f"{marked(case, width)} × {marked(case, height)}"


def plate_size(plate: Plate) -> tuple[float, float]:
    """Width and height of a plate over all [m]."""
    if plate.rectangle is not None:
        return plate.rectangle[0].value, plate.rectangle[1].value
    assert plate.outline is not None
    xs, ys = ([corner[axis].value for corner in plate.outline] for axis in (0, 1))
    return max(xs) - min(xs), max(ys) - min(ys)


def _own(case: Case, part: Part) -> Iterator[str]:
    if part.section is not None:
        yield f"section {part.section}"
    if part.length is not None:
        yield f"{part.length.text} {part.length_is or ''}".strip()
    if part.outside is not None:
        yield f"{_size(case, part.outside)} over the rim"
    if part.teeth is not None:
        yield f"{part.teeth} teeth"
    if part.bore is not None:
        yield f"bore {_size(case, part.bore)}"
    if part.size is not None:
        yield f"size {part.size}"


def _size(case: Case, size: Quantity) -> str:
    """A size as one asks for it: without the tolerance of a measurement."""
    return case.units.show(size.value, Kind.LENGTH)
