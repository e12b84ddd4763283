"""The map of an idler's places as shapes: hatched region, best place, what it forgives."""

from __future__ import annotations

from collections.abc import Iterable

from beltwright.drawing.line_kinds import LineKind
from beltwright.drawing.path import Path, polyline
from beltwright.drawing.shapes import CentreMark, Circle, HatchedRegion, Shape, Together
from beltwright.options.idler_place import IdlerMap
from beltwright.options.idler_region import Area, Ring
from beltwright.quantity import Kind, Units


def idler_map_shapes(found: IdlerMap, units: Units) -> Together:
    """The allowed places, hatched, and the one that forgives the largest error of drilling.

    It is drawn in metres of the machine, so that the same shapes serve the belt layout on the
    screen and the true-size sheet that is centre-punched through.
    """
    shapes: list[Shape] = [
        HatchedRegion(_outlines(area), title=f"{found.moves} of the {found.idler} may stand here")
        for area in found.areas
    ]
    if found.best is not None:
        says = best_words(found, units)
        shapes.append(Circle(found.best, found.forgives, kind=LineKind.THIN, title=says))
        shapes.append(CentreMark(found.best, found.forgives))
    return Together(shapes, id="idler-map", title=f"Where the {found.idler} may stand")


def map_beside(found: IdlerMap | None, wheels: Iterable[str], units: Units) -> list[Together]:
    """The map as shapes, where it belongs to one of these wheels."""
    if found is None or found.idler not in wheels:
        return []
    return [idler_map_shapes(found, units)]


def best_words(found: IdlerMap, units: Units) -> str:
    """Where to put the idler, and how far off the hole may be."""
    narrow = units.show(found.missed, Kind.LENGTH)
    if found.best is None:
        return (
            f"There is no place for the {found.idler} but strips narrower than {narrow}, if any: "
            "try another diameter or belt."
        )
    x, y = (units.show(value, Kind.LENGTH) for value in found.best)
    off = units.show(found.forgives, Kind.LENGTH)
    return (
        f"Best {found.moves} of the {found.idler}: {x} forward, {y} left; it may be {off} off. "
        f"Strips narrower than {narrow} may be missing from the map."
    )


def _outlines(area: Area) -> list[Path]:
    return [_path(ring) for ring in (area.outline, *area.holes)]


def _path(ring: Ring) -> Path:
    return polyline([(float(x), float(y)) for x, y in ring], closed=True)
