"""The build with one more idler in a belt's run: what it is, where in the run, with which belt."""

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple, TypeVar

from beltwright.build.driveline import Belt, Idler, Pulley
from beltwright.build.model import Build
from beltwright.build.places import with_places
from beltwright.build.shop import Part
from beltwright.options.assembly import bought, spared, used
from beltwright.options.idler_place import centres
from beltwright.quantity import Kind, Quantity, Units, read_quantity, show, unit_named, write

REACH = 0.12
"""How much longer or shorter a sold belt may be than the present one to be tried [1]."""

COMMON = ("76 mm", "3 in")
"""Outside diameter of a common flat idler, for who writes millimetres and for who writes inches
(common practice, no source)."""

LARGEST = 0.5
"""Largest idler that is tried [m]."""

Wheel = TypeVar("Wheel", Pulley, Idler)

Side = Literal["back", "inside"]

Table = dict[str, str | list[str]]
"""A table of the build file."""


class NearBelt(NamedTuple):
    """A belt that may be bought.

    length  as marked the way the build's own is [m]
    size    as the trade prints it, "A78"; "" for the belt that the build has
    text    its length as it is written in the build file
    """

    length: float
    size: str
    text: str


class Wanted(NamedTuple):
    """The idler that is to be tried.

    outside  its outside diameter, as it is written in the build file
    part     the part in the bin that it is, None where it has to be bought
    assumed  whether nobody asked for that diameter
    """

    outside: str
    part: Part | None
    assumed: bool

    def lies_there(self, side: Side) -> bool:
        """Whether the one in the bin suits: flat on the back, grooved inside."""
        return self.part is not None and (self.part.section is not None) == (side == "inside")


class Way(NamedTuple):
    """Where in the run the idler stands, and on which side of the belt."""

    after: str
    before: str
    side: Side


def wanted_idler(build: Build, units: Units, outside: str = "") -> Wanted:
    """The idler of the diameter that the builder asks for; else one in the bin; else a common one.

    Raises ValueError where what was asked for is no diameter.
    """
    unused = [part for part in build.part if _is_spare_idler(build, part)]
    if outside:
        size = _size(outside)
        same = (p for p in unused if p.outside is not None and abs(p.outside.value - size) < 1e-4)
        return Wanted(outside, next(same, None), assumed=False)
    for part in unused:
        assert part.outside is not None
        return Wanted(part.outside.text, part, assumed=False)
    return Wanted(COMMON[units[Kind.LENGTH].symbol in ("in", "ft")], None, assumed=True)


def ways(belt: Belt) -> Iterator[Way]:
    """Every span of a run, from either side; between two pulleys both spans are the same."""
    spans = list(zip(belt.run, (*belt.run[1:], belt.run[0]), strict=True))
    for after, before in spans if len(spans) > 2 else spans[:1]:
        for side in ("back", "inside"):
            yield Way(after, before, side)


def belts_near(belt: Belt) -> tuple[NearBelt, ...]:
    """The present belt, then those of its section that are sold near its length, nearest first."""
    from beltwright.tables.belts import pitch_length, sold_lengths

    now, unit = belt.length, unit_named(belt.length.unit, Kind.LENGTH)
    shift = float(pitch_length(belt.section, 0.0, belt.length_is))
    found = [NearBelt(now.value, "", now.text)]
    for sold in sold_lengths(belt.section):
        length = sold.pitch_length - shift
        if 1e-6 < abs(length / now.value - 1.0) <= REACH:
            found.append(NearBelt(length, sold.size, write(round(length, 9), unit)))
    return tuple(sorted(found, key=lambda near: abs(near.length - now.value)))


def row_of(build: Build, belt: Belt, way: Way, outside: str, at: tuple[str, str]) -> Table:
    """The idler as it is written in the build file, amid the heights of its neighbours."""
    grooves = (pulley.groove for pulley in build.pulley if pulley.name in belt.run)
    row: Table = {"name": new_name(build), "outside": outside}
    if way.side == "inside":
        row |= {"face": "grooved", "groove": next(grooves, belt.section), "runs_on": "inside"}
    row["at"] = list(at)
    beside = [*_named(build.pulley, way), *_named(build.idler, way)]
    for name in ("height", "across"):
        written = [each for wheel in beside if (each := getattr(wheel, name)) is not None]
        if written:
            row[name] = _amid(written)
    return row


def _named(wheels: Sequence[Wheel], way: Way) -> list[Wheel]:
    return [wheel for wheel in wheels if wheel.name in (way.after, way.before)]


def _amid(written: list[Quantity]) -> str:
    """The middle of two lengths, in the unit of the first."""
    if len({each.value for each in written}) == 1:
        return written[0].text
    middle = sum(each.value for each in written) / len(written)
    return show(middle, unit_named(written[0].unit, Kind.LENGTH))


def with_idler(
    build: Build,
    belt: Belt,
    way: Way,
    outside: str,
    at: tuple[str, str] | None = None,
    length: str | None = None,
) -> tuple[Build, str]:
    """The build with one more idler in a belt's run and perhaps another belt, and its name.

    Without a place it stands amid the pulleys of the run, until `idler_map` finds where it may.
    Raises ValueError where the diameter is none.
    """
    middle = centres(build, belt).mean(axis=0)
    row = row_of(build, belt, way, outside, at or (_metres(middle[0]), _metres(middle[1])))
    name = str(row["name"])
    idler = Idler.model_validate(
        {field: with_places(value, f"idler.{name}.{field}") for field, value in row.items()}
    )
    run = run_with(belt, way, name)
    changed = belt.model_copy(
        update={"run": run, "length": belt.length if length is None else _length(belt, length)}
    )
    belts = tuple(changed if each.name == belt.name else each for each in build.belt)
    return build.model_copy(update={"idler": (*build.idler, idler), "belt": belts}), name


def with_parts(
    build: Build, belt: Belt, near: NearBelt, name: str, way: Way, wanted: Wanted
) -> Build:
    """The build with its parts as the new idler and perhaps another belt leave them; a build
    without parts keeps none."""
    parts = list(build.part)
    if not parts:
        return build
    if near.size:
        parts = [kept for part in parts if (kept := spared(part, belt.name)) is not None]
        parts.append(bought(_belt_part(belt, near), belt.name, parts))
    if wanted.part is not None and wanted.lies_there(way.side):
        parts = [used(part, wanted.part, name) for part in parts]
    else:
        parts.append(bought(_idler_part(belt, name, way, wanted), name, parts))
    return build.model_copy(update={"part": tuple(parts)})


def _belt_part(belt: Belt, near: NearBelt) -> Part:
    return Part.model_validate(
        {
            "name": f"{near.size} belt",
            "kind": "belt",
            "section": belt.section,
            "length": near.text,
            "length_is": belt.length_is,
        }
    )


def _idler_part(belt: Belt, name: str, way: Way, wanted: Wanted) -> Part:
    held = {"name": f"{name}, {wanted.outside}", "kind": "idler", "outside": wanted.outside}
    return Part.model_validate(held | ({"section": belt.section} if way.side == "inside" else {}))


def run_with(belt: Belt, way: Way, name: str) -> tuple[str, ...]:
    """The run of the belt with the new idler in it."""
    place = belt.run.index(way.after) + 1
    return (*belt.run[:place], name, *belt.run[place:])


def new_name(build: Build) -> str:
    """A name that nothing in the build has yet."""
    names = {pulley.name for pulley in build.pulley} | {idler.name for idler in build.idler}
    return next(name for name in _names() if name not in names)


def _names() -> Iterator[str]:
    yield "new idler"
    number = 2
    while True:
        yield f"new idler {number}"
        number += 1


def _is_spare_idler(build: Build, part: Part) -> bool:
    served = {each.name for each in build.idler}
    return (
        part.have and part.kind == "idler" and part.outside is not None and part.use not in served
    )


def _size(text: str) -> float:
    size = read_quantity(text, Kind.LENGTH, "idler.outside").value
    if not 0.0 < size <= LARGEST:
        raise ValueError(f'"{text}" is no idler\'s diameter. Write for example "76 mm".')
    return size


def _metres(value: float) -> str:
    return write(float(value), "m")


def _length(belt: Belt, text: str) -> Quantity:
    return read_quantity(text, Kind.LENGTH, belt.length.key)
