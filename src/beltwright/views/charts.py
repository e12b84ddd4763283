"""The charts of a build, in the builder's units, with the tolerances as bands."""

from __future__ import annotations

from collections.abc import Callable

from beltwright.drawing.chart import Chart
from beltwright.review.case import Case, NotKnownError
from beltwright.views.speed_chart import speed_chart

CHARTS: dict[str, Callable[[Case], Chart]] = {
    "speed": speed_chart,
}
"""Every chart by its name."""


def charts(case: Case) -> tuple[dict[str, Chart], dict[str, str]]:
    """The charts that can be drawn, and for each of the others what has to be measured."""
    drawn: dict[str, Chart] = {}
    missing: dict[str, str] = {}
    for name, draw in CHARTS.items():
        try:
            drawn[name] = draw(case)
        except NotKnownError as unknown:
            missing[name] = unknown.how
    return drawn, missing
