"""Which part fits which place of a build, and what it would change there."""

from beltwright.build.driveline import Belt, Chain, Idler, Pulley
from beltwright.build.row import Row
from beltwright.build.shop import Part
from beltwright.build.vehicle import Wheels
from beltwright.options.option import Edit
from beltwright.quantity import Quantity, write
from beltwright.tables.belts import outside_to_pitch

SAME_GROOVE = (frozenset({"A", "AX", "4L"}), frozenset({"B", "BX", "5L"}))
"""Sections of one top width, which run in one groove (RMA IP-20 and IP-23 cross-section tables)."""

MARKED_OUTSIDE = frozenset({"3L", "4L", "5L"})
"""Light-duty belts are marked by their outside length, classical ones by their inside length."""


def edits_for(part: Part, thing: Row, key: str) -> tuple[Edit, ...]:
    """What the build file would say with this part in that place; nothing where it can't serve."""
    if isinstance(thing, Pulley):
        return _pulley(part, thing, key)
    if isinstance(thing, Idler):
        return _idler(part, thing, key)
    if isinstance(thing, Belt):
        return _belt(part, thing, key)
    return ()


def tyre_edits(part: Part, wheels: Wheels, key: str, end: str) -> tuple[Edit, ...]:
    """A tyre of another size on the front or rear wheels."""
    if part.kind != "tyre" or part.size is None or getattr(wheels, end) is None:
        return ()
    return (Edit(f"{key}.{end}", part.size),)


def sprocket_edits(part: Part, chain: Chain, key: str, path: str) -> tuple[Edit, ...]:
    """A sprocket with another number of teeth for the same chain."""
    if part.kind != "sprocket" or part.teeth is None or part.size not in (None, chain.size):
        return ()
    return (Edit(f"{key}.{path}", str(part.teeth)),)


def same_groove(one: str, other: str) -> bool:
    """Whether belts of two sections run in one groove."""
    return one == other or any({one, other} <= group for group in SAME_GROOVE)


def _pulley(part: Part, pulley: Pulley, key: str) -> tuple[Edit, ...]:
    if part.kind != "pulley" or part.outside is None:
        return ()
    if part.section is not None and not same_groove(part.section, pulley.groove):
        return ()
    return (_diameter(part.outside, pulley, key), *_bore(part, pulley, key))


def _diameter(outside: Quantity, pulley: Pulley, key: str) -> Edit:
    if pulley.outside is not None:
        return Edit(f"{key}.outside", outside.text)
    pitch = float(outside_to_pitch(pulley.groove, outside.value))
    return Edit(f"{key}.pitch", write(pitch, outside.unit))


def _bore(part: Part, pulley: Pulley, key: str) -> tuple[Edit, ...]:
    if part.bore is None or pulley.hub is None or pulley.hub.bore is None:
        return ()
    return (Edit(f"{key}.hub.bore", part.bore.text),)


def _idler(part: Part, idler: Idler, key: str) -> tuple[Edit, ...]:
    if part.kind != "idler" or part.outside is None:
        return ()
    grooved = idler.groove is not None
    if grooved and (part.section is None or not same_groove(part.section, str(idler.groove))):
        return ()
    if not grooved and part.section is not None:
        return ()
    return (Edit(f"{key}.outside", part.outside.text),)


def _belt(part: Part, belt: Belt, key: str) -> tuple[Edit, ...]:
    if part.kind != "belt" or part.length is None:
        return ()
    section = part.section or belt.section
    if not same_groove(section, belt.section):
        return ()
    marked = "outside" if section in MARKED_OUTSIDE else "inside"
    return (
        Edit(f"{key}.section", section),
        Edit(f"{key}.length", part.length.text),
        Edit(f"{key}.length_is", part.length_is or marked),
    )
