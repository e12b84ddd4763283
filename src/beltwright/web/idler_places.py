"""Where an idler may stand, for the page: as corners, in words, and laid under the drawing."""

from typing import TYPE_CHECKING, Any

from beltwright.build.model import Build
from beltwright.physics.arrays import Array
from beltwright.review.case import Case
from beltwright.review.review import Review
from beltwright.views.layout.gathering import SEEN_FROM
from beltwright.views.layout.planes import LayoutView, layout_views
from beltwright.views.layout.screen_layout import screen_layout
from beltwright.web.refusal import CannotRead, NotThere, as_problems
from beltwright.web.standing import Standing

if TYPE_CHECKING:
    from beltwright.options.idler_place import IdlerMap

MM = 1000.0


def idler_places(standing: Standing, idler: str) -> dict[str, Any]:
    """The places of one idler; lengths in millimetres of the machine, x forward, y left."""
    build, review = standing.build, standing.review
    if build is None or review is None:
        raise CannotRead(as_problems(standing.refused))
    runs = {name for belt in build.belt for name in belt.run}
    if idler not in runs & {each.name for each in build.idler}:
        raise NotThere(f"No belt runs round an idler called {idler!r}.")
    return standing.once(("idler places", idler), lambda: _places(build, review, idler))


def _places(build: Build, review: Review, idler: str) -> dict[str, Any]:
    from beltwright.options.idler_place import idler_map
    from beltwright.views.layout.idler_map import best_words

    found = idler_map(build, idler)
    return {
        "idler": idler,
        "moves": found.moves,
        "says": best_words(found, review.units),
        "areas": [
            {"outline": _corners(area.outline), "holes": [_corners(hole) for hole in area.holes]}
            for area in found.areas
        ],
        "best": None if found.best is None else [value * MM for value in found.best],
        "forgives": found.forgives * MM,
        **laid(build, review, found, idler),
    }


def laid(build: Build, review: Review, found: "IdlerMap", wheel: str) -> dict[str, str]:
    """A map laid under the view of the belts in which a pulley or idler stands."""
    from beltwright.views.layout.idler_map import idler_map_shapes

    case = Case(build)
    look = next((view for view in layout_views(case) if wheel in _wheels(view)), None)
    shapes = idler_map_shapes(found, review.units)
    return {
        "view": "" if look is None else look.name,
        "seen_from": "" if look is None else SEEN_FROM[look.plane],
        "scene": screen_layout(case, review, look=look, underneath=[shapes]).svg,
    }


def _wheels(view: LayoutView) -> set[str]:
    return {wheel.name for layout in view.layouts for wheel in layout.wheels}


def _corners(ring: Array) -> list[list[float]]:
    corners: list[list[float]] = (ring * MM).round(2).tolist()
    return corners
