"""What could be bolted on: from the bin, the price list, wanted values, or a range."""

from collections.abc import Iterator, Sequence

from beltwright.build.driveline import Chain
from beltwright.build.model import Build
from beltwright.build.row import Row
from beltwright.build.shop import Part, Vary
from beltwright.build.vehicle import Wheels
from beltwright.options.editing import value_at
from beltwright.options.fitting import edits_for, sprocket_edits, tyre_edits
from beltwright.options.option import Choice, Edit, Option
from beltwright.options.wanted import PATHS, ChoiceError, wanted_edits, wanted_texts
from beltwright.review.money.sums import MAKE

GROUPS = ("pulley", "idler", "belt", "shaft", "chain", "gear")

BOUGHT = frozenset(
    {"outside", "pitch", "length", "section", "rear", "front", "driver teeth", "driven teeth"}
)
"""What comes with another part; anything else is only moved or set."""

TYRES = 2
"""Tyres on an axle."""


def choices(build: Build, prices: Sequence[Part] = ()) -> tuple[Choice, ...]:
    """Every choice that the build file leaves open, with what stands there now first."""
    return tuple(_choice(build, vary, prices) for vary in build.choose.vary)


def table_key(build: Build, name: str) -> str:
    """The dotted key of the pulley, idler, belt, shaft, chain, gear or wheels of that name."""
    if name == "wheels":
        return name
    for group in GROUPS:
        if any(row.name == name for row in getattr(build, group)):
            return f"{group}.{name}"
    raise ChoiceError(
        f"{name!r} is no pulley, idler, belt, shaft, chain or gear here; write one of their names, "
        'or "wheels"'
    )


def _choice(build: Build, vary: Vary, prices: Sequence[Part]) -> Choice:
    key = table_key(build, vary.of)
    use = _use(key, vary)
    kept: dict[tuple[Edit, ...], Option] = {}
    for option in (_as_it_stands(build, use), *_offers(build, vary, key, use, prices)):
        before = kept.get(option.edits)
        if before is None or (before.part is not None and option.price < before.price):
            kept[option.edits] = option
    return Choice(vary.of, vary.what, tuple(kept.values()), use)


def _use(key: str, vary: Vary) -> str:
    """The use that [[part]] names for what is chosen; "" for a place or a setting."""
    if vary.what not in BOUGHT:
        return ""
    if key == "wheels":
        return f"{vary.what} tyres"
    if key.startswith("chain."):
        return f"{vary.of} {vary.what.partition(' ')[0]} sprocket"
    return vary.of


def _as_it_stands(build: Build, use: str) -> Option:
    to_buy = [part for part in build.part if use and part.use == use and not part.have]
    price = sum(part.price.value * part.quantity for part in to_buy if part.price is not None)
    count = sum(1 for part in to_buy if part.source != MAKE)
    return Option("as it stands", (), "as it stands", price, count)


def _offers(
    build: Build, vary: Vary, key: str, use: str, prices: Sequence[Part]
) -> Iterator[Option]:
    thing = value_at(build, key)
    owned = [part for part in build.part if part.have] if vary.bin else []
    listed = [part for part in prices if part.price is not None] if vary.prices else []
    for part in owned:
        edits = _part_edits(part, thing, key, vary)
        if edits and part.use in (None, use):
            yield Option(part.name, edits, "bin", part=part)
    for part in listed:
        edits = _part_edits(part, thing, key, vary)
        if edits and part.price is not None:
            count = TYRES if key == "wheels" else 1
            bought = part.model_copy(update={"quantity": count})
            yield Option(part.name, edits, "price list", part.price.value * count, 1, bought)
    # what is only wanted has no price yet: it counts as much as what stands there
    now = _as_it_stands(build, use)
    for text in wanted_texts(vary):
        edits = wanted_edits(vary, thing, key, text)
        yield Option(text, edits, "wanted", now.price, now.to_buy)


def _part_edits(part: Part, thing: Row, key: str, vary: Vary) -> tuple[Edit, ...]:
    if isinstance(thing, Wheels):
        return tyre_edits(part, thing, key, vary.what)
    if isinstance(thing, Chain):
        return sprocket_edits(part, thing, key, PATHS.get(vary.what, vary.what))
    return edits_for(part, thing, key)
