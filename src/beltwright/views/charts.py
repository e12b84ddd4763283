"""The charts of a build, in the builder's units, with the tolerances as bands."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from beltwright.drawing.chart import Chart
from beltwright.review.case import Case, NotKnownError
from beltwright.views.pull_chart import pull_chart
from beltwright.views.speed_chart import speed_chart
from beltwright.views.turning_chart import turning_chart
from beltwright.views.warm_up_chart import warm_up_chart

CHARTS: dict[str, Callable[[Case], Chart]] = {
    "speed": speed_chart,
    "pull": pull_chart,
    "turning": turning_chart,
    "warm-up": warm_up_chart,
}
"""Every chart by its name."""


def charts(case: Case, names: Sequence[str] = ()) -> tuple[dict[str, Chart], dict[str, str]]:
    """The charts that can be drawn, and for each of the others what has to be measured.

    All of them, unless some are named.
    """
    drawn: dict[str, Chart] = {}
    missing: dict[str, str] = {}
    for name in names or CHARTS:
        try:
            drawn[name] = CHARTS[name](case)
        except NotKnownError as unknown:
            missing[name] = unknown.how
    return drawn, missing
