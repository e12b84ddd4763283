"""Places for one more idler as plain data, SI values, and one of them written into a build file."""

from typing import Any

from beltwright.build.editing import add_table, set_value
from beltwright.build.model import Build
from beltwright.options.applying import with_parts
from beltwright.options.idler_offer import NewIdler, Nowhere, Offer, Turn
from beltwright.options.one_more_idler import Way, row_of, run_with


def text_with_idler(text: str, build: Build, found: NewIdler, offer: Offer) -> str:
    """The text of the build file with the idler, the run, the belt's length and their parts."""
    belt, row = found.belt, row_of(build, found.belt, offer.way, found.wanted.outside, offer.at)
    text = add_table(text, "idler", row)
    run = run_with(belt, offer.way, str(row["name"]))
    text = set_value(text, f"belt.{belt.name}.run", list(run))
    if offer.belt.size:
        text = set_value(text, belt.length.key, offer.belt.text)
    return with_parts(text, build.part, offer.build.part)


def new_idler_data(found: NewIdler, build_name: str) -> dict[str, Any]:
    """What a search found, ready to be written as JSON."""
    return {
        "format": 1,
        "build": build_name,
        "belt": found.belt.name,
        "outside": found.wanted.outside,
        "outside_assumed": found.wanted.assumed,
        "part": None if found.wanted.part is None else found.wanted.part.name,
        "finished": found.finished,
        "seconds": found.seconds,
        "not_sound_now": list(found.broken),
        "places": [_offer(number, offer) for number, offer in enumerate(found.offers, 1)],
        "nowhere": [_nowhere(each) for each in found.nowhere],
    }


def _offer(number: int, offer: Offer) -> dict[str, Any]:
    return {
        "number": number,
        **_way(offer.way),
        "at": list(offer.at),
        "forgives": offer.forgives,
        "belt": {"length": offer.belt.text, "size": offer.belt.size or None},
        "to_buy": list(offer.to_buy),
        "mends": [_turn(turn) for turn in offer.mends],
        "worsens": [_turn(turn) for turn in offer.worsens],
    }


def _way(way: Way) -> dict[str, str]:
    return {"after": way.after, "before": way.before, "runs_on": way.side}


def _turn(turn: Turn) -> dict[str, str | None]:
    before = None if turn.before is None else turn.before.value
    return {"id": turn.id, "title": turn.title, "before": before, "after": turn.after.value}


def _nowhere(each: Nowhere) -> dict[str, Any]:
    return {**_way(each.way), "why": each.why, "of": list(each.titles)}
