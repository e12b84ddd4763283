"""The search for a place for one more idler, as the page runs it."""

import threading
from dataclasses import dataclass
from typing import Any

from beltwright.build.model import Build
from beltwright.build.walking import units_of
from beltwright.options.idler_offer import Going, NewIdler, Offer
from beltwright.options.idler_output import new_idler_data, text_with_idler
from beltwright.options.new_idler import new_idler
from beltwright.options.one_more_idler import wanted_idler
from beltwright.review.review import Review
from beltwright.views.assumed import capital
from beltwright.views.new_idler import (
    IDLER_CAUTION,
    counted,
    heading,
    missed_words,
    not_sound_now,
    nowhere_words,
    offer_words,
    way_words,
)
from beltwright.web.idler_places import laid
from beltwright.web.refusal import NotThere, Refusal
from beltwright.web.searches import Report, Work
from beltwright.web.standing import Standing


@dataclass(frozen=True)
class Sought:
    """The build that was searched, its review, and what was found."""

    build: Build
    review: Review
    found: NewIdler


def work_for(standing: Standing, belt: str, outside: str) -> Work:
    """The search for a belt; refused where there is no such belt or diameter."""
    build, outside = standing.build, outside.strip()
    assert build is not None
    if belt not in [each.name for each in build.belt]:
        raise NotThere(f"There is no belt called {belt!r}.")
    try:
        wanted_idler(build, units_of(build), outside)
    except ValueError as refused:
        raise Refusal(422, str(refused)) from None

    def work(report: Report, stopping: threading.Event) -> Sought:
        review = standing.review
        assert review is not None
        found = new_idler(
            build, belt, outside, lambda going: report(_progress(going)), stopping, before=review
        )
        return Sought(build, review, found)

    return work


def places_data(sought: Sought) -> dict[str, Any]:
    """What was found, as data and in the builder's words."""
    found, units = sought.found, sought.review.units
    data = new_idler_data(found, sought.build.name)
    for row, offer in zip(data["places"], found.offers, strict=True):
        row["title"] = capital(way_words(offer.way))
        row["says"] = [capital(line) for line in offer_words(offer, units)]
    return {
        **data,
        "says": [
            heading(found),
            not_sound_now(found),
            counted(found),
            missed_words(found, units),
        ],
        "why_nowhere": nowhere_words(found),
        "caution": IDLER_CAUTION,
    }


def place_map(sought: Sought, number: int) -> dict[str, Any]:
    """The other places round one of those that were found, laid under the drawing."""
    offer = _offer(sought, number)
    return laid(sought.build, sought.review, offer.map, offer.way.after)


def text_with(sought: Sought, number: int, text: str) -> str:
    """The text of the build file with one of the idlers written into it."""
    return text_with_idler(text, sought.build, sought.found, _offer(sought, number))


def _offer(sought: Sought, number: int) -> Offer:
    offers = sought.found.offers
    if not 1 <= number <= len(offers):
        raise NotThere(f"There is no place {number}.")
    return offers[number - 1]


def _progress(going: Going) -> dict[str, Any]:
    return {
        "share": going.share,
        "after": going.way.after,
        "side": going.way.side,
        "places": going.found,
    }
