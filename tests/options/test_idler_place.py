"""The map of an idler's places against the review of the build with the idler put there."""

from collections.abc import Callable, Sequence

import numpy as np
import pytest
from shapely import Point, Polygon
from shapely.ops import unary_union

from beltwright.build.model import Build
from beltwright.options.editing import edited
from beltwright.options.idler_place import (
    STEP,
    IdlerMap,
    Places,
    idler_map,
    strict_ids,
)
from beltwright.options.one_more_idler import belts_near
from beltwright.options.option import Edit
from beltwright.quantity import write
from beltwright.review.finding import Verdict
from beltwright.review.review import review

Make = Callable[..., Build]

BORDER = 1e-4
"""Nearer to the border than this no point is asked about [m]: the outline follows it to 0.02 mm,
corners to less than 0.1 mm, finer than any hole is drilled."""


def _lets_pass(build: Build, idler: str, lengths: Sequence[float], x: float, y: float) -> bool:
    """Whether the review of the build, with the idler there and some belt, holds nothing against
    it that was not there before."""
    found = next(each for each in build.idler if each.name == idler)
    path = "at" if found.at is not None else "arm.pivot"
    belt = next(belt for belt in build.belt if idler in belt.run)
    strict, standing = strict_ids(build, belt), _standing(build, belt.length.value, idler)
    for length in lengths:
        tried = edited(
            build,
            [
                Edit(f"idler.{idler}.{path}.0", write(x, "m")),
                Edit(f"idler.{idler}.{path}.1", write(y, "m")),
                Edit(belt.length.key, write(length, "m")),
            ],
        )
        if not any(
            (f.verdict is Verdict.STOP and f.id not in standing)
            or (f.id in strict and f.limit is not None and not _kept(f.value, f.limit.at_least))
            for f in review(tried, samples=0).findings
        ):
            return True
    return False


def _kept(value: float | None, least: float | None) -> bool:
    return value is not None and (least is None or value >= least)


def _standing(build: Build, length: float, idler: str) -> set[str]:
    belt = next(belt for belt in build.belt if idler in belt.run)
    return {stop.id for stop in Places(build, belt, idler, (length,)).referee.standing}


def _region(found: IdlerMap) -> Polygon:
    return unary_union([Polygon(area.outline, area.holes).buffer(0) for area in found.areas])


def _points(found: IdlerMap, count: int) -> list[tuple[float, float]]:
    """Points all over the window, and as many just beside the border of the region."""
    draw = np.random.default_rng(7)
    outline = np.concatenate([area.outline for area in found.areas])
    low, high = outline.min(axis=0) - 0.02, outline.max(axis=0) + 0.02
    anywhere = draw.uniform(low, high, (count, 2))
    beside = outline[draw.integers(0, len(outline), count)] + draw.normal(0.0, 0.002, (count, 2))
    return [(float(x), float(y)) for x, y in np.concatenate((anywhere, beside))]


def _disagreements(
    build: Build, found: IdlerMap, lengths: Sequence[float], count: int, step: float = STEP
) -> list[tuple[float, float]]:
    """Points that the map allows and the review does not, or the other way round.

    What the map leaves out counts only where a circle as wide as the step of its grid would fit:
    slivers narrower than that are no place to drill, and it does not look for them.
    """
    region, belt = _region(found), next(b for b in build.belt if found.idler in b.run)
    places = Places(build, belt, found.idler, tuple(lengths))
    wrong = []
    for x, y in _points(found, count):
        point = Point(x, y)
        if region.boundary.distance(point) <= BORDER:
            continue
        allowed = _lets_pass(build, found.idler, lengths, x, y)
        if region.covers(point) and not allowed:
            wrong.append((x, y))
        if allowed and not region.covers(point) and _has_room(places, x, y, 0.5 * step):
            wrong.append((x, y))
    return wrong


def _has_room(places: Places, x: float, y: float, radius: float) -> bool:
    turns = np.linspace(0.0, 2.0 * np.pi, 16, endpoint=False)
    near = radius * np.stack((np.cos(turns), np.sin(turns)))
    return bool(places.allowed(x + near[0], y + near[1]).all())


@pytest.mark.parametrize("idler", ["guide idler", "clutch idler"])
def test_the_map_and_the_review_never_disagree(make: Make, idler: str) -> None:
    build = make()
    found = idler_map(build, idler)
    assert found.areas
    assert found.moves == ("centre" if idler == "guide idler" else "pivot")
    assert _disagreements(build, found, [build.belt[0].length.value], 120) == []


def test_more_belts_allow_more_places(make: Make) -> None:
    build = make()
    lengths = [belt.length for belt in belts_near(build.belt[0])[:3]]
    assert lengths[0] == build.belt[0].length.value
    found = idler_map(build, "guide idler", lengths, step=0.006)
    alone = idler_map(build, "guide idler", step=0.006)
    assert _region(found).area > _region(alone).area
    assert _disagreements(build, found, lengths, 25, 0.006) == []


def test_the_best_place_forgives_what_it_says(make: Make) -> None:
    build = make()
    found = idler_map(build, "guide idler")
    assert found.best is not None
    assert found.lengths == (build.belt[0].length.value,)
    region = _region(found)
    assert region.boundary.distance(Point(*found.best)) == pytest.approx(found.forgives, abs=5e-5)
    places = Places(build, build.belt[0], "guide idler", found.lengths)
    turns = np.linspace(0.0, 2.0 * np.pi, 24, endpoint=False)
    near = (found.forgives - BORDER) * np.stack((np.cos(turns), np.sin(turns)))
    assert places.allowed(found.best[0] + near[0], found.best[1] + near[1]).all()


def test_where_nothing_is_allowed_the_map_is_empty(make: Make) -> None:
    build = make(old='length = "76 in"', new='length = "40 in"')
    found = idler_map(build, "guide idler", step=0.02)
    assert (found.areas, found.best, found.forgives, found.lengths) == ((), None, 0.0, ())


def test_a_region_between_the_points_of_a_grid_is_looked_for_more_finely(make: Make) -> None:
    """At 150 mm no point of the grid is allowed, at 75 mm three are; the map says which it took."""
    build = make()
    found = idler_map(build, "guide idler", step=0.15)
    assert found.areas
    assert found.missed == 0.075
    assert idler_map(build, "guide idler").missed == STEP
