"""All shop sheets of a build, each a PDF of its own, made when it is asked for.

A sheet is a row of `SHEETS`; its module is only loaded for a build that has what it is about.
"""

from collections.abc import Callable
from functools import cached_property
from typing import NamedTuple

from beltwright.build.model import Build
from beltwright.drawing.ink import Page
from beltwright.drawing.pdf import pdf
from beltwright.drawing.sheet import A4, Paper
from beltwright.review.case import Case
from beltwright.review.review import SAMPLES, Review, review


class Binder:
    """The sheets of one build on one kind of paper.

    With an idler named, the layout shows every place where it may stand. A review that was made
    already may be handed in.
    """

    def __init__(
        self,
        build: Build,
        made_on: str,
        paper: Paper = A4,
        idler: str | None = None,
        found: Review | None = None,
    ) -> None:
        self.build = build
        self.made_on = made_on
        self.paper = paper
        self.idler = idler
        self._found = found

    @property
    def names(self) -> tuple[str, ...]:
        """The sheets that this build has."""
        return tuple(name for name, sheet in SHEETS.items() if sheet.belongs(self.build))

    def sheet(self, name: str) -> bytes:
        """One of them as PDF."""
        sheet = SHEETS[name]
        return pdf(sheet.pages(self), f"{self.build.name}: {sheet.title}")

    @cached_property
    def review(self) -> Review:
        """What the review says of the build, its tolerances among it."""
        return self._found or review(self.build)

    @cached_property
    def case(self) -> Case:
        """The build as written."""
        return Case(self.build)


def shop_sheets(
    build: Build, made_on: str, paper: Paper = A4, idler: str | None = None
) -> dict[str, bytes]:
    """All sheets of a build by name."""
    binder = Binder(build, made_on, paper, idler)
    return {name: binder.sheet(name) for name in binder.names}


def _belt_layout(binder: Binder) -> list[Page]:
    from beltwright.options.idler_place import places_of
    from beltwright.sheets.belt_layout_sheet import belt_layout_sheets

    places = None if binder.idler is None else places_of(binder.build, binder.idler)
    return belt_layout_sheets(binder.case, binder.review, binder.made_on, binder.paper, places)


def _review(binder: Binder) -> list[Page]:
    from beltwright.sheets.review_sheet import review_pages
    from beltwright.views.charts.gathered import charts

    drawn, _ = charts(Case(binder.build, SAMPLES))
    return review_pages(binder.review, drawn, binder.made_on, binder.paper)


def _to_get(binder: Binder) -> list[Page]:
    from beltwright.sheets.shopping_sheet import shopping_pages

    return shopping_pages(binder.case, binder.review, binder.made_on, binder.paper)


def _holes(binder: Binder) -> list[Page]:
    from beltwright.sheets.hole_sheet import hole_pages

    return hole_pages(binder.case, binder.review, binder.made_on, binder.paper)


def _plates(binder: Binder) -> list[Page]:
    from beltwright.sheets.plate_sheet import plate_pages

    return plate_pages(binder.case, binder.review, binder.made_on, binder.paper)


def _linkages(binder: Binder) -> list[Page]:
    from beltwright.sheets.linkage_sheet import linkage_sheets

    return linkage_sheets(binder.case, binder.review, binder.made_on, binder.paper)


def _throttle(binder: Binder) -> list[Page]:
    from beltwright.sheets.throttle_sheet import throttle_sheets

    return throttle_sheets(binder.case, binder.review, binder.made_on, binder.paper)


def _guards(binder: Binder) -> list[Page]:
    from beltwright.sheets.guard_sheet import guard_sheets

    return guard_sheets(binder.case, binder.review, binder.made_on, binder.paper)


def _first_drive(binder: Binder) -> list[Page]:
    from beltwright.sheets.first_drive_sheet import first_drive_pages

    return first_drive_pages(binder.review, binder.made_on, binder.paper)


def _has_holes(build: Build) -> bool:
    return bool(build.hole) or any(pulley.hub for pulley in build.pulley)


class _Sheet(NamedTuple):
    """What a sheet is called, whether a build has anything for it, and its pages."""

    title: str
    belongs: Callable[[Build], bool]
    pages: Callable[[Binder], list[Page]]


SHEETS: dict[str, _Sheet] = {
    "belt-layout": _Sheet("belt layout, true size", lambda _: True, _belt_layout),
    "review": _Sheet("review", lambda _: True, _review),
    "to-get-and-make": _Sheet("to get and to make", lambda b: bool(b.part), _to_get),
    "holes-and-hubs": _Sheet("holes and hubs", _has_holes, _holes),
    "plates": _Sheet("plates and brackets, true size", lambda b: bool(b.plate), _plates),
    "linkages": _Sheet("set up the linkages", lambda b: bool(b.linkage), _linkages),
    "throttle": _Sheet("set the throttle", lambda b: bool(b.throttle), _throttle),
    "guards": _Sheet("bend guards and keepers", lambda b: bool(b.guard), _guards),
    "first-drive": _Sheet("first drive", lambda _: True, _first_drive),
}
"""The sheets by the name of their file, in the order of the work."""
