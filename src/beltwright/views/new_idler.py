"""Places for one more idler in the builder's words, and as printed in a terminal."""

from collections.abc import Sequence

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from beltwright.build.model import Build
from beltwright.build.walking import units_of
from beltwright.options.idler_offer import NewIdler, Nowhere, Offer, Turn
from beltwright.options.one_more_idler import Side, Way
from beltwright.quantity import Kind, Units
from beltwright.review.belt.wheels import belt_plane
from beltwright.review.case import Case
from beltwright.views.assumed import capital
from beltwright.views.report import GENERAL_CAUTION

IDLER_CAUTION = (
    "Where the belt runs on to an idler it draws fingers in: guard the new place before the engine "
    "starts. Drill no rail that carries an axle or the steering without asking who knows."
)


DRILLED = 0.0005
"""Finest difference in the place of a hole that is worth telling [m]."""


def heading(found: NewIdler) -> str:
    """Which idler was tried, for which belt."""
    wanted = found.wanted
    where = (
        " (assumed, a common one)"
        if wanted.assumed
        else ""
        if wanted.part is None
        else f" (the {wanted.part.name} in the bin)"
    )
    return f"One more idler for the {found.belt.name}, {wanted.outside} over its rim{where}."


def counted(found: NewIdler) -> str:
    """How many places were found, and what needs mending."""
    count = len(found.offers)
    places = "no place helps" if not count else "1 place" if count == 1 else f"{count} places"
    whole = "" if found.finished else " before it was stopped"
    near = len(found.belts) - 1
    tried = f"the present belt and {near} others sold near its length" if near else "the belt"
    return f"Every span tried from both sides with {tried}{whole}: {places}."


def not_sound_now(found: NewIdler) -> str:
    """What is past its limit about the belt now."""
    if not found.broken:
        return f"Nothing about the {found.belt.name} is past its limit: it needs no further idler."
    return f"Past its limit now: {'; '.join(found.broken)}."


def way_words(way: Way) -> str:
    """Where in the run, and on which side of the belt."""
    side = "on the belt's back, flat" if way.side == "back" else "inside the belt, grooved"
    return f"after the {way.after}, before the {way.before}, {side}"


def offer_words(offer: Offer, units: Units) -> list[str]:
    """What a builder has to know of a place, a line each."""
    upright = belt_plane(Case(offer.build), offer.build.belt[_place(offer)]) == "upright"
    off = units.show(offer.forgives, Kind.LENGTH, step=DRILLED)
    lines = [
        f"centre {offer.at[0]} forward, {offer.at[1]} {'left' if upright else 'up'}; "
        f"the hole may be {off} off",
        f"{_belt(offer)}; {_to_buy(offer)}",
        f"mends: {_turns(offer.mends)}" if offer.mends else "mends nothing",
    ]
    return [*lines, f"but: {_turns(offer.worsens)}"] if offer.worsens else lines


def nowhere_words(found: NewIdler) -> list[str]:
    """Why there is no place on some ways, those that have the same reason together."""
    reasons: dict[str, dict[str, list[Side]]] = {}
    for each in found.nowhere:
        between = f"between the {each.way.after} and the {each.way.before}"
        reasons.setdefault(_reason(each), {}).setdefault(between, []).append(each.way.side)
    return [
        f"{capital('; '.join(f'{at}, {_sides(sides)}' for at, sides in spans.items()))}: {reason}."
        for reason, spans in reasons.items()
    ]


def _reason(each: Nowhere) -> str:
    titles = "; ".join(f"“{title}”" for title in each.titles)
    return {
        "stopped": f"the nearest place is stopped by {titles}",
        "spoils": f"it would spoil more than it mends: {titles}",
        "narrow": "only strips too narrow to drill in",
        "no run": "no belt sold near the present one goes round",
        "not known": "; ".join(each.titles).rstrip("."),
    }[each.why]


def _sides(sides: Sequence[Side]) -> str:
    if len(sides) > 1:
        return "on either side"
    return "on the back" if sides[0] == "back" else "inside"


def print_places(
    found: NewIdler, build: Build, file: str, most: int, console: Console | None = None
) -> None:
    """Print what was found; narrow or piped, it stays readable without colour."""
    out = console or Console(highlight=False, soft_wrap=False)
    out.print(Text(build.name, "bold"))
    for line in (heading(found), not_sound_now(found), counted(found)):
        out.print(Text(line))
    _offers(out, found.offers[:most], units_of(build))
    left = len(found.offers) - most
    if left > 0:
        out.print(f"{left} more; show them with --top {len(found.offers)}.", style="dim")
    if found.offers:
        write = f'beltwright choose {file} --idler-for "{found.belt.name}" --apply N'
        out.print(Text(f"Write one into a copy: {write}", "dim"))
    if found.nowhere:
        out.print()
        out.print(Text("Where nothing helps", "bold underline"))
        for line in nowhere_words(found):
            out.print(Text(line))
    out.print()
    out.print(Text(missed_words(found, units_of(build))))
    out.print(IDLER_CAUTION)
    out.print(GENERAL_CAUTION, style="dim")


def missed_words(found: NewIdler, units: Units) -> str:
    """What the search cannot see."""
    return f"Places narrower than {units.show(found.missed, Kind.LENGTH)} may have been missed."


def _offers(out: Console, offers: Sequence[Offer], units: Units) -> None:
    for number, offer in enumerate(offers, 1):
        out.print()
        out.print(Text(f"{number}  ", "bold") + Text(capital(way_words(offer.way))))
        for line in offer_words(offer, units):
            out.print(Padding(Text(line), (0, 0, 0, 3)))


def _place(offer: Offer) -> int:
    return next(n for n, belt in enumerate(offer.build.belt) if offer.map.idler in belt.run)


def _belt(offer: Offer) -> str:
    if not offer.belt.size:
        return "with the belt that is there"
    return f"with belt {offer.belt.size} ({offer.belt.text})"


def _to_buy(offer: Offer) -> str:
    return f"to buy: {' and '.join(offer.to_buy)}" if offer.to_buy else "nothing to buy"


def _turns(turns: Sequence[Turn]) -> str:
    return "; ".join(_turn(turn) for turn in turns)


def _turn(turn: Turn) -> str:
    before = "new" if turn.before is None else turn.before.value
    return f"{turn.title} ({before} → {turn.after.value})"
