"""The drawing, the charts and the sheets of a build, as a page shows them."""

from datetime import date
from typing import Any

from beltwright.build.model import Build
from beltwright.drawing.shapes import Scene
from beltwright.drawing.sheet import PAPERS
from beltwright.drawing.svg import svg
from beltwright.review.case import Case, NotKnownError
from beltwright.review.review import SAMPLES, Review
from beltwright.views.layout.gathering import SEEN_FROM
from beltwright.views.layout.planes import layout_views, view_named
from beltwright.views.layout.screen_layout import ScreenLayout, screen_layout
from beltwright.web.chart_columns import chart_columns
from beltwright.web.refusal import CannotRead, NotThere, as_problems
from beltwright.web.screen import Screen
from beltwright.web.standing import Standing


def scene(standing: Standing, screen: Screen) -> dict[str, Any]:
    """The belt layout for a screen, "" where there is nothing to draw; its view, and all others."""
    if standing.build is None:
        return {"scene": "", "view": "", "views": []}
    views = layout_views(Case(standing.build))
    look = view_named(views, screen.view)
    return {
        "scene": _standing_layout(standing, screen).svg,
        "view": "" if look is None else look.name,
        "views": [
            {"name": view.name, "words": view.words, "seen_from": SEEN_FROM[view.plane]}
            for view in views
        ],
    }


def trial_scene(
    standing: Standing, case: Case, review: Review, screen: Screen, moving: bool
) -> dict[str, Any]:
    """The belt layout of a build that is only tried, in the view that the screen shows.

    Its scale and the places of names are those of the build as it stands, and so are all groups but
    those that are told by id; none are told where the whole differs. While the hand is moving the
    groups are all that is told.
    """
    stands = _standing_layout(standing, screen)
    tried = _layout(case, review, screen, stands)
    groups = tried.since(stands)
    return {"scene": "" if moving and groups is not None else tried.svg, "groups": groups}


def _standing_layout(standing: Standing, screen: Screen) -> ScreenLayout:
    """The belt layout of the build as it stands; an empty one where it can't be read."""
    build, review = standing.build, standing.review
    if build is None or review is None:
        return ScreenLayout()
    return standing.once(("layout", screen), lambda: _layout(Case(build), review, screen))


def _layout(
    case: Case, review: Review, screen: Screen, like: ScreenLayout | None = None
) -> ScreenLayout:
    look = view_named(layout_views(case), screen.view)
    return screen_layout(case, review, screen.width, look, like=like)


def drawing(standing: Standing) -> str:
    """The belt layout as a sheet that stands alone."""
    from beltwright.views.layout.belt_layout import belt_layout_pages

    build, review = _usable(standing), standing.review
    assert review is not None
    pages = belt_layout_pages(Case(build), review, date.today().isoformat())
    if not pages:
        raise NotThere("There is no belt to draw.")
    return svg(pages[0])


def contours(standing: Standing, plate: str | None) -> bytes:
    """The belt layout, or a plate, at true size for a drawing program or a cutting table."""
    from beltwright.drawing.dxf import dxf

    case = Case(_usable(standing))
    if plate is not None:
        return dxf(_plate_scene(case, plate))
    from beltwright.sheets.belt_layout_sheet import true_size_scenes

    scenes = true_size_scenes(case)
    if not scenes:
        raise NotThere("There is no belt to draw.")
    return dxf(scenes[0])


def _plate_scene(case: Case, name: str) -> Scene:
    """The plate of a name."""
    from beltwright.views.plate_drawing import plate_scene

    plate = next((plate for plate in case.build.plate if plate.name == name), None)
    if plate is None:
        raise NotThere("There is no plate of this name.")
    try:
        return plate_scene(case, plate)
    except NotKnownError as missing:
        raise NotThere(f"It can't be drawn yet. {missing}") from missing


def linkage_drawing(standing: Standing, name: str) -> str:
    """One linkage in neutral and at both ends of its travel."""
    from beltwright.views.linkage_page import linkage_svg

    build = _usable(standing)
    linkage = next((each for each in build.linkage if each.name == name), None)
    if linkage is None:
        known = ", ".join(each.name for each in build.linkage) or "none"
        raise NotThere(f"There is no such linkage; there are: {known}.")
    try:
        return standing.once(("linkage", name), lambda: linkage_svg(Case(build), linkage))
    except NotKnownError as missing:
        raise NotThere(f"It can't be drawn yet. {missing}") from missing


def chart_data(standing: Standing) -> dict[str, Any]:
    """The charts of a build as columns, and for each that can't be drawn what to measure."""
    build = _usable(standing)
    return standing.once("charts", lambda: _chart_data(build))


def sheet(standing: Standing, name: str, paper: str) -> bytes:
    """One of the shop sheets as PDF."""
    from beltwright.sheets.binder import Binder

    build, made_on = _usable(standing), date.today().isoformat()
    binder = Binder(build, made_on, PAPERS[paper], found=standing.review)
    if name not in binder.names:
        raise NotThere(f"There is no such sheet; there are: {', '.join(binder.names)}.")
    return standing.once(("sheet", name, paper, made_on), lambda: binder.sheet(name))


def _usable(standing: Standing) -> Build:
    if standing.build is None:
        raise CannotRead(as_problems(standing.refused))
    return standing.build


def _chart_data(build: Build) -> dict[str, Any]:
    from beltwright.views.charts.gathered import charts

    drawn, missing = charts(Case(build, SAMPLES))
    return {
        "charts": [chart_columns(name, chart) for name, chart in drawn.items()],
        "missing": missing,
    }
