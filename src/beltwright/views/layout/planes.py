"""The views of a belt drive: every plane of belts, and every height where some lie over others."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from beltwright.quantity import Kind
from beltwright.review.belt.layout import Layout
from beltwright.review.case import Case
from beltwright.views.layout.gathering import SEEN_FROM, Plane, mean_height, runs

APART = 0.03
"""Belts that lie further over one another than this are looked at one by one too [m]."""


class LayoutView(NamedTuple):
    """One look at the drive: its name, the words by which it is chosen, what is drawn."""

    name: str
    words: str
    plane: Plane
    layouts: tuple[Layout, ...]


def layout_views(case: Case) -> list[LayoutView]:
    """Each plane as a whole, the one seen from above first, then each height by itself."""
    layouts = list(runs(case))
    lying = [layout for layout in layouts if layout.plane == "upright"]
    upright = [layout for layout in layouts if layout.plane == "cross"]
    from_the_right = [LayoutView("right", SEEN_FROM["cross"], "cross", tuple(upright))]
    return _from_above(case, lying) + (from_the_right if upright else [])


def view_named(views: Sequence[LayoutView], name: str) -> LayoutView | None:
    """The view of that name, the first where there is none, None where there is nothing to see."""
    return next((view for view in views if view.name == name), views[0] if views else None)


def _from_above(case: Case, layouts: Sequence[Layout]) -> list[LayoutView]:
    if not layouts:
        return []
    levels = _levels(layouts)
    if len(levels) == 1:
        words = f"above{_at(case, levels[0])}"
        return [LayoutView("above", words, "upright", tuple(layouts))]
    return [
        LayoutView("above", "above, all", "upright", tuple(layouts)),
        *(
            LayoutView(f"above-{number}", f"above{_at(case, level)}", "upright", tuple(level))
            for number, level in enumerate(levels, start=1)
        ),
    ]


def _levels(layouts: Sequence[Layout]) -> list[list[Layout]]:
    """Belts that lie at about one height, the highest first; those of no height are the last."""
    written = [
        (height, layout) for layout in layouts if (height := mean_height(layout)) is not None
    ]
    levels: list[list[Layout]] = []
    last = inf
    for height, layout in sorted(written, key=lambda one: -one[0]):
        if last - height > APART:
            levels.append([])
        levels[-1].append(layout)
        last = height
    rest = [layout for layout in layouts if mean_height(layout) is None]
    return [*levels, rest] if rest else levels


def _at(case: Case, level: Sequence[Layout]) -> str:
    heights = [height for layout in level if (height := mean_height(layout)) is not None]
    if not heights:
        return ", height not written"
    return f", at {case.units.show(round(sum(heights) / len(heights), 3), Kind.LENGTH)}"
